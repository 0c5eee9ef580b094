// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/detail/ring_system.h"

#include <algorithm>
#include <cmath>

#include "mesher/vec3.h"
#include "solver/detail/blas.h"
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
  const double *schur;
  long leading;
  std::vector<long> place;
  std::vector<double> weight;  ///< 0 where the half does not know the unknown
  int n_following = 0;  ///< so many rows from the first on follow one another in the border too
};

View view(const std::vector<Coupling> &unknowns, const PartialCholesky &half, Parity p) {
  View v{half.schur(), half.border_size(), {}, {}, 0};
  for (const Coupling &c : unknowns) {
    v.place.push_back(std::max(c.place[p], 0L));
    v.weight.push_back(c.place[p] < 0 ? 0 : c.weight[p]);
  }
  const int n = static_cast<int>(unknowns.size());
  while (v.n_following < n && unknowns[v.n_following].place[p] == v.place[0] + v.n_following)
    ++v.n_following;
  return v;
}

/// Column j from the diagonal on; `add`: to what is there. Only the lower triangle of S is set.
void put_column(const View &v, int n, int j, bool add, double *to) {
  const double *following = v.schur + v.place[j] * v.leading + v.place[0];
  const auto entry = [&](int i) {
    return v.schur[std::min(v.place[i], v.place[j]) * v.leading + std::max(v.place[i], v.place[j])];
  };
  const double factor = 2 * v.weight[j];
  int i = j;
  if (add) {
    for (; i < v.n_following; ++i) to[i] += factor * v.weight[i] * following[i];
    for (; i < n; ++i) to[i] += factor * v.weight[i] * entry(i);
  } else {
    for (; i < v.n_following; ++i) to[i] = factor * v.weight[i] * following[i];
    for (; i < n; ++i) to[i] = factor * v.weight[i] * entry(i);
  }
}

}  // namespace

RingSystem ring_system(const WedgeMatrix &wedge, const Half (&halves)[2], int number) {
  RingSystem ring;
  ring.unknowns = couplings(wedge, halves, number);
  const int n = ring.size();
  std::vector<View> views;
  for (const Parity p : {even, odd})
    if (number != (p == even ? -1 : 0)) views.push_back(view(ring.unknowns, *halves[p].factor, p));
  // not a vector: nobody reads the upper triangle, and it shall not be touched
  ring.factor.reset(new double[1L * n * n]);
  const int n_shares = 8 * n_threads();
  parallel_for(0, n_shares, [&](int share) {
    for (int j = share; j < n; j += n_shares)
      for (std::size_t v = 0; v < views.size(); ++v)
        put_column(views[v], n, j, v > 0, ring.factor.get() + 1L * j * n);
  });
  int info = 0;
  dpotrf_("L", &n, ring.factor.get(), &n, &info);
  if (info != 0) throw NotPositiveDefinite(0);
  return ring;
}

}  // namespace felloe::detail
