// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/detail/ring_system.h"

#include <algorithm>
#include <cmath>

#include "mesher/vec3.h"
#include "solver/detail/parallel.h"

namespace felloe::detail {
namespace {

/// Unknowns: those of the cut, then the adapter's.
std::vector<Coupling> couplings(const WedgeMatrix &wedge, const Half (&halves)[2], int number) {
  const double half_angle = pi * std::max(number, 0) / wedge.n_sectors;
  const double c = std::cos(half_angle), s = std::sin(half_angle);
  std::vector<Coupling> all;
  for (std::size_t i = 0; i < wedge.cut.size(); ++i) {
    Coupling k;
    if (halves[even].factor) k.place[even] = halves[even].cut[i];
    if (halves[odd].factor) k.place[odd] = halves[odd].cut[i];
    k.weight[even] = wedge.cut_is_hoop[i] ? s : c;
    k.weight[odd] = wedge.cut_is_hoop[i] ? -c : s;
    if (number == 0 && wedge.cut_is_hoop[i]) continue;    // even: nothing across the cut
    if (number == -1 && !wedge.cut_is_hoop[i]) continue;  // odd: nothing within it
    all.push_back(k);
  }
  if (wedge.adapter.empty()) return all;
  const auto motion = [&](int in_even, double of_even, int in_odd, double of_odd) {
    Coupling k;
    if (in_even >= 0) k.place[even] = halves[even].adapter[in_even];
    if (in_odd >= 0) k.place[odd] = halves[odd].adapter[in_odd];
    k.weight[even] = of_even;
    k.weight[odd] = of_odd;
    all.push_back(k);
  };
  if (number == 0) motion(2, 1, -1, 0);   // axial shift
  if (number == -1) motion(-1, 0, 5, 1);  // turn about the axis
  const int lateral = 1 % wedge.n_sectors;
  if (wedge.n_sectors > 2 && number == lateral) {
    motion(0, 1, 1, -1);              // shift p (1, i)
    motion(4, 1, 3, 1);               // turn -i w (1, i)
  } else if (wedge.n_sectors <= 2) {  // mere changes of sign: both directions for themselves
    if (number == lateral)
      for (const int m : {0, 4}) motion(m, 1, -1, 0);
    if (number == (lateral == 0 ? -1 : lateral))
      for (const int m : {1, 3}) motion(-1, 0, m, 1);
  }
  return all;
}

/// One half's Schur complement as the system's rows and columns see it.
struct View {
  DenseTriangle schur;
  std::vector<long> place;
  std::vector<double> weight;  ///< 0 where the half does not know the unknown
  int n_following = 0;  ///< so many rows from the first on follow one another in the border too
};

View view(const std::vector<Coupling> &unknowns, const Half &half, Parity p) {
  View v{half.schur, {}, {}, 0};
  for (const Coupling &c : unknowns) {
    v.place.push_back(std::max(c.place[p], 0L));
    v.weight.push_back(c.place[p] < 0 ? 0 : c.weight[p]);
  }
  const int n = static_cast<int>(unknowns.size());
  while (v.n_following < n && unknowns[v.n_following].place[p] == v.place[0] + v.n_following)
    ++v.n_following;
  return v;
}

template <int step>
void add_following(const double *schur, const double *weight, double factor, int begin, int end,
                   double *to) {
  for (int i = begin; i < end; ++i) to[i] += factor * weight[i] * schur[step * i];
}

/// Adds a half's share to column j from the diagonal on: row i at to[i].
void add_column(const View &v, int n, int j, double *to) {
  const double factor = 2 * v.weight[j];
  if (factor == 0) return;
  const int step = v.schur.step, end = std::max(j, v.n_following);
  if (v.n_following > 0) {
    const double *following = v.schur.column(v.place[j]) + step * v.place[0];
    (step == 1 ? add_following<1> : add_following<-1>)(following, v.weight.data(), factor, j,
                                                       v.n_following, to);
  }
  for (int i = end; i < n; ++i)
    if (v.weight[i] != 0)
      to[i] += factor * v.weight[i] *
               v.schur.at(std::max(v.place[i], v.place[j]), std::min(v.place[i], v.place[j]));
}

/// The matrix of a system, column by column.
class Columns {
 public:
  Columns(const std::vector<Coupling> &unknowns, const Half (&halves)[2], int number)
      : n_(static_cast<int>(unknowns.size())) {
    for (const Parity p : {even, odd})
      if (number != (p == even ? -1 : 0)) views_.push_back(view(unknowns, halves[p], p));
  }
  /// Column j from the diagonal on: row i at to[i].
  void put(int j, double *to) const {
    std::fill(to + j, to + n_, 0.0);
    for (const View &v : views_) add_column(v, n_, j, to);
  }

