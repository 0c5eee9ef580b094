// SPDX-License-Identifier: GPL-3.0-or-later
// Stress histories that several tests of the criteria share.
#pragma once
#include <cmath>
#include <random>

#include "post/criteria.h"
#include "post/stress_history.h"

namespace felloe {

/// Bending and torsion of a bar: sx = sm + sa cos(phi), txy = tm + ta cos(phi - phase). [MPa, deg]
inline HarmonicHistory bending_torsion(double sa, double ta, double phase, double sm = 0,
                                       double tm = 0) {
  const double d = phase * pi / 180;
  HarmonicHistory h;
  h.mean[0] = sm;
  h.mean[3] = tm;
  h.cosine[0] = sa;
  h.cosine[3] = ta * std::cos(d);
  h.sine[3] = ta * std::sin(d);
  return h;
}

/// A history with all components, different each time, repeatable. Amplitudes up to 100 MPa.
class AnyHistory {
 public:
  HarmonicHistory operator()() { return {draw(50), draw(100), draw(100)}; }
  Stress draw(double size) {
    Stress s;
    for (double &c : s.s) c = std::uniform_real_distribution<double>(-size, size)(engine_);
    return s;
  }

 private:
  std::mt19937 engine_{20250117};
};

inline FatigueConstants limits(double f, double t, double m = 0) { return {f, t, m}; }

/// t / f that gives Findley's k.
inline double ratio_of_findley(double k) { return 0.5 * (1 + k / std::sqrt(1 + k * k)); }

inline double fully_reversed(const char *criterion, const HarmonicHistory &h,
                             const FatigueConstants &c) {
  return fatigue_criterion(criterion).harmonic(h, c).fully_reversed;
}

inline double fully_reversed(const char *criterion, const SampledHistory &h,
                             const FatigueConstants &c) {
  return fatigue_criterion(criterion).sampled(h, c).fully_reversed;
}

}  // namespace felloe
