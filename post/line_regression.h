// SPDX-License-Identifier: GPL-3.0-or-later
// Least-squares line with confidence intervals: the evaluation of complete S-N samples.
#pragma once
#include <vector>

#include "post/censored_fit.h"

namespace felloe {

/// y = a + b x; s with n - 2 degrees of freedom.
struct LineRegression {
  double a = 0, b = 0;
  double squares = 0;    ///< sum of squared deviations of y
  double deviation = 0;  ///< s = sqrt(squares / (n - 2))
  Bounds a_bounds, b_bounds;
};

/// Two-sided bounds by Student's t. Error for fewer than 3 points or equal x.
/// Source: ASTM E739, 8.3 (from memory). Test: LineRegression.*
LineRegression line_regression(const std::vector<double> &x, const std::vector<double> &y,
                               double confidence);

}  // namespace felloe
