// SPDX-License-Identifier: GPL-3.0-or-later
// What a load does to the shape of the wheel, and where it acts.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "post/colours.h"
#include "post/detail/picture_frame.h"
#include "post/detail/picture_views.h"

namespace felloe::detail {
namespace {

/// 1, 2 or 5 times a power of ten, not above the value.
double round_down(double value) {
  const double power = std::pow(10.0, std::floor(std::log10(value)));
  return power * (value >= 5 * power ? 5 : value >= 2 * power ? 2 : 1);
}

/// The sketch's section: the half planes upwards and downwards.
constexpr double upwards = pi / 2, downwards = -pi / 2;

/// A held surface in the section: a thick line with hatches on the side without material.
void draw_held(Canvas &canvas, const PictureContent &content, const SectionCut &body,
               const std::string &surface_name, double theta, double sign) {
  const auto found = content.mesh.surfaces.find(surface_name);
  if (found == content.mesh.surfaces.end()) return;
  const Skin held = skin(content.mesh, found->second,
                         std::vector<double>(content.mesh.nodes.size(), 0.0), 2, fold);
  const SectionCut cut = section_cut(Mesh{}, {}, held, theta, 1);
  Overlay &overlay = canvas.overlay();
  constexpr double spacing = 10, length = 14;  // of hatches [pixels]
  double since_last = spacing / 2;
  for (const auto &piece : cut.outline) {
    const Pixel a = canvas.projection().pixel(drawn(piece[0], sign)),
                b = canvas.projection().pixel(drawn(piece[1], sign));
    overlay.line(a, b, 6, held_blue);
    const double dx = b[0] - a[0], dy = b[1] - a[1], size = std::hypot(dx, dy);
    if (size == 0) continue;
    // The material lies where the body's points near the piece lie.
    const Vec2 middle{(piece[0][0] + piece[1][0]) / 2, (piece[0][1] + piece[1][1]) / 2};
    double inside = 0;
    for (const Vec2 &p : body.points)
      if (std::hypot(p[0] - middle[0], p[1] - middle[1]) < 3) {
        const Pixel q = canvas.projection().pixel(drawn(p, sign));
        inside += -dy * (q[0] - a[0]) + dx * (q[1] - a[1]);
      }
    const double out = inside > 0 ? -1 : 1;
    const double nx = -out * dy / size, ny = out * dx / size, tx = dx / size, ty = dy / size;
    for (double s = spacing - since_last; s < size; s += spacing) {
      const Pixel from{a[0] + s * tx, a[1] + s * ty};
      overlay.line(from, {from[0] + length * (nx + 0.6 * tx), from[1] + length * (ny + 0.6 * ty)},
                   2.5, held_blue);
    }
    since_last = std::fmod(since_last + size, spacing);
  }
}

/// Three quarters of a circle with a head, anticlockwise: a moment out of the picture.
void draw_turn(Overlay &overlay, const Pixel &middle, const std::string &label) {
  constexpr double radius = 62;
  std::vector<Pixel> arc;
  for (int i = 0; i <= 36; ++i) {
    const double angle = (-50 + 260.0 * i / 36) * pi / 180;
    arc.push_back({middle[0] + radius * std::cos(angle), middle[1] + radius * std::sin(angle)});
  }
  for (const double width : {11.0, 5.0}) overlay.polyline(arc, width, width > 6 ? white : failing);
  const Pixel end = arc.back(), before = arc[arc.size() - 3];
  overlay.arrow(end, {end[0] + 2.2 * (end[0] - before[0]), end[1] + 2.2 * (end[1] - before[1])}, 6,
                failing);
  overlay.disc(middle, 6, failing);
  overlay.text(middle[0] + radius + 22, middle[1] + 24, label, 22, ink, Align::left, true);
}

void draw_arrow(Overlay &overlay, const Projection &projection, const LoadSketch::Arrow &arrow) {
  const Pixel tip = projection.pixel({arrow.at[1], arrow.at[0], 0});
  const double size = std::hypot(arrow.direction[0], arrow.direction[1]);
  if (size == 0) return;
  constexpr double length = 105;
  const double ux = arrow.direction[1] / size, uy = arrow.direction[0] / size;
  const Pixel tail{tip[0] - length * ux, tip[1] - length * uy};
  overlay.arrow(tail, tip, 7, failing);
  overlay.text(tail[0] + 14, tail[1] + (uy > 0 ? 8 : -8), arrow.label, 22, ink, Align::left, true);
}

}  // namespace

std::string deformed_picture(Canvas &canvas, const PictureContent &content,
                             const std::string &description) {
  const std::vector<Vec3> &displacement = *content.set.deformed.displacement;
  std::vector<double> size;
  double largest = 0, radius = 0;
  for (std::size_t n = 0; n < displacement.size(); ++n) {
    size.push_back(norm(displacement[n]));
    largest = std::max(largest, size.back());
    radius = std::max(radius, std::hypot(content.mesh.nodes[n][0], content.mesh.nodes[n][1]));
  }
  const double magnification = largest > 0 ? round_down(0.08 * radius / largest) : 1;
  Mesh deformed = content.mesh;
  for (std::size_t n = 0; n < displacement.size(); ++n)
    deformed.nodes[n] = add(deformed.nodes[n], scale(magnification, displacement[n]));
  const Skin shape = skin(deformed, content.faces, size, content.divisions, fold);
  const double asked = content.set.deformed.colour_maximum;
  const double maximum = asked > 0 ? asked : largest > 0 ? round_scale_end(largest) : 1;
  canvas.start(fitted(shape.points, {0.85, 0.32, 0.62}, {0, 1, 0}, 0.9));
  canvas.coloured({shape.points, shape.triangles, shape.values, shape.normals}, maximum);
  canvas.lines(shape.sharp_edges, 1.0, ink);
  canvas.lines(content.skin.sharp_edges, 1.6, held_blue);
  Overlay &overlay = canvas.overlay();
  draw_headings(overlay, content.set,
                fmt::format("deformed shape, magnified {:g} times, {}", magnification,
                            content.set.deformed.state));
  draw_colour_scale(overlay, {"displacement", "mm"}, maximum, {largest, -1, ""});
  overlay.line({column_left, 640}, {column_left + 34, 640}, 3, held_blue);
  overlay.text(column_left + 50, 640, "outline without load", 18, ink);
  draw_scale_bar(overlay, canvas.projection().pixels_per_mm);
  return canvas.png(file_texts(description, canvas.projection().pixels_per_mm, maximum));
}

std::string load_picture(Canvas &canvas, const PictureContent &content,
                         const std::string &description) {
  const LoadSketch &sketch = content.set.sketch;
  const std::vector<double> nothing(content.mesh.nodes.size(), 0.0);
  const SectionCut halves[] = {section_cut(content.mesh, nothing, content.skin, upwards, 2),
                               section_cut(content.mesh, nothing, content.skin, downwards, 2)};
  std::vector<Vec3> points[2], all;
  for (int h = 0; h < 2; ++h)
    for (const Vec2 &rz : halves[h].points) {
      points[h].push_back(drawn(rz, h == 0 ? 1 : -1));
      all.push_back(points[h].back());
    }
  const Projection projection = fitted(all, {0, 0, 1}, {0, 1, 0}, 0.76);
  canvas.start(projection);
  for (int h = 0; h < 2; ++h) {
    canvas.plain({points[h], halves[h].triangles, halves[h].values, {}}, body_grey);
    canvas.lines(outline_of(halves[h], projection.pixels_per_mm, h == 0 ? 1 : -1), 1.6, ink);
  }
  Overlay &overlay = canvas.overlay();
  const double y = projection.pixel({0, 0, 0})[1];
  for (double x = scene_left + 60; x < scene_left + scene_width - 60; x += 44) {
    overlay.line({x, y}, {x + 26, y}, 1.6, faint_ink);
    overlay.line({x + 32, y}, {x + 36, y}, 1.6, faint_ink);
  }
  for (const std::string &surface : sketch.held) {
    draw_held(canvas, content, halves[0], surface, upwards, 1);
    draw_held(canvas, content, halves[1], surface, downwards, -1);
  }
  for (const LoadSketch::Arrow &arrow : sketch.arrows) draw_arrow(overlay, projection, arrow);
  for (const LoadSketch::Turn &turn : sketch.turns)
    draw_turn(overlay, projection.pixel(drawn(turn.at)), turn.label);
  draw_headings(overlay, content.set, "how the load acts and what is held; section upright");
  overlay.rectangle(column_left, 1078, 34, 14, held_blue);
  double row = 1085;
  for (const std::string &line : rows("held: " + sketch.held_label, 31)) {
    overlay.text(column_left + 50, row, line, 18, ink);
    row -= 26;
  }
  row -= 24;
  for (const std::string &note : sketch.notes) {
    for (const std::string &line : rows(note, 36)) {
      overlay.text(column_left, row, line, 18, ink);
      row -= 26;
    }
    row -= 12;
  }
  draw_scale_bar(overlay, projection.pixels_per_mm);
  draw_sides(overlay);
  return canvas.png(file_texts(description, projection.pixels_per_mm, 0));
}

}  // namespace felloe::detail
