// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/detail/supernodal.h"

#include <algorithm>
#include <atomic>
#include <memory>
#include <numeric>

#include "solver/detail/blas.h"
#include "solver/detail/blas_threads.h"
#include "solver/detail/parallel.h"

namespace felloe::detail {
namespace {

/// The lower triangle of the unknowns that have a place, in the factor's order, rows of a column in
/// any order.
struct Permuted {
  std::vector<long> start;
  std::unique_ptr<int[]> row;
  std::unique_ptr<double[]> value;
};

Permuted permuted(const SymmetricMatrix &a, const std::vector<long> &place, long n_places) {
  const auto each_entry = [&](auto &&visit) {
    for (long c = 0; c < a.size(); ++c) {
      if (place[c] < 0) continue;
      for (long e = a.column_start[c]; e < a.column_start[c + 1]; ++e)
        if (place[a.row[e]] >= 0) visit(e, place[c], place[a.row[e]]);
    }
  };
  Permuted p;
  p.start.assign(n_places + 1, 0);
  each_entry([&](long, long i, long j) { ++p.start[std::min(i, j) + 1]; });
  std::partial_sum(p.start.begin(), p.start.end(), p.start.begin());
  p.row.reset(new int[p.start.back()]);
  p.value.reset(new double[p.start.back()]);
  std::vector<long> next(p.start.begin(), p.start.end() - 1);
  each_entry([&](long e, long i, long j) {
    const long at = next[std::min(i, j)]++;
    p.row[at] = static_cast<int>(std::max(i, j));
    p.value[at] = a.value[e];
  });
  return p;
}

/// One supernode: dense columns with common rows, the first rows being the columns themselves.
struct Supernode {
  int first = 0, n_columns = 0, n_rows = 0;
  bool stays = false;  ///< the border
  const int *rows = nullptr;
  DenseTriangle value;  ///< n_rows x n_columns; what is above the diagonal counts only forwards
  int parent = -1;
};

/// Columns of a supernode that are updated together, so that the products stay in the cache.
constexpr int panel = 192;

/// Scratch of one thread.
struct Desk {
  std::vector<int> local;      ///< of each row of the matrix: how far from its column's begin
  std::vector<double> update;  ///< product of a descendant's rows with those of one panel
};

class Filling {
 public:
  Filling(const SymmetricMatrix &, const SupernodalPattern &, double *numbers,
          const DenseTriangle &border);
  void run();

 private:
  std::vector<std::vector<int>> subtrees();
  void one(int s, std::vector<Desk *> desks);
  void start_values(const Supernode &, Desk &) const;
  void subtract(const std::vector<int> &descendants, const Supernode &, int first_column,
                const std::vector<int> &local, Desk &) const;
  void queue(int d);

