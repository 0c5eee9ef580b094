// SPDX-License-Identifier: GPL-3.0-or-later
// Least-squares line.
#include "post/line_regression.h"

#include <boost/math/distributions/students_t.hpp>
#include <cmath>

#include "mesher/error.h"

namespace felloe {

LineRegression line_regression(const std::vector<double> &x, const std::vector<double> &y,
                               double confidence) {
  const double n = static_cast<double>(x.size());
  double mean_x = 0, mean_y = 0;
  for (std::size_t i = 0; i < x.size(); ++i) mean_x += x[i] / n, mean_y += y[i] / n;
  double xx = 0, xy = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    xx += (x[i] - mean_x) * (x[i] - mean_x);
    xy += (x[i] - mean_x) * (y[i] - mean_y);
  }
  if (x.size() < 3 || !(xx > 1e-20 * (1 + mean_x * mean_x)))
    throw Error(
        "regression: a line with scatter needs three points at two loads; add further tests");
  LineRegression r;
  r.b = xy / xx;
  r.a = mean_y - r.b * mean_x;
  for (std::size_t i = 0; i < x.size(); ++i) r.squares += std::pow(y[i] - r.a - r.b * x[i], 2);
  r.deviation = std::sqrt(r.squares / (n - 2));
  const double t = boost::math::quantile(boost::math::students_t(n - 2), 0.5 + 0.5 * confidence);
  const double half_b = t * r.deviation / std::sqrt(xx);
  const double half_a = t * r.deviation * std::sqrt(1 / n + mean_x * mean_x / xx);
  r.a_bounds = {r.a - half_a, r.a + half_a};
  r.b_bounds = {r.b - half_b, r.b + half_b};
  return r;
}

}  // namespace felloe
