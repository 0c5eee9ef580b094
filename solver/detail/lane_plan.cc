// SPDX-License-Identifier: GPL-3.0-or-later
// Levels from the middle of the mesh, symbolic elimination of groups, supernodes.
#include "solver/detail/lane_plan.h"

#include <algorithm>
#include <cassert>
#include <numeric>
#include <tuple>

namespace felloe::detail {
namespace {

// Panels are merged while they stay this small and gain few zeros: short columns cost more to
// reach than to compute.
constexpr int widest_panel = 48;
constexpr double zeros_allowed = 0.35;

/// Distance of groups in cells.
class Distances {
 public:
  Distances(int n_groups, const std::vector<std::vector<int>> &cliques, int last)
      : cliques_(cliques), last_(last), cells_(n_groups) {
    for (std::size_t c = 0; c < cliques.size(); ++c)
      for (const int g : cliques[c])
        if (g != last) cells_[g].push_back(static_cast<int>(c));
  }
  int n_cells(int g) const { return static_cast<int>(cells_[g].size()); }

  /// Fills in the distance of everything that hangs together with the start; returns those groups,
  /// nearest first.
  std::vector<int> from(int start, std::vector<int> &distance) const {
    std::vector<int> reached{start};
    std::vector<bool> seen(cliques_.size(), false);
    distance[start] = 0;
    for (std::size_t i = 0; i < reached.size(); ++i)
      for (const int c : cells_[reached[i]]) {
        if (seen[c]) continue;
        seen[c] = true;
        for (const int g : cliques_[c])
          if (g != last_ && distance[g] < 0) {
            distance[g] = distance[reached[i]] + 1;
            reached.push_back(g);
          }
      }
    return reached;
  }

 private:
  const std::vector<std::vector<int>> &cliques_;
  int last_;
  std::vector<std::vector<int>> cells_;
};

/// Groups by falling distance from the middle of their piece; within a level those inside cells
/// first.
std::vector<int> from_tips(int n_groups, const std::vector<std::vector<int>> &cliques, int last) {
  const Distances distances(n_groups, cliques, last);
  std::vector<int> level(n_groups, -1);
  for (int g = 0; g < n_groups; ++g) {
    if (g == last || level[g] >= 0) continue;
    std::vector<int> any(n_groups, -1), from_a(n_groups, -1), from_b(n_groups, -1);
    const int a = distances.from(g, any).back(), b = distances.from(a, from_a).back();
    int middle = a;
    for (const int k : distances.from(b, from_b))
      if (from_a[k] + from_b[k] == from_a[b] && from_a[k] == from_a[b] / 2) {
        middle = k;
        break;
      }
    distances.from(middle, level);
  }
  std::vector<int> order(n_groups);
  std::iota(order.begin(), order.end(), 0);
  std::sort(order.begin(), order.end(), [&](int a, int b) {
    return std::make_tuple(a == last, -level[a], distances.n_cells(a), a) <
           std::make_tuple(b == last, -level[b], distances.n_cells(b), b);
  });
  return order;
}

/// Later neighbours of every group when the earlier ones have been eliminated, by rank.
struct Elimination {
  std::vector<std::vector<int>> below;
  std::vector<int> parent;

