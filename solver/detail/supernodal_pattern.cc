// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/detail/supernodal_pattern.h"

#include <algorithm>
#include <numeric>
#include <utility>

namespace felloe::detail {
namespace {

/// Lists one behind the other.
struct Lists {
  std::vector<long> start;
  std::vector<int> entry;
};

using Pairs = std::vector<std::pair<int, int>>;

Lists lists(int n, const Pairs &pairs) {
  Lists l;
  l.start.assign(n + 1, 0);
  for (const auto &p : pairs) ++l.start[p.first + 1];
  std::partial_sum(l.start.begin(), l.start.end(), l.start.begin());
  l.entry.resize(pairs.size());
  std::vector<long> next(l.start.begin(), l.start.end() - 1);
  for (const auto &p : pairs) l.entry[next[p.first]++] = p.second;
  return l;
}

/// Groups of unknowns that follow one another, in the order of elimination.
struct Blocks {
  std::vector<long> sequence;   ///< the unknowns
  std::vector<int> first;       ///< place of each block's first unknown, and the end
  std::vector<int> of_unknown;  ///< block, -1 of absent ones
  int n_interior = 0;

  int size() const { return static_cast<int>(first.size()) - 1; }
  int width(int block) const { return first[block + 1] - first[block]; }
};

Blocks blocks(long n_unknowns, const std::vector<long> &interior, const std::vector<long> &border,
              const std::vector<int> &group) {
  Blocks b;
  b.sequence = interior;
  b.sequence.insert(b.sequence.end(), border.begin(), border.end());
  b.of_unknown.assign(n_unknowns, -1);
  for (std::size_t k = 0; k < b.sequence.size(); ++k) {
    const bool continues = k > 0 && k != interior.size() && !group.empty() &&
                           group[b.sequence[k]] == group[b.sequence[k - 1]];
    if (!continues) b.first.push_back(static_cast<int>(k));
    if (k < interior.size()) b.n_interior = static_cast<int>(b.first.size());
    b.of_unknown[b.sequence[k]] = static_cast<int>(b.first.size()) - 1;
  }
  b.first.push_back(static_cast<int>(b.sequence.size()));
  return b;
}

/// Pairs of blocks that share an entry, the one eliminated first in front; some more than once.
Pairs neighbours(const SymmetricMatrix &a, const Blocks &blocks) {
  Pairs pairs;
  std::vector<int> seen_by(blocks.size(), -1);
  for (int k = 0; k < blocks.size(); ++k)
    for (int at = blocks.first[k]; at < blocks.first[k + 1]; ++at) {
      const long c = blocks.sequence[at];
      for (long e = a.column_start[c]; e < a.column_start[c + 1]; ++e) {
        const int other = blocks.of_unknown[a.row[e]];
        if (other < 0 || other == k || seen_by[other] == k) continue;
        seen_by[other] = k;
        if (std::min(k, other) < blocks.n_interior)
          pairs.emplace_back(std::min(k, other), std::max(k, other));
      }
    }
  return pairs;
}

/// Parent of each interior block among them, or -1; J. W. H. Liu's with shortened paths.
std::vector<int> elimination_tree(int n, const Pairs &pairs) {
  Pairs upward;
  for (const auto &[low, high] : pairs)
    if (high < n) upward.emplace_back(high, low);
  const Lists lower = lists(n, upward);
  std::vector<int> parent(n, -1), shortcut(n, -1);
  for (int j = 0; j < n; ++j)
    for (long e = lower.start[j]; e < lower.start[j + 1]; ++e) {
      int r = lower.entry[e];
      while (shortcut[r] >= 0 && shortcut[r] != j) r = std::exchange(shortcut[r], j);
      if (shortcut[r] < 0) shortcut[r] = parent[r] = j;
    }
  return parent;
}

/// Number of each block when children come straight before their parent, the largest subtree last.
std::vector<int> postorder(const std::vector<int> &parent) {
  const int n = static_cast<int>(parent.size());
  std::vector<int> size(n, 1);
  for (int k = 0; k < n; ++k)
    if (parent[k] >= 0) size[parent[k]] += size[k];
  // From the top down, every subtree takes the numbers up to its end; largest children first.
  std::vector<int> by_size(n), end(n), number(n);
  std::iota(by_size.begin(), by_size.end(), 0);
  std::stable_sort(by_size.begin(), by_size.end(), [&](int a, int b) { return size[a] > size[b]; });
  int free = n;
  for (const int k : by_size) {  // a parent is larger than its children
    int &of_parent = parent[k] < 0 ? free : end[parent[k]];
    number[k] = of_parent - 1;
    end[k] = number[k];
    of_parent -= size[k];
  }
  return number;
}

Blocks renumbered(const Blocks &old, const std::vector<int> &number) {
  Blocks b;
  std::vector<int> at(old.n_interior);
  for (int k = 0; k < old.n_interior; ++k) at[number[k]] = k;
  b.first.push_back(0);
  for (int k = 0; k < old.size(); ++k) {
    const int from = k < old.n_interior ? at[k] : k;
    for (int p = old.first[from]; p < old.first[from + 1]; ++p)
      b.sequence.push_back(old.sequence[p]);
    b.first.push_back(static_cast<int>(b.sequence.size()));
  }
  b.n_interior = old.n_interior;
  return b;
}

/// Blocks of consecutive columns with the same rows below.
struct Supernode {
  int first = 0, last = 0;
  std::vector<int> below;                       ///< blocks
  int n_columns = 0, n_below = 0, parent = -1;  ///< counts of unknowns
};

/// Supernodes without a single zero, by symbolic elimination.
std::vector<Supernode> fundamental(const Blocks &blocks, const std::vector<int> &parent,
                                   const Lists &above) {
  const int n = blocks.n_interior;
  Pairs of_parent;
  for (int k = 0; k < n; ++k)
    if (parent[k] >= 0) of_parent.emplace_back(parent[k], k);
  const Lists children = lists(n, of_parent);
  std::vector<std::vector<int>> below(n);
  std::vector<int> seen_by(blocks.size(), -1), supernode_of(n);
  std::vector<Supernode> all;
  for (int j = 0; j < n; ++j) {
    std::vector<int> &own = below[j];
    const int *child = children.entry.data() + children.start[j];
    const int *end = children.entry.data() + children.start[j + 1];
    const int *longest = std::max_element(
        child, end, [&](int x, int y) { return below[x].size() < below[y].size(); });
    if (longest != end) own.assign(below[*longest].begin() + 1, below[*longest].end());
    for (const int b : own) seen_by[b] = j;
    const auto inherited = static_cast<long>(own.size());
    const auto add = [&](int b) {
      if (b == j || std::exchange(seen_by[b], j) == j) return;
      own.push_back(b);
    };
    for (const int *c = child; c != end; ++c)
      if (c != longest) std::for_each(below[*c].begin(), below[*c].end(), add);
    for (long e = above.start[j]; e < above.start[j + 1]; ++e) add(above.entry[e]);
    std::sort(own.begin() + inherited, own.end());
    std::inplace_merge(own.begin(), own.begin() + inherited, own.end());
    if (j == 0 || parent[j - 1] != j || below[j - 1].size() != own.size() + 1) {
      if (j > 0) all.back().below = below[j - 1];
      all.emplace_back();
      all.back().first = j;
    }
    all.back().last = j;
    all.back().n_columns += blocks.width(j);
    supernode_of[j] = static_cast<int>(all.size()) - 1;
    for (const int *c = child; c != end; ++c) std::vector<int>().swap(below[*c]);
  }
  if (n > 0) all.back().below = below[n - 1];
  for (Supernode &s : all) {
    for (const int b : s.below) s.n_below += blocks.width(b);
    if (!s.below.empty() && s.below.front() < n) s.parent = supernode_of[s.below.front()];
  }
  return all;
}

/// A few zeros are worth larger products: how many, by the number of columns.
bool worth_merging(double zeros, double n_columns, double n_below) {
  const double share = zeros / (n_columns * (n_columns + 1) / 2 + n_columns * n_below);
  return n_columns <= 16 ? share < 0.8 : n_columns <= 48 ? share < 0.1 : share < 0.05;
}

/// Joins supernodes with their parents where these come straight behind.
std::vector<Supernode> relaxed(const std::vector<Supernode> &fine) {
  const int n = static_cast<int>(fine.size());
  std::vector<Supernode> head = fine;  // of the chain that starts with each
  std::vector<double> zeros(n, 0.0);
  std::vector<bool> joins_next(n, false);
  for (int s = n - 2; s >= 0; --s) {
    if (fine[s].parent != s + 1) continue;
    const Supernode &next = head[s + 1];
    const double all =
        zeros[s + 1] + 1.0 * fine[s].n_columns * (next.n_columns + next.n_below - fine[s].n_below);
    const int n_columns = fine[s].n_columns + next.n_columns;
    if (!worth_merging(all, n_columns, next.n_below)) continue;
    joins_next[s] = true;
    zeros[s] = all;
    head[s].n_columns = n_columns;
    head[s].n_below = next.n_below;
    head[s].last = next.last;
    head[s].below = std::move(head[s + 1].below);
  }
  std::vector<Supernode> coarse;
  for (int s = 0; s < n; ++s)
    if (s == 0 || !joins_next[s - 1]) coarse.push_back(std::move(head[s]));
  return coarse;
}

}  // namespace

SupernodalPattern supernodal_pattern(const SymmetricMatrix &a, const std::vector<long> &interior,
                                     const std::vector<long> &border,
                                     const std::vector<int> &group) {
  const Blocks old = blocks(a.size(), interior, border, group);
  const int n = old.n_interior;
  Pairs pairs = neighbours(a, old);
  const std::vector<int> old_parent = elimination_tree(n, pairs), number = postorder(old_parent);
  const auto new_number = [&](int block) { return block < n ? number[block] : block; };
  for (auto &[low, high] : pairs) {
    low = new_number(low);
    high = new_number(high);
  }
  std::vector<int> parent(n, -1);
  for (int k = 0; k < n; ++k)
    if (old_parent[k] >= 0) parent[number[k]] = number[old_parent[k]];
  const Blocks all = renumbered(old, number);
  const auto supernodes = relaxed(fundamental(all, parent, lists(n, pairs)));

  SupernodalPattern p;
  p.unknown = all.sequence;
  p.rows_begin.push_back(0);
  p.values_begin.push_back(0);
  const auto add_rows = [&](int block) {
    for (int r = all.first[block]; r < all.first[block + 1]; ++r) p.rows.push_back(r);
  };
  for (const Supernode &s : supernodes) {
    p.first_column.push_back(all.first[s.first]);
    for (int b = s.first; b <= s.last; ++b) add_rows(b);
    for (const int b : s.below) add_rows(b);
    p.rows_begin.push_back(static_cast<long>(p.rows.size()));
    p.values_begin.push_back(p.values_begin.back() + 1L * s.n_columns * (s.n_columns + s.n_below));
  }
  p.first_column.push_back(static_cast<int>(interior.size()));
  for (int b = n; b < all.size(); ++b) add_rows(b);
  p.rows_begin.push_back(static_cast<long>(p.rows.size()));
  p.values_begin.push_back(p.values_begin.back());
  p.first_column.push_back(static_cast<int>(all.sequence.size()));
  return p;
}

}  // namespace felloe::detail
