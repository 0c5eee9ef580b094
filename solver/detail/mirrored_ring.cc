// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/detail/mirrored_ring.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <map>
#include <optional>
#include <utility>

#include "mesher/vec3.h"
#include "solver/detail/blas.h"
#include "solver/detail/blas_threads.h"
#include "solver/detail/cholmod_view.h"
#include "solver/detail/parallel.h"

namespace felloe::detail {
namespace {

using Complex = std::complex<double>;

/// A part of the loads smaller than this in relation to all of them is rounding; to leave it out
/// shows in the residual, which is checked.
constexpr double negligible = 1e-12;

enum Parity { even = 0, odd = 1 };

/// The adapter's motions that a mirrored pair of wedges share with equal and with opposite sign.
constexpr int adapter_motions[2][3] = {{0, 2, 4}, {1, 3, 5}};

/// Half a sector under the conditions of one parity.
struct Half {
  std::vector<long> unknowns;  ///< of the wedge, in the order of the half's own
  std::optional<PartialCholesky> factor;
  std::vector<long> cut;              ///< places in the border, -1 where held
  std::vector<long> adapter;          ///< six places in the border, -1 of the other parity
  std::vector<double> border_values;  ///< [column][border]
  std::vector<double> eliminated;     ///< what the factor keeps between its two steps
};

/// How one unknown of a harmonic's system stands on the borders of both halves.
struct Coupling {
  long place[2] = {-1, -1};
  double weight[2] = {0, 0};
};

/// One real system: a harmonic, or one parity of harmonic 0.
struct RingSystem {
  std::vector<Coupling> unknowns;
  std::vector<double> factor;  ///< dense Cholesky, lower triangle
};

/// What a set of loads calls for.
struct Content {
  bool part[2] = {false, false};  ///< even and odd part of harmonic 0
  std::vector<bool> harmonic;     ///< from 1 on; entry 0 unused
  bool any_harmonic() const {
    return std::any_of(harmonic.begin(), harmonic.end(), [](bool b) { return b; });
  }
};

}  // namespace

struct MirroredRing::Impl {
  WedgeMatrix wedge;
  long n;
  double scale = 0;  ///< largest right-hand side so far
  Half halves[2];
  std::map<int, RingSystem> systems;  ///< by harmonic; 0: even part, -1: odd part of harmonic 0

  explicit Impl(WedgeMatrix w) : wedge(std::move(w)), n(wedge.matrix.size()) {}
  int n_harmonics() const { return wedge.n_sectors / 2 + 1; }
  double angle(int h) const { return 2 * pi * h / wedge.n_sectors; }

