// SPDX-License-Identifier: GPL-3.0-or-later
// What the deviator and the hydrostatic stress do during a turn: the two kinds of histories behind
// one set of questions, so that every criterion is written once.
#pragma once
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

/// False for a history that stands still: it moves less than 1e-9 of its size.
/// Error when there is no state or a component is not a finite number.
bool alternates(const HarmonicHistory &);
bool alternates(const SampledHistory &);

/// Closed forms of a one-harmonic history that alternates: every scalar linear in stress swings by
/// sqrt(c^2 + s^2), every vector runs on an ellipse.
class HarmonicPath {
 public:
  explicit HarmonicPath(const HarmonicHistory &history) : h_(history) {}
  bool alternates() const { return felloe::alternates(h_); }
  Swing hydrostatic() const;
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
  explicit SampledPath(const SampledHistory &history) : h_(history) {}
  bool alternates() const { return felloe::alternates(h_); }
  Swing hydrostatic() const;
  Ball<5> deviator_ball() const;
  Stress deviator_centre() const;
  const std::vector<Stress> &states() const { return h_.states; }
  double mean_square_shear() const;

 private:
  SampledHistory h_;
};

}  // namespace felloe
