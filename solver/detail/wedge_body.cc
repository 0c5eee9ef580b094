// SPDX-License-Identifier: GPL-3.0-or-later
// The body as 2 N equal wedges, every other one mirrored: one wedge's matrix for all.
#include <algorithm>
#include <cmath>
#include <functional>
#include <future>
#include <utility>

#include "solver/detail/body.h"
#include "solver/detail/elimination_order.h"
#include "solver/detail/mirrored_ring.h"
#include "solver/detail/parallel.h"
#include "solver/detail/repeated_piece.h"
#include "solver/detail/wedge_mesh.h"

namespace felloe::detail {
namespace {

using Six = std::array<double, 6>;

/// Force and moment, or shift and turn, seen from axes turned about z by the angle.
Six seen_from(const Six &v, double angle) {
  const double c = std::cos(angle), s = std::sin(angle);
  return {c * v[0] + s * v[1], c * v[1] - s * v[0], v[2],
          c * v[3] + s * v[4], c * v[4] - s * v[3], v[5]};
}

/// Half of a force on a plane counts in each of the two wedges at it.
std::vector<double> shared_on_planes(const WedgeMesh &wedge) {
  std::vector<double> weight(wedge.piece.nodes.size(), 1.0);
  for (const int n : wedge.cut) weight[n] = 0.5;
  for (const int n : wedge.mirror) weight[n] = 0.5;
  return weight;
}

/// What all factors share. The order of elimination is found beside the assembly.
struct WedgeParts {
  const WedgeMesh wedge;
  std::future<std::vector<long>> ordering;
  const RepeatedPiece copies;
  const std::vector<long> position;  ///< of each node of the piece, see elimination_order()

  WedgeParts(const BodyInput &in, WedgeMesh w)
      : wedge(std::move(w)),
        ordering(std::async(std::launch::async, elimination_order, std::cref(wedge.piece),
                            std::cref(wedge.cut))),
        copies(in, wedge.piece, wedge.cells, wedge.whole, true, shared_on_planes(wedge)),
        position(ordering.get()) {}
};

class WedgeResponses : public NodalResponses {
 public:
  WedgeResponses(const WedgeParts &parts, const ConstraintMap &map, RingSolutions q)
      : parts_(parts), map_(map), q_(std::move(q)) {}
  void put(int load, NodalResponse &response) const override {
    std::vector<const double *> of_copies;
    for (int w = 0; w < q_.n_wedges; ++w) of_copies.push_back(q_.at(load, w));
    parts_.copies.put_displacement(map_, of_copies, response.displacement);
    response.motion = {};
    if (map_.n_motions == 0) return;
    Six motion;
    std::copy_n(of_copies[0] + map_.n_masters, 6, motion.begin());
    response.motion = seen_from(motion, -parts_.wedge.angle);
  }

 private:
  const WedgeParts &parts_;
  const ConstraintMap &map_;
  const RingSolutions q_;
};

class WedgeFactor : public FactoredBody {
 public:
  WedgeFactor(const WedgeParts &parts, const Supports &supports)
      : parts_(parts), map_(parts.copies.map(supports)), ring_(wedge_matrix()) {}

  std::unique_ptr<NodalResponses> solve(const std::vector<NodalLoad> &loads) const override {
    const int n_loads = static_cast<int>(loads.size());
    std::vector<SparseVector> right_hand_sides(loads.size());
    parallel_for(0, n_loads, [&](int l) {
      right_hand_sides[l] = parts_.copies.reduced_forces(map_, loads[l].force);
      if (map_.n_motions > 0)
        add_adapter(seen_from(loads[l].on_adapter, parts_.wedge.angle), right_hand_sides[l]);
    });
    return std::make_unique<WedgeResponses>(parts_, map_, ring_.solve(right_hand_sides));
  }

  double entries() const override { return ring_.entries(); }
  double late_factor_seconds() const override { return ring_.factor_seconds(); }

