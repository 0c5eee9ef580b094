// SPDX-License-Identifier: GPL-3.0-or-later
#include "post/rated_nodes.h"

#include <cmath>

#include "post/skin.h"

namespace felloe {
namespace {

/// Calls visit(node) for the nodes of a place in every sector.
template <class Visit>
void in_all_sectors(const Mesh &mesh, const RatedPlace &place, const Visit &visit) {
  const auto turned_round = [&](int node) {
    for (int k = 0; k < std::max(1, mesh.symmetry); ++k) {
      visit(node);
      if (!mesh.turned.empty()) node = mesh.turned[node];
    }
  };
  for (const int node : place.nodes) turned_round(node);
  for (const ToePoint &toe : place.toe_points)
    for (const int node : toe.nodes) turned_round(node);
}

}  // namespace

std::vector<bool> judged_nodes(const Mesh &mesh, const std::vector<RatedPlace> &places) {
  std::vector<bool> judged(mesh.nodes.size(), true);
  for (const CellFace &face : boundary_faces(mesh))
    for (const int node : face_nodes(mesh, face)) judged[node] = false;
  for (const RatedPlace &place : places)
    in_all_sectors(mesh, place, [&](int node) { judged[node] = true; });
  return judged;
}

std::vector<double> error_percent_of_nodes(const Mesh &mesh, const std::vector<RatedPlace> &places,
                                           const std::vector<HotSpot> &spots,
                                           const std::string &test) {
  std::vector<double> error(mesh.nodes.size(), std::nan(""));
  for (const RatedPlace &place : places)
    for (const HotSpot &spot : spots)
      if (spot.test == test && spot.feature == place.feature && spot.error_percent >= 0)
        in_all_sectors(mesh, place, [&](int node) { error[node] = spot.error_percent; });
  return error;
}

}  // namespace felloe
