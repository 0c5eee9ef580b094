// SPDX-License-Identifier: GPL-3.0-or-later
// Triangles with a depth buffer and flat polygons, drawn into memory: no graphics library, no
// screen.
#pragma once
#include <array>
#include <cstdint>
#include <vector>

namespace felloe {

using Rgb8 = std::array<std::uint8_t, 3>;

/// A finished picture, rows from above, three bytes a pixel.
struct Image {
  int width = 0, height = 0;
  std::vector<std::uint8_t> rgb;
};

/// A corner of a triangle: place in units of the drawing, origin below left.
struct RasterPoint {
  float x = 0, y = 0;
  float depth = 0;  ///< larger is nearer
  float value = 0;  ///< 0 to 1 from one end of the colours to the other
  float light = 1;  ///< factor on the colour
};

/// Drawn twice as fine both ways as the finished picture, whose pixels are means of four: smooth
/// edges. All coordinates are units of the drawing.
class Raster {
 public:
  /// @param width, height   of the drawing
  /// @param pixels_per_unit of the finished picture
  Raster(int width, int height, double pixels_per_unit = 1);

  /// White, and nothing is near.
  void clear();
  /// Triangles appear between these columns and rows only; polygons everywhere.
  void set_scene(double left, double bottom, double width, double height);

  /// Colour from `colours` by the value at every pixel, where nothing nearer was drawn.
  void triangle(RasterPoint, RasterPoint, RasterPoint, const std::vector<Rgb8> &colours);
  /// Convex, over everything.
  void polygon(const std::vector<std::array<double, 2>> &corners, const Rgb8 &);

  Image finished() const;

 private:
  static constexpr int fineness = 2;
  struct Window {
    int left, bottom, right, top;  ///< first, and one past the last
  };
  static bool outside(const Window &, const std::array<RasterPoint, 3> &);
  template <class Span>
  void scan(const std::array<RasterPoint, 3> &, const Window &, const Span &);

  double scale_;        ///< fine pixels a unit
  int width_, height_;  ///< in fine pixels
  Window all_, scene_;
  std::vector<std::uint32_t> colour_;  ///< rows from below; red in the lowest byte
  std::vector<float> depth_;
};

}  // namespace felloe
