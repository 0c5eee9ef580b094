// SPDX-License-Identifier: GPL-3.0-or-later
// What a plane, or the deviator, feels during a turn: the two kinds of histories behind one set of
// questions, so that every criterion is written once.
#pragma once
#include <array>
#include <vector>

#include "post/enclosing_ball.h"
#include "post/stress_history.h"

namespace felloe {

/// Amplitude (half range) and mean (mid range) of a scalar over the turn.
struct Swing {
  double amplitude = 0, mean = 0;
  double largest() const { return mean + amplitude; }
};

/// Deviator as five coordinates whose squared length is J2.
Point<5> deviator_coordinates(const Stress &);

/// Closed forms of a one-harmonic history: every scalar linear in stress swings by
/// sqrt(c^2 + s^2), every vector runs on an ellipse.
class HarmonicPath {
 public:
  /// Error when a component is not a finite number.
  explicit HarmonicPath(const HarmonicHistory &);
  bool alternates() const;
  Swing normal(const Vec3 &n) const;
  Swing hydrostatic() const;
  /// Radius of the smallest circle round the shear-vector path on the plane: the larger half axis
  /// of the ellipse. The floor is what SampledPath may stop at.
  double shear_amplitude(const Vec3 &n, double floor = 0) const;
  /// Centre of the deviator path and radius sqrt(J2,a) of the smallest hypersphere round it.
  Ball<5> deviator_ball() const;
  Stress deviator_centre() const;
  /// Turn angles for criteria that look at instants: state(phi), phi in [0, 2 pi).
  Stress state(double phi) const { return h_.at(phi); }
  /// Mean over all planes and directions of the squared resolved shear amplitude, times 5
  /// (Papadopoulos' average): J2 of cosine plus J2 of sine, exact.
  double mean_square_shear() const;

 private:
  HarmonicHistory h_;
};

/// The same questions for states given one by one.
class SampledPath {
 public:
  /// Error when there is no state or a component is not a finite number.
  explicit SampledPath(const SampledHistory &);
  bool alternates() const;
  Swing normal(const Vec3 &n) const;
  Swing hydrostatic() const;
  /// Below the floor an upper bound that is not above the floor may come instead.
  double shear_amplitude(const Vec3 &n, double floor = 0) const;
  Ball<5> deviator_ball() const;
  Stress deviator_centre() const;
  const std::vector<Stress> &states() const { return states_; }
  double mean_square_shear() const;

 private:
  /// Component p . stress . q of every state.
  void project(const Vec3 &p, const Vec3 &q, std::vector<double> &result) const;
  std::vector<Stress> states_;
  std::array<std::vector<double>, 6> columns_;
  mutable std::vector<double> first_, second_;
  mutable std::vector<Point<2>> path_;
};

}  // namespace felloe
