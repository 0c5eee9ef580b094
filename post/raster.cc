// SPDX-License-Identifier: GPL-3.0-or-later
// Our own, since graphics libraries without a graphics card cost ten times as much for pictures of
// this kind, and want a display.
#include "post/raster.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace felloe {
namespace {

std::uint32_t packed(const Rgb8 &c) {
  return c[0] | std::uint32_t(c[1]) << 8 | std::uint32_t(c[2]) << 16;
}

/// The colour under a light of `light` / 256.
std::uint32_t lit(const Rgb8 &c, int light) {
  Rgb8 out;
  for (int i = 0; i < 3; ++i)
    out[i] = static_cast<std::uint8_t>(std::min(255, (c[i] * light + 128) >> 8));
  return packed(out);
}

/// First pixel whose middle does not lie before x: neighbouring triangles share none and leave
/// none.
int first_at(double x) { return static_cast<int>(std::ceil(x - 0.5)); }

/// A figure that changes linearly over a triangle.
struct Plane {
  double at_origin, along_x, along_y;

  /// values at the corners a, b, c; ab, ac: vectors in pixels, over twice the signed area.
  Plane(const RasterPoint &a, double va, double vb, double vc, const double *ab, const double *ac)
      : along_x((vb - va) * ac[1] - (vc - va) * ab[1]),
        along_y((vc - va) * ab[0] - (vb - va) * ac[0]) {
    at_origin = va - along_x * a.x - along_y * a.y;
  }
  double at(double x, double y) const { return at_origin + along_x * x + along_y * y; }
};

}  // namespace

Raster::Raster(int width, int height, double pixels_per_unit)
    : scale_(fineness * pixels_per_unit),
      width_(fineness * int(std::lround(pixels_per_unit * width))),
      height_(fineness * int(std::lround(pixels_per_unit * height))),
      all_{0, 0, width_, height_},
      scene_(all_),
      colour_(std::size_t(width_) * height_),
      depth_(colour_.size()) {
  clear();
}

void Raster::clear() {
  std::fill(colour_.begin(), colour_.end(), 0xffffffu);
  std::fill(depth_.begin(), depth_.end(), -std::numeric_limits<float>::max());
}

void Raster::set_scene(double left, double bottom, double width, double height) {
  scene_ = {std::max(0, int(scale_ * left)), std::max(0, int(scale_ * bottom)),
            std::min(width_, int(scale_ * (left + width))),
            std::min(height_, int(scale_ * (bottom + height)))};
}

/// span(row, first, one past the last pixel) for all rows of a triangle in fine pixels.
template <class Span>
void Raster::scan(const std::array<RasterPoint, 3> &corners, const Window &window,
                  const Span &span) {
  const RasterPoint *a = &corners[0], *b = &corners[1], *c = &corners[2];  // from below
  if (b->y < a->y) std::swap(a, b);
  if (c->y < a->y) std::swap(a, c);
  if (c->y < b->y) std::swap(b, c);
  const auto x_on = [](const RasterPoint &p, const RasterPoint &q, double y) {
    return p.x + (double(q.x) - p.x) * (y - p.y) / (double(q.y) - p.y);
  };
  const int end = std::min(first_at(c->y), window.top);
  for (int row = std::max(first_at(a->y), window.bottom); row < end; ++row) {
    const double y = row + 0.5;
    const double one = x_on(*a, *c, y), other = y < b->y ? x_on(*a, *b, y) : x_on(*b, *c, y);
    const int first = std::max(first_at(std::min(one, other)), window.left);
    const int last = std::min(first_at(std::max(one, other)), window.right);
    if (first < last) span(row, first, last);
  }
}

/// Holds no middle of a pixel of the window, for certain.
bool Raster::outside(const Window &w, const std::array<RasterPoint, 3> &p) {
  const auto [left, right] = std::minmax({p[0].x, p[1].x, p[2].x});
  const auto [low, high] = std::minmax({p[0].y, p[1].y, p[2].y});
  return right < w.left || left > w.right || first_at(low) == first_at(high) || high < w.bottom ||
         low > w.top;
}

