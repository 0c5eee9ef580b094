// SPDX-License-Identifier: GPL-3.0-or-later
// The section model's stresses as histories of one turn, so that the rating of whole wheels reads
// them: the body is one of revolution, every point of a circle feels the same.
#pragma once
#include <string>
#include <vector>

#include "mesher/layout.h"
#include "post/rated_places.h"
#include "post/turn_history.h"
#include "solver/harmonic_model.h"

namespace felloe {

/// The section in the half plane theta = 0, for rated_places() and hot_spots(): nodes (r, 0, z)
/// with part and sheet point; behind them the points of the vents' edges; of the cells only which
/// nodes they have. No surfaces, no lines, not to be solved.
struct SectionPoints {
  Mesh mesh;
  /// A point on the edge of the vent holes that the section leaves out.
  struct VentPoint {
    int first[2] = {0, 0}, second[2] = {0, 0};  ///< nodes round the row's place: eta = -1, 1
    double weight = 0;                          ///< of the second ones, the first have the rest
    int side = 1;                               ///< rated at eta
    double alpha = 0;                           ///< place on the edge, from the meridian [rad]
    Vec3 tangent{};                             ///< of the meridian
  };
  std::vector<VentPoint> vents;
  double poissons_ratio = 0.3;  ///< of the disc
};
SectionPoints section_points(const WheelLayout &, const SectionMesh &, const Material &disc);

/// Rated places of the section: those of a wheel without holes, and the edge of the vents by
/// formula: with stresses m (along the meridian), h (round the wheel) and shear q of the closed
/// sheet at the row's place, split in membrane and bending,
///   edge(alpha) = (1 - k cos 2 alpha) m + (1 + k cos 2 alpha) h - 2 k q sin 2 alpha,
/// k = 2 for membrane stress (Kirsch; Timoshenko and Goodier, Theory of Elasticity), k = 2 (1 + nu)
/// / (3 + nu) for bending of a thin plate (Goodier; from memory). One hole in a wide sheet: the
/// ligaments between neighbours are not in it.
std::vector<RatedPlace> section_places(const WheelLayout &, const SectionPoints &, Held,
                                       const ToeReadOut &read_out = toe_read_outs().front());

/// Steady state (solutions of harmonic 0) plus a moment that turns: harmonic 1 by `scale`.
/// Points and solutions must outlive the history; so below.
TurnHistory section_bending_turn(const std::string &test, const SectionPoints &,
                                 std::vector<const HarmonicSolution *> steady,
                                 const HarmonicSolution &moment, double scale);

/// Steady state plus a load that rolls round the rim: its harmonics by `scale`, at the given number
/// of positions, the first at the point's own angle.
TurnHistory section_rolling_turn(const std::string &test, const SectionPoints &,
                                 std::vector<const HarmonicSolution *> steady,
                                 std::vector<const HarmonicSolution *> harmonics, double scale,
                                 int positions);

}  // namespace felloe