 private:
  int n_;
  std::vector<View> views_;
};

/// Columns dealt out so that long and short ones come to each processor; work(j, share).
template <class F>
void for_columns(int n, F &&work) {
  const int n_shares = 8 * n_threads();
  parallel_for(0, n_shares, [&](int share) {
    for (int j = share; j < n; j += n_shares) work(j, share);
  });
}

}  // namespace

RingSystem ring_system(const WedgeMatrix &wedge, const Half (&halves)[2], int number) {
  RingSystem ring;
  ring.unknowns = couplings(wedge, halves, number);
  const long n = ring.size();
  // not a vector: nobody reads the upper triangle, and it shall not be touched
  ring.own.reset(new double[n * n]);
  ring.matrix = {ring.own.get(), n, 1};
  const Columns columns(ring.unknowns, halves, number);
  for_columns(ring.size(), [&](int j, int) { columns.put(j, ring.matrix.column(j)); });
  return ring;
}

/// Columns of the cut need the same columns of S+ and S- alone, and go where those were. The few
/// of the adapter are made before.
std::vector<RingSystem> last_ring_systems(const WedgeMatrix &wedge, const Half (&halves)[2],
                                          const std::vector<int> &numbers) {
  const int n_cut = static_cast<int>(wedge.cut.size());
  std::vector<RingSystem> rings(numbers.size());
  std::vector<Columns> columns;
  std::vector<std::vector<double>> of_adapter(numbers.size());
  int longest = 0;
  for (std::size_t r = 0; r < numbers.size(); ++r) {
    RingSystem &ring = rings[r];
    ring.unknowns = couplings(wedge, halves, numbers[r]);
    ring.matrix = halves[r == 0 ? even : odd].schur;
    columns.emplace_back(ring.unknowns, halves, numbers[r]);
    const int n = ring.size();
    longest = std::max(longest, n);
    of_adapter[r].resize(1L * (n - n_cut) * n);
    for (int j = n_cut; j < n; ++j) columns[r].put(j, of_adapter[r].data() + 1L * (j - n_cut) * n);
  }
  const auto store = [&](const RingSystem &ring, int j, const double *column) {
    for (int i = j; i < ring.size(); ++i) ring.matrix.at(i, j) = column[i];
  };
  std::vector<std::vector<double>> desks(8 * n_threads());
  for_columns(n_cut, [&](int j, int share) {
    std::vector<double> &desk = desks[share];
    desk.resize(rings.size() * longest);
    for (std::size_t r = 0; r < rings.size(); ++r) columns[r].put(j, desk.data() + r * longest);
    for (std::size_t r = 0; r < rings.size(); ++r) store(rings[r], j, desk.data() + r * longest);
  });
  for (std::size_t r = 0; r < rings.size(); ++r)
    for (int j = n_cut; j < rings[r].size(); ++j)
      store(rings[r], j, of_adapter[r].data() + 1L * (j - n_cut) * rings[r].size());
  return rings;
}

}  // namespace felloe::detail
