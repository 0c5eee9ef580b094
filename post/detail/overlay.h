// SPDX-License-Identifier: GPL-3.0-or-later
// Flat drawing on top of a scene, in units of the drawing, origin below left.
#pragma once
#include <array>
#include <string>
#include <vector>

#include "post/colours.h"
#include "post/raster.h"

namespace felloe::detail {

constexpr Rgb white{1, 1, 1}, ink{0.10, 0.11, 0.13}, faint_ink{0.42, 0.44, 0.47},
    hairline{0.80, 0.81, 0.83}, body_grey{0.80, 0.82, 0.84};

enum class Align { left, centre, right };
using Pixel = std::array<double, 2>;

Rgb8 bytes_of(const Rgb &);

/// Shapes are drawn in the order of the calls, later over earlier; texts over all shapes.
class Overlay {
 public:
  void line(const Pixel &from, const Pixel &to, double width, const Rgb &);
  void polyline(const std::vector<Pixel> &, double width, const Rgb &);
  /// A line with a head at `to`.
  void arrow(const Pixel &from, const Pixel &to, double width, const Rgb &);
  void disc(const Pixel &, double radius, const Rgb &);
  void ring(const Pixel &, double inner, double outer, const Rgb &);
  void rectangle(double x, double y, double width, double height, const Rgb &);
  /// White with a border.
  void box(double x, double y, double width, double height, double border, const Rgb &);
  /// y is the middle of the letters.
  void text(double x, double y, const std::string &, double size, const Rgb &, Align = Align::left,
            bool bold = false);

  void clear();
  /// Both together put everything drawn since clear() into the picture.
  void draw_shapes(Raster &) const;
  void write_texts(Image &, double pixels_per_unit) const;

 private:
  struct Polygon {
    std::vector<Pixel> corners;
    Rgb colour;
  };
  void polygon(std::vector<Pixel> corners, const Rgb &);

  std::vector<Polygon> polygons_;
  struct Words {
    Pixel at;
    std::string words;
    double size;
    Rgb colour;
    Align align;
    bool bold;
  };
  std::vector<Words> texts_;
};

/// Width of a text, by the mean width of the letters.
double text_width(const std::string &, double size, bool bold = false);

/// Text in rows of at most `width` characters, broken at spaces.
std::vector<std::string> rows(const std::string &text, std::size_t width);

}  // namespace felloe::detail
