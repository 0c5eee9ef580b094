// SPDX-License-Identifier: GPL-3.0-or-later
// Haigh diagrams: amplitude over mean at the worst places, with the limits for the required cycles.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "post/haigh_limit.h"
#include "post/html/text.h"
#include "post/plot/frame.h"
#include "post/report/sections.h"
#include "post/report/words.h"

namespace felloe {
namespace {

constexpr double width = 520, height = 380;
constexpr std::size_t most_limits = 4;

/// The worst place of every S-N curve under one test: its limit is drawn too.
std::vector<const HotSpot *> shown(const Results &r, const std::string &test) {
  std::vector<const HotSpot *> all;
  for (const HotSpot &h : r.hot_spots)
    if (h.test == test && h.verdict != Verdict::not_rated && h.allowed > 0 &&
        std::none_of(all.begin(), all.end(), [&](const HotSpot *s) {
          return s->sn.name == h.sn.name && s->part == h.part && s->allowed == h.allowed;
        }))
      all.push_back(&h);
  if (all.size() > most_limits) all.resize(most_limits);
  return all;
}

PlotFrame frame_for(const std::vector<const HotSpot *> &spots) {
  std::vector<double> means = {-50, 100}, amplitudes = {0};
  for (const HotSpot *h : spots) {
    const double reach = h->amplitude * (1 + 0.01 * std::max(0.0, h->error_percent));
    means.insert(means.end(), {h->mean, 1.15 * h->mean, -0.5 * h->allowed, h->allowed});
    amplitudes.insert(amplitudes.end(), {reach, 1.3 * h->allowed});
  }
  PlotAxis mean = axis_for("mean stress [MPa]", means),
           amplitude = axis_for("stress amplitude [MPa]", amplitudes);
  amplitude.low = 0;
  return {width, height, mean, amplitude, {58, 18, 34, 48}};
}

bool weld_toe(const HotSpot &h) { return h.sn.stress_range; }

/// Weld classes count ranges whatever the mean.
std::vector<std::array<double, 2>> limit(const ReportInput &in, const HotSpot &h,
                                         const PlotAxis &mean) {
  if (weld_toe(h)) return {{mean.low, h.allowed}, {mean.high, h.allowed}};
  FatigueConstants constants = fatigue_constants(in.rules.materials.at(h.part));
  constants.mean_stress = in.rules.mean_stress;
  return haigh_limit(*in.rules.criterion, constants, h.allowed, mean.low, mean.high);
}

const char *limit_style(std::size_t i) {
  static const char *styles[] = {"curve", "thin", "dashed", "dotted"};
  return styles[i % 4];
}

void draw_yield(Svg &svg, const PlotFrame &f, const ReportInput &in,
                const std::vector<const HotSpot *> &spots) {
  const auto found = in.rules.materials.find(spots.front()->part);
  if (found == in.rules.materials.end() || !(found->second.yield_strength > 0)) return;
  const double yield = found->second.yield_strength;
  f.curve(svg, {{0, yield}, {yield, 0}}, "dotted");
  f.curve(svg, {{0, yield}, {-yield, 0}}, "dotted");
  const double amplitude = 0.9 * std::min(f.y().high, yield);
  if (f.holds(yield - amplitude, amplitude)) {
    const Pixel at = f.at(yield - amplitude, amplitude);
    svg.text({at[0] + 8, at[1] + 4}, "yield", "small");
  }
}

/// Numbers of the places at the left ends of their limits, in rows of their own; limits that meet
/// there share one.
class LimitNames {
 public:
  void add(double height, int number) {
    for (auto &[there, text] : names_)
      if (std::fabs(there - height) < 1) {
        text += ", " + std::to_string(number);
        return;
      }
    names_.emplace_back(height, "limit " + std::to_string(number));
  }
  void draw(Svg &svg, double left) {
    std::sort(names_.begin(), names_.end());
    double row = -1e9;
    for (const auto &[height, text] : names_) {
      row = std::max(height - 5, row + 13);
      svg.text({left, row}, text, "small");
    }
  }

 private:
  std::vector<std::pair<double, std::string>> names_;
};

std::string panel(const ReportInput &in, const TestVerdict &t, std::size_t number) {
  const auto spots = shown(in.results, t.name);
  if (spots.empty()) return "";
  const PlotFrame f = frame_for(spots);
  const int test = static_cast<int>(number) % 5;
  Svg svg;
  f.draw(svg);
  if (f.x().low < 0) svg.line(f.at(0, f.y().low), f.at(0, f.y().high), "zero");
  draw_yield(svg, f, in, spots);
  std::string text;
  LimitNames names;
  for (std::size_t i = 0; i < spots.size(); ++i) {
    const HotSpot &h = *spots[i];
    const auto line = limit(in, h, f.x());
    f.curve(svg, line, limit_style(i));
    if (!line.empty()) names.add(f.held_in(line.front()[0], line.front()[1])[1], h.id);
    text +=
        fmt::format("No. {} {}: amplitude {:.0f}, mean {:.0f}, limit fully reversed {:.0f} MPa. ",
                    h.id, h.feature, h.amplitude, h.mean, h.allowed);
  }
  names.draw(svg, f.left() + 6);
  for (const HotSpot *h : spots) {
    const Pixel at = f.held_in(h->mean, h->amplitude);
    if (h->error_percent >= 0)
      svg.line(f.held_in(h->mean, h->amplitude * (1 - 0.01 * h->error_percent)),
               f.held_in(h->mean, h->amplitude * (1 + 0.01 * h->error_percent)),
               fmt::format("bar-{}", test));
    svg.mark(at, 4.8, test, series_class(test));
    svg.text({at[0] + 8, at[1] - 6}, std::to_string(h->id), "small strong");
  }
  svg.text({f.left(), 18}, shortened(t.name, 44) + ", limits at " + cycles_words(t.required_cycles),
           "panel-title");
  return "<figure>" +
         svg.element(width, height, fmt::format("haigh-plot-{}", number + 1), "plot",
                     "Haigh diagram, " + t.name, text) +
         "</figure>\n";
}

}  // namespace

std::string mean_stress_section(const ReportInput &in) {
  if (!in.rules.criterion) return "";
  std::string plots;
  for (std::size_t i = 0; i < in.results.tests.size(); ++i)
    plots += panel(in, in.results.tests[i], i);
  if (plots.empty()) return "";
  return fmt::format(
             "<p>The worst place of every S-N curve by the mean and amplitude of the normal stress "
             "that swings most. Each limit bears the number of its place and is what the criterion "
             "\u201C{}\u201D allows a bar in tension and compression for the required cycles at "
             "{:g} % survival; stress in more than one direction moves a place against it, so "
             "the hot-spot table decides. Weld classes do not depend on the mean. Dotted to the "
             "axis: first yield.</p>\n",
             html_text(in.rules.criterion->name), in.results.survival_percent) +
         "<div class=\"plots\">\n" + plots + "</div>\n";
}

}  // namespace felloe
