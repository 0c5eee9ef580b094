// SPDX-License-Identifier: GPL-3.0-or-later
// The rated surface as a piece of a page: turned, zoomed and read point by point in the browser.
#pragma once
#include <string>
#include <utility>
#include <vector>

#include "mesher/mesh.h"
#include "post/html/page.h"

namespace felloe {

/// What the surface can be coloured by.
struct SurfaceQuantity {
  std::string name, unit;
  const std::vector<double> *values = nullptr;  ///< at the nodes; not-a-number: not computed
  double low = 0, high = 1;   ///< ends of the colour scale; larger values get a colour of their own
  bool logarithmic = false;   ///< 0 < low
  bool small_is_bad = false;  ///< lives: the dark end of the colours is the low one
  std::string remark;         ///< under the colour scale; may be empty
};

/// A rated place, at a node of the surface.
struct SurfaceSpot {
  int number = 0;
  Vec3 position{};    ///< [mm]
  std::string label;  ///< "vent edge outboard, 182 MPa"
  std::vector<std::pair<std::string, std::string>>
      rows;  ///< name and value, as the report has them
};

/// One rig test, or one load of a plain disc.
struct SurfaceLoad {
  std::string name;
  std::string load;  ///< "2310 N m"; may be empty
  std::vector<SurfaceQuantity> quantities;
  std::vector<SurfaceSpot> spots;  ///< worst first
  /// At the nodes: 0 where the stress may not be judged, else 1; empty: it may be everywhere. Faces
  /// are grey whose middle node may not be judged, as in the pictures.
  std::vector<double> rated{};
  std::string why_grey{};  ///< "weld, hub face"
};

/// False when the program was built without node and npm; the view is then a sentence.
bool surface_view_built();

/// The view with its script and style sheet. Values are
/// written in single precision and shown at nodes only, never between them. What a browser without
/// scripts shows is a sentence that points to the pictures. All texts may be foreign.
/// A page can hold one view. std::logic_error when values do not fit the mesh.
HtmlFragment surface_view(const Mesh &, const std::vector<SurfaceLoad> &);

/// The upper end of a linear scale: the round number that all but 0.1 % of the values stay below,
/// not-a-number left out; 1 when there is nothing above zero.
double scale_end(std::vector<double> values);

/// Ends of a scale of lives: whole decades from the shortest life on, at least two, up to 1e8
/// cycles where that is more.
std::pair<double, double> life_scale(const std::vector<double> &lives);

}  // namespace felloe
