// SPDX-License-Identifier: GPL-3.0-or-later
// Axes of a plot: range, ticks, words.
#pragma once
#include <string>
#include <vector>

namespace felloe {

struct PlotAxis {
  std::string label;  ///< quantity and unit
  double low = 0, high = 1;
  bool logarithmic = false;  ///< low > 0

  /// 0 at low, 1 at high.
  double share(double value) const;
};

/// Linear: multiples of 1, 2 or 5 times a power of ten, the most that do not exceed `most`.
/// Logarithmic: powers of ten; where these are fewer than four, 2 and 5 times them too.
std::vector<double> ticks(const PlotAxis &, int most);

/// "250", "0.02"; a whole power of ten from 1e4 on "10" and a superscript.
std::string tick_text(const PlotAxis &, double value);

/// An axis that holds the values with `room` (share of the range) on both sides, logarithmic ones
/// extended to the next half decade.
PlotAxis axis_for(const std::string &label, const std::vector<double> &values, double room = 0.06);
PlotAxis log_axis_for(const std::string &label, const std::vector<double> &values);

}  // namespace felloe
