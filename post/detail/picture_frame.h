// SPDX-License-Identifier: GPL-3.0-or-later
// What is written round a picture: headings, colour scale, numbered markers, legend, scale bar.
#pragma once
#include <array>
#include <string>
#include <vector>

#include "post/detail/picture_views.h"

namespace felloe::detail {

/// Front and back views, a little from the side and from above so that depth shows.
constexpr Vec3 front_direction{0.24, 0.17, 1}, back_direction{-0.17, 0.12, -1};

/// Where a marker appears.
struct Shown {
  std::array<double, 2> pixel;
  bool visible;
};

/// shown: of each marker of the content. pixels_per_mm: for the scale bar.
void draw_frame(Overlay &, const PictureContent &, const std::string &heading,
                const std::vector<Shown> &shown, double pixels_per_mm);

}  // namespace felloe::detail
