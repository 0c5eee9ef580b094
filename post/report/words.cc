// SPDX-License-Identifier: GPL-3.0-or-later
// Numbers and verdicts as a report writes them.
#include "post/report/words.h"

#include <fmt/format.h>

#include <cmath>

#include "post/html/text.h"
#include "post/plot/axis.h"
#include "post/plot/frame.h"
#include "post/sn_curve.h"

namespace felloe {
namespace {

/// Narrow no-break spaces between groups of three digits from five digits on; a minus sign.
std::string dressed(const std::string &number) {
  const bool negative = !number.empty() && number[0] == '-';
  std::string digits = negative ? number.substr(1) : number;
  const std::size_t whole = std::min(digits.find('.'), digits.size());
  std::string out = digits.substr(whole);
  for (std::size_t end = whole; end > 0;) {
    const std::size_t begin = end > 3 && whole > 4 ? end - 3 : 0;
    out = digits.substr(begin, end - begin) + (end == whole ? "" : "\u202F") + out;
    end = begin;
  }
  return (negative ? "\u2212" : "") + out;
}

}  // namespace

std::string figure_text(double value, int digits) {
  if (std::isnan(value)) return "\u2013";
  if (std::isinf(value)) return value > 0 ? "infinite" : "\u2212infinite";
  const double size = std::fabs(value);
  if (size == 0) return "0";
  if (size >= 1e7 || size < 1e-4) {
    const int decade = static_cast<int>(std::floor(std::log10(size)));
    const PlotAxis axis{"", 1, 2, true};
    return dressed(fmt::format("{:.{}f}", value / std::pow(10, decade), digits - 2)) +
           (decade >= 4 ? " \u00D7 " + tick_text(axis, std::pow(10, decade))
                        : fmt::format("e{}", decade));
  }
  const int before = std::max(1, static_cast<int>(std::floor(std::log10(size))) + 1);
  int after = std::max(0, digits - before);
  if (size < 1) after = digits - 1 - static_cast<int>(std::floor(std::log10(size)));
  std::string text = fmt::format("{:.{}f}", value, after);
  if (text.find('.') != std::string::npos) {
    while (text.back() == '0') text.pop_back();
    if (text.back() == '.') text.pop_back();
  }
  return dressed(text);
}

std::string fixed_text(double value, int decimals) {
  if (!std::isfinite(value)) return figure_text(value);
  const std::string text = fmt::format("{:.{}f}", value, decimals);
  return dressed(
      text.find_first_not_of("-0.") == std::string::npos && text[0] == '-' ? text.substr(1) : text);
}

std::string cycles_words(double cycles) {
  if (std::isnan(cycles)) return "\u2013";
  if (std::isinf(cycles)) return "infinite";
  // beyond any curve's validity
  if (cycles > 1e10) return "over 10\u00B9\u2070";
  if (cycles >= 999500) {
    int decade = static_cast<int>(std::floor(std::log10(cycles)));
    if (cycles / std::pow(10, decade) >= 9.995) ++decade;
    const PlotAxis axis{"", 1, 2, true};
    return fmt::format("{:.2f} \u00D7 {}", cycles / std::pow(10, decade),
                       tick_text(axis, std::pow(10, decade)));
  }
  const double unit =
      cycles < 1000 ? 1 : std::pow(10, std::floor(std::log10(cycles)) - 2);  // three figures
  return dressed(fmt::format("{:.0f}", std::round(cycles / unit) * unit));
}

double life_at_share(const HotSpot &h, double survival, double share) {
  return cycles_to_failure(h.sn, share * (h.sn.stress_range ? 2 : 1) * h.fully_reversed, survival);
}

namespace {

bool has_range(const HotSpot &h) {
  return h.error_percent >= 0 && h.verdict != Verdict::not_rated && h.sn.knee_amplitude > 0;
}

}  // namespace

std::string life_range(const HotSpot &h, double survival) {
  if (!has_range(h)) return "not estimated";
  const double error = 0.01 * h.error_percent;
  const std::string low = cycles_words(life_at_share(h, survival, 1 + error)),
                    high = cycles_words(life_at_share(h, survival, 1 - error));
  return low == high ? low : low + " to " + high;
}

bool within_error(const HotSpot &h, double survival) {
  if (!has_range(h)) return false;
  const double error = 0.01 * h.error_percent;
  return life_at_share(h, survival, 1 + error) < h.required_cycles &&
         life_at_share(h, survival, 1 - error) >= h.required_cycles;
}

std::string verdict_text(Verdict v) {
  return v == Verdict::pass ? "Passed" : v == Verdict::fail ? "Failed" : "Not rated";
}

std::string verdict_class(Verdict v) {
  return v == Verdict::pass ? "pass" : v == Verdict::fail ? "fail" : "not-rated";
}

std::string verdict_markup(Verdict v) {
  const char *sign = v == Verdict::pass ? "\u2713" : v == Verdict::fail ? "\u2717" : "?";
  return fmt::format("<span class=\"word-{}\"><span aria-hidden=\"true\">{} </span>{}</span>",
                     verdict_class(v), sign, verdict_text(v));
}

int test_index(const Results &r, const std::string &test) {
  for (std::size_t i = 0; i < r.tests.size(); ++i)
    if (r.tests[i].name == test) return static_cast<int>(i);
  return 0;
}

std::string test_markup(const Results &r, const std::string &test) {
  constexpr std::size_t short_name = 20;
  const std::string marked = series_key(test_index(r, test)) + "\u00A0" + name_markup(test);
  return test.size() > short_name ? marked : "<span class=\"together\">" + marked + "</span>";
}

std::string name_markup(const std::string &text) { return "<bdi>" + html_text(text) + "</bdi>"; }

}  // namespace felloe
