// SPDX-License-Identifier: GPL-3.0-or-later
// What all pictures share: outlines, words and the texts in their files.
#include <fmt/format.h>

#include "post/detail/picture_frame.h"
#include "post/detail/picture_views.h"

namespace felloe::detail {

std::vector<std::vector<Vec3>> outline_of(const SectionCut &cut, double pixels_per_mm,
                                          double sign) {
  std::vector<std::vector<Vec3>> outline;
  for (const auto &piece : cut.outline) {
    const Vec3 a = drawn(piece[0], sign), b = drawn(piece[1], sign), along = subtract(b, a);
    if (norm(along) == 0) continue;
    const Vec3 more = scale(0.5 / pixels_per_mm / norm(along), along);
    outline.push_back({subtract(a, more), add(b, more)});
  }
  return outline;
}

void draw_sides(Overlay &overlay) {
  const double y = 40, middle = scene_left + scene_width / 2;
  overlay.text(middle - 24, y, "\xE2\x86\x90 inboard", 20, faint_ink, Align::right);
  overlay.text(middle + 24, y, "outboard \xE2\x86\x92", 20, faint_ink);
}

std::map<std::string, std::string> file_texts(const std::string &description, double pixels_per_mm,
                                              double colour_maximum) {
  return {{"Description", description},
          {"pixels per mm", fmt::format("{:.9g}", pixels_per_mm)},
          {"scale bar mm", fmt::format("{:g}", scale_bar_mm(pixels_per_mm))},
          {"colour maximum", fmt::format("{:g}", colour_maximum)}};
}

}  // namespace felloe::detail
