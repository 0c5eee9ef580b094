// SPDX-License-Identifier: GPL-3.0-or-later
// What is written round a picture: headings, verdict, colour scale, numbered markers, scale bar.
#pragma once
#include <string>
#include <vector>

#include "post/detail/overlay.h"
#include "post/pictures.h"

namespace felloe::detail {

constexpr double column_left = 1205, column_right = 1570;  // beside the scene

/// Where a marker appears.
struct Shown {
  Pixel pixel;
  bool visible;
};

void draw_headings(Overlay &, const PictureSet &, const std::string &heading);

/// PASS or FAIL at the top of the column; nothing where there is no verdict.
void draw_verdict(Overlay &, Verdict);

/// largest_judged, largest_grey: stresses that the colours don't tell; negative: not said.
struct ScaleNotes {
  double largest_judged = -1, largest_grey = -1;
  std::string why_grey;
};
void draw_colour_scale(Overlay &, const ColourScale &, double maximum, const ScaleNotes &);

/// Numbers and places under the colour scale; returns how many found room.
std::size_t draw_list(Overlay &, const std::vector<Marker> &, const std::vector<Shown> &);
/// All facts of one place under the colour scale.
void draw_facts(Overlay &, const Marker &);

/// A ring of this radius at every visible place from `first` to before `n`, its number beside it
/// and if possible beside the pixels to avoid.
void draw_markers(Overlay &, const std::vector<Marker> &, const std::vector<Shown> &,
                  std::size_t first, std::size_t n, double ring = 10,
                  const std::vector<Pixel> &avoid = {});
/// A ring without a number, its text beside it, where that covers the fewest places.
void draw_worst_in_sight(Overlay &, const Pixel &, const std::string &text, const Rgb &colour,
                         const std::vector<Shown> &);
/// The first place by name, stress, life and verdict in a corner of the scene, tied to its ring.
/// where_else: said when it is not seen.
void draw_callout(Overlay &, const std::vector<Marker> &, const std::vector<Shown> &,
                  const std::string &where_else);

/// The longest of 1, 2, 5, 10, ... mm that is at most 160 pixels.
double scale_bar_mm(double pixels_per_mm);
void draw_scale_bar(Overlay &, double pixels_per_mm);

}  // namespace felloe::detail
