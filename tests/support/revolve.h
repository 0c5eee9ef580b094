// SPDX-License-Identifier: GPL-3.0-or-later
// A section mesh turned round the axis into a 3D mesh, for tests.
#pragma once
#include "mesher/mesh.h"

namespace felloe::test {

/// n_theta cells round the axis. The third local coordinate runs against theta, so that cells are
/// right-handed; surfaces keep the names of the edges; cell c of the section becomes the cells
/// c n_theta ... c n_theta + n_theta - 1, the last at theta = 0 ... 2 pi / n_theta.
inline Mesh revolve(const SectionMesh &section, int n_theta) {
  Mesh mesh;
  const int n_half = 2 * n_theta;
  for (const Vec2 &rz : section.nodes)
    for (int k = 0; k < n_half; ++k) mesh.nodes.push_back(revolved(rz, -pi * k / n_theta));
  for (std::size_t c = 0; c < section.cells.size(); ++c)
    for (int t = 0; t < n_theta; ++t) {
      std::array<int, 27> nodes;
      for (int i = 0; i < 27; ++i)
        nodes[i] = section.cells[c][i % 9] * n_half + (2 * t + i / 9) % n_half;
      mesh.cells.push_back(nodes);
      mesh.parts.push_back(section.parts[c]);
    }
  for (const auto &[name, faces] : section.edges)
    for (const CellFace &face : faces)
      for (int t = 0; t < n_theta; ++t)
        mesh.surfaces[name].push_back({face.cell * n_theta + t, face.face});
  for (std::size_t i = 0; i < section.node_parts.size(); ++i)
    mesh.node_parts.insert(mesh.node_parts.end(), n_half, section.node_parts[i]);
  for (const PressFitPair &pair : section.press_fit)
    for (int k = 0; k < n_half; ++k)
      mesh.press_fit.push_back({pair.disc_node * n_half + k, pair.rim_node * n_half + k});
  mesh.n_theta = n_theta;
  return mesh;
}

}  // namespace felloe::test