void Raster::triangle(RasterPoint a, RasterPoint b, RasterPoint c,
                      const std::vector<Rgb8> &colours) {
  for (RasterPoint *p : {&a, &b, &c}) {
    p->x *= float(scale_);
    p->y *= float(scale_);
  }
  if (outside(scene_, {a, b, c})) return;
  double ab[] = {double(b.x) - a.x, double(b.y) - a.y};
  double ac[] = {double(c.x) - a.x, double(c.y) - a.y};
  const double area = ab[0] * ac[1] - ac[0] * ab[1];
  if (std::abs(area) < 1e-9) return;
  for (double *component : {&ab[0], &ab[1], &ac[0], &ac[1]}) *component /= area;
  const Plane depth(a, a.depth, b.depth, c.depth, ab, ac);
  const Plane value(a, a.value, b.value, c.value, ab, ac);
  const Plane light(a, a.light, b.light, c.light, ab, ac);
  const int last_colour = static_cast<int>(colours.size()) - 1;
  const auto n = static_cast<float>(colours.size());
  scan({a, b, c}, scene_, [&](int row, int first, int last) {
    const double x = first + 0.5, y = row + 0.5;
    auto d = float(depth.at(x, y)), v = n * float(value.at(x, y)), l = 256 * float(light.at(x, y));
    const auto dd = float(depth.along_x), dv = n * float(value.along_x),
               dl = 256 * float(light.along_x);
    const std::size_t at = std::size_t(row) * width_;
    for (std::size_t i = at + first; i < at + last; ++i, d += dd, v += dv, l += dl) {
      if (d < depth_[i]) continue;
      depth_[i] = d;
      colour_[i] = lit(colours[std::clamp(int(v), 0, last_colour)], int(l));
    }
  });
}

void Raster::polygon(const std::vector<std::array<double, 2>> &corners, const Rgb8 &colour) {
  const std::uint32_t filled = packed(colour);
  const auto point = [this](const std::array<double, 2> &p) {
    RasterPoint out;
    out.x = float(scale_ * p[0]);
    out.y = float(scale_ * p[1]);
    return out;
  };
  for (std::size_t k = 2; k < corners.size(); ++k)
    scan({point(corners[0]), point(corners[k - 1]), point(corners[k])}, all_,
         [&](int row, int first, int last) {
           const auto begin = colour_.begin() + std::ptrdiff_t(row) * width_;
           std::fill(begin + first, begin + last, filled);
         });
}

Image Raster::finished() const {
  static_assert(fineness == 2);
  Image image{width_ / 2, height_ / 2, {}};
  image.rgb.resize(3 * std::size_t(image.width) * image.height);
  std::uint8_t *out = image.rgb.data();
  // two channels at once: 16 bits hold the sum of four bytes
  constexpr std::uint32_t even = 0xff00ff, halves = 0x020002;
  for (int y = image.height - 1; y >= 0; --y) {
    const std::uint32_t *below = &colour_[std::size_t(2 * y) * width_], *above = below + width_;
    for (int x = 0; x < image.width; ++x, below += 2, above += 2) {
      const std::uint32_t red_blue =
          (below[0] & even) + (below[1] & even) + (above[0] & even) + (above[1] & even) + halves;
      const std::uint32_t green = (below[0] >> 8 & 0xff) + (below[1] >> 8 & 0xff) +
                                  (above[0] >> 8 & 0xff) + (above[1] >> 8 & 0xff) + 2;
      *out++ = static_cast<std::uint8_t>((red_blue & 0xffff) >> 2);
      *out++ = static_cast<std::uint8_t>(green >> 2);
      *out++ = static_cast<std::uint8_t>(red_blue >> 18);
    }
  }
  return image;
}

}  // namespace felloe
