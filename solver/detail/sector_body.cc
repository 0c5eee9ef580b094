// SPDX-License-Identifier: GPL-3.0-or-later
// The body as N equal sectors: one sector's matrix, one sector's factor.
#include <algorithm>

#include "solver/detail/body.h"
#include "solver/detail/cyclic_condensation.h"
#include "solver/detail/cyclic_system.h"
#include "solver/detail/repeated_piece.h"
#include "solver/detail/sector_mesh.h"

namespace felloe::detail {
namespace {

/// Forces on a cut belong to the sector that begins there.
std::vector<double> counted_on_left(const SectorMesh &sector) {
  std::vector<double> weight(sector.piece.nodes.size(), 1.0);
  for (const int n : sector.right) weight[n] = 0;
  return weight;
}

/// What all factors share.
struct SectorParts {
  const SectorMesh sector;
  const RepeatedPiece copies;

  SectorParts(const BodyInput &in, SectorMesh s)
      : sector(std::move(s)),
        copies(in, sector.piece, sector.cells, sector.whole, false, counted_on_left(sector)) {}
  int n_sectors() const { return copies.n_copies(); }
};

SectorMatrix sector_matrix(const SectorParts &parts, const ConstraintMap &map) {
  SectorMatrix s;
  s.matrix = reduced(map, parts.copies.stiffness());
  s.group = map.group;
  s.n_sectors = parts.n_sectors();
  std::vector<bool> taken(map.n_reduced(), false);
  for (std::size_t i = 0; i < parts.sector.left.size(); ++i)
    for (int c = 0; c < 3; ++c) {
      const int u = map.unknown[3L * parts.sector.left[i] + c];
      const int v = map.unknown[3L * parts.sector.right[i] + c];
      if (u < 0 || taken[u]) continue;  // held, on the adapter, or follows a node already there
      taken[u] = true;
      s.left.push_back(u);
      s.right.push_back(v);
    }
  for (int m = 0; m < map.n_motions; ++m) s.adapter.push_back(map.n_masters + m);
  return s;
}

class SectorResponses : public NodalResponses {
 public:
  SectorResponses(const SectorParts &parts, const ConstraintMap &map, std::vector<double> q)
      : parts_(parts), map_(map), q_(std::move(q)) {}
  void put(int load, NodalResponse &response) const override {
    const long n = map_.n_reduced(), n_sectors = parts_.n_sectors();
    const double *q = q_.data() + load * n_sectors * n;
    std::vector<const double *> of_copies;
    for (long k = 0; k < n_sectors; ++k) of_copies.push_back(q + k * n);
    parts_.copies.put_displacement(map_, of_copies, response.displacement);
    std::copy(q + map_.n_masters, q + n, response.motion.begin());
  }

 private:
  const SectorParts &parts_;
  const ConstraintMap &map_;
  const std::vector<double> q_;
};

class SectorFactor : public FactoredBody {
 public:
  SectorFactor(const SectorParts &parts, const Supports &supports)
      : parts_(parts), map_(parts.copies.map(supports)), system_(sector_matrix(parts, map_)) {}

  std::unique_ptr<NodalResponses> solve(const std::vector<NodalLoad> &loads) const override {
    const long of_load = 1L * parts_.n_sectors() * map_.n_reduced();
    std::vector<double> right_hand_sides(of_load * loads.size(), 0.0);
    std::vector<std::array<double, 6>> adapter_force;
    for (std::size_t l = 0; l < loads.size(); ++l) {
      add_to(parts_.copies.reduced_forces(map_, loads[l].force),
             right_hand_sides.data() + of_load * l);
      adapter_force.push_back(loads[l].on_adapter);
    }
    return std::make_unique<SectorResponses>(parts_, map_,
                                             system_.solve(right_hand_sides, adapter_force));
  }

  double entries() const override { return system_.entries(); }

 private:
  const SectorParts &parts_;
  ConstraintMap map_;
  CyclicSystem system_;
};

class SectorBody : public Body {
 public:
  SectorBody(const BodyInput &in, SectorMesh sector) : parts_(in, std::move(sector)) {}

