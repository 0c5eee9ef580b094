// SPDX-License-Identifier: GPL-3.0-or-later
// Fatigue strength at a given life from a staircase test: one step down after a failure, one up
// after a run-out.
#pragma once
#include <vector>

namespace felloe {

struct StaircaseTest {
  double stress = 0;  ///< [MPa], or any load
  bool failed = false;
};

/// Normally distributed strength.
struct Strength {
  double mean = 0, deviation = 0;
};

struct StaircaseEvaluation {
  Strength dixon_mood;
  double step = 0;           ///< between levels
  bool by_failures = false;  ///< failures were the rarer event; else run-outs
  int events = 0;            ///< of the rarer kind
  double bracket = 0;        ///< (B F - A^2) / F^2; below 0.3 the deviation is 0.53 d, a guess
  Strength likelihood;       ///< probit; deviation 0: levels do not overlap, no top exists
  bool likelihood_found = false;
};

/// Dixon and Mood on the rarer event: F = sum f, A = sum i f, B = sum i^2 f over levels i = 0, 1,
/// ... from the lowest with that event; mean = S0 + d (A / F -+ 1/2) (- failures, + run-outs),
/// deviation = 1.62 d ((B F - A^2) / F^2 + 0.029), 0.53 d where the bracket is below 0.3.
/// Beside it the probit fit by maximum likelihood: P(failure) = Phi((S - mean) / deviation).
/// Error when there are fewer than two levels, levels are not evenly spaced, or all tests end the
/// same way. Source: Dixon and Mood, J. Am. Stat. Assoc. 43 (1948) 109 (found second-hand).
/// Test: Staircase.*
StaircaseEvaluation staircase(const std::vector<StaircaseTest> &);

}  // namespace felloe
