// SPDX-License-Identifier: GPL-3.0-or-later
// One picture: a scene in parallel projection with flat drawing round it, turned into a PNG.
#pragma once
#include <vtkNew.h>

#include <array>
#include <string>
#include <vector>

#include "mesher/vec3.h"
#include "post/detail/overlay.h"

class vtkPolyData;
class vtkRenderWindow;
class vtkRenderer;

namespace felloe::detail {

constexpr int picture_width = 1600, picture_height = 1200;

/// The part of the picture that shows the scene [pixels].
constexpr double scene_left = 0, scene_bottom = 60, scene_width = 1170, scene_height = 990;

/// Parallel projection onto the scene's part of the picture.
struct Projection {
  Vec3 focus{};        ///< shown in the middle [mm]
  Vec3 towards_eye{};  ///< unit
  Vec3 up{};           ///< unit, normal to towards_eye
  double pixels_per_mm = 1;

  Vec3 right() const { return cross(up, towards_eye); }
  std::array<double, 2> pixel(const Vec3 &) const;
  bool inside(const Vec3 &) const;  ///< within the scene's part of the picture
};

/// Seen from `towards_eye` with `up` upwards (as far as it is normal to it), all points in sight.
Projection fitted(const std::vector<Vec3> &points, const Vec3 &towards_eye, const Vec3 &up);

/// `half_height` [mm] round `focus`.
Projection close_up(const Vec3 &focus, const Vec3 &towards_eye, const Vec3 &up, double half_height);

class Canvas {
 public:
  explicit Canvas(const Projection &);
  ~Canvas();

  /// Triangles coloured by their point scalars from 0 to `maximum`; shaded when they have normals.
  void surface(vtkPolyData &, double maximum);
  void lines(vtkPolyData &, double width, const Rgb &);
  Overlay &overlay() { return overlay_; }
  std::string png();  ///< bytes of the finished picture

 private:
  vtkNew<vtkRenderWindow> window_;
  vtkNew<vtkRenderer> page_, scene_, top_;
  Overlay overlay_;
};

}  // namespace felloe::detail
