// SPDX-License-Identifier: GPL-3.0-or-later
// The pictures of a wheel: what each shows.
#pragma once
#include <string>
#include <vector>

#include "post/detail/canvas.h"
#include "post/pictures.h"
#include "post/section_cut.h"
#include "post/sight.h"
#include "post/skin.h"

namespace felloe::detail {

/// Front and back views, a little from the side and from above so that depth shows.
constexpr Vec3 front_direction{0.24, 0.17, 1}, back_direction{-0.17, 0.12, -1};

/// The surface of a set, and what may be judged of it.
struct PictureContent {
  const Mesh &mesh;
  const PictureSet &set;
  std::vector<CellFace> faces;
  std::vector<bool> judged;  ///< of each face
  int divisions = 1;
  Skin skin;                         ///< of the faces in their order, 2 divisions^2 triangles each
  std::vector<SurfacePoint> marked;  ///< places of the set's markers
  double colour_maximum = 1;
  double largest_judged = 0, largest_grey = -1;  ///< at nodes of the surface; negative: none

  PictureContent(const Mesh &, const PictureSet &);
};

/// Each returns the bytes of a PNG. description: goes into the file.
std::string overview_picture(Canvas &, const PictureContent &, const Vec3 &towards_eye,
                             const std::string &seen_from, const std::string &description);
/// Round one marker; empty when it is hidden from everywhere tried.
std::string close_up_picture(Canvas &, const PictureContent &, std::size_t marker,
                             const std::string &description);
/// The half plane through the first marker: z to the right (outboard), r upwards.
std::string section_picture(Canvas &, const PictureContent &, const std::string &description);
std::string deformed_picture(Canvas &, const PictureContent &, const std::string &description);
std::string load_picture(Canvas &, const PictureContent &, const std::string &description);

/// Outline of a section as lines, pieces lengthened by half a pixel so that none leaves gaps.
std::vector<std::vector<Vec3>> outline_of(const SectionCut &, double pixels_per_mm,
                                          double sign = 1);
/// A point of the section as it is drawn: z to the right, r upwards; sign -1: below the axis.
inline Vec3 drawn(const Vec2 &rz, double sign = 1) { return {rz[1], sign * rz[0], 0}; }
/// Says on which side of the section is outboard.
void draw_sides(Overlay &);

/// Texts in the file: what is shown, and the figures behind its scale bar and colours.
std::map<std::string, std::string> file_texts(const std::string &description, double pixels_per_mm,
                                              double colour_maximum);

/// Points of neighbouring faces whose normals differ by more make a sharp edge [rad].
constexpr double fold = 35 * pi / 180;

}  // namespace felloe::detail
