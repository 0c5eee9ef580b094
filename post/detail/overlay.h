// SPDX-License-Identifier: GPL-3.0-or-later
// Flat drawing on top of a scene, in pixels of the finished picture, origin below left.
#pragma once
#include <array>
#include <string>
#include <vector>

class vtkRenderer;

namespace felloe::detail {

using Rgb = std::array<double, 3>;
constexpr Rgb ink{0.10, 0.11, 0.13}, faint_ink{0.45, 0.47, 0.50}, paper{0.965, 0.965, 0.96};

enum class Align { left, centre, right };

/// Everything is drawn in the order of the calls, later over earlier.
class Overlay {
 public:
  /// supersampling: rendered pixels per pixel of the finished picture.
  Overlay(vtkRenderer &renderer, int supersampling)
      : renderer_(renderer), supersampling_(supersampling) {}

  void line(double x0, double y0, double x1, double y1, double width, const Rgb &);
  void disc(double x, double y, double radius, const Rgb &);
  void ring(double x, double y, double inner, double outer, const Rgb &);
  void rectangle(double x, double y, double width, double height, const Rgb &);
  /// y is the middle of the letters; size in pixels.
  void text(double x, double y, const std::string &, double size, const Rgb &, Align = Align::left,
            bool bold = false);

 private:
  void polygon(const std::vector<std::array<double, 2>> &, const Rgb &);
  vtkRenderer &renderer_;
  double supersampling_;
};

/// Colour of a fraction 0 ... 1 of the scale.
Rgb scale_colour(double fraction);

/// The next round number that is not below the value > 0.
double round_scale_end(double value);

/// Round numbers from 0 up to `maximum`, 4 to 8 of them.
std::vector<double> ticks(double maximum);

/// Text in rows of at most `width` characters, broken at spaces.
std::vector<std::string> rows(const std::string &text, std::size_t width);

}  // namespace felloe::detail