  Permuted matrix_;
  std::vector<Supernode> nodes_;
  std::vector<int> node_of_column_;
  std::vector<int> position_;        ///< of each supernode: first row not yet passed on
  std::vector<int> waiting_, next_;  ///< lists of descendants that a supernode must subtract
  std::vector<bool> in_subtree_;
  bool subtrees_done_ = false;
};

Filling::Filling(const SymmetricMatrix &a, const SupernodalPattern &pattern, double *numbers,
                 const DenseTriangle &border)
    : node_of_column_(pattern.unknown.size()) {
  const long n = static_cast<long>(pattern.unknown.size());
  std::vector<long> place(a.size(), -1);
  for (long k = 0; k < n; ++k) place[pattern.unknown[k]] = k;
  matrix_ = permuted(a, place, n);
  nodes_.resize(pattern.n_supernodes());
  for (int s = 0; s < pattern.n_supernodes(); ++s) {
    Supernode &node = nodes_[s];
    node.first = pattern.first_column[s];
    node.n_columns = pattern.first_column[s + 1] - node.first;
    node.n_rows = static_cast<int>(pattern.rows_begin[s + 1] - pattern.rows_begin[s]);
    node.rows = pattern.rows.data() + pattern.rows_begin[s];
    node.stays = s == pattern.border();
    node.value =
        node.stays ? border : DenseTriangle{numbers + pattern.values_begin[s], node.n_rows, 1};
    std::fill_n(node_of_column_.begin() + node.first, node.n_columns, s);
  }
  for (Supernode &node : nodes_)
    if (node.n_rows > node.n_columns) node.parent = node_of_column_[node.rows[node.n_columns]];
  position_.assign(nodes_.size(), 0);
  waiting_.assign(nodes_.size(), -1);
  next_.assign(nodes_.size(), -1);
}

/// Parts of the elimination tree small enough to keep all processors busy, each in order, the
/// costly ones first.
std::vector<std::vector<int>> Filling::subtrees() {
  const int n = static_cast<int>(nodes_.size());
  in_subtree_.assign(n, false);
  std::vector<double> cost(n, 0.0);
  std::vector<std::vector<int>> children(n);
  std::vector<int> roots;
  for (int s = 0; s < n; ++s) {
    const Supernode &node = nodes_[s];
    if (!node.stays) cost[s] += 1.0 * node.n_columns * node.n_rows * node.n_rows;
    if (node.parent < 0) {
      roots.push_back(s);
      continue;
    }
    cost[node.parent] += cost[s];
    children[node.parent].push_back(s);
  }
  const auto cheaper = [&](int a, int b) { return cost[a] != cost[b] ? cost[a] < cost[b] : a < b; };
  double sum = 0;
  for (const int r : roots) sum += cost[r];
  std::make_heap(roots.begin(), roots.end(), cheaper);
  const auto top_may_go = [&] {
    return !roots.empty() && cost[roots.front()] * 3 * n_threads() > sum;
  };
  while (top_may_go()) {
    std::pop_heap(roots.begin(), roots.end(), cheaper);
    const int s = roots.back();
    roots.pop_back();
    sum -= cost[s];
    for (const int c : children[s]) {
      sum += cost[c];
      roots.push_back(c);
      std::push_heap(roots.begin(), roots.end(), cheaper);
    }
  }
  std::sort(roots.begin(), roots.end(), [&](int a, int b) { return cheaper(b, a); });
  std::vector<std::vector<int>> all;
  for (const int r : roots) {
    std::vector<int> members{r};
    for (std::size_t k = 0; k < members.size(); ++k)
      members.insert(members.end(), children[members[k]].begin(), children[members[k]].end());
    std::sort(members.begin(), members.end());
    for (const int s : members) in_subtree_[s] = true;
    all.push_back(std::move(members));
  }
  return all;
}

void Filling::run() {
  const auto parts = subtrees();
  std::vector<Desk> desks(n_threads());
  std::vector<Desk *> all;
  for (Desk &desk : desks) {
    desk.local.assign(node_of_column_.size(), -1);
    all.push_back(&desk);
  }
  std::atomic<std::size_t> next_part{0};
  {
    const OneBlasThread alone;
    in_parallel([&](int t) {
      for (std::size_t k = next_part++; k < parts.size(); k = next_part++)
        for (const int s : parts[k]) one(s, {&desks[t]});
    });
  }
  subtrees_done_ = true;
  const int n = static_cast<int>(nodes_.size());
  for (int s = 0; s < n; ++s)
    if (in_subtree_[s]) queue(s);
  for (int s = 0; s < n; ++s)
    if (!in_subtree_[s]) one(s, all);
}

/// Puts a supernode into the list of the one that holds its next row. While subtrees are in work,
/// what goes beyond them waits.
void Filling::queue(int d) {
  const Supernode &node = nodes_[d];
  if (node.stays || position_[d] >= node.n_rows) return;
  const int target = node_of_column_[node.rows[position_[d]]];
  if (!subtrees_done_ && !in_subtree_[target]) return;
  next_[d] = waiting_[target];
  waiting_[target] = d;
}

void Filling::start_values(const Supernode &node, Desk &desk) const {
  const int step = node.value.step;
  for (int k = 0; k < node.n_rows; ++k) desk.local[node.rows[k]] = step * k;
  for (int c = 0; c < node.n_columns; ++c) {
    double *column = node.value.column(c);
    if (step == 1)
      std::fill(column + c, column + node.n_rows, 0.0);
    else
      std::fill(column - (node.n_rows - 1), column - c + 1, 0.0);
    for (long e = matrix_.start[node.first + c]; e < matrix_.start[node.first + c + 1]; ++e)
      column[desk.local[matrix_.row[e]]] += matrix_.value[e];
  }
}

/// Takes L_d L_d^T of all descendants off one panel of columns.
void Filling::subtract(const std::vector<int> &descendants, const Supernode &node, int first_column,
                       const std::vector<int> &local, Desk &desk) const {
  const double one = 1, zero = 0;
  const int begin = node.first + first_column;
  const int end = std::min(begin + panel, node.first + node.n_columns);
  for (const int d : descendants) {
    const Supernode &below = nodes_[d];
    const int *last = below.rows + below.n_rows;
    const int *from = std::lower_bound(below.rows + position_[d], last, begin);
    const int width = static_cast<int>(std::lower_bound(from, last, end) - from);
    if (width == 0) continue;
    const int height = static_cast<int>(last - from);
    const double *l = below.value.origin + (from - below.rows);
    desk.update.resize(std::max(desk.update.size(), static_cast<std::size_t>(height) * width));
    double *update = desk.update.data();
    dsyrk_("L", "N", &width, &below.n_columns, &one, l, &below.n_rows, &zero, update, &height);
    const int rest = height - width;
    if (rest > 0)
      dgemm_("N", "T", &rest, &width, &below.n_columns, &one, l + width, &below.n_rows, l,
             &below.n_rows, &zero, update + width, &height);
    for (int j = 0; j < width; ++j) {
      double *column = node.value.column(from[j] - node.first);
      const double *product = update + 1L * j * height;
      for (int i = j; i < height; ++i) column[local[from[i]]] -= product[i];
    }
  }
}

void eliminate(const Supernode &node) {
  const double one = 1;
  const int k = node.n_columns, below = node.n_rows - k;
  double *own = node.value.origin;
  factor(node.value, k);
  if (below > 0)
    dtrsm_("R", "L", "T", "N", &below, &k, &one, own, &node.n_rows, own + k, &node.n_rows);
}

/// With several desks the panels are shared among as many threads.
void Filling::one(int s, std::vector<Desk *> desks) {
  const Supernode &node = nodes_[s];
  start_values(node, *desks[0]);
  std::vector<int> descendants;
  for (int d = waiting_[s]; d >= 0; d = next_[d]) descendants.push_back(d);
  const int n_panels = (node.n_columns + panel - 1) / panel;
  const std::vector<int> &local = desks[0]->local;
  if (desks.size() == 1 || n_panels == 1) {
    for (int p = 0; p < n_panels; ++p) subtract(descendants, node, p * panel, local, *desks[0]);
  } else {
    const OneBlasThread alone;
    std::atomic<int> next_panel{0};
    in_parallel([&](int t) {
      for (int p = next_panel++; p < n_panels; p = next_panel++)
        subtract(descendants, node, p * panel, local, *desks[t]);
    });
  }
  const int end = node.first + node.n_columns;
  for (const int d : descendants) {
    const Supernode &below = nodes_[d];
    while (position_[d] < below.n_rows && below.rows[position_[d]] < end) ++position_[d];
    queue(d);
  }
  if (!node.stays) eliminate(node);
  position_[s] = node.n_columns;
  queue(s);
}

}  // namespace

void fill_factor(const SymmetricMatrix &a, const SupernodalPattern &pattern, double *numbers,
                 const DenseTriangle &border) {
  Filling(a, pattern, numbers, border).run();
}

}  // namespace felloe::detail
