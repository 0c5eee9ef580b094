// SPDX-License-Identifier: GPL-3.0-or-later
// Edits of connections: doublets merged, quads collapsed, edges turned.
#include <algorithm>
#include <cassert>

#include "mesher/quad_smoothing.h"

namespace felloe {
namespace {

using Quad = std::array<QuadCorner, 4>;

/// Local edits of the quads' connections. Quads that vanish are marked by node -1.
class ValenceEditor {
 public:
  explicit ValenceEditor(QuadPatch &patch) : patch_(patch), quads_of_(patch.nodes.size()) {
    for (std::size_t q = 0; q < patch.quads.size(); ++q) link(static_cast<int>(q));
  }

  void run() {
    for (int round = 0; round < 20; ++round) {
      bool changed = false;
      for (std::size_t n = 0; n < patch_.nodes.size(); ++n)
        changed |= merge_doublet(static_cast<int>(n));
      for (std::size_t q = 0; q < patch_.quads.size(); ++q)
        changed |= alive(static_cast<int>(q)) &&
                   (collapse(static_cast<int>(q), 0) || collapse(static_cast<int>(q), 1));
      for (std::size_t q = 0; q < patch_.quads.size(); ++q)
        for (int e = 0; e < 4; ++e) changed |= alive(static_cast<int>(q)) && turn_edge(q, e);
      if (!changed) break;
    }
    compress();
  }

 private:
  bool alive(int q) const { return patch_.quads[q][0].node >= 0; }
  bool free(int n) const { return patch_.nodes[n].freedom == Freedom::free; }
  int valence(int n) const { return static_cast<int>(quads_of_[n].size()); }
  /// How far a valence changed by `change` is from the ideal, squared.
  int defect(int n, int change = 0) const {
    const int d = valence(n) + change - patch_.nodes[n].ideal_valence;
    return d * d;
  }
  void link(int q) {
    for (const auto &c : patch_.quads[q]) quads_of_[c.node].push_back(q);
  }
  void unlink(int q) {
    for (const auto &c : patch_.quads[q]) {
      auto &list = quads_of_[c.node];
      list.erase(std::find(list.begin(), list.end(), q));
    }
  }
  void replace(int q, const Quad &quad) {
    unlink(q);
    patch_.quads[q] = quad;
    link(q);
  }
  void remove(int q) {
    unlink(q);
    patch_.quads[q][0].node = -1;
  }
  /// The quad turned and moved by whole periods so that corner v comes first, in its home place.
  Quad seen_from(int q, int v) const {
    Quad r;
    for (int k = 0; k < 4; ++k) {
      r[k] = patch_.quads[q][(v + k) % 4];
      r[k].turn -= patch_.quads[q][v].turn;
    }
    return r;
  }
  static bool distinct(const Quad &q) {
    for (int i = 0; i < 4; ++i)
      for (int j = i + 1; j < 4; ++j)
        if (q[i].node == q[j].node) return false;
    return true;
  }
  int place_in(int q, int node) const {
    for (int v = 0; v < 4; ++v)
      if (patch_.quads[q][v].node == node) return v;
    return -1;
  }

  /// Two quads x p q r and x r s p round the node x become p q r s.
  bool merge_doublet(int x) {
    if (!free(x) || valence(x) != 2 || quads_of_[x][0] == quads_of_[x][1]) return false;
    const int first = quads_of_[x][0], second = quads_of_[x][1];
    const Quad a = seen_from(first, place_in(first, x)), b = seen_from(second, place_in(second, x));
    if (!(a[1] == b[3] && a[3] == b[1])) return false;
    const Quad merged = {a[1], a[2], a[3], b[2]};
    if (!distinct(merged)) return false;
    remove(second);
    replace(first, merged);
    return true;
  }

