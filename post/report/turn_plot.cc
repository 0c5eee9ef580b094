// SPDX-License-Identifier: GPL-3.0-or-later
// Stress of the worst places by the angle of the load, round the wheel.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "post/html/text.h"
#include "post/plot/frame.h"
#include "post/report/sections.h"
#include "post/report/words.h"

namespace felloe {
namespace {

constexpr double size = 460, centre_x = 230, centre_y = 248, radius = 168;
constexpr std::size_t most_traces = 3;

std::vector<const HotSpot *> shown(const Results &r, const std::string &test) {
  std::vector<const HotSpot *> all;
  for (const HotSpot &h : r.hot_spots)
    if (h.test == test && !h.turn.empty() && all.size() < most_traces) all.push_back(&h);
  return all;
}

PlotAxis scale_for(const std::vector<const HotSpot *> &spots) {
  double low = 0, high = 0;
  for (const HotSpot *h : spots) {
    low = std::min(low, *std::min_element(h->turn.begin(), h->turn.end()));
    high = std::max(high, *std::max_element(h->turn.begin(), h->turn.end()));
  }
  // room for the middle, where angles cannot be told apart
  return {"", low - 0.25 * (high - low), high + 0.02 * (high - low), false};
}

/// 0 degrees to the right, angles against the clock: seen from outboard.
Pixel polar(const PlotAxis &scale, double stress, double degrees) {
  const double length = radius * std::max(0.0, scale.share(stress));
  const double angle = degrees * pi / 180;
  return {centre_x + length * std::cos(angle), centre_y - length * std::sin(angle)};
}

void draw_rings(Svg &svg, const PlotAxis &scale) {
  for (int degrees = 0; degrees < 360; degrees += 30) {
    svg.line({centre_x, centre_y}, polar(scale, scale.high, degrees), "grid");
    const double angle = degrees * pi / 180;
    svg.text({centre_x + (radius + 16) * std::cos(angle),
              centre_y - (radius + 14) * std::sin(angle) + 4},
             fmt::format("{}\u00B0", degrees), "tick", "middle");
  }
  const auto circle = [&](double stress, const std::string &style) {
    std::vector<Pixel> points;
    for (int degrees = 0; degrees <= 360; degrees += 3)
      points.push_back(polar(scale, stress, degrees));
    svg.polyline(points, style);
  };
  for (const double stress : ticks(scale, 5)) {
    if (scale.share(stress) < 0.05) continue;
    circle(stress, std::fabs(stress) < 1e-9 ? "zero" : "ring");
    const Pixel at = polar(scale, stress, 75);
    svg.text({at[0] + 3, at[1] + 4}, tick_text(scale, stress), "small");
  }
}

const char *dashes(std::size_t i) {
  static const char *styles[] = {"", " dash-1", " dash-2"};
  return styles[i % 3];
}

std::string panel(const ReportInput &in, const TestVerdict &t, std::size_t number) {
  const auto spots = shown(in.results, t.name);
  if (spots.empty()) return "";
  const PlotAxis scale = scale_for(spots);
  Svg svg;
  draw_rings(svg, scale);
  std::string text;
  for (std::size_t i = spots.size(); i-- > 0;) {
    const HotSpot &h = *spots[i];
    std::vector<Pixel> points;
    const std::size_t n = h.turn.size();
    for (std::size_t k = 0; k <= n; ++k)
      points.push_back(polar(scale, h.turn[k % n], 360.0 * double(k) / double(n)));
    svg.polyline(points, fmt::format("line-{}{}", number % 5, dashes(i)));
  }
  double row = size + 4;
  for (std::size_t i = 0; i < spots.size(); ++i) {
    const HotSpot &h = *spots[i];
    svg.line({20, row - 4}, {62, row - 4}, fmt::format("line-{}{}", number % 5, dashes(i)));
    const auto [low, high] = std::minmax_element(h.turn.begin(), h.turn.end());
    svg.text({70, row},
             fmt::format("No. {}: {}, {} to {} MPa", h.id, shortened(h.feature, 30),
                         fixed_text(*low, 0), fixed_text(*high, 0)),
             "tick");
    text += fmt::format("No. {} {}: from {:.0f} to {:.0f} MPa. ", h.id, h.feature, *low, *high);
    row += 17;
  }
  svg.text({20, 20}, shortened(t.name, 44), "panel-title");
  svg.text({20, 38},
           t.kind == "radial" ? "by the angle of the contact patch [\u00B0], stress in MPa"
                              : "by the angle of the moment vector [\u00B0], stress in MPa",
           "tick");
  return "<figure>" +
         svg.element(size, row, fmt::format("turn-plot-{}", number + 1), "plot",
                     "Stress over one turn, " + t.name, text) +
         "</figure>\n";
}

}  // namespace

std::string one_turn_section(const ReportInput &in) {
  std::string plots;
  for (std::size_t i = 0; i < in.results.tests.size(); ++i)
    plots += panel(in, in.results.tests[i], i);
  if (plots.empty()) return "";
  return "<p>The normal stress that swings most at the worst places, by the angle of the load "
         "round the wheel: 0\u00B0 points from the axis to the first bolt hole, angles run against "
         "the clock seen from outboard. The bold circle is zero; inside it is compression.</p>\n"
         "<div class=\"plots\">\n" +
         plots + "</div>\n";
}

}  // namespace felloe
