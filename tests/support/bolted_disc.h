// SPDX-License-Identifier: GPL-3.0-or-later
// A disc on four bolts for tests of contact, tilted by its hub.
#pragma once
#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include "solver/contact.h"
#include "tests/support/block_mesh.h"
#include "tests/support/steel.h"

namespace felloe::test {

/// Disc r 30 ... 100, 10 thick, in four equal sectors; hub face r < 70 below, four bolt seats
/// above.
inline Mesh bolted_disc(bool repeats, bool seats_everywhere = false) {
  const int n_theta = 16;
  Mesh mesh = block_mesh(ring(30, 100, 0, 10, {7, n_theta, 1}));
  for (const CellFace &f : mesh.surfaces.at("bottom"))
    if (f.cell % 7 < 4) mesh.surfaces["hub face"].push_back(f);
  for (const CellFace &f : mesh.surfaces.at("top")) {
    const int a = f.cell % 7, j = f.cell / 7, quarter = j / 4;
    if (seats_everywhere ? a < 4 : (a == 1 || a == 2) && j % 4 == 0)
      mesh.surfaces["seat " + std::to_string(quarter + 1)].push_back(f);
  }
  if (!repeats) return mesh;
  mesh.symmetry = 4;
  for (const Vec3 &x : mesh.nodes) mesh.turned.push_back(node_at(mesh, {-x[1], x[0], x[2]}));
  return mesh;
}

inline HubContact four_bolts(FaceFriction friction) {
  HubContact c;
  c.friction = friction;
  for (int k = 1; k <= 4; ++k) c.bolts.push_back({"seat " + std::to_string(k), 20000, 3e5});
  return c;
}

inline std::vector<LoadCase> moments() {
  std::vector<LoadCase> loads(2);
  loads[0].name = "moment about x";
  loads[0].adapter.moment = {1e6, 0, 0};
  loads[1].name = "moment about y";
  loads[1].adapter.moment = {0, 1e6, 0};
  return loads;
}

inline std::vector<double> turned_moment(double size, double angle) {
  return {size * std::cos(angle), size * std::sin(angle)};
}

inline Supports rim_held() {
  Supports supports;
  supports.held = {{"outside"}};
  return supports;
}

struct Bolted {
  Mesh mesh;
  ElasticModel model;
  ContactModel contact;
  static HubContact rubbing(HubContact c, double coefficient, std::array<bool, 6> adapter_free) {
    c.friction_coefficient = coefficient;
    c.adapter_free = adapter_free;
    return c;
  }
  Bolted(bool repeats, FaceFriction friction,
         double coefficient = std::numeric_limits<double>::infinity(),
         std::array<bool, 6> adapter_free = HubContact{}.adapter_free)
      : mesh(bolted_disc(repeats)),
        model(mesh, {{Part::disc, steel()}}, NodalFrame::cylindrical),
        contact(mesh, model, rim_held(), rubbing(four_bolts(friction), coefficient, adapter_free),
                moments()) {}
};

constexpr double opening_moment = 1.2;  ///< [1e6 N mm]; part of the face lifts off

}  // namespace felloe::test
