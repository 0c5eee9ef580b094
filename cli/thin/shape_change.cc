// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/thin/shape_change.h"

#include <algorithm>
#include <numeric>

#include "cli/thin/cell_mechanics.h"

namespace felloe {
namespace {

constexpr double same = 1e-10;  ///< of positions that did not change but for rounding [mm]

bool apart(const Vec3 &a, const Vec3 &b) {
  return std::abs(a[0] - b[0]) > same || std::abs(a[1] - b[1]) > same ||
         std::abs(a[2] - b[2]) > same;
}

/// Shifted as a whole it has the same matrix.
bool changes_shape(const std::array<int, 27> &cell, const ShapeChange &change) {
  const Vec3 shift = subtract(change.up->nodes[cell[0]], change.down->nodes[cell[0]]);
  return std::any_of(cell.begin(), cell.end(), [&](int n) {
    return apart(subtract(change.up->nodes[n], change.down->nodes[n]), shift);
  });
}

CellNodes positions(const Mesh &mesh, int cell) {
  CellNodes x;
  for (int a = 0; a < 27; ++a) x[a] = mesh.nodes[mesh.cells[cell][a]];
  return x;
}

/// Where the rigid adapter carries a node.
Vec3 carried(const std::array<double, 6> &m, const Vec3 &x) {
  return add({m[0], m[1], m[2]}, cross({m[3], m[4], m[5]}, x));
}

class ChangeLoads {
 public:
  ChangeLoads(const ShapeChange &change, const Supports &supports,
              const std::map<Part, Material> &materials, const std::vector<Solution> &solutions)
      : change_(change),
        materials_(materials),
        solutions_(solutions),
        on_adapter_(change.up->nodes.size(), false),
        free_(!supports.adapter_surface.empty() && !supports.adapter_held) {
    if (!free_) return;
    adapter_ = surface_nodes(*change.up, supports.adapter_surface);
    for (const int n : adapter_) {
      on_adapter_[n] = true;
      adapter_moves_ = adapter_moves_ || apart(change.up->nodes[n], change.down->nodes[n]);
    }
  }

  std::vector<LoadCase> loads(const ForceChange &forces) const {
    auto rest_up = rest(*change_.up, forces.up), rest_down = rest(*change_.down, forces.down);
    std::vector<LoadCase> all(solutions_.size());
    const double share = 0.5 / change_.step;
    for (std::size_t l = 0; l < all.size(); ++l) {
      all[l].name = "change under " + solutions_[l].load_case;
      for (std::size_t n = 0; n < on_adapter_.size(); ++n) {
        const Vec3 d = scale(share, subtract(rest_up[l][n], rest_down[l][n]));
        if (!on_adapter_[n] && (d[0] != 0 || d[1] != 0 || d[2] != 0))
          all[l].point_forces.push_back({static_cast<int>(n), d});
      }
      Resultant &r = all[l].adapter;
      for (const int n : adapter_) {
        r.force = add(r.force, scale(share, subtract(rest_up[l][n], rest_down[l][n])));
        r.moment =
            add(r.moment, scale(share, subtract(cross(change_.up->nodes[n], rest_up[l][n]),
                                                cross(change_.down->nodes[n], rest_down[l][n]))));
      }
    }
    return all;
  }

 private:
  /// f - K u on one of the meshes, the adapter's nodes carried to their new places; cells that
  /// change nothing left out.
  std::vector<std::vector<Vec3>> rest(const Mesh &mesh,
                                      const std::vector<std::vector<Vec3>> &forces) const {
    const std::size_t n_loads = solutions_.size();
    std::vector<std::vector<Vec3>> sum = forces;
    sum.resize(n_loads);
    for (auto &f : sum) f.resize(mesh.nodes.size());
    std::vector<CellNodes> u(n_loads), f(n_loads);
    for (std::size_t c = 0; c < mesh.cells.size(); ++c) {
      const auto &cell = mesh.cells[c];
      const bool at_adapter = adapter_moves_ && std::any_of(cell.begin(), cell.end(),
                                                            [&](int n) { return on_adapter_[n]; });
      if (!at_adapter && !changes_shape(cell, change_)) continue;
      for (std::size_t l = 0; l < n_loads; ++l) {
        f[l] = {};
        for (int a = 0; a < 27; ++a)
          u[l][a] = on_adapter_[cell[a]]
                        ? carried(solutions_[l].adapter_motion, mesh.nodes[cell[a]])
                        : solutions_[l].displacement[cell[a]];
      }
      add_cell_forces(positions(mesh, static_cast<int>(c)), materials_.at(mesh.parts[c]), u, f);
      for (std::size_t l = 0; l < n_loads; ++l)
        for (int a = 0; a < 27; ++a) sum[l][cell[a]] = subtract(sum[l][cell[a]], f[l][a]);
    }
    return sum;
  }

  const ShapeChange &change_;
  const std::map<Part, Material> &materials_;
  const std::vector<Solution> &solutions_;
  std::vector<bool> on_adapter_;
  std::vector<int> adapter_;
  bool free_, adapter_moves_ = false;
};

}  // namespace

std::vector<LoadCase> loads_of_change(const ShapeChange &change, const ForceChange &forces,
                                      const Supports &supports,
                                      const std::map<Part, Material> &materials,
                                      const std::vector<Solution> &solutions) {
  return ChangeLoads(change, supports, materials, solutions).loads(forces);
}

StressAtNodes::StressAtNodes(const Mesh &mesh, std::vector<int> nodes)
    : nodes_(std::move(nodes)), place_(mesh.nodes.size(), -1), n_cells_(nodes_.size(), 0) {
  std::vector<int> wanted(mesh.nodes.size(), -1);
  for (std::size_t k = 0; k < nodes_.size(); ++k) wanted[nodes_[k]] = static_cast<int>(k);
  for (std::size_t c = 0; c < mesh.cells.size(); ++c)
    for (int a = 0; a < 27; ++a) {
      const int k = wanted[mesh.cells[c][a]];
      if (k < 0 || mesh.node_parts[nodes_[k]] != mesh.parts[c]) continue;
      corners_.push_back({k, static_cast<int>(c), a});
      ++n_cells_[k];
      for (const int n : mesh.cells[c])
        if (place_[n] < 0) {
          place_[n] = static_cast<int>(around_.size());
          around_.push_back(n);
        }
    }
}

std::vector<std::vector<Stress>> StressAtNodes::stresses(
    const Mesh &moved, const std::map<Part, Material> &materials,
    const std::vector<std::vector<Vec3>> &displacements) const {
  std::vector<std::vector<Stress>> all(displacements.size(), std::vector<Stress>(nodes_.size()));
  CellNodes u;
  for (const Corner &corner : corners_) {
    const auto &cell = moved.cells[corner.cell];
    const CellNodes g = gradients_at_node(positions(moved, corner.cell), corner.local);
    const Material &material = materials.at(moved.parts[corner.cell]);
    for (std::size_t l = 0; l < all.size(); ++l) {
      for (int a = 0; a < 27; ++a) u[a] = displacements[l][place_[cell[a]]];
      Stress &sum = all[l][corner.of];
      sum = sum + (1.0 / n_cells_[corner.of]) * cell_stress(g, u, material);
    }
  }
  return all;
}

}  // namespace felloe
