// SPDX-License-Identifier: GPL-3.0-or-later
// One picture: a scene in parallel projection with flat drawing round it, turned into a PNG.
#pragma once
#include <array>
#include <map>
#include <string>
#include <vector>

#include "mesher/vec3.h"
#include "post/detail/overlay.h"
#include "post/raster.h"

namespace felloe::detail {

/// Of the drawing, in its units.
constexpr int picture_width = 1600, picture_height = 1200;
/// Twelve hundred pixels wide: letters are clear, and a report with twenty pictures opens at once.
constexpr double pixels_per_unit = 0.75;

/// The part of the picture that shows the scene [units].
constexpr double scene_left = 0, scene_bottom = 70, scene_width = 1170, scene_height = 980;

/// Parallel projection onto the scene's part of the picture.
struct Projection {
  Vec3 focus{};              ///< shown in the middle [mm]
  Vec3 towards_eye{};        ///< unit
  Vec3 up{};                 ///< unit, normal to towards_eye
  double pixels_per_mm = 1;  ///< units of the drawing

  Vec3 right() const { return cross(up, towards_eye); }
  Pixel pixel(const Vec3 &) const;
  bool inside(const Vec3 &) const;  ///< within the scene's part of the picture
};

/// Seen from `towards_eye` with `up` upwards (as far as it is normal to it), all points in sight.
/// filled: of the scene's width or height.
Projection fitted(const std::vector<Vec3> &points, const Vec3 &towards_eye, const Vec3 &up,
                  double filled = 0.92);

/// `half_height` [mm] round `focus`.
Projection close_up(const Vec3 &focus, const Vec3 &towards_eye, const Vec3 &up, double half_height);

/// Part of a scene. With normals: the surface of a body, anticlockwise as seen from outside, of
/// which the far side is left out.
struct Triangles {
  const std::vector<Vec3> &points;  ///< [mm]
  const std::vector<std::array<int, 3>> &triangles;
  const std::vector<double> &values;  ///< at the points
  const std::vector<Vec3> &normals;   ///< at the points; none: not shaded
};

/// Draws one picture after the other; fresh memory costs more than filling it.
class Canvas {
 public:
  Canvas() : raster_(picture_width, picture_height, pixels_per_unit) {}

  /// Empties everything for the next picture.
  void start(const Projection &);
  /// Draws on in another projection, in a square of the scene alone; texts and shapes everywhere.
  void look_again(const Projection &, const Pixel &corner_below_left, double size);
  const Projection &projection() const { return projection_; }

  /// Coloured by values from 0 to `maximum`, above it in beyond_scale.
  void coloured(const Triangles &, double maximum);
  void plain(const Triangles &, const Rgb &);
  void lines(const std::vector<std::vector<Vec3>> &, double width, const Rgb &);
  /// A line with the colours of coloured().
  void coloured_line(const std::vector<Vec3> &points, const std::vector<double> &values,
                     double maximum, double width);
  Overlay &overlay() { return overlay_; }

  /// Bytes of the finished picture; `texts` go into the file by their keys.
  std::string png(const std::map<std::string, std::string> &texts);

 private:
  void draw(const Triangles &, double factor_on_values, const std::vector<Rgb8> &colours);
  void ribbon(RasterPoint from, RasterPoint to, double width, double lifted_pixels,
              const std::vector<Rgb8> &colours);
  RasterPoint seen(const Vec3 &) const;

  Projection projection_;
  Raster raster_;
  Overlay overlay_;
};

}  // namespace felloe::detail