  Elimination(const std::vector<int> &rank, const std::vector<std::vector<int>> &cliques)
      : below(rank.size()), parent(rank.size(), -1) {
    for (const auto &clique : cliques) {
      if (clique.empty()) continue;
      int first = rank[clique.front()];
      for (const int g : clique) first = std::min(first, rank[g]);
      for (const int g : clique) below[first].push_back(rank[g]);
    }
    for (std::size_t j = 0; j < below.size(); ++j) {
      auto &b = below[j];
      std::sort(b.begin(), b.end());
      b.erase(std::unique(b.begin(), b.end()), b.end());
      b.erase(b.begin(), std::upper_bound(b.begin(), b.end(), static_cast<int>(j)));
      if (b.empty()) continue;
      parent[j] = b.front();
      below[b.front()].insert(below[b.front()].end(), b.begin(), b.end());
    }
  }
};

/// Children before parents, subtrees one after the other: new rank of each rank.
std::vector<int> postorder(const std::vector<int> &parent) {
  const int n = static_cast<int>(parent.size());
  std::vector<std::vector<int>> children(n + 1);
  for (int j = 0; j < n; ++j) children[parent[j] < 0 ? n : parent[j]].push_back(j);
  std::vector<int> rank(n + 1), stack{n};
  int next = n;
  while (!stack.empty()) {  // parents first, counted from behind
    const int j = stack.back();
    stack.pop_back();
    rank[j] = next--;
    stack.insert(stack.end(), children[j].begin(), children[j].end());
  }
  rank.pop_back();
  return rank;
}

struct GroupPanel {
  std::vector<int> columns, rows;  // by rank
};

std::vector<GroupPanel> panels_of(const Elimination &e, const std::vector<int> &weight) {
  const auto weight_of = [&](const std::vector<int> &ranks) {
    int sum = 0;
    for (const int k : ranks) sum += weight[k];
    return sum;
  };
  std::vector<GroupPanel> panels;
  for (int j = 0; j < static_cast<int>(e.below.size()); ++j) {
    GroupPanel next{{j}, e.below[j]};
    while (!panels.empty()) {
      const GroupPanel &before = panels.back();
      if (before.rows.empty() || before.rows.front() != next.columns.front()) break;
      const int a = weight_of(before.columns), b = weight_of(next.columns),
                r = weight_of(next.rows);
      const double zeros = 1.0 * a * (b + r - weight_of(before.rows));
      const double all = 1.0 * (a + b) * (r + 0.5 * (a + b));
      if (zeros > 0 && (a + b > widest_panel || zeros > zeros_allowed * all)) break;
      next.columns.insert(next.columns.begin(), before.columns.begin(), before.columns.end());
      panels.pop_back();
    }
    panels.push_back(std::move(next));
  }
  return panels;
}

}  // namespace

int LanePlan::Panel::row_of(int position) const {
  if (position < first + columns) return position - first;
  const auto at = std::lower_bound(rows.begin(), rows.end(), position);
  assert(at != rows.end() && *at == position);
  return columns + static_cast<int>(at - rows.begin());
}

LanePlan lane_plan(const std::vector<int> &group, const std::vector<std::vector<int>> &cliques,
                   int last) {
  const int n = static_cast<int>(group.size());
  const int n_groups = n == 0 ? 0 : 1 + *std::max_element(group.begin(), group.end());
  if (last >= n_groups) last = -1;
  const std::vector<int> tips = from_tips(n_groups, cliques, last);
  std::vector<int> rank(n_groups);
  for (int k = 0; k < n_groups; ++k) rank[tips[k]] = k;
  const std::vector<int> better = postorder(Elimination(rank, cliques).parent);
  for (int &k : rank) k = better[k];
  std::vector<int> weight(n_groups, 0), first(n_groups + 1, 0);
  for (const int g : group) ++weight[rank[g]];
  for (int k = 0; k < n_groups; ++k) first[k + 1] = first[k] + weight[k];

  LanePlan plan;
  std::vector<int> used(n_groups, 0);
  for (const int g : group) plan.place.push_back(first[rank[g]] + used[rank[g]]++);
  plan.panel_of.resize(n);
  for (const GroupPanel &p : panels_of(Elimination(rank, cliques), weight)) {
    LanePlan::Panel panel;
    panel.first = first[p.columns.front()];
    panel.columns = first[p.columns.back() + 1] - panel.first;
    for (const int k : p.rows)
      for (int u = first[k]; u < first[k + 1]; ++u) panel.rows.push_back(u);
    panel.start = plan.size;
    plan.size += static_cast<long>(panel.columns) * panel.height();
    for (int k = 0; k < panel.columns; ++k)
      plan.panel_of[panel.first + k] = static_cast<int>(plan.panels.size());
    plan.panels.push_back(std::move(panel));
  }
  return plan;
}

}  // namespace felloe::detail