  void multiply(const std::vector<const std::vector<double> *> &u,
                std::vector<std::vector<double>> &products) const override {
    parts_.copies.multiply(u, products);
  }

  std::unique_ptr<FactoredBody> factored(const Supports &supports,
                                         const ConstraintMap &) const override {
    return std::make_unique<SectorFactor>(parts_, supports);
  }

  /// Components of the whole mesh that turn into each other are one unknown of a sector.
  std::vector<double> condensed(const Supports &supports, const ConstraintMap &whole_map,
                                const std::vector<long> &components) const override {
    const ConstraintMap map = parts_.copies.map(supports);
    std::vector<bool> on_right(parts_.sector.piece.nodes.size(), false);
    for (const int n : parts_.sector.right) on_right[n] = true;
    std::vector<long> place(whole_map.unknown.size(), -1);  // of components in the whole mesh
    for (std::size_t i = 0; i < components.size(); ++i) place[components[i]] = static_cast<long>(i);
    std::vector<long> kept, sector_of(components.size(), -1), number_of(components.size(), -1);
    const auto &whole = parts_.sector.whole;
    for (std::size_t n = 0; n < whole[0].size(); ++n)
      for (int c = 0; c < 3; ++c) {
        if (on_right[n] || place[3L * whole[0][n] + c] < 0) continue;
        for (int k = 0; k < parts_.n_sectors(); ++k) {
          const long at = place[3L * whole[k][n] + c];
          if (at < 0) return {};  // not the same in every sector
          sector_of[at] = k;
          number_of[at] = static_cast<long>(kept.size());
        }
        kept.push_back(map.unknown[3 * n + c]);
      }
    if (kept.size() * parts_.n_sectors() != components.size()) return {};
    const CyclicStiffness ring = condensed_ring(sector_matrix(parts_, map), kept);
    const std::size_t n = components.size();
    std::vector<double> result(n * n);
    for (std::size_t j = 0; j < n; ++j)
      for (std::size_t i = 0; i < n; ++i)
        result[j * n + i] = ring.entry(sector_of[i], number_of[i], sector_of[j], number_of[j]);
    return result;
  }

  std::vector<double> node_stiffness() const override { return parts_.copies.node_stiffness(); }
  int n_sectors() const override { return parts_.n_sectors(); }
  bool suits(const Mesh &mesh, const Supports &supports) const override {
    return same_in_every_sector(mesh, supports);
  }
  std::map<Part, double> part_volumes() const override { return parts_.copies.part_volumes(); }

 private:
  SectorParts parts_;
};

bool turns_into_itself(const Mesh &mesh, const std::vector<int> &nodes) {
  if (mesh.turned.empty()) return true;
  std::vector<bool> member(mesh.nodes.size(), false);
  for (const int n : nodes) member[n] = true;
  return std::all_of(nodes.begin(), nodes.end(), [&](int n) { return member[mesh.turned[n]]; });
}

}  // namespace

bool same_in_every_sector(const Mesh &mesh, const Supports &supports) {
  for (const Support &s : supports.held) {
    if (s.value) return false;
    const bool is_surface = mesh.surfaces.count(s.place) > 0;
    if (!is_surface && !mesh.lines.count(s.place)) return false;
    if (!turns_into_itself(mesh, is_surface ? surface_nodes(mesh, s.place) : line(mesh, s.place)))
      return false;
  }
  return turns_into_itself(mesh, supports.lifted) &&
         (supports.adapter_surface.empty() ||
          turns_into_itself(mesh, surface_nodes(mesh, supports.adapter_surface)));
}

std::unique_ptr<Body> sector_body(const BodyInput &in) {
  if (in.frame != NodalFrame::cylindrical) return nullptr;
  std::optional<SectorMesh> sector = sector_mesh(in.mesh);
  if (!sector) return nullptr;
  return std::make_unique<SectorBody>(in, std::move(*sector));
}

}  // namespace felloe::detail
