// SPDX-License-Identifier: GPL-3.0-or-later
// Draws lives and their line.
#include "post/lives_plot.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "post/svg.h"

namespace felloe {
namespace {

constexpr double width = 760, height = 520, left = 78, right = 26, top = 56, bottom = 62;

const char *css = R"(  .frame { fill: none; stroke: #1d2b36; stroke-width: 1; }
  .grid { stroke: #d9dfe4; stroke-width: 0.8; }
  .median { fill: none; stroke: #14507a; stroke-width: 2; }
  .design { fill: none; stroke: #14507a; stroke-width: 1.4; stroke-dasharray: 7 4; }
  .band { fill: #14507a; fill-opacity: 0.12; stroke: none; }
  .failure { fill: #b03a2e; }
  .run-out { fill: #ffffff; stroke: #b03a2e; stroke-width: 1.4; }
  .arrow-line { stroke: #b03a2e; stroke-width: 1.2; }
  text { font-family: "DejaVu Sans", Verdana, Arial, sans-serif; font-size: 12px; fill: #10181f; }
  .title { font-size: 15px; font-weight: bold; }
)";

/// Logarithmic axes, cycles to the right, load upwards.
class Axes {
 public:
  Axes(const LivesFit &f, const std::vector<RigLife> &lives, double survival) {
    double low = life_at(f, f.largest_load, survival), high = life_at(f, f.smallest_load, 0.5);
    for (const RigLife &life : lives) {
      low = std::min(low, life.cycles);
      high = std::max(high, life.cycles);
    }
    x0_ = std::floor(std::log10(low) * 2) / 2;
    x1_ = std::ceil(std::log10(std::min(high, 10 * f.largest_cycles) * 1.2) * 2) / 2;
    y0_ = std::log10(f.smallest_load * 0.9);
    y1_ = std::log10(f.largest_load * 1.1);
  }
  double x(double cycles) const {
    return left + (std::log10(cycles) - x0_) / (x1_ - x0_) * (width - left - right);
  }
  double y(double load) const {
    return height - bottom - (std::log10(load) - y0_) / (y1_ - y0_) * (height - top - bottom);
  }
  double low_load() const { return std::pow(10, y0_); }
  double high_load() const { return std::pow(10, y1_); }
  double clipped_x(double cycles) const {
    return std::clamp(x(std::clamp(cycles, 1e-3, 1e15)), left, width - right);
  }

  void draw(Svg &svg, const std::string &load_text) const {
    for (int decade = static_cast<int>(std::ceil(x0_ - 1e-9)); decade <= x1_ + 1e-9; ++decade) {
      const double at = x(std::pow(10, decade));
      svg.line({at, top}, {at, height - bottom}, "grid");
      svg.text({at, height - bottom + 18}, fmt::format("1e{}", decade), "", "middle");
    }
    double step = std::pow(10, std::floor(std::log10(high_load() - low_load())));
    if ((high_load() - low_load()) / step < 3) step /= 2;
    for (double load = std::ceil(low_load() / step) * step; load <= high_load(); load += step) {
      svg.line({left, y(load)}, {width - right, y(load)}, "grid");
      svg.text({left - 7, y(load) + 4}, fmt::format("{:.4g}", load), "", "end");
    }
    svg.polygon({{left, top},
                 {width - right, top},
                 {width - right, height - bottom},
                 {left, height - bottom}},
                "frame");
    svg.text({0.5 * (left + width - right), height - 22}, "cycles to failure", "", "middle");
    svg.text({22, 0.5 * (top + height - bottom)}, load_text, "", "middle", -90);
  }

 private:
  double x0_, x1_, y0_, y1_;
};

void draw_line(Svg &svg, const Axes &axes, const LivesFit &f, double survival,
               const std::string &style) {
  std::vector<Pixel> points;
  for (int i = 0; i <= 60; ++i) {
    const double load = axes.low_load() * std::pow(axes.high_load() / axes.low_load(), i / 60.0);
    const double at = axes.x(life_at(f, load, survival));
    if (at >= left && at <= width - right) points.push_back({at, axes.y(load)});
  }
  svg.polyline(points, style);
}

void draw_band(Svg &svg, const Axes &axes, const LivesFit &f, const std::vector<RigLife> &lives) {
  std::vector<Pixel> low, high;
  constexpr int steps = 16;
  for (int i = 0; i <= steps; ++i) {
    const double load =
        axes.low_load() * std::pow(axes.high_load() / axes.low_load(), double(i) / steps);
    const Bounds b = life_bounds(f, lives, load, 0.5);
    low.push_back({axes.clipped_x(b.low), axes.y(load)});
    high.push_back({axes.clipped_x(b.high), axes.y(load)});
  }
  low.insert(low.end(), high.rbegin(), high.rend());
  svg.polygon(low, "band");
}

void draw_lives(Svg &svg, const Axes &axes, const std::vector<RigLife> &lives) {
  for (const RigLife &life : lives) {
    const Pixel at{axes.x(life.cycles), axes.y(life.load)};
    if (life.run_out) {
      const double tip = at[0] + 22;
      svg.line(at, {tip, at[1]}, "arrow-line");
      svg.polyline({{tip - 6, at[1] - 4}, {tip, at[1]}, {tip - 6, at[1] + 4}}, "run-out");
    }
    svg.dot(at, 4, life.run_out ? "run-out" : "failure");
  }
}

}  // namespace

std::string lives_plot(const LivesFit &f, const std::vector<RigLife> &lives, double survival,
                       const std::string &load_text, const std::string &title) {
  Svg svg;
  const Axes axes(f, lives, survival);
  draw_band(svg, axes, f, lives);
  axes.draw(svg, load_text);
  draw_line(svg, axes, f, 0.5, "median");
  draw_line(svg, axes, f, survival, "design");
  draw_lives(svg, axes, lives);
  svg.text({left, 24}, title, "title");
  svg.text({left, 43},
           fmt::format("slope {:.3g}, deviation of lg N {:.3g}; lines: 50 % and {:g} % survival; "
                       "band: {:g} % confidence of the median",
                       f.slope, f.deviation(), 100 * survival, 100 * f.confidence),
           "");
  return svg.file(width, height, title, css, "");
}

}  // namespace felloe
