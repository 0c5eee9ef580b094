// SPDX-License-Identifier: GPL-3.0-or-later
#include "post/rated_nodes.h"

#include <cmath>

#include "post/skin.h"

namespace felloe {
namespace {

/// Calls visit(node) for the nodes of a place in every sector, those that its toes are read at too.
template <class Visit>
void of_place(const Mesh &mesh, const RatedPlace &place, const Visit &visit) {
  in_all_sectors(mesh, place.nodes, visit);
  for (const ToePoint &toe : place.toe_points) in_all_sectors(mesh, toe.nodes, visit);
}

}  // namespace

std::vector<bool> judged_nodes(const Mesh &mesh, const std::vector<RatedPlace> &places) {
  std::vector<bool> judged(mesh.nodes.size(), true);
  for (const CellFace &face : boundary_faces(mesh))
    for (const int node : face_nodes(mesh, face)) judged[node] = false;
  for (const RatedPlace &place : places)
    of_place(mesh, place, [&](int node) { judged[node] = true; });
  return judged;
}

std::vector<double> error_percent_of_nodes(const Mesh &mesh, const std::vector<RatedPlace> &places,
                                           const std::vector<HotSpot> &spots,
                                           const std::string &test) {
  std::vector<double> error(mesh.nodes.size(), std::nan(""));
  for (const RatedPlace &place : places)
    for (const HotSpot &spot : spots)
      if (spot.test == test && spot.feature == place.feature && spot.error_percent >= 0)
        of_place(mesh, place, [&](int node) { error[node] = spot.error_percent; });
  return error;
}

}  // namespace felloe