  Content content(const std::vector<double> &right_hand_sides, int n_loads);
  void make_half(Parity);
  void make_halves(const Content &);
  RingSystem &system(int number);
  std::vector<Coupling> couplings(int number) const;
  void condense(Parity, const std::vector<double> &right_hand_sides, int n_columns);
  void solve_system(int number, int n_loads, std::vector<double> (&border)[2]);
  void add_recovered(Parity, int n_columns, std::vector<double> &x);
};

MirroredRing::MirroredRing(WedgeMatrix wedge) : impl_(std::make_unique<Impl>(std::move(wedge))) {}
MirroredRing::~MirroredRing() = default;

double MirroredRing::entries() const {
  double sum = 0;
  for (const Half &half : impl_->halves)
    if (half.factor) sum += half.factor->entries();
  for (const auto &[h, system] : impl_->systems) sum += static_cast<double>(system.factor.size());
  return sum;
}

/// Which harmonics and parities the loads contain.
Content MirroredRing::Impl::content(const std::vector<double> &right_hand_sides, int n_loads) {
  const int n_sectors = wedge.n_sectors;
  std::vector<bool> on_adapter(n, false);
  for (const long u : wedge.adapter) on_adapter[u] = true;
  // [load][harmonic][parity]: square of the size; total: of a whole load
  std::vector<double> power(2L * n_loads * n_harmonics(), 0.0), total(n_loads, 0.0);
  parallel_for(0, n_loads, [&](int load) {
    const double *f = right_hand_sides.data() + 2L * n * n_sectors * load;
    std::vector<double> part[2] = {std::vector<double>(n_sectors), std::vector<double>(n_sectors)};
    const auto amplitude = [&](Parity p, int h) {
      Complex sum = 0;
      for (int k = 0; k < n_sectors; ++k)
        sum += std::polar(1.0, -angle(h * k % n_sectors)) * part[p][k];
      return sum;
    };
    const auto read = [&](long i) {
      double size = 0;
      for (int k = 0; k < n_sectors; ++k) {
        const double a = f[2L * k * n + i], b = f[(2L * k + 1) * n + i];
        part[even][k] = a + b;
        part[odd][k] = a - b;
        size += a * a + b * b;
      }
      total[load] += size;
      return size > 0;
    };
    const auto add = [&](Parity p, int h, Complex sum) {
      power[2L * (load * n_harmonics() + h) + p] += std::norm(sum) / (2 * n_sectors);
    };
    for (long i = 0; i < n; ++i)
      if (!on_adapter[i] && read(i))
        for (const Parity p : {even, odd})
          for (int h = 0; h < n_harmonics(); ++h) add(p, h, amplitude(p, h));
    if (wedge.adapter.empty()) return;
    // one body for all sectors: it knows the axial motions and two lateral ones
    const auto motion = [&](int m, int h) {
      const Parity p = m % 2 == 0 ? even : odd;
      return read(wedge.adapter[m]) ? amplitude(p, h) : 0;
    };
    const Complex i(0, 1);
    add(even, 0, motion(2, 0));
    add(odd, 0, motion(5, 0));
    if (n_sectors <= 2) {
      const int h = 1 % n_sectors;
      for (const int m : {0, 4}) add(even, h, motion(m, h));
      for (const int m : {1, 3}) add(odd, h, motion(m, h));
      return;
    }
    add(even, 1, motion(0, 1) - i * motion(1, 1));
    add(even, 1, motion(4, 1) + i * motion(3, 1));
  });
  for (const double t : total) scale = std::max(scale, std::sqrt(t));
  Content c;
  c.harmonic.assign(n_harmonics(), false);
  for (std::size_t k = 0; k < power.size(); ++k) {
    if (!(std::sqrt(power[k]) > negligible * scale)) continue;
    const int h = static_cast<int>(k / 2) % n_harmonics();
    if (h == 0)
      c.part[k % 2] = true;
    else
      c.harmonic[h] = true;
  }
  return c;
}

/// Conditions of the parity, ordering, elimination up to the cut.
void MirroredRing::Impl::make_half(Parity parity) {
  Half &half = halves[parity];
  std::vector<bool> absent(n, false);
  for (const long u : parity == even ? wedge.across : wedge.within) absent[u] = true;
  if (!wedge.adapter.empty())
    for (const int m : adapter_motions[1 - parity]) absent[wedge.adapter[m]] = true;
  std::vector<long> number(n, -1);
  std::vector<int> group;
  std::vector<long> position;
  for (long u = 0; u < n; ++u)
    if (!absent[u]) {
      if (!wedge.position.empty()) position.push_back(wedge.position[u]);
      number[u] = static_cast<long>(half.unknowns.size());
      half.unknowns.push_back(u);
      group.push_back(wedge.group[u]);
    }
  std::vector<long> border;
  for (const long u : wedge.cut) border.push_back(number[u]);
  if (!wedge.adapter.empty())
    for (const int m : adapter_motions[parity]) border.push_back(number[wedge.adapter[m]]);
  half.factor.emplace(submatrix(wedge.matrix, number), border, group, position);
  std::vector<long> place(half.unknowns.size(), -1);
  for (std::size_t i = 0; i < half.factor->border().size(); ++i)
    place[half.factor->border()[i]] = static_cast<long>(i);
  for (const long u : wedge.cut) half.cut.push_back(place[number[u]]);
  for (const long u : wedge.adapter) half.adapter.push_back(number[u] >= 0 ? place[number[u]] : -1);
}

/// Both at once: they are independent, and each runs better on half of the processors than one
/// after the other on all.
void MirroredRing::Impl::make_halves(const Content &c) {
  const bool wanted[2] = {(c.part[even] || c.any_harmonic()) && !halves[even].factor,
                          (c.part[odd] || c.any_harmonic()) && !halves[odd].factor};
  if (wanted[even] && wanted[odd]) {
    const OneBlasThread alone;
    in_parallel(2, [&](int t) { make_half(t == 0 ? even : odd); });
  } else if (wanted[even] || wanted[odd]) {
    make_half(wanted[even] ? even : odd);
  }
}

/// Unknowns: those of the cut, then the adapter's.
std::vector<Coupling> MirroredRing::Impl::couplings(int number) const {
  const double c = std::cos(0.5 * angle(std::max(number, 0))),
               s = std::sin(0.5 * angle(std::max(number, 0)));
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

RingSystem &MirroredRing::Impl::system(int number) {
  const auto [at, is_new] = systems.try_emplace(number);
  RingSystem &ring = at->second;
  if (!is_new) return ring;
  ring.unknowns = couplings(number);
  const int m = static_cast<int>(ring.unknowns.size());
  ring.factor.assign(1L * m * m, 0.0);
  const int n_shares = 8 * n_threads();
  for (const int p : {even, odd}) {
    if (number == (p == even ? -1 : 0)) continue;
    // The border keeps the order of the cut, so that most rows follow one another there.
    std::vector<double> weight;
    for (const Coupling &c : ring.unknowns) weight.push_back(c.place[p] < 0 ? 0 : c.weight[p]);
    int n_following = 0;
    const long first = m > 0 ? ring.unknowns[0].place[p] : -1;
    while (first >= 0 && n_following < m &&
           ring.unknowns[n_following].place[p] == first + n_following)
      ++n_following;
    const PartialCholesky &half = *halves[p].factor;
    parallel_for(0, n_shares, [&](int share) {
      for (int j = share; j < m; j += n_shares) {
        if (ring.unknowns[j].place[p] < 0) continue;
        const double *column = half.schur().data() + ring.unknowns[j].place[p] * half.border_size();
        const double factor = 2 * weight[j];
        double *to = ring.factor.data() + 1L * j * m;
        const double *following = column + first;
        int i = j;
        for (; i < n_following; ++i) to[i] += factor * weight[i] * following[i];
        for (; i < m; ++i)
          if (ring.unknowns[i].place[p] >= 0)
            to[i] += factor * weight[i] * column[ring.unknowns[i].place[p]];
      }
    });
  }
  int info = 0;
  dpotrf_("L", &m, ring.factor.data(), &m, &info);
  if (info != 0) throw NotPositiveDefinite(0);
  return ring;
}

/// One parity of all loads, down to the border.
void MirroredRing::Impl::condense(Parity parity, const std::vector<double> &right_hand_sides,
                                  int n_columns) {
  Half &half = halves[parity];
  const long m = static_cast<long>(half.unknowns.size());
  std::vector<double> f(m * n_columns);
  const double sign = parity == even ? 1 : -1;
  parallel_for(0, n_columns, [&](int column) {
    const double *a = right_hand_sides.data() + 2L * n * column, *b = a + n;
    double *to = f.data() + m * column;
    for (long i = 0; i < m; ++i)
      to[i] = std::sqrt(0.5) * (a[half.unknowns[i]] + sign * b[half.unknowns[i]]);
  });
  half.border_values = half.factor->condense(f, n_columns, half.eliminated);
}

/// Reads the condensed loads of both halves and adds one system's share to the border's values.
void MirroredRing::Impl::solve_system(int number, int n_loads, std::vector<double> (&border)[2]) {
  const RingSystem &ring = system(number);
  const int m = static_cast<int>(ring.unknowns.size()), n_sectors = wedge.n_sectors;
  const double t = angle(std::max(number, 0));
  const bool is_pair = number > 0 && 2 * number < n_sectors;
  // odd parts carry the factor -i of the substitution
  const Complex phase[2] = {1, Complex(0, -1)};
  std::vector<double> x(2L * m * n_loads, 0.0);  // real and imaginary parts as columns
  const auto in_use = [&](int p) { return number != (p == even ? -1 : 0) && halves[p].factor; };
  parallel_for(0, n_loads, [&](int load) {
    std::vector<Complex> sum(m, Complex(0));
    for (const int p : {even, odd}) {
      if (!in_use(p)) continue;
      const long n_border = halves[p].factor->border_size();
      for (int k = 0; k < n_sectors; ++k) {
        const double *g = halves[p].border_values.data() + (1L * load * n_sectors + k) * n_border;
        const Complex turn = std::sqrt(2.0) * std::conj(phase[p]) * std::polar(1.0, -t * k);
        for (int i = 0; i < m; ++i) {
          const Coupling &c = ring.unknowns[i];
          if (c.place[p] >= 0) sum[i] += turn * (c.weight[p] * g[c.place[p]]);
        }
      }
    }
    for (int i = 0; i < m; ++i) {
      x[2L * load * m + i] = sum[i].real();
      x[(2L * load + 1) * m + i] = sum[i].imag();
    }
  });
  int info = 0;
  const int n_columns = 2 * n_loads;
  dpotrs_("L", &m, &n_columns, ring.factor.data(), &m, x.data(), &m, &info);
  const double weight = (is_pair ? 2.0 : 1.0) / n_sectors * std::sqrt(2.0);
  parallel_for(0, n_loads, [&](int load) {
    for (const int p : {even, odd}) {
      if (!in_use(p)) continue;
      const long n_border = halves[p].factor->border_size();
      for (int k = 0; k < n_sectors; ++k) {
        double *to = border[p].data() + (1L * load * n_sectors + k) * n_border;
        const Complex turn = weight * phase[p] * std::polar(1.0, t * k);
        for (int i = 0; i < m; ++i) {
          const Coupling &c = ring.unknowns[i];
          if (c.place[p] < 0) continue;
          const Complex y(x[2L * load * m + i], x[(2L * load + 1) * m + i]);
          to[c.place[p]] += c.weight[p] * (turn * y).real();
        }
      }
    }
  });
}

/// Interiors from the border, and both wedges of a sector from its even or odd part.
void MirroredRing::Impl::add_recovered(Parity parity, int n_columns, std::vector<double> &x) {
  Half &half = halves[parity];
  const std::vector<double> part =
      half.factor->recover(half.border_values, n_columns, std::move(half.eliminated));
  half.border_values = {};
  const long m = static_cast<long>(half.unknowns.size());
  const double sign = parity == even ? 1 : -1;
  parallel_for(0, n_columns, [&](int column) {
    double *a = x.data() + 2L * n * column, *b = a + n;
    const double *from = part.data() + m * column;
    for (long i = 0; i < m; ++i) {
      a[half.unknowns[i]] += std::sqrt(0.5) * from[i];
      b[half.unknowns[i]] += sign * std::sqrt(0.5) * from[i];
    }
  });
}

std::vector<double> MirroredRing::solve(const std::vector<double> &right_hand_sides, int n_loads) {
  Impl &ring = *impl_;
  const int n_columns = n_loads * ring.wedge.n_sectors;
  const Content content = ring.content(right_hand_sides, n_loads);
  ring.make_halves(content);
  const bool used[2] = {content.part[even] || content.any_harmonic(),
                        content.part[odd] || content.any_harmonic()};
  std::vector<double> border[2];
  for (const Parity p : {even, odd})
    if (used[p]) {
      ring.condense(p, right_hand_sides, n_columns);
      border[p].assign(ring.halves[p].border_values.size(), 0.0);
    } else {
      ring.halves[p].border_values.assign(
          ring.halves[p].factor ? ring.halves[p].factor->border_size() * n_columns : 0, 0.0);
    }
  if (used[even]) ring.solve_system(0, n_loads, border);
  if (used[odd]) ring.solve_system(-1, n_loads, border);
  for (int h = 1; h < ring.n_harmonics(); ++h)
    if (content.harmonic[h]) ring.solve_system(h, n_loads, border);
  std::vector<double> x(right_hand_sides.size(), 0.0);
  for (const Parity p : {even, odd})
    if (used[p]) {
      ring.halves[p].border_values = std::move(border[p]);
      ring.add_recovered(p, n_columns, x);
    }
  return x;
}

}  // namespace felloe::detail
