// SPDX-License-Identifier: GPL-3.0-or-later
// The section through the worst place, which is shown once more, magnified, where there is room.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include "post/colours.h"
#include "post/detail/picture_frame.h"
#include "post/detail/picture_views.h"

namespace felloe::detail {
namespace {

/// The cut with its colours.
struct ColouredCut {
  SectionCut cut;
  std::vector<Vec3> points;                            ///< as drawn
  std::vector<std::array<int, 3>> judged, not_judged;  ///< triangles

  ColouredCut(const PictureContent &content, double theta)
      : cut(section_cut(content.mesh, *content.set.values, content.skin, theta, 3)) {
    std::vector<bool> grey(content.mesh.cells.size(), false);
    for (std::size_t f = 0; f < content.faces.size(); ++f)
      if (!content.judged[f]) grey[content.faces[f].cell] = true;
    for (const Vec2 &rz : cut.points) points.push_back(drawn(rz));
    for (std::size_t t = 0; t < cut.triangles.size(); ++t)
      (grey[cut.cells[t]] ? not_judged : judged).push_back(cut.triangles[t]);
  }

  void draw(Canvas &canvas, double maximum, double outline) const {
    canvas.coloured({points, judged, cut.values, {}}, maximum);
    canvas.plain({points, not_judged, cut.values, {}}, not_rated_grey);
    canvas.lines(outline_of(cut, canvas.projection().pixels_per_mm), outline, ink);
  }
};

constexpr double inset_size = 320, magnified = 5;
constexpr double words_height = 96;  // under the inset

/// The corner below left of the square nearest to `at` that holds nothing of the body, nor do the
/// words under it; none: there is no room.
std::optional<Pixel> free_square(const std::vector<Pixel> &body, const Pixel &at) {
  constexpr double step = 30, margin = 25;
  std::optional<Pixel> best;
  double nearest = std::numeric_limits<double>::max();
  for (double x = scene_left + margin; x + inset_size + margin < scene_left + scene_width;
       x += step)
    for (double y = scene_bottom + margin + words_height;
         y + inset_size + margin < scene_bottom + scene_height; y += step) {
      const double away = std::hypot(x + inset_size / 2 - at[0], y + inset_size / 2 - at[1]);
      if (away >= nearest) continue;
      const bool free = std::none_of(body.begin(), body.end(), [&](const Pixel &p) {
        return p[0] > x - margin && p[0] < x + inset_size + margin &&
               p[1] > y - margin - words_height && p[1] < y + inset_size + margin;
      });
      if (!free) continue;
      best = Pixel{x, y};
      nearest = away;
    }
  return best;
}

/// Surroundings of the place, magnified, with an arrow whose tip is the place.
void draw_inset(Canvas &canvas, const ColouredCut &cut, const Projection &whole, const Vec3 &place,
                const Vec3 &middle, const Pixel &corner, double maximum) {
  Projection near = whole;
  near.pixels_per_mm *= magnified;
  // The place in the middle of the square in place of the middle of the scene.
  near.focus =
      add(place,
          {(scene_left + scene_width / 2 - corner[0] - inset_size / 2) / near.pixels_per_mm,
           (scene_bottom + scene_height / 2 - corner[1] - inset_size / 2) / near.pixels_per_mm, 0});
  canvas.look_again(near, corner, inset_size);
  cut.draw(canvas, maximum, 1.6);
  Overlay &overlay = canvas.overlay();
  const Pixel low = corner, high{corner[0] + inset_size, corner[1] + inset_size};
  overlay.polyline({low, {high[0], low[1]}, high, {low[0], high[1]}, low}, 2, ink);
  const Pixel seen = whole.pixel(place);
  overlay.line({std::clamp(seen[0], low[0], high[0]), std::clamp(seen[1], low[1], high[1])}, seen,
               1.5, ink);
  // From the free side of the sheet.
  const Vec3 inwards = subtract(middle, place);
  const double length = norm(inwards), reach = 0.36 * inset_size;
  const Pixel tip = near.pixel(place);
  const Pixel tail{tip[0] - reach * inwards[0] / length, tip[1] - reach * inwards[1] / length};
  overlay.arrow(tail, tip, 4, ink);
  overlay.rectangle(low[0] + 3, high[1] - 35, 165, 32, white);
  overlay.text(low[0] + 12, high[1] - 20, fmt::format("{:g} times larger", magnified), 17, ink);
}

/// The section at another angle, where the one at theta runs through an opening of the disc; none:
/// it does not.
std::optional<ColouredCut> beside_opening(const PictureContent &content, double theta) {
  const auto area = [](const SectionCut &cut) {
    double sum = 0;
    for (const auto &t : cut.triangles) {
      const Vec2 &a = cut.points[t[0]], &b = cut.points[t[1]], &c = cut.points[t[2]];
      sum += std::abs((b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1])) / 2;
    }
    return sum;
  };
  const auto area_at = [&](double angle) {
    return area(section_cut(content.mesh, *content.set.values, content.skin, angle, 1));
  };
  constexpr double missing = 0.02;  // of the area; chords and slanted holes take less
  const double here = area_at(theta);
  for (const double degrees : {18.0, 11.0, 26.0}) {
    const double angle = theta + degrees * pi / 180;
    if (!(area_at(angle) > here * (1 + missing))) continue;
    ColouredCut beside(content, angle);
    for (Vec3 &x : beside.points) x[2] = -1;  // behind the section
    return beside;
  }
  return std::nullopt;
}

/// What the inset shows, under it.
void write_words(Overlay &overlay, const Marker &worst, const Pixel &corner) {
  double y = corner[1] - 22;
  overlay.text(corner[0], y, worst.place, 19, ink, Align::left, true);
  for (std::size_t i = 0; i < std::min<std::size_t>(2, worst.facts.size()); ++i)
    overlay.text(corner[0], y -= 28, worst.facts[i], 18, ink);
}

/// The middle of the material round a place.
Vec3 middle_round(const ColouredCut &cut, const Vec3 &place) {
  constexpr double reach = 2.5;  // [mm]
  Vec3 sum{};
  double n = 0;
  for (const Vec3 &x : cut.points)
    if (norm(subtract(x, place)) < reach) {
      sum = add(sum, x);
      ++n;
    }
  return n > 0 ? scale(1 / n, sum) : place;
}

}  // namespace

