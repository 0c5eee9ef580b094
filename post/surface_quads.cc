// SPDX-License-Identifier: GPL-3.0-or-later
// The outer surface of a mesh as flat quads between its own nodes, for files.
#include "post/surface_quads.h"

namespace felloe {

SurfaceQuads surface_quads(const Mesh &mesh, const std::vector<CellFace> &faces, bool fine) {
  SurfaceQuads out;
  const int step = fine ? 1 : 2;  // between nodes of a face, lexicographic 3 x 3
  for (const CellFace &face : faces) {
    const auto n = face_nodes(mesh, face);
    for (int j = 0; j < 2; j += step)
      for (int i = 0; i < 2; i += step) {
        const int first = i + 3 * j;
        out.quads.push_back({n[first], n[first + step], n[first + 4 * step], n[first + 3 * step]});
        out.parts.push_back(mesh.parts.empty() ? Part::disc : mesh.parts[face.cell]);
      }
  }
  std::vector<int> place(mesh.nodes.size(), -1);
  for (const auto &quad : out.quads)
    for (const int n : quad) place[n] = 0;
  for (std::size_t n = 0; n < place.size(); ++n)
    if (place[n] == 0) {
      place[n] = static_cast<int>(out.nodes.size());
      out.nodes.push_back(static_cast<int>(n));
    }
  for (auto &quad : out.quads)
    for (int &n : quad) n = place[n];
  return out;
}

}  // namespace felloe