  /// Pulls the corners v and v + 2 of a quad together when that helps the valences.
  bool collapse(int q, int v) {
    const Quad d = seen_from(q, v);
    const int a = d[0].node, b = d[1].node, c = d[2].node, e = d[3].node;
    if (!free(a) || !free(c) || !distinct(d)) return false;
    if (valence(b) < 3 || valence(e) < 3) {
      if (free(b) || valence(b) < 2 || free(e) || valence(e) < 2) return false;
    }
    const int joined = valence(a) + valence(c) - 2 - patch_.nodes[c].ideal_valence;
    const int before = defect(a) + defect(b) + defect(c) + defect(e);
    if (joined * joined + defect(b, -1) + defect(e, -1) >= before) return false;
    const std::vector<int> moved = quads_of_[a];
    for (const int m : moved) {  // no quad may get the same node twice
      if (m == q) continue;
      if (place_in(m, c) >= 0) return false;
    }
    const Vec2 from = patch_.nodes[a].at, to = patch_.corner(d[2]);
    remove(q);
    for (const int m : moved) {
      if (m == q) continue;
      Quad quad = patch_.quads[m];
      QuadCorner &corner = quad[place_in(m, a)];
      corner = {c, corner.turn + d[2].turn};
      replace(m, quad);
    }
    patch_.nodes[c].at = {0.5 * (from[0] + to[0]),
                          0.5 * (from[1] + to[1]) - d[2].turn * patch_.period};
    return true;
  }

  /// Turns the edge between two quads by one corner either way when that helps the valences.
  bool turn_edge(std::size_t quad, int e) {
    const int q = static_cast<int>(quad);
    const Quad a = seen_from(q, e);  // edge a0 a1, quad a0 a1 a2 a3
    for (const int other : quads_of_[a[0].node]) {
      if (other == q) continue;
      const int v = place_in(other, a[0].node);
      const Quad b = seen_from(other, v);  // quad a0 b1 b2 b3 with b3 = a1
      if (!(b[3] == a[1])) continue;
      // the six corners round both quads: a1 a2 a3 a0 b1 b2
      const std::array<QuadCorner, 6> ring = {a[1], a[2], a[3], a[0], b[1], b[2]};
      for (const int k : {1, 2}) {
        const QuadCorner &s = ring[k], &t = ring[k + 3];
        if (s.node == t.node) continue;
        const int before = defect(a[0].node) + defect(a[1].node) + defect(s.node) + defect(t.node);
        const int after =
            defect(a[0].node, -1) + defect(a[1].node, -1) + defect(s.node, 1) + defect(t.node, 1);
        if (after >= before || valence(a[0].node) < 2 || valence(a[1].node) < 2) continue;
        if ((free(a[0].node) && valence(a[0].node) < 4) ||
            (free(a[1].node) && valence(a[1].node) < 4))
          continue;
        const Quad first = {ring[k], ring[k + 1], ring[k + 2], ring[k + 3]};
        const Quad second = {ring[k + 3], ring[(k + 4) % 6], ring[(k + 5) % 6], ring[k]};
        if (!distinct(first) || !distinct(second)) continue;
        replace(q, first);
        replace(other, second);
        return true;
      }
      return false;
    }
    return false;
  }

  void compress() {
    std::vector<int> index(patch_.nodes.size(), -1);
    QuadPatch kept;
    kept.period = patch_.period;
    for (std::size_t n = 0; n < patch_.nodes.size(); ++n)
      if (!quads_of_[n].empty() || !free(static_cast<int>(n))) {
        index[n] = static_cast<int>(kept.nodes.size());
        kept.nodes.push_back(patch_.nodes[n]);
      }
    for (auto quad : patch_.quads) {
      if (quad[0].node < 0) continue;
      for (auto &c : quad) c.node = index[c.node];
      kept.quads.push_back(quad);
    }
    patch_ = kept;
  }

  QuadPatch &patch_;
  std::vector<std::vector<int>> quads_of_;
};

}  // namespace

void improve_valences(QuadPatch &patch) { ValenceEditor(patch).run(); }

}  // namespace felloe
