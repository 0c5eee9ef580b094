// SPDX-License-Identifier: GPL-3.0-or-later
// What is written round a picture: headings, colour scale, numbered markers, legend, scale bar.
#include "post/detail/picture_frame.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace felloe::detail {
namespace {

constexpr double column_left = 1205;  // colour scale and legend
constexpr Rgb white{1, 1, 1};

void draw_headings(Overlay &overlay, const PictureText &text, const std::string &heading) {
  overlay.text(40, 1160, text.title, 28, ink, Align::left, true);
  overlay.text(40, 1120, text.load, 20, ink);
  overlay.text(40, 1086, text.quantity + ", " + heading, 20, faint_ink);
}

void draw_colour_scale(Overlay &overlay, const PictureContent &content) {
  constexpr double left = column_left, bottom = 650, width = 34, height = 340;
  overlay.text(left, 1030, fmt::format("{} [{}]", content.text.quantity, content.text.unit), 20,
               ink, Align::left, true);
  constexpr int n_bands = 170;
  for (int i = 0; i < n_bands; ++i)
    overlay.rectangle(left, bottom + height * i / n_bands, width, height / n_bands + 0.5,
                      scale_colour((i + 0.5) / n_bands));
  for (const double value : ticks(content.colour_maximum)) {
    const double y = bottom + height * value / content.colour_maximum;
    overlay.line(left + width, y, left + width + 8, y, 2, ink);
    overlay.text(left + width + 16, y, fmt::format("{:g}", value), 19, ink);
  }
  overlay.text(
      left, bottom - 30,
      fmt::format("largest on the surface {:.4g} {}", content.largest_value, content.text.unit), 18,
      faint_ink);
}

void draw_number(Overlay &overlay, double x, double y, int number, bool strong) {
  overlay.disc(x, y, 17, white);
  overlay.disc(x, y, 15, strong ? ink : faint_ink);
  overlay.text(x, y, fmt::format("{}", number), number > 99 ? 14 : 18, white, Align::centre, true);
}

/// Returns how many markers found a place in the list.
std::size_t draw_legend(Overlay &overlay, const PictureContent &content,
                        const std::vector<Shown> &shown) {
  if (content.markers.empty()) return 0;
  constexpr double row_height = 25, lowest = 90;
  double y = 560;
  overlay.text(column_left, y, "Hot spots", 20, ink, Align::left, true);
  y -= 40;
  bool some_hidden = false;
  std::size_t i = 0;
  for (; i < content.markers.size(); ++i) {
    auto lines = rows(content.markers[i].label, 31);
    if (lines.empty()) lines.push_back("");
    if (y - row_height * double(lines.size()) < lowest) {
      overlay.text(column_left, y, fmt::format("and {} more", content.markers.size() - i), 18,
                   faint_ink);
      y -= row_height;
      break;
    }
    some_hidden = some_hidden || !shown[i].visible;
    draw_number(overlay, column_left + 15, y, content.markers[i].number, shown[i].visible);
    for (const std::string &line : lines) {
      overlay.text(column_left + 44, y, line, 18, shown[i].visible ? ink : faint_ink);
      y -= row_height;
    }
    y -= 7;
  }
  if (some_hidden) overlay.text(column_left, 60, "grey: not seen in this picture", 18, faint_ink);
  return i;
}

/// A ring at the spot itself, the number beside it where it covers no other ring or number:
/// outwards from the middle of the scene first, then further and further round.
void draw_markers(Overlay &overlay, const PictureContent &content,
                  const std::vector<Shown> &shown) {
  std::vector<std::array<double, 2>> taken;
  for (const Shown &s : shown)
    if (s.visible) taken.push_back(s.pixel);
  for (std::size_t i = 0; i < shown.size(); ++i) {
    if (!shown[i].visible) continue;
    const auto &p = shown[i].pixel;
    const double outwards =
        std::atan2(p[1] - scene_bottom - scene_height / 2, p[0] - scene_left - scene_width / 2);
    std::array<double, 2> best{p[0], p[1]};
    double best_gap = -1;
    for (int turn = 0; turn < 16 && best_gap < 40; ++turn) {
      const double angle = outwards + (turn % 2 ? 1 : -1) * (turn + 1) / 2 * pi / 8;
      const std::array<double, 2> place{p[0] + 52 * std::cos(angle), p[1] + 52 * std::sin(angle)};
      double gap = 1e9;
      for (const auto &t : taken) gap = std::min(gap, std::hypot(place[0] - t[0], place[1] - t[1]));
      if (gap > best_gap) {
        best_gap = gap;
        best = place;
      }
    }
    taken.push_back(best);
    const double length = std::hypot(best[0] - p[0], best[1] - p[1]);
    const double ux = (best[0] - p[0]) / length, uy = (best[1] - p[1]) / length;
    overlay.line(p[0] + 10 * ux, p[1] + 10 * uy, best[0], best[1], 7, white);
    overlay.ring(p[0], p[1], 5, 12, white);
    overlay.ring(p[0], p[1], 7, 10, ink);
    overlay.line(p[0] + 9 * ux, p[1] + 9 * uy, best[0], best[1], 3, ink);
    draw_number(overlay, best[0], best[1], content.markers[i].number, true);
  }
}

void draw_scale_bar(Overlay &overlay, double pixels_per_mm) {
  double length = 1;  // mm: the longest of 1, 2, 5, 10, ... under 160 pixels
  for (const double power : {1.0, 10.0, 100.0, 1000.0})
    for (const double digit : {1.0, 2.0, 5.0})
      if (digit * power * pixels_per_mm < 160) length = digit * power;
  const double x = 40, y = 40, width = length * pixels_per_mm;
  overlay.line(x, y, x + width, y, 3, ink);
  for (const double end : {x, x + width}) overlay.line(end, y - 8, end, y + 8, 3, ink);
  overlay.text(x + width + 14, y, fmt::format("{:g} mm", length), 19, ink);
}

}  // namespace

void draw_frame(Overlay &overlay, const PictureContent &content, const std::string &heading,
                const std::vector<Shown> &shown, double pixels_per_mm) {
  draw_headings(overlay, content.text, heading);
  draw_colour_scale(overlay, content);
  const std::size_t n_listed = draw_legend(overlay, content, shown);
  draw_markers(overlay, content, {shown.begin(), shown.begin() + long(n_listed)});
  draw_scale_bar(overlay, pixels_per_mm);
}

}  // namespace felloe::detail
