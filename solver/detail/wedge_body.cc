// SPDX-License-Identifier: GPL-3.0-or-later
// The body as 2 N equal wedges, every other one mirrored: one wedge's matrix for all.
#include <algorithm>
#include <cmath>
#include <functional>
#include <future>
#include <new>
#include <tuple>

#include "solver/detail/body.h"
#include "solver/detail/cholmod_view.h"
#include "solver/detail/mirrored_ring.h"
#include "solver/detail/parallel.h"
#include "solver/detail/wedge_mesh.h"

namespace felloe::detail {
namespace {

/// The wedge with its axes, stiffness and numbering, shared by all factors.
struct WedgeParts {
  WedgeMesh wedge;
  std::vector<Axes> axes;
  BlockMatrix stiffness;
  std::map<Part, double> part_volumes;
  std::vector<long> position;  ///< of each node of the piece in the order of elimination
  std::vector<double> share;   ///< of each node of the piece: half on a plane, else whole
  std::size_t n_whole_nodes = 0;

  int n_wedges() const { return static_cast<int>(wedge.whole.size()); }
};

/// Hoop components point the other way in mirrored wedges.
double sign_of(int wedge, int component) { return wedge % 2 == 1 && component == 1 ? -1 : 1; }

using Six = std::array<double, 6>;

/// Force and moment, or shift and turn, seen from axes turned about z by the angle.
Six seen_from(const Six &v, double angle) {
  const double c = std::cos(angle), s = std::sin(angle);
  return {c * v[0] + s * v[1], c * v[1] - s * v[0], v[2],
          c * v[3] + s * v[4], c * v[4] - s * v[3], v[5]};
}

class WedgeFactor : public FactoredBody {
 public:
  WedgeFactor(const WedgeParts &parts, const Supports &supports)
      : parts_(parts),
        map_(constraint_map(parts.wedge.piece, NodalFrame::cylindrical, parts.axes, supports,
                            std::vector<bool>(parts.wedge.piece.nodes.size(), true))),
        ring_(wedge_matrix()) {}

  std::vector<NodalResponse> solve(const std::vector<NodalLoad> &loads) const override {
    const long n = map_.n_reduced(), of_load = n * parts_.n_wedges();
    const int n_loads = static_cast<int>(loads.size());
    std::vector<double> right_hand_sides(of_load * n_loads);
    parallel_for(0, n_loads, [&](int l) {
      for (int w = 0; w < parts_.n_wedges(); ++w) {
        const std::vector<double> r = reduced(map_, forces_of_wedge(loads[l].force, w));
        std::copy(r.begin(), r.end(), right_hand_sides.begin() + l * of_load + w * n);
      }
      const Six on_adapter = seen_from(loads[l].on_adapter, parts_.wedge.angle);
      for (int m = 0; m < map_.n_motions; ++m)
        right_hand_sides[l * of_load + map_.n_masters + m] += on_adapter[m];
    });
    const std::vector<double> q = ring_.solve(right_hand_sides, n_loads);
    std::vector<NodalResponse> responses(loads.size());
    parallel_for(0, n_loads, [&](int l) { responses[l] = put_together(q.data() + l * of_load); });
    return responses;
  }

  double entries() const override { return ring_.entries(); }

