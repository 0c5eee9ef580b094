// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/bench/exported_problem.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <fstream>
#include <type_traits>

#include "cli/unit_solutions.h"
#include "mesher/error.h"

namespace felloe::bench {
namespace {

template <class T>
void write(const std::string &file, const std::vector<T> &values) {
  static_assert(std::is_trivially_copyable<T>::value, "written as bytes");
  std::ofstream out(file, std::ios::binary);
  out.write(reinterpret_cast<const char *>(values.data()),
            static_cast<std::streamsize>(values.size() * sizeof(T)));
  if (!out) throw Error(file + ": cannot be written: check folder and free space");
}

std::array<double, 2> lame_of(const Material &m) {
  const double e = m.youngs_modulus, nu = m.poissons_ratio;
  return {e * nu / ((1 + nu) * (1 - 2 * nu)), e / (2 * (1 + nu))};
}

}  // namespace

void export_problem(const MeshedCase &m, const std::string &folder) {
  Mesh mesh = m.analysis.mesh;
  mesh.position = nullptr;
  const PartMaterials materials = {{Part::disc, m.input.disc_material},
                                   {Part::rim, m.input.rim_material},
                                   {Part::weld, m.input.weld_material}};
  std::vector<std::array<std::int64_t, 27>> cells;
  std::vector<std::array<double, 2>> lame;
  for (std::size_t c = 0; c < mesh.cells.size(); ++c) {
    cells.emplace_back();
    std::copy(mesh.cells[c].begin(), mesh.cells[c].end(), cells.back().begin());
    lame.push_back(lame_of(materials.at(mesh.parts[c])));
  }
  const std::vector<int> nodes = surface_nodes(mesh, "flange inboard");
  const std::vector<std::int64_t> held(nodes.begin(), nodes.end());
  const std::vector<LoadCase> loads = surface_loads(m);
  std::vector<Vec3> forces, displacements;
  for (const LoadCase &load : loads) {
    const std::vector<Vec3> f = nodal_forces(mesh, load);
    forces.insert(forces.end(), f.begin(), f.end());
  }
  const ElasticModel model(mesh, materials, NodalFrame::cylindrical);
  for (const Solution &s : model.solve(flange_held(), loads))
    displacements.insert(displacements.end(), s.displacement.begin(), s.displacement.end());
  write(folder + "/nodes.f64", mesh.nodes);
  write(folder + "/cells.i64", cells);
  write(folder + "/lame.f64", lame);
  write(folder + "/held.i64", held);
  write(folder + "/forces.f64", forces);
  write(folder + "/displacements.f64", displacements);
  std::ofstream sizes(folder + "/sizes.txt");
  sizes << mesh.nodes.size() << ' ' << cells.size() << ' ' << held.size() << ' ' << loads.size()
        << '\n';
  if (!sizes) throw Error(folder + "/sizes.txt: cannot be written: check folder and free space");
}

}  // namespace felloe::bench