std::string section_picture(Canvas &canvas, const PictureContent &content,
                            const std::string &description) {
  const Vec3 &worst = content.set.markers.front().position;
  const double theta = std::atan2(worst[1], worst[0]);
  const ColouredCut cut(content, theta);
  const Projection projection = fitted(cut.points, {0, 0, 1}, {0, 1, 0}, 0.86);
  canvas.start(projection);
  const auto beside = beside_opening(content, theta);
  if (beside)
    canvas.plain({beside->points, beside->cut.triangles, beside->cut.values, {}}, hairline);
  cut.draw(canvas, content.colour_maximum, 0.9);

  // Turned round the axis into the section, where there is material: most lie at other angles.
  constexpr double on_body = 1;  // [mm]
  std::vector<Shown> shown;
  for (const Marker &m : content.set.markers) {
    const Vec3 at = drawn({std::hypot(m.position[0], m.position[1]), m.position[2]});
    shown.push_back({projection.pixel(at),
                     std::any_of(cut.points.begin(), cut.points.end(),
                                 [&](const Vec3 &x) { return norm(subtract(x, at)) < on_body; })});
  }
  double degrees = theta * 180 / pi;
  if (degrees < 0) degrees += 360;
  Overlay &overlay = canvas.overlay();
  draw_headings(overlay, content.set,
                fmt::format("{}, section at {:.1f} degrees through the worst place; other "
                            "places turned into it",
                            content.set.scale.quantity, degrees));
  draw_verdict(overlay, content.set.verdict);
  draw_colour_scale(overlay, content.set.scale, content.colour_maximum,
                    {content.largest_judged, content.largest_grey, content.set.why_grey});
  const std::size_t n = draw_list(overlay, content.set.markers, shown);
  std::vector<Pixel> body;
  for (const Vec3 &x : cut.points) body.push_back(projection.pixel(x));
  const Vec3 place = drawn({std::hypot(worst[0], worst[1]), worst[2]});
  if (const auto corner = free_square(body, projection.pixel(place))) {
    draw_inset(canvas, cut, projection, place, middle_round(cut, place), *corner,
               content.colour_maximum);
    write_words(overlay, content.set.markers.front(), *corner);
    for (const double a : {0.0, 0.5, 1.0})  // no numbers on it
      for (const double b : {0.0, 0.5, 1.0})
        body.push_back({(*corner)[0] + a * inset_size, (*corner)[1] + b * inset_size});
  }
  constexpr double small_ring = 6;  // both faces of the sheet stay in sight
  draw_markers(overlay, content.set.markers, shown, 0, n, small_ring, body);
  draw_scale_bar(overlay, projection.pixels_per_mm);
  draw_sides(overlay);
  if (beside)
    overlay.text(scene_left + scene_width - 20, 40, "light grey: beside the opening", 17, faint_ink,
                 Align::right);
  return canvas.png(file_texts(description, projection.pixels_per_mm, content.colour_maximum));
}

}  // namespace felloe::detail
