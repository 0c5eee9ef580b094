// SPDX-License-Identifier: GPL-3.0-or-later
// Axes of a plot: range, ticks, words.
#include "post/plot/axis.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace felloe {
namespace {

constexpr double rounding = 1e-9;

std::vector<double> linear_ticks(const PlotAxis &a, int most) {
  const double range = a.high - a.low;
  double step = std::pow(10, std::floor(std::log10(range / most)));
  for (const double factor : {1.0, 2.0, 5.0, 10.0})
    if (range / (factor * step) <= most) {
      step *= factor;
      break;
    }
  std::vector<double> all;
  const auto first = static_cast<long>(std::ceil(a.low / step - rounding));
  const auto last = static_cast<long>(std::floor(a.high / step + rounding));
  for (long i = first; i <= last; ++i) all.push_back(step * double(i));
  return all;
}

std::vector<double> log_ticks(const PlotAxis &a) {
  std::vector<double> tens, all;
  const int first = static_cast<int>(std::floor(std::log10(a.low) - rounding));
  const int last = static_cast<int>(std::ceil(std::log10(a.high) + rounding));
  for (int decade = first; decade <= last; ++decade)
    for (const double factor : {1.0, 2.0, 5.0}) {
      const double value = factor * std::pow(10, decade);
      if (value < a.low * (1 - rounding) || value > a.high * (1 + rounding)) continue;
      all.push_back(value);
      if (factor == 1) tens.push_back(value);
    }
  return tens.size() < 4 ? all : tens;
}

std::string superscript(int number) {
  static const char *digits[] = {"\u2070", "\u00B9", "\u00B2", "\u00B3", "\u2074",
                                 "\u2075", "\u2076", "\u2077", "\u2078", "\u2079"};
  std::string out;
  for (const char c : std::to_string(number)) out += c == '-' ? "\u207B" : digits[c - '0'];
  return out;
}

}  // namespace

double PlotAxis::share(double value) const {
  return logarithmic ? std::log(value / low) / std::log(high / low) : (value - low) / (high - low);
}

std::vector<double> ticks(const PlotAxis &a, int most) {
  return a.logarithmic ? log_ticks(a) : linear_ticks(a, most);
}

std::string tick_text(const PlotAxis &a, double value) {
  if (a.logarithmic && value >= 9999) {
    const double decade = std::log10(value);
    if (std::fabs(decade - std::round(decade)) < 1e-6)
      return "10" + superscript(static_cast<int>(std::lround(decade)));
  }
  const std::string text = fmt::format("{:.6g}", std::fabs(value) < 1e-12 ? 0.0 : value);
  return text[0] == '-' ? "\u2212" + text.substr(1) : text;
}

PlotAxis axis_for(const std::string &label, const std::vector<double> &values, double room) {
  const auto [low, high] = std::minmax_element(values.begin(), values.end());
  const double range = *high > *low ? *high - *low : std::max(1.0, std::fabs(*high));
  return {label, *low - room * range, *high + room * range, false};
}

PlotAxis log_axis_for(const std::string &label, const std::vector<double> &values) {
  const auto [low, high] = std::minmax_element(values.begin(), values.end());
  const double first = std::floor(2 * std::log10(*low) - 0.1) / 2;
  const double last = std::max(std::ceil(2 * std::log10(*high) + 0.1) / 2, first + 0.5);
  return {label, std::pow(10, first), std::pow(10, last), true};
}

}  // namespace felloe
