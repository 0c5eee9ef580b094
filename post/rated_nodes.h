// SPDX-License-Identifier: GPL-3.0-or-later
// Rated places as fields over all nodes of the mesh.
#pragma once
#include <algorithm>
#include <string>
#include <vector>

#include "post/rated_places.h"
#include "post/rating.h"

namespace felloe {

/// Calls visit(node) for nodes of one sector and all that they become by turning.
template <class Visit>
void in_all_sectors(const Mesh &mesh, const std::vector<int> &nodes, const Visit &visit) {
  for (int node : nodes)
    for (int k = 0; k < std::max(1, mesh.symmetry); ++k) {
      visit(node);
      if (!mesh.turned.empty()) node = mesh.turned[node];
    }
}

/// Of each node whether its stress may be judged: nodes of rated places and the read-out points of
/// weld toes, in all sectors, and what lies inside the material. False is left for the surface
/// whose stress means nothing: the bonded hub face, welds and their toes, ends of sheets.
std::vector<bool> judged_nodes(const Mesh &, const std::vector<RatedPlace> &);

/// Error bar of the stress at the nodes of every rated place: that of its hot spot under the test,
/// in all sectors [%]; not-a-number where none is estimated.
std::vector<double> error_percent_of_nodes(const Mesh &, const std::vector<RatedPlace> &,
                                           const std::vector<HotSpot> &, const std::string &test);

}  // namespace felloe
