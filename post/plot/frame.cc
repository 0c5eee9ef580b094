// SPDX-License-Identifier: GPL-3.0-or-later
// The rectangle of a plot: places data, draws grid, ticks and labels.
#include "post/plot/frame.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace felloe {
namespace {

using Point = std::array<double, 2>;

/// Shares of a stretch between which it lies inside 0 <= coordinate <= 1, both coordinates
/// (Liang and Barsky); empty when first > second.
std::pair<double, double> inside(const Point &a, const Point &b) {
  double first = 0, last = 1;
  for (int i = 0; i < 2; ++i) {
    const double step = b[i] - a[i];
    if (step == 0) {
      if (a[i] < 0 || a[i] > 1) return {1, 0};
      continue;
    }
    const double enter = (step > 0 ? 0 - a[i] : 1 - a[i]) / step;
    const double leave = (step > 0 ? 1 - a[i] : 0 - a[i]) / step;
    first = std::max(first, enter);
    last = std::min(last, leave);
  }
  return {first, last};
}

}  // namespace

PlotFrame::PlotFrame(double width, double height, PlotAxis x, PlotAxis y, PlotMargins m)
    : width_(width), height_(height), x_(std::move(x)), y_(std::move(y)), m_(m) {}

Pixel PlotFrame::at(double x, double y) const {
  return {left() + x_.share(x) * (right() - left()), bottom() - y_.share(y) * (bottom() - top())};
}

Pixel PlotFrame::held_in(double x, double y) const {
  return at(std::clamp(x, x_.low, x_.high), std::clamp(y, y_.low, y_.high));
}

bool PlotFrame::holds(double x, double y) const {
  return x >= x_.low && x <= x_.high && y >= y_.low && y <= y_.high;
}

void PlotFrame::draw(Svg &svg) const {
  const int across = static_cast<int>((right() - left()) / 60);
  const int up = std::max(3, static_cast<int>((bottom() - top()) / 36));
  for (const double v : ticks(x_, across)) {
    const double at_x = at(v, y_.low)[0];
    svg.line({at_x, top()}, {at_x, bottom()}, "grid");
    svg.text({at_x, bottom() + 17}, tick_text(x_, v), "tick", "middle");
  }
  for (const double v : ticks(y_, up)) {
    const double at_y = at(x_.low, v)[1];
    svg.line({left(), at_y}, {right(), at_y}, "grid");
    svg.text({left() - 7, at_y + 4}, tick_text(y_, v), "tick", "end");
  }
  svg.polygon({{left(), top()}, {right(), top()}, {right(), bottom()}, {left(), bottom()}},
              "border");
  svg.text({0.5 * (left() + right()), bottom() + 36}, x_.label, "axis-label", "middle");
  svg.text({14, 0.5 * (top() + bottom())}, y_.label, "axis-label", "middle", -90);
}

void PlotFrame::curve(Svg &svg, const std::vector<Point> &points, const std::string &style) const {
  std::vector<Pixel> piece;
  const auto finish = [&] {
    if (piece.size() > 1) svg.polyline(piece, style);
    piece.clear();
  };
  const auto pixel = [&](const Point &a, const Point &b, double share) {
    return Pixel{left() + (a[0] + share * (b[0] - a[0])) * (right() - left()),
                 bottom() - (a[1] + share * (b[1] - a[1])) * (bottom() - top())};
  };
  for (std::size_t i = 1; i < points.size(); ++i) {
    const Point a = {x_.share(points[i - 1][0]), y_.share(points[i - 1][1])};
    const Point b = {x_.share(points[i][0]), y_.share(points[i][1])};
    const auto [first, last] = inside(a, b);
    if (!(first <= last)) {
      finish();
      continue;
    }
    if (piece.empty() || first > 0) {
      finish();
      piece.push_back(pixel(a, b, first));
    }
    piece.push_back(pixel(a, b, last));
    if (last < 1) finish();
  }
  finish();
}

namespace {

// Told apart with every common colour blindness (after Okabe and Ito), darkened to 4.5 : 1 or more
// on white; marks differ in shape too.
constexpr const char *series_colours[] = {"#0b5fa5", "#b04a00", "#00694d", "#8c3a7c", "#5d5200"};
constexpr int n_colours = 5;

}  // namespace

std::string series_class(int n) { return fmt::format("series-{}", n % n_colours); }

std::string series_key(int n) {
  Svg svg;
  svg.mark({8, 8}, 5.2, n, series_class(n));
  return "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"key\" viewBox=\"0 0 16 16\" "
         "aria-hidden=\"true\">" +
         svg.body() + "</svg>";
}

std::string plot_style() {
  std::string css = R"css(
.plot .grid { stroke: #dde3e8; stroke-width: 1; }
.plot .border { fill: none; stroke: #4b5a66; stroke-width: 1; }
.plot .tick { font-size: 11.5px; fill: #33424e; }
.plot .axis-label { font-size: 12.5px; }
.plot .curve { fill: none; stroke: #16222c; stroke-width: 2; }
.plot .thin { fill: none; stroke: #16222c; stroke-width: 1.2; }
.plot .dashed { fill: none; stroke: #16222c; stroke-width: 1.2; stroke-dasharray: 6 4; }
.plot .dotted { fill: none; stroke: #4b5a66; stroke-width: 1.2; stroke-dasharray: 1.5 3.5; }
.plot .dash-1 { stroke-dasharray: 7 4; }
.plot .dash-2 { stroke-dasharray: 2 3; }
.plot .zero { fill: none; stroke: #16222c; stroke-width: 1.3; }
.plot .ring { fill: none; stroke: #dde3e8; stroke-width: 1; }
.plot .paper { fill: #ffffff; stroke: none; }
.plot .small { font-size: 11px; }
.plot .strong { font-weight: 700; }
.plot .panel-title { font-size: 13.5px; font-weight: 700; }
)css";
  for (int n = 0; n < n_colours; ++n)
    css += fmt::format(
        ".series-{0} {{ fill: {1}; }}\n.plot .line-{0} {{ fill: none; stroke: {1}; stroke-width: "
        "2; "
        "}}\n.plot .bar-{0} {{ fill: none; stroke: {1}; stroke-width: 1.4; }}\n.plot .need-{0} {{ "
        "fill: none; stroke: {1}; stroke-width: 1.4; stroke-dasharray: 5 3; }}\n.plot .open-{0} {{ "
        "fill: #ffffff; stroke: {1}; stroke-width: 1.6; }}\n",
        n, series_colours[n]);
  return css;
}

}  // namespace felloe
