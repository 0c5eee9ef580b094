// SPDX-License-Identifier: GPL-3.0-or-later
// One picture: a scene in parallel projection with flat drawing round it, turned into a PNG.
#include "post/detail/canvas.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "post/png.h"

namespace felloe::detail {
namespace {

Vec3 unit(const Vec3 &v) { return scale(1 / norm(v), v); }

Vec3 upright(const Vec3 &up, const Vec3 &towards_eye) {
  return unit(subtract(up, scale(dot(up, towards_eye), towards_eye)));
}

/// The scale, and beyond its end one more quarter of one colour, into which all larger values fall.
constexpr int within_scale = 400, beyond = 100;
constexpr double share_of_scale = double(within_scale) / (within_scale + beyond);

/// Ribbons lie over the lines of sharp edges, and in corners, whose sides rise as far as they
/// reach.
constexpr double lifted_lines = 2, lifted_ribbons = 3.5;

const std::vector<Rgb8> &scale_colours() {
  static const std::vector<Rgb8> colours = [] {
    std::vector<Rgb8> all;
    for (int i = 0; i < within_scale + beyond; ++i)
      all.push_back(
          bytes_of(i < within_scale ? scale_colour((i + 0.5) / within_scale) : beyond_scale));
    return all;
  }();
  return colours;
}

}  // namespace

Pixel Projection::pixel(const Vec3 &x) const {
  const Vec3 d = subtract(x, focus);
  return {scene_left + scene_width / 2 + pixels_per_mm * dot(d, right()),
          scene_bottom + scene_height / 2 + pixels_per_mm * dot(d, up)};
}

bool Projection::inside(const Vec3 &x) const {
  const auto p = pixel(x);
  return p[0] > scene_left && p[0] < scene_left + scene_width && p[1] > scene_bottom &&
         p[1] < scene_bottom + scene_height;
}

Projection fitted(const std::vector<Vec3> &points, const Vec3 &towards_eye, const Vec3 &up,
                  double filled) {
  Projection p;
  p.towards_eye = unit(towards_eye);
  p.up = upright(up, p.towards_eye);
  const std::array<Vec3, 3> axes{p.right(), p.up, p.towards_eye};
  constexpr double huge = std::numeric_limits<double>::max();
  Vec3 low{huge, huge, huge}, high{-huge, -huge, -huge};
  for (const Vec3 &x : points)
    for (int a = 0; a < 3; ++a) {
      low[a] = std::min(low[a], dot(x, axes[a]));
      high[a] = std::max(high[a], dot(x, axes[a]));
    }
  for (int a = 0; a < 3; ++a) p.focus = add(p.focus, scale((low[a] + high[a]) / 2, axes[a]));
  p.pixels_per_mm = filled * std::min(scene_width / std::max(high[0] - low[0], 1e-9),
                                      scene_height / std::max(high[1] - low[1], 1e-9));
  return p;
}

Projection close_up(const Vec3 &focus, const Vec3 &towards_eye, const Vec3 &up,
                    double half_height) {
  const Vec3 direction = unit(towards_eye);
  return {focus, direction, upright(up, direction), scene_height / (2 * half_height)};
}

void Canvas::start(const Projection &projection) {
  projection_ = projection;
  raster_.clear();
  raster_.set_scene(scene_left, scene_bottom, scene_width, scene_height);
  overlay_.clear();
}

void Canvas::look_again(const Projection &projection, const Pixel &corner, double size) {
  projection_ = projection;
  raster_.set_scene(corner[0], corner[1], size, size);
}

RasterPoint Canvas::seen(const Vec3 &x) const {
  const Pixel p = projection_.pixel(x);
  RasterPoint out;
  out.x = float(p[0]);
  out.y = float(p[1]);
  out.depth = float(dot(subtract(x, projection_.focus), projection_.towards_eye));
  return out;
}

void Canvas::draw(const Triangles &surface, double factor_on_values,
                  const std::vector<Rgb8> &colours) {
  // From above left behind the eye; without shading the colours are those of the scale.
  constexpr double ambient = 0.74, diffuse = 0.30;
  const Vec3 light = unit(add(add(scale(-0.5, projection_.right()), scale(0.6, projection_.up)),
                              projection_.towards_eye));
  std::vector<RasterPoint> points;
  points.reserve(surface.points.size());
  for (std::size_t i = 0; i < surface.points.size(); ++i) {
    points.push_back(seen(surface.points[i]));
    points.back().value = float(factor_on_values * surface.values[i]);
    if (surface.normals.empty()) continue;
    const Vec3 &normal = surface.normals[i];
    const double side = dot(normal, projection_.towards_eye) < 0 ? -1 : 1;
    if (points.back().value > share_of_scale) continue;  // one tone for what lies beyond the scale
    points.back().light = float(ambient + diffuse * std::max(0.0, side * dot(normal, light)));
  }
  const auto faces_away = [&](const RasterPoint &a, const RasterPoint &b, const RasterPoint &c) {
    return (b.x - a.x) * (c.y - a.y) <= (c.x - a.x) * (b.y - a.y);
  };
  for (const auto &t : surface.triangles) {
    const RasterPoint &a = points[t[0]], &b = points[t[1]], &c = points[t[2]];
    if (!surface.normals.empty() && faces_away(a, b, c)) continue;
    raster_.triangle(a, b, c, colours);
  }
}

void Canvas::coloured(const Triangles &surface, double maximum) {
  draw(surface, share_of_scale / maximum, scale_colours());
}

void Canvas::plain(const Triangles &surface, const Rgb &colour) {
  draw(surface, 0, {bytes_of(colour)});
}

// In front of the surfaces on which it lies, a few pixels of which may slope towards the eye.
void Canvas::ribbon(RasterPoint a, RasterPoint b, double width, double lifted_pixels,
                    const std::vector<Rgb8> &colours) {
  const auto lifted = float(lifted_pixels / projection_.pixels_per_mm);
  const double length = std::hypot(b.x - a.x, b.y - a.y);
  if (length == 0) return;
  const auto nx = float(-(b.y - a.y) / length * width / 2),
             ny = float((b.x - a.x) / length * width / 2);
  const auto beside = [&](RasterPoint p, float sign) {
    p.x += sign * nx;
    p.y += sign * ny;
    p.depth += lifted;
    return p;
  };
  raster_.triangle(beside(a, 1), beside(a, -1), beside(b, -1), colours);
  raster_.triangle(beside(a, 1), beside(b, -1), beside(b, 1), colours);
}

void Canvas::lines(const std::vector<std::vector<Vec3>> &lines, double width, const Rgb &colour) {
  const std::vector<Rgb8> one{bytes_of(colour)};
  for (const auto &line : lines)
    for (std::size_t i = 0; i + 1 < line.size(); ++i)
      ribbon(seen(line[i]), seen(line[i + 1]), width, lifted_lines, one);
}

void Canvas::coloured_line(const std::vector<Vec3> &points, const std::vector<double> &values,
                           double maximum, double width) {
  const auto at = [&](std::size_t i) {
    RasterPoint p = seen(points[i]);
    p.value = float(values[i] * share_of_scale / maximum);
    return p;
  };
  for (std::size_t i = 0; i + 1 < points.size(); ++i)
    ribbon(at(i), at(i + 1), width, lifted_ribbons, scale_colours());
}

std::string Canvas::png(const std::map<std::string, std::string> &texts) {
  overlay_.draw_shapes(raster_);
  Image image = raster_.finished();
  overlay_.write_texts(image, pixels_per_unit);
  return felloe::png(image, texts);
}

}  // namespace felloe::detail
