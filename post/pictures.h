// SPDX-License-Identifier: GPL-3.0-or-later
// Pictures of a rated wheel.
#pragma once
#include <array>
#include <string>
#include <vector>

#include "mesher/mesh.h"
#include "post/jobs.h"
#include "post/rating.h"

namespace felloe {

/// A rated place: a number in the pictures, a row in their lists.
struct Marker {
  int number = 0;
  Vec3 position{};                 ///< [mm]
  std::string place;               ///< "vent edge, outboard"
  std::string figure;              ///< in one word or two: "182 MPa"
  std::vector<std::string> facts;  ///< "design life 2.1e5 cycles", ...: in callout and close-up
  Verdict verdict = Verdict::not_rated;
};

/// Values along a line in space, drawn as a ribbon over the surface: weld toes, whose stress is not
/// that of the surface.
struct ValueLine {
  std::vector<Vec3> points;    ///< [mm]
  std::vector<double> values;  ///< at the points
};

/// What colours mean: the same in all pictures of a run that show the quantity.
struct ColourScale {
  std::string quantity = "stress amplitude", unit = "MPa";
  /// Upper end of the colours; larger values are drawn in the colour beyond_scale. 0: the round
  /// number that all but 0.1 % of the rated surface stays below.
  double maximum = 0;
  std::string above{};  ///< what larger values mean: "fails"; may be empty
};

/// A state of the wheel under load.
struct DeformedShape {
  const std::vector<Vec3> *displacement = nullptr;  ///< at the nodes [mm]; none: not drawn
  std::string state;                                ///< "load at 270 degrees"
  double colour_maximum = 0;                        ///< of displacements [mm]; 0: the largest one
};

/// Where a test loads the wheel and how it holds it, in a section through the axis.
struct LoadSketch {
  struct Arrow {
    Vec2 at{};         ///< (r, z) of its head [mm]; r < 0: below the axis
    Vec2 direction{};  ///< (dr, dz)
    std::string label;
  };
  struct Turn {  ///< a moment about the axis that points out of the section
    Vec2 at{};
    std::string label;
  };
  std::vector<std::string> held;  ///< surfaces of the mesh
  std::string held_label;
  std::vector<Arrow> arrows;
  std::vector<Turn> turns;
  std::vector<std::string> notes;  ///< steady loads and the like, in rows
  bool empty() const { return held.empty() && arrows.empty() && turns.empty(); }
};

/// Pictures of one mesh in one state of rating.
struct PictureSet {
  const std::vector<double> *values = nullptr;  ///< at the nodes, >= 0, in the scale's unit
  /// Of each node whether its value may be judged; where not, the surface is grey. None: all.
  const std::vector<bool> *rated = nullptr;
  std::string why_grey;  ///< "bonded hub face, weld"
  std::vector<ValueLine> lines;
  std::vector<Marker> markers;  ///< worst first
  /// Of each node the number of the marker whose place it belongs to, 0: of none. May be empty.
  std::vector<int> marker_of_node;
  std::string title;  ///< of the case
  std::string load;   ///< "rotating bending, 2310 N m"
  Verdict verdict = Verdict::not_rated;
  ColourScale scale;
  DeformedShape deformed;
  LoadSketch sketch;
  std::string folder;
  std::string prefix;  ///< of the file names: "cornering_"
};

struct Picture {
  std::string file;          ///< with its folder
  std::string view;          ///< "front", "back", "section", "closeup_1" ..., "deformed", "load"
  std::string alt;           ///< what is to be seen, in a sentence
  bool shows_worst = false;  ///< an overview in which the first marker is seen
};

/// Draws into the folder, all 1200 x 900:
///
///   <prefix>front.png      from outboard, the worst place named
///   <prefix>back.png       from inboard
///   <prefix>section.png    half plane through the first marker
///   <prefix>closeup_1.png  ... closeup_5.png: round the first five markers, as far as there are
///   <prefix>deformed.png   with a displacement: magnified, the unloaded outline beside it
///   <prefix>load.png       with a sketch: where the load acts and what is held
///
/// Markers are listed beside the picture as far as the list has room. Needs no display.
/// `besides`: other work, which the same threads do first.
/// Error when a picture can't be written (no space, no permission). One list a set: what was drawn;
/// close-ups of places that are hidden from everywhere are left out.
std::vector<std::vector<Picture>> draw_picture_sets(const Mesh &, const std::vector<PictureSet> &,
                                                    const Jobs &besides = {});

}  // namespace felloe
