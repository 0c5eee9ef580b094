// SPDX-License-Identifier: GPL-3.0-or-later
// Supports, rigid adapter and press fit of one harmonic as linear relations between unknowns.
#include "solver/detail/harmonic_constraints.h"

#include <algorithm>
#include <cmath>

#include "mesher/error.h"
#include "solver/detail/rank.h"

namespace felloe::detail {
namespace {

std::vector<int> nodes_of_place(const SectionMesh &mesh, const std::string &place) {
  const auto point = mesh.points.find(place);
  if (point != mesh.points.end()) return {point->second};
  return edge_node_set(mesh, place);
}

/// The connected piece of the section that each node belongs to, and the number of pieces.
std::pair<std::vector<int>, int> pieces(const SectionMesh &mesh) {
  std::vector<int> parent(mesh.nodes.size());
  for (std::size_t i = 0; i < parent.size(); ++i) parent[i] = int(i);
  const auto root = [&parent](int i) {
    while (parent[i] != i) i = parent[i] = parent[parent[i]];
    return i;
  };
  for (const auto &cell : mesh.cells)
    for (int i = 1; i < 9; ++i) parent[root(cell[i])] = root(cell[0]);
  std::vector<int> number(parent.size(), -1), piece(parent.size());
  int count = 0;
  for (std::size_t i = 0; i < parent.size(); ++i) {
    int &k = number[root(int(i))];
    if (k < 0) k = count++;
    piece[i] = k;
  }
  return {piece, count};
}

}  // namespace

HarmonicVector rigid_motion(int n, int motion, const Vec2 &rz) {
  if (n == 0) return motion == 0 ? HarmonicVector{0, 0, 1} : HarmonicVector{0, rz[0], 0};
  return motion == 0 ? HarmonicVector{1, -1, 0} : HarmonicVector{-rz[1], rz[1], rz[0]};
}

HarmonicConstraints::HarmonicConstraints(const SectionMesh &mesh, const HarmonicSupports &supports,
                                         int n, bool torsion,
                                         const std::vector<PressFitPair> &joined)
    : mesh_(mesh),
      n_(n),
      kind_(3 * mesh.nodes.size(), Kind::free),
      value_(kind_.size(), 0.),
      master_(kind_.size(), -1),
      ratio_(kind_.size(), 1.),
      gap_(kind_.size(), 0.),
      rows_(kind_.size()) {
  hold(supports, torsion);
  attach_adapter(supports);
  hold_axis();
  if (supports.press_fit_tied) tie_press_fit();
  for (const PressFitPair &pair : joined)
    for (const int c : {1, 2}) tie(3 * pair.disc_node + c, 3 * pair.rim_node + c, 0);
  number_unknowns(torsion);
}

void HarmonicConstraints::hold(const HarmonicSupports &supports, bool torsion) {
  for (const HarmonicSupport &support : supports.held)
    for (const int node : nodes_of_place(mesh_, support.place)) {
      const HarmonicVector value =
          support.value ? support.value(mesh_.nodes[node]) : HarmonicVector{};
      for (int c = 0; c < 3; ++c) {
        if (!support.held[c]) continue;
        kind_[3 * node + c] = Kind::held;
        value_[3 * node + c] = value[c];
      }
    }
  if (n_ > 0 || torsion) return;
  for (std::size_t node = 0; node < mesh_.nodes.size(); ++node) {
    kind_[3 * node + 1] = Kind::held;
    value_[3 * node + 1] = 0;
  }
}

void HarmonicConstraints::attach_adapter(const HarmonicSupports &supports) {
  if (supports.adapter_edge.empty()) return;
  const bool held = supports.adapter_held || n_ >= 2;
  for (const int node : edge_node_set(mesh_, supports.adapter_edge))
    for (int c = 0; c < 3; ++c) {
      Kind &kind = kind_[3 * node + c];
      const bool inactive_torsion = n_ == 0 && c == 1 && kind == Kind::held;
      if (inactive_torsion) continue;
      if (kind == Kind::held && !held)
        throw Error("adapter edge '" + supports.adapter_edge +
                    "': shares a node with a held edge: a node cannot be held and follow the "
                    "adapter; separate the two edges");
      if (kind == Kind::free) kind = held ? Kind::held : Kind::adapter;
    }
}

/// On the axis a smooth field has U = V = 0 for n = 0; U = -V, W = 0 for n = 1; zero for n >= 2.
void HarmonicConstraints::hold_axis() {
  double largest = 0;
  for (const Vec2 &x : mesh_.nodes) largest = std::max(largest, x[0]);
  for (std::size_t node = 0; node < mesh_.nodes.size(); ++node) {
    if (mesh_.nodes[node][0] > 1e-9 * largest) continue;
    for (int c = 0; c < 3; ++c) {
      const int unknown = int(3 * node) + c;
      if (kind_[unknown] != Kind::free || (n_ == 0 && c == 2) || (n_ == 1 && c == 0)) continue;
      const bool follows_u = n_ == 1 && c == 1;
      kind_[unknown] = follows_u ? Kind::tied : Kind::held;
      master_[unknown] = follows_u ? unknown - 1 : -1;
      ratio_[unknown] = -1;
    }
  }
}

/// u(slave) = u(master) - gap x interference; the other way round when the slave is given already.
void HarmonicConstraints::tie(int slave, int master, double gap) {
  if (kind_[slave] != Kind::free) {
    std::swap(slave, master);
    gap = -gap;
  }
  if (kind_[slave] != Kind::free) return;
  kind_[slave] = Kind::tied;
  master_[slave] = master;
  gap_[slave] = -gap;
}

void HarmonicConstraints::tie_press_fit() {
  for (const PressFitPair &pair : mesh_.press_fit)
    tie(3 * pair.disc_node, 3 * pair.rim_node, n_ == 0 ? 1 : 0);
}

void HarmonicConstraints::number_unknowns(bool torsion) {
  for (std::size_t i = 0; i < kind_.size(); ++i)
    if (kind_[i] == Kind::free) rows_[i] = {1, {n_free_++, 0}, {1, 0}};
  for (std::size_t i = 0; i < kind_.size(); ++i) {
    if (kind_[i] != Kind::adapter) continue;
    for (int motion = 0; motion < 2; ++motion) {
      if (n_ == 0 && motion == 1 && !torsion) continue;
      if (adapter_[motion] < 0) adapter_[motion] = n_free_++;
      const double factor = rigid_motion(n_, motion, mesh_.nodes[i / 3])[i % 3];
      if (factor == 0) continue;
      Row &row = rows_[i];
      row.index[row.size] = adapter_[motion];
      row.factor[row.size++] = factor;
    }
  }
  for (std::size_t i = 0; i < kind_.size(); ++i) {
    if (kind_[i] != Kind::tied) continue;
    rows_[i] = rows_[master_[i]];
    for (double &factor : rows_[i].factor) factor *= ratio_[i];
  }
}

std::vector<double> HarmonicConstraints::given(double interference) const {
  std::vector<double> g = value_;
  for (std::size_t i = 0; i < g.size(); ++i)
    if (kind_[i] == Kind::tied) g[i] = ratio_[i] * value_[master_[i]] + gap_[i] * interference;
  return g;
}

std::vector<double> HarmonicConstraints::expanded(const std::vector<double> &q,
                                                  double interference) const {
  std::vector<double> u = given(interference);
  for (std::size_t i = 0; i < u.size(); ++i)
    for (int k = 0; k < rows_[i].size; ++k) u[i] += rows_[i].factor[k] * q[rows_[i].index[k]];
  return u;
}

std::vector<double> HarmonicConstraints::reduced(const std::vector<double> &forces) const {
  std::vector<double> q(n_free_, 0.);
  for (std::size_t i = 0; i < forces.size(); ++i)
    for (int k = 0; k < rows_[i].size; ++k) q[rows_[i].index[k]] += rows_[i].factor[k] * forces[i];
  return q;
}

bool HarmonicConstraints::free_rigid_motion() const {
  if (n_ >= 2) return false;
  const auto [piece, n_pieces] = pieces(mesh_);
  double length = 0;
  for (const Vec2 &x : mesh_.nodes) length = std::max({length, x[0], std::abs(x[1])});
  // Columns: two motions of every piece, two of the adapter. Rows: what the constraints demand.
  const int n_columns = 2 * n_pieces + 2;
  std::vector<double> gram(n_columns * n_columns, 0.);
  const auto motion_at = [&, &piece = piece](int unknown, double factor, std::vector<double> &row) {
    const int node = unknown / 3;
    for (int motion = 0; motion < 2; ++motion)
      row[2 * piece[node] + motion] += factor * (motion ? 1 / length : 1) *
                                       rigid_motion(n_, motion, mesh_.nodes[node])[unknown % 3];
  };
  const auto demand = [&gram, n_columns](const std::vector<double> &row) {
    for (int i = 0; i < n_columns; ++i)
      for (int j = 0; j < n_columns; ++j) gram[i * n_columns + j] += row[i] * row[j];
  };
  for (int unknown = 0; unknown < int(kind_.size()); ++unknown) {
    if (kind_[unknown] == Kind::free) continue;
    std::vector<double> row(n_columns, 0.);
    motion_at(unknown, 1, row);
    if (kind_[unknown] == Kind::tied) motion_at(master_[unknown], -ratio_[unknown], row);
    if (kind_[unknown] == Kind::adapter)
      for (int motion = 0; motion < 2; ++motion)
        row[2 * n_pieces + motion] -=
            (motion ? 1 / length : 1) *
            rigid_motion(n_, motion, mesh_.nodes[unknown / 3])[unknown % 3];
    demand(row);
  }
  // An adapter that nothing follows, or whose twist takes no part, does not move.
  for (int motion = 0; motion < 2; ++motion) {
    if (adapter_[motion] >= 0) continue;
    std::vector<double> row(n_columns, 0.);
    row[2 * n_pieces + motion] = 1;
    demand(row);
  }
  return rank_of_symmetric(gram, n_columns) < n_columns;
}

void HarmonicConstraints::check_no_rigid_motion_left() const {
  if (free_rigid_motion())
    throw Error(n_ == 0 ? "supports: axial shift or twist is left free: the body can move without "
                          "deformation; hold a component of an edge"
                        : "supports: lateral shift or tilt is left free: the body can move without "
                          "deformation; hold a component of an edge");
}

}  // namespace felloe::detail
