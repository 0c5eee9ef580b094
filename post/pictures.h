// SPDX-License-Identifier: GPL-3.0-or-later
// Pictures of a rated wheel, drawn on machines with and without a screen.
#pragma once
#include <functional>
#include <string>
#include <vector>

#include "mesher/mesh.h"

namespace felloe {

/// A numbered place on the wheel.
struct Marker {
  int number = 0;
  Vec3 position{};    ///< [mm]
  std::string label;  ///< "vent edge outboard 182 MPa"
};

struct PictureText {
  std::string title;  ///< of the case
  std::string load;   ///< "rotating bending, 2310 N m"
  std::string quantity = "stress amplitude";
  std::string unit = "MPa";
  double colour_maximum = 0;  ///< upper end of the colour scale; 0: from the values (see below)
};

struct PictureResult {
  std::vector<std::string> files;  ///< with their folder; empty when skipped
  std::string skipped;             ///< why there are no pictures; empty: all were drawn
};

/// Draws front.png (from outboard), back.png (from inboard), and with at least one marker
/// closeup.png and section.png (the half plane through the first marker) into the folder, all
/// 1600 x 1200 with one colour scale from 0 to colour_maximum; when that is 0, to the round
/// number that all but 0.1 % of the surface stays below.
/// The markers are listed beside the picture and drawn as far as the list has room (13 of one row
/// each): pass the worst first.
/// values: at the nodes, >= 0, in `unit`.
///
/// Drawing happens in a child process, on the display of the user or a private one, and never
/// takes the program down: when it can't be done, `skipped` says why and no picture is left.
/// Error when a picture can't be written (no space, no permission).
PictureResult render_pictures(const Mesh &, const std::vector<double> &values,
                              const std::vector<Marker> &, const PictureText &,
                              const std::string &folder);

/// The arguments of render_pictures() for one set of pictures of a mesh.
struct PictureSet {
  const std::vector<double> *values = nullptr;
  std::vector<Marker> markers;
  PictureText text;
  std::string folder;
};

/// Draws several sets at the same time, each in a process of its own, and runs `meanwhile` here;
/// no other thread may run at the start. One result a set, as render_pictures().
std::vector<PictureResult> render_picture_sets(const Mesh &, const std::vector<PictureSet> &,
                                               const std::function<void()> &meanwhile = {});

}  // namespace felloe
