// SPDX-License-Identifier: GPL-3.0-or-later
// The pictures of a wheel: what each shows and what is written round it.
#pragma once
#include <string>
#include <vector>

#include "post/detail/canvas.h"
#include "post/pictures.h"
#include "post/section_cut.h"
#include "post/skin.h"

namespace felloe::detail {

/// What all pictures of a run share.
struct PictureContent {
  const Skin &skin;
  const std::vector<Marker> &markers;
  const PictureText &text;
  double colour_maximum;
  double largest_value;  ///< on the surface
};

/// The wheel in the given projection; heading says from where it is seen.
std::string wheel_picture(const PictureContent &, const Projection &, const std::string &heading);

/// The direction from which the surroundings of the marker are seen best, preferring that of its
/// surface; {0, 0, 0} when it is hidden from everywhere tried.
Vec3 best_direction(const Skin &, const Vec3 &marker);

/// The section: z to the right (outboard), r upwards.
std::string section_picture(const PictureContent &, const SectionCut &, double theta);

}  // namespace felloe::detail
