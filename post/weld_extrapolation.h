// SPDX-License-Identifier: GPL-3.0-or-later
// Structural hot-spot stress at a weld toe, from stress at some distance where the notch of the
// toe is no longer felt.
#pragma once
#include <functional>
#include <string>
#include <vector>

namespace felloe {

/// Where stress is read in front of a weld toe.
struct ToeReadOut {
  std::string name, summary;
  std::vector<double> distances;  ///< of the read-out points from the toe
  bool times_thickness = true;    ///< distances in plate thicknesses; else in mm
  std::string source, confidence;
  bool over_thickness = false;  ///< membrane + bending of sections there; else stress on the face
};

/// The default row first.
const std::vector<ToeReadOut> &toe_read_outs();
const ToeReadOut &toe_read_out(const std::string &name);  ///< Error lists the names

/// Read-out distances from the toe [mm] for a plate of the thickness [mm].
std::vector<double> read_out_distances(const ToeReadOut &, double thickness);

/// Weights w_i with which values at the distances give the value of their interpolating polynomial
/// at the toe (distance 0): sum w_i s_i. Exact Lagrange weights: 0.4 t and 1.0 t give 5/3 and -2/3,
/// which the guideline rounds to 1.67 and -0.67. They hold for every component of a tensor.
/// Error when two distances are equal or one is not positive.
std::vector<double> toe_weights(const std::vector<double> &distances);

/// A value read in front of the toe.
struct ReadOutValue {
  double distance = 0;  ///< from the toe [mm]
  double value = 0;     ///< for example a stress component [MPa]
};
/// The values extrapolated to the toe.
double value_at_toe(const std::vector<ReadOutValue> &);

/// Hot-spot stress of a stress profile s(distance [mm]) [MPa].
double hot_spot_stress(const ToeReadOut &, double thickness,
                       const std::function<double(double)> &stress);

/// Membrane and bending part of a profile over the thickness, s(depth) with depth 0 at the rated
/// surface; structural stress = membrane + bending, what is left is the notch.
struct LinearisedStress {
  double membrane = 0;  ///< mean of s [MPa]
  double bending = 0;   ///< 6 / t^2 int s (t/2 - depth) d depth, at depth 0 [MPa]
  double structural() const { return membrane + bending; }
};
/// Simpson's rule over the given number of strips (even).
LinearisedStress linearised(const std::function<double(double)> &stress, double thickness,
                            int strips = 400);

}  // namespace felloe