 private:
  WedgeMatrix wedge_matrix() const {
    WedgeMatrix w;
    w.matrix = reduced(map_, parts_.stiffness);
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

  std::vector<double> forces_of_wedge(const std::vector<double> &whole, int w) const {
    const std::vector<int> &nodes = parts_.wedge.whole[w];
    std::vector<double> f(3 * nodes.size());
    for (std::size_t n = 0; n < nodes.size(); ++n)
      for (int c = 0; c < 3; ++c)
        f[3 * n + c] = parts_.share[n] * sign_of(w, c) * whole[3L * nodes[n] + c];
    return f;
  }

  NodalResponse put_together(const double *q) const {
    NodalResponse response;
    response.displacement.assign(3 * parts_.n_whole_nodes, 0.0);
    const std::vector<double> no_offset(map_.unknown.size(), 0.0);
    for (int w = 0; w < parts_.n_wedges(); ++w) {
      const std::vector<double> u =
          expanded(map_, q + static_cast<long>(w) * map_.n_reduced(), no_offset);
      const std::vector<int> &nodes = parts_.wedge.whole[w];
      for (std::size_t n = 0; n < nodes.size(); ++n)
        for (int c = 0; c < 3; ++c)
          response.displacement[3L * nodes[n] + c] = sign_of(w, c) * u[3 * n + c];
    }
    if (map_.n_motions) {
      Six motion;
      std::copy_n(q + map_.n_masters, 6, motion.begin());
      response.motion = seen_from(motion, -parts_.wedge.angle);
    }
    return response;
  }

  const WedgeParts &parts_;
  ConstraintMap map_;
  mutable MirroredRing ring_;  ///< makes its factors when they are first needed
};

/// Nested dissection of the nodes between the cut and the mirror plane, pairs of the press fit as
/// one: good for all supports and both parities, which take single unknowns out.
std::vector<long> elimination_order(const WedgeMesh &wedge) {
  const Mesh &mesh = wedge.piece;
  const long n = static_cast<long>(mesh.nodes.size());
  const BlockMatrix nodes = zero_matrix(mesh);
  SymmetricMatrix pattern;
  pattern.column_start = nodes.column_start;
  pattern.row.assign(nodes.row.begin(), nodes.row.end());
  std::vector<long> number(n, 0), interior, position(n, 0);
  for (const int node : wedge.cut) number[node] = -1;
  for (long node = 0; node < n; ++node) {
    if (number[node] < 0) continue;
    number[node] = static_cast<long>(interior.size());
    interior.push_back(node);
  }
  std::vector<int> leader(n), group, number_of_group(n, -1);
  for (long node = 0; node < n; ++node) leader[node] = static_cast<int>(node);
  for (const PressFitPair &pair : mesh.press_fit) leader[pair.disc_node] = pair.rim_node;
  int n_groups = 0;
  for (const long node : interior) {
    int &g = number_of_group[leader[node]];
    if (g < 0) g = n_groups++;
    group.push_back(g);
  }
  cholmod_common common;
  cholmod_l_start(&common);
  common.print = 0;
  const std::vector<long> order = nested_dissection(submatrix(pattern, number), group, common);
  cholmod_l_finish(&common);
  if (order.empty()) throw std::bad_alloc();
  for (std::size_t k = 0; k < order.size(); ++k)
    position[interior[order[k]]] = static_cast<long>(k);
  return position;
}

class WedgeBody : public Body {
 public:
  WedgeBody(const BodyInput &in, WedgeMesh wedge) {
    parts_.wedge = std::move(wedge);
    const Mesh &piece = parts_.wedge.piece;
    parts_.n_whole_nodes = in.mesh.nodes.size();
    parts_.axes = node_axes(piece, NodalFrame::cylindrical);
    std::vector<Lame> of_cells;
    for (const int c : parts_.wedge.cells) of_cells.push_back(in.of_cells[c]);
    std::vector<double> volumes;
    std::future<std::vector<long>> position =
        std::async(std::launch::async, elimination_order, std::cref(parts_.wedge));
    parts_.stiffness = stiffness(piece, HexGeometry(piece), of_cells, parts_.axes,
                                 NodalFrame::cylindrical, volumes);
    parts_.position = position.get();
    parts_.share.assign(piece.nodes.size(), 1.0);
    for (const int n : parts_.wedge.cut) parts_.share[n] = 0.5;
    for (const int n : parts_.wedge.mirror) parts_.share[n] = 0.5;
    for (std::size_t c = 0; c < volumes.size(); ++c)
      parts_.part_volumes[piece.parts[c]] += parts_.n_wedges() * volumes[c];
  }

  std::vector<double> multiply(const std::vector<double> &u) const override {
    std::vector<double> product(u.size(), 0.0);
    const auto &whole = parts_.wedge.whole;
    for (std::size_t first = 0; first < whole.size(); first += 8) {
      const std::size_t count = std::min<std::size_t>(8, whole.size() - first);
      EightVectors x(3 * whole[0].size(), std::array<double, 8>{});
      for (std::size_t k = 0; k < count; ++k)
        for (std::size_t n = 0; n < whole[0].size(); ++n)
          for (int c = 0; c < 3; ++c)
            x[3 * n + c][k] =
                sign_of(static_cast<int>(first + k), c) * u[3L * whole[first + k][n] + c];
      const EightVectors y = detail::multiply(parts_.stiffness, x);
      for (std::size_t k = 0; k < count; ++k)
        for (std::size_t n = 0; n < whole[0].size(); ++n)
          for (int c = 0; c < 3; ++c)
            product[3L * whole[first + k][n] + c] +=
                sign_of(static_cast<int>(first + k), c) * y[3 * n + c][k];
    }
    return product;
  }

  std::unique_ptr<FactoredBody> factored(const Supports &supports,
                                         const ConstraintMap &) const override {
    return std::make_unique<WedgeFactor>(parts_, supports);
  }

  std::vector<double> node_stiffness() const override {
    std::vector<double> whole(parts_.n_whole_nodes, 0.0);
    const std::vector<double> piece = node_diagonals(parts_.stiffness);
    for (const std::vector<int> &nodes : parts_.wedge.whole)
      for (std::size_t n = 0; n < nodes.size(); ++n) whole[nodes[n]] += piece[n];
    return whole;
  }
  int n_sectors() const override { return parts_.wedge.n_sectors(); }
  bool is_mirrored() const override { return true; }
  bool suits(const Mesh &mesh, const Supports &supports) const override {
    return same_in_every_sector(mesh, supports) &&
           std::all_of(supports.held.begin(), supports.held.end(),
                       [&](const Support &s) { return is_mirrored_place(mesh, s.place); }) &&
           (supports.adapter_surface.empty() || is_mirrored_place(mesh, supports.adapter_surface));
  }
  std::map<Part, double> part_volumes() const override { return parts_.part_volumes; }

 private:
  /// Equal in both wedges of a sector; that sectors are equal is known already.
  bool is_mirrored_place(const Mesh &mesh, const std::string &place) const {
    std::vector<bool> member(mesh.nodes.size(), false);
    for (const int n : mesh.surfaces.count(place) ? surface_nodes(mesh, place) : line(mesh, place))
      member[n] = true;
    const auto &[first, second] = std::tie(parts_.wedge.whole[0], parts_.wedge.whole[1]);
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