 private:
  WedgeMatrix wedge_matrix() const {
    WedgeMatrix w;
    w.matrix = reduced(map_, parts_.copies.stiffness());
    w.group = map_.group;
    w.n_sectors = parts_.wedge.n_sectors();
    std::vector<bool> taken(map_.n_reduced(), false);
    // calls add(unknown, is hoop) once for each unknown of the nodes
    const auto each = [&](const std::vector<int> &nodes, auto &&add) {
      for (const int node : nodes)
        for (int c = 0; c < 3; ++c) {
          const int u = map_.unknown[3L * node + c];
          if (u < 0 || taken[u]) continue;  // held, on the adapter, or follows one already there
          taken[u] = true;
          add(u, c == 1);
        }
    };
    each(parts_.wedge.cut, [&](int u, bool is_hoop) {
      w.cut.push_back(u);
      w.cut_is_hoop.push_back(is_hoop);
    });
    each(parts_.wedge.mirror,
         [&](int u, bool is_hoop) { (is_hoop ? w.across : w.within).push_back(u); });
    for (int m = 0; m < map_.n_motions; ++m) w.adapter.push_back(map_.n_masters + m);
    w.position.assign(map_.n_reduced(), 0);
    for (std::size_t u = 0; u < map_.unknown.size(); ++u)
      if (map_.unknown[u] >= 0) w.position[map_.unknown[u]] = parts_.position[u / 3];
    return w;
  }

  /// What acts on the adapter itself counts in the first wedge, whose unknowns end with it.
  void add_adapter(const Six &force, SparseVector &right_hand_side) const {
    std::vector<std::pair<int, double>> entries;
    for (std::size_t e = 0; e < right_hand_side.size(); ++e)
      entries.push_back({right_hand_side.at[e], right_hand_side.value[e]});
    for (int m = 0; m < map_.n_motions; ++m) entries.push_back({map_.n_masters + m, force[m]});
    right_hand_side = summed(std::move(entries));
  }

  const WedgeParts &parts_;
  ConstraintMap map_;
  mutable MirroredRing ring_;  ///< makes its factors when they are first needed
};

class WedgeBody : public Body {
 public:
  WedgeBody(const BodyInput &in, WedgeMesh wedge) : parts_(in, std::move(wedge)) {}

  void multiply(const std::vector<const std::vector<double> *> &u,
                std::vector<std::vector<double>> &products) const override {
    parts_.copies.multiply(u, products);
  }

  std::unique_ptr<FactoredBody> factored(const Supports &supports,
                                         const ConstraintMap &) const override {
    return std::make_unique<WedgeFactor>(parts_, supports);
  }

  std::vector<double> node_stiffness() const override { return parts_.copies.node_stiffness(); }
  int n_sectors() const override { return parts_.wedge.n_sectors(); }
  bool is_mirrored() const override { return true; }
  bool suits(const Mesh &mesh, const Supports &supports) const override {
    return same_in_every_sector(mesh, supports) && are_mirrored(mesh, supports.lifted) &&
           std::all_of(supports.held.begin(), supports.held.end(),
                       [&](const Support &s) { return is_mirrored_place(mesh, s.place); }) &&
           (supports.adapter_surface.empty() || is_mirrored_place(mesh, supports.adapter_surface));
  }
  std::map<Part, double> part_volumes() const override { return parts_.copies.part_volumes(); }

 private:
  /// Equal in both wedges of a sector; that sectors are equal is known already.
  bool is_mirrored_place(const Mesh &mesh, const std::string &place) const {
    return are_mirrored(
        mesh, mesh.surfaces.count(place) ? surface_nodes(mesh, place) : line(mesh, place));
  }
  bool are_mirrored(const Mesh &mesh, const std::vector<int> &nodes) const {
    std::vector<bool> member(mesh.nodes.size(), false);
    for (const int n : nodes) member[n] = true;
    const std::vector<int> &first = parts_.wedge.whole[0], &second = parts_.wedge.whole[1];
    for (std::size_t n = 0; n < first.size(); ++n)
      if (member[first[n]] != member[second[n]]) return false;
    return true;
  }

  WedgeParts parts_;
};

}  // namespace

std::unique_ptr<Body> wedge_body(const BodyInput &in) {
  if (in.frame != NodalFrame::cylindrical) return nullptr;
  std::optional<WedgeMesh> wedge = wedge_mesh(in.mesh);
  if (!wedge) return nullptr;
  return std::make_unique<WedgeBody>(in, std::move(*wedge));
}

}  // namespace felloe::detail
