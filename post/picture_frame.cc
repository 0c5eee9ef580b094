// SPDX-License-Identifier: GPL-3.0-or-later
// What is written round a picture: headings, verdict, colour scale, numbered markers, scale bar.
#include "post/detail/picture_frame.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "mesher/vec3.h"
#include "post/detail/canvas.h"

namespace felloe::detail {
namespace {

constexpr double list_top = 610;  // under the colour scale

/// Round numbers from 0 up to `maximum`, 4 to 8 of them.
std::vector<double> ticks(double maximum) {
  const double power = std::pow(10.0, std::floor(std::log10(maximum)));
  double step = power;
  for (const double factor : {0.1, 0.2, 0.25, 0.5, 1.0, 2.0}) {
    step = factor * power;
    if (maximum / step <= 8) break;
  }
  std::vector<double> values;
  for (int i = 0; i * step <= maximum * (1 + 1e-9); ++i) values.push_back(i * step);
  return values;
}

const char *word_of(Verdict v) {
  return v == Verdict::pass ? "PASS" : v == Verdict::fail ? "FAIL" : "";
}

Rgb colour_of(Verdict v) {
  return v == Verdict::pass ? passing : v == Verdict::fail ? failing : ink;
}

void draw_number(Overlay &overlay, const Pixel &at, const Marker &marker, bool strong) {
  overlay.disc(at, 17, white);
  overlay.disc(at, 15, strong ? colour_of(marker.verdict) : hairline);
  overlay.text(at[0], at[1], fmt::format("{}", marker.number), marker.number > 99 ? 14 : 18,
               strong ? white : ink, Align::centre, true);
}

}  // namespace

void draw_headings(Overlay &overlay, const PictureSet &set, const std::string &heading) {
  overlay.text(40, 1158, set.title, 28, ink, Align::left, true);
  overlay.text(40, 1118, set.load, 21, ink);
  overlay.text(40, 1084, heading, 19, faint_ink);
}

void draw_verdict(Overlay &overlay, Verdict verdict) {
  const std::string word = word_of(verdict);
  if (word.empty()) return;
  overlay.rectangle(column_left, 1124, column_right - column_left, 52, colour_of(verdict));
  overlay.text((column_left + column_right) / 2, 1150, word, 30, white, Align::centre, true);
}

void draw_colour_scale(Overlay &overlay, const ColourScale &scale, double maximum,
                       const ScaleNotes &notes) {
  constexpr double left = column_left, bottom = 730, width = 34, height = 275, step = 19;
  overlay.text(left, 1085, fmt::format("{} [{}]", scale.quantity, scale.unit), 20, ink, Align::left,
               true);
  constexpr int n_bands = 140;
  for (int i = 0; i < n_bands; ++i)
    overlay.rectangle(left, bottom + height * i / n_bands, width, height / n_bands + 0.5,
                      scale_colour((i + 0.5) / n_bands));
  for (const double value : ticks(maximum)) {
    const double y = bottom + height * value / maximum;
    overlay.line({left + width, y}, {left + width + 8, y}, 2, ink);
    overlay.text(left + width + 16, y, fmt::format("{:g}", value), 18, ink);
  }
  const auto swatch = [&](double y, const Rgb &colour, const std::vector<std::string> &words) {
    overlay.rectangle(left, y, width, 24, colour);
    for (std::size_t i = 0; i < words.size(); ++i)
      overlay.text(left + width + 16, y + 12 - step * double(i), words[i], 17, ink);
  };
  const bool some_above = notes.largest_judged > maximum;
  if (some_above || !scale.above.empty()) {
    std::string words = fmt::format("above {:g}", maximum);
    if (!scale.above.empty()) words += ": " + scale.above;
    swatch(bottom + height + 20, beyond_scale,
           {words + (some_above ? fmt::format(", up to {:.3g}", notes.largest_judged)
                                : fmt::format("; largest {:.3g}", notes.largest_judged))});
  } else if (notes.largest_judged >= 0) {
    overlay.text(left + width + 16, bottom + height + 24,
                 fmt::format("largest anywhere {:.3g}", notes.largest_judged), 17, faint_ink);
  }
  if (notes.largest_grey < 0) return;
  std::vector<std::string> words = rows("not rated: " + notes.why_grey, 32);
  if (words.size() > 3) words.resize(3);
  swatch(bottom - 48, not_rated_grey, words);
}

std::size_t draw_list(Overlay &overlay, const std::vector<Marker> &markers,
                      const std::vector<Shown> &shown) {
  if (markers.empty()) return 0;
  constexpr double row_height = 56, lowest = 90;
  double y = list_top;
  overlay.text(column_left, y, "Rated places, worst first", 20, ink, Align::left, true);
  y -= 40;
  bool some_hidden = false;
  std::size_t i = 0;
  for (; i < markers.size(); ++i) {
    if (y - row_height < lowest && i + 1 < markers.size()) {
      overlay.text(column_left, y, fmt::format("and {} more", markers.size() - i), 17, faint_ink);
      break;
    }
    const Marker &m = markers[i];
    some_hidden = some_hidden || !shown[i].visible;
    draw_number(overlay, {column_left + 16, y - 10}, m, shown[i].visible);
    overlay.text(column_left + 46, y, m.place, 18, ink);
    overlay.text(column_left + 46, y - 24, m.figure, 17, faint_ink);
    overlay.text(column_right, y - 24, word_of(m.verdict), 16, colour_of(m.verdict), Align::right,
                 true);
    y -= row_height;
  }
  overlay.text(column_left, 52, "numbers as in the report", 17, faint_ink);
  if (some_hidden)
    overlay.text(column_left, 28, "grey number: not marked in this picture", 17, faint_ink);
  return i;
}

void draw_facts(Overlay &overlay, const Marker &marker) {
  double y = list_top;
  draw_number(overlay, {column_left + 16, y}, marker, true);
  const double room = column_right - column_left - 46,
               size = std::min(20.0, 20 * room / text_width(marker.place, 20, true));
  overlay.text(column_left + 46, y, marker.place, size, ink, Align::left, true);
  y -= 42;
  for (const std::string &fact : marker.facts)
    for (const std::string &row : rows(fact, 34)) {
      overlay.text(column_left, y, row, 18, ink);
      y -= 29;
    }
  overlay.text(column_left, y - 8, word_of(marker.verdict), 24, colour_of(marker.verdict),
               Align::left, true);
}

// Outwards from the middle of the scene first, then further and further round, until the number
// covers no other ring or number and lies in the scene.
void draw_markers(Overlay &overlay, const std::vector<Marker> &markers,
                  const std::vector<Shown> &shown, std::size_t first, std::size_t n, double ring,
                  const std::vector<Pixel> &avoid) {
  constexpr double margin = 24;
  const auto in_scene = [](const Pixel &p) {
    return p[0] > scene_left + margin && p[0] < scene_left + scene_width - margin &&
           p[1] > scene_bottom + margin && p[1] < scene_bottom + scene_height - margin;
  };
  std::vector<Pixel> taken = avoid;
  for (std::size_t i = 0; i < n; ++i)
    if (shown[i].visible) taken.push_back(shown[i].pixel);
  for (std::size_t i = n; i-- > first;) {  // worst last: over all others
    if (!shown[i].visible) continue;
    const Pixel &p = shown[i].pixel;
    const double outwards =
        std::atan2(p[1] - scene_bottom - scene_height / 2, p[0] - scene_left - scene_width / 2);
    Pixel best = p;
    double best_gap = -1;
    for (int turn = 0; turn < 16 && best_gap < 40; ++turn) {
      const double angle = outwards + (turn % 2 ? 1 : -1) * (turn + 1) / 2 * pi / 8;
      const Pixel place{p[0] + 52 * std::cos(angle), p[1] + 52 * std::sin(angle)};
      if (!in_scene(place)) continue;
      double gap = 1e9;
      for (const Pixel &t : taken)
        gap = std::min(gap, std::hypot(place[0] - t[0], place[1] - t[1]));
      if (gap > best_gap) {
        best_gap = gap;
        best = place;
      }
    }
    taken.push_back(best);
    const Rgb colour = colour_of(markers[i].verdict);
    const double length = std::hypot(best[0] - p[0], best[1] - p[1]);
    const double ux = (best[0] - p[0]) / length, uy = (best[1] - p[1]) / length;
    overlay.line({p[0] + ring * ux, p[1] + ring * uy}, best, 7, white);
    overlay.ring(p, ring / 2, ring + 2, white);
    overlay.ring(p, ring - 3, ring, colour);
    overlay.line({p[0] + (ring - 1) * ux, p[1] + (ring - 1) * uy}, best, 3, colour);
    draw_number(overlay, best, markers[i], true);
  }
}

void draw_worst_in_sight(Overlay &overlay, const Pixel &at, const std::string &text,
                         const Rgb &colour, const std::vector<Shown> &shown) {
  constexpr double size = 18, away = 46, height = 34,
                   badge = 75;  // badges stand beside their rings
  const double width = text_width(text, size) + 20;
  // To the right, but not out of the scene or over more places than to the left.
  const auto covered = [&](double left) {
    return std::count_if(shown.begin(), shown.end(), [&](const Shown &s) {
      return s.visible && s.pixel[0] > left - badge && s.pixel[0] < left + width + badge &&
             std::abs(s.pixel[1] - at[1]) < badge;
    });
  };
  const double on_left = at[0] - away - width, on_right = at[0] + away;
  const bool leftwards = on_right + width > scene_left + scene_width - 10 ||
                         (covered(on_left) < covered(on_right) && on_left > scene_left + 10);
  const double left = leftwards ? on_left : on_right, side = leftwards ? -1 : 1;
  overlay.line(at, {at[0] + side * away, at[1]}, 7, white);
  overlay.ring(at, 8, 17, white);
  overlay.ring(at, 10, 14, colour);
  overlay.line({at[0] + side * 13, at[1]}, {at[0] + side * away, at[1]}, 2.5, colour);
  overlay.box(left, at[1] - height / 2, width, height, 2, colour);
  overlay.text(left + 10, at[1], text, size, ink);
}

void draw_callout(Overlay &overlay, const std::vector<Marker> &markers,
                  const std::vector<Shown> &shown, const std::string &where_else) {
  const Marker &marker = markers.front();
  std::vector<std::string> lines = marker.facts;
  if (lines.size() > 3) lines.resize(3);
  if (!where_else.empty()) lines.push_back(where_else);
  const std::string title = fmt::format("Worst place: {}", marker.place);
  double width = text_width(title, 20, true) + 46;
  for (const std::string &line : lines) width = std::max(width, text_width(line, 18));
  width += 36;
  const double height = 56 + 28 * double(lines.size()) + 32, margin = 24;
  const Pixel &p = shown.front().pixel;
  const double left = scene_left + margin, right = scene_left + scene_width - margin - width,
               bottom = scene_bottom + margin, top = scene_bottom + scene_height - margin - height;
  // The nearest corner of the scene, but rather a far one than over a place.
  const auto cost = [&](const Pixel &c) {
    double sum = std::hypot(p[0] - c[0] - width / 2, p[1] - c[1] - height / 2);
    for (const Shown &s : shown)
      if (s.visible && s.pixel[0] > c[0] - 30 && s.pixel[0] < c[0] + width + 30 &&
          s.pixel[1] > c[1] - 30 && s.pixel[1] < c[1] + height + 30)
        sum += scene_width;
    return sum;
  };
  Pixel corner{left, top};
  for (const Pixel &c : {Pixel{right, top}, Pixel{left, bottom}, Pixel{right, bottom}})
    if (cost(c) < cost(corner)) corner = c;
  const Rgb colour = colour_of(marker.verdict);
  if (shown.front().visible) {
    const Pixel end{std::clamp(p[0], corner[0], corner[0] + width),
                    std::clamp(p[1], corner[1], corner[1] + height)};
    const double length = std::hypot(end[0] - p[0], end[1] - p[1]);
    if (length > 12) {
      const Pixel start{p[0] + 11 * (end[0] - p[0]) / length, p[1] + 11 * (end[1] - p[1]) / length};
      overlay.line(start, end, 7, white);
      overlay.line(start, end, 3, colour);
    }
    overlay.ring(p, 8, 17, white);
    overlay.ring(p, 10, 15, colour);
  }
  overlay.box(corner[0], corner[1], width, height, 3, colour);
  double y = corner[1] + height - 30;
  draw_number(overlay, {corner[0] + 34, y}, marker, true);
  overlay.text(corner[0] + 62, y, title, 20, ink, Align::left, true);
  y -= 36;
  for (const std::string &line : lines) {
    overlay.text(corner[0] + 18, y, line, 18, ink);
    y -= 28;
  }
  overlay.text(corner[0] + 18, y - 2, word_of(marker.verdict), 22, colour, Align::left, true);
}

double scale_bar_mm(double pixels_per_mm) {
  double length = 1;
  for (const double power : {1.0, 10.0, 100.0, 1000.0})
    for (const double digit : {1.0, 2.0, 5.0})
      if (digit * power * pixels_per_mm <= 160) length = digit * power;
  return length;
}

void draw_scale_bar(Overlay &overlay, double pixels_per_mm) {
  const double length = scale_bar_mm(pixels_per_mm);
  const double x = 40, y = 40, width = length * pixels_per_mm;
  overlay.line({x, y}, {x + width, y}, 3, ink);
  for (const double end : {x, x + width}) overlay.line({end, y - 8}, {end, y + 8}, 3, ink);
  overlay.text(x + width + 16, y, fmt::format("{:g} mm", length), 19, ink);
}

}  // namespace felloe::detail
