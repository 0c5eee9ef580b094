// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/detail/mirrored_ring.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <complex>
#include <iterator>
#include <map>
#include <utility>

#include "mesher/vec3.h"
#include "solver/detail/blas_threads.h"
#include "solver/detail/parallel.h"
#include "solver/detail/ring_content.h"
#include "solver/detail/ring_system.h"
#include "solver/detail/stopwatch.h"

namespace felloe::detail {
namespace {

using Complex = std::complex<double>;

/// The adapter's motions that a mirrored pair of wedges share with equal and with opposite sign.
constexpr int adapter_motions[2][3] = {{0, 2, 4}, {1, 3, 5}};

/// Odd parts carry the factor -i of the substitution.
constexpr Complex phase[2] = {1, Complex(0, -1)};

}  // namespace

struct MirroredRing::Impl {
  WedgeMatrix wedge;
  long n;
  double scale = 0;           ///< largest right-hand side so far
  double factor_seconds = 0;  ///< so far
  Half halves[2];
  TrianglePair corners;               ///< S+ and S-, later the last harmonics' factors
  std::map<int, RingSystem> systems;  ///< by harmonic; 0: even part, -1: odd part of harmonic 0

  explicit Impl(WedgeMatrix w) : wedge(std::move(w)), n(wedge.matrix.size()) {}
  int n_harmonics() const { return wedge.n_sectors / 2 + 1; }
  double angle(int h) const { return 2 * pi * h / wedge.n_sectors; }

  void make_half(Parity);
  void make_halves(const RingContent &);
  void condense(Parity, const std::vector<const SparseVector *> &loads);
  bool in_use(int number, int parity) const {
    return number != (parity == even ? -1 : 0) && halves[parity].factor;
  }
  void make_systems(const std::vector<int> &numbers);
  void factor_all(std::vector<RingSystem *>);
  std::vector<double> solved(int number, int n_loads) const;
  void spread(int number, const std::vector<double> &x, int n_loads,
              std::vector<double> (&border)[2]) const;
  void solve_systems(const std::vector<int> &numbers, int n_loads,
                     std::vector<double> (&border)[2]);
  void recover(Parity, bool add, int n_columns, RawVector<double> &x);
  RawVector<double> solve(const std::vector<const SparseVector *> &loads);
};

MirroredRing::MirroredRing(WedgeMatrix wedge) : impl_(std::make_unique<Impl>(std::move(wedge))) {}
MirroredRing::~MirroredRing() = default;

double MirroredRing::entries() const {
  const auto square = [](double n) { return n * n; };
  double sum = 0;
  for (const Half &half : impl_->halves)
    if (half.factor) sum += half.factor->entries() + square(half.factor->border_size()) / 2;
  for (const auto &[h, system] : impl_->systems)
    if (system.own) sum += square(system.size());
  return sum;
}

double MirroredRing::factor_seconds() const { return impl_->factor_seconds; }

/// Conditions of the parity, ordering, elimination up to the cut.
void MirroredRing::Impl::make_half(Parity parity) {
  Half &half = halves[parity];
  std::vector<long> position = wedge.position;
  for (const long u : parity == even ? wedge.across : wedge.within) position[u] = -1;
  std::vector<long> border;
  half.cut.clear();
  for (const long u : wedge.cut) {
    half.cut.push_back(static_cast<long>(border.size()));
    border.push_back(u);
  }
  half.adapter.assign(wedge.adapter.size(), -1);
  if (!wedge.adapter.empty()) {
    for (const int m : adapter_motions[1 - parity]) position[wedge.adapter[m]] = -1;
    for (const int m : adapter_motions[parity]) {
      half.adapter[m] = static_cast<long>(border.size());
      border.push_back(wedge.adapter[m]);
    }
  }
  half.schur = parity == even ? corners.first() : corners.second();
  half.factor.emplace(wedge.matrix, border, wedge.group, position, half.schur);
}

/// Both at once: they are independent, and each runs better on half of the processors than one
/// after the other on all.
void MirroredRing::Impl::make_halves(const RingContent &c) {
  if (!corners)
    corners = TrianglePair(static_cast<long>(wedge.cut.size() + wedge.adapter.size() / 2));
  const bool wanted[2] = {c.uses(even) && !halves[even].factor, c.uses(odd) && !halves[odd].factor};
  if (wanted[even] && wanted[odd]) {
    const OneBlasThread alone;
    in_parallel(2, [&](int t) { make_half(t == 0 ? even : odd); });
  } else if (wanted[even] || wanted[odd]) {
    make_half(wanted[even] ? even : odd);
  }
}

/// One parity of all loads, down to the border.
void MirroredRing::Impl::condense(Parity parity, const std::vector<const SparseVector *> &loads) {
  Half &half = halves[parity];
  const int n_sectors = wedge.n_sectors, n_columns = static_cast<int>(loads.size()) * n_sectors;
  const double root = std::sqrt(0.5), sign = parity == even ? 1 : -1;
  std::vector<SparseVector> columns(n_columns);
  parallel_for(0, static_cast<int>(loads.size()), [&](int l) {
    by_unknown(*loads[l], n, 2 * n_sectors, [&](long i, const std::vector<double> &of_wedges) {
      for (int k = 0; k < n_sectors; ++k)
        if (const double part = of_wedges[2 * k] + sign * of_wedges[2 * k + 1]; part != 0)
          columns[l * n_sectors + k].append(static_cast<int>(i), root * part);
    });
  });
  half.border_values = half.factor->condense(columns, half.eliminated);
}

/// The condensed loads of both halves in one system's unknowns, solved: of each load the real
/// parts, then the imaginary ones.
std::vector<double> MirroredRing::Impl::solved(int number, int n_loads) const {
  const RingSystem &ring = systems.at(number);
  const int m = ring.size(), n_sectors = wedge.n_sectors;
  const double t = angle(std::max(number, 0));
  std::vector<double> x(2L * m * n_loads, 0.0);
  parallel_for(0, n_loads, [&](int load) {
    std::vector<Complex> sum(m, Complex(0));
    for (const int p : {even, odd}) {
      if (!in_use(number, p)) continue;
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
  detail::solve(ring.matrix, m, x.data(), 2 * n_loads);
  return x;
}

/// Adds one system's share to the border's values.
void MirroredRing::Impl::spread(int number, const std::vector<double> &x, int n_loads,
                                std::vector<double> (&border)[2]) const {
  const RingSystem &ring = systems.at(number);
  const int m = ring.size(), n_sectors = wedge.n_sectors;
  const double t = angle(std::max(number, 0));
  const bool is_pair = number > 0 && 2 * number < n_sectors;
  const double weight = (is_pair ? 2.0 : 1.0) / n_sectors * std::sqrt(2.0);
  parallel_for(0, n_loads, [&](int load) {
    for (const int p : {even, odd}) {
      if (!in_use(number, p)) continue;
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

/// Those that are not there yet. When then none is missing, S+ and S- give their memory to the
/// last.
void MirroredRing::Impl::make_systems(const std::vector<int> &numbers) {
  std::vector<int> missing, last;
  std::copy_if(numbers.begin(), numbers.end(), std::back_inserter(missing),
               [&](int number) { return systems.count(number) == 0; });
  if (missing.empty()) return;
  // of two sectors four motions of the adapter stand in one harmonic, on a border only three
  const bool all_fit = wedge.adapter.empty() || wedge.n_sectors > 2;
  if (all_fit && static_cast<int>(systems.size() + missing.size()) == n_harmonics() + 1)
    for (const int number : missing)
      if (number > 0 && last.size() < 2) last.push_back(number);
  std::map<int, RingSystem> made;
  for (const int number : missing)
    if (std::find(last.begin(), last.end(), number) == last.end())
      made[number] = ring_system(wedge, halves, number);
  std::vector<RingSystem> of_corners = last_ring_systems(wedge, halves, last);
  for (std::size_t k = 0; k < last.size(); ++k) made[last[k]] = std::move(of_corners[k]);
  std::vector<RingSystem *> all;
  for (auto &[number, system] : made) all.push_back(&system);
  factor_all(std::move(all));
  systems.merge(made);
}

/// Systems of about one size run on a processor each, which wastes less than to share out every
/// one.
void MirroredRing::Impl::factor_all(std::vector<RingSystem *> all) {
  std::sort(all.begin(), all.end(), [](auto *a, auto *b) { return a->size() > b->size(); });
  const int n = static_cast<int>(all.size()), wide = n_threads();
  for (int k = 0; k < n;) {
    const bool alike = k + wide <= n && all[k + wide - 1]->size() > 0.9 * all[k]->size();
    if (alike) {
      const OneBlasThread alone;
      in_parallel(wide, [&](int t) { factor(all[k + t]->matrix, all[k + t]->size()); });
    } else {
      factor(all[k]->matrix, all[k]->size());
    }
    k += alike ? wide : 1;
  }
}

void MirroredRing::Impl::solve_systems(const std::vector<int> &numbers, int n_loads,
                                       std::vector<double> (&border)[2]) {
  const int n_systems = static_cast<int>(numbers.size());
  Stopwatch watch;
  make_systems(numbers);
  factor_seconds += watch.lap();
  const auto each = [&](auto &&work) {
    if (n_systems < n_threads()) {
      for (int s = 0; s < n_systems; ++s) work(s);
      return;
    }
    const OneBlasThread alone;
    std::atomic<int> next{0};
    in_parallel([&](int) {
      for (int s = next++; s < n_systems; s = next++) work(s);
    });
  };
  std::vector<std::vector<double>> x(n_systems);
  each([&](int s) { x[s] = solved(numbers[s], n_loads); });
  for (int s = 0; s < n_systems; ++s) spread(numbers[s], x[s], n_loads, border);
}

/// Interiors from the border, and both wedges of a sector from its even or odd part.
void MirroredRing::Impl::recover(Parity parity, bool add, int n_columns, RawVector<double> &x) {
  Half &half = halves[parity];
  const double root = std::sqrt(0.5), sign = parity == even ? 1 : -1;
  std::vector<WantedColumn> columns;
  for (int column = 0; column < n_columns; ++column) {
    double *a = x.data() + 2L * n * column;
    columns.push_back({a, a + n, root, sign * root, add});
  }
  half.factor->recover(half.border_values, std::move(half.eliminated), columns);
  half.border_values = {};
}

RawVector<double> MirroredRing::Impl::solve(const std::vector<const SparseVector *> &loads) {
  const int n_loads = static_cast<int>(loads.size()), n_columns = n_loads * wedge.n_sectors;
  const RingContent c = ring_content(wedge, loads, scale);
  Stopwatch watch;
  make_halves(c);
  factor_seconds += watch.lap();
  std::vector<double> border[2];
  for (const Parity p : {even, odd})
    if (c.uses(p)) {
      condense(p, loads);
      border[p].assign(halves[p].border_values.size(), 0.0);
    } else {
      halves[p].border_values.assign(
          halves[p].factor ? halves[p].factor->border_size() * n_columns : 0, 0.0);
    }
  std::vector<int> numbers;  // the large ones first
  for (int h = 1; h < n_harmonics(); ++h)
    if (c.harmonic[h]) numbers.push_back(h);
  if (c.uses(even)) numbers.push_back(0);
  if (c.uses(odd)) numbers.push_back(-1);
  solve_systems(numbers, n_loads, border);
  RawVector<double> x(2L * n * n_columns);
  if (!c.uses(even) && !c.uses(odd)) std::fill(x.begin(), x.end(), 0.0);
  for (const Parity p : {even, odd})
    if (c.uses(p)) {
      halves[p].border_values = std::move(border[p]);
      recover(p, p == odd && c.uses(even), n_columns, x);
    }
  return x;
}

RingSolutions MirroredRing::solve(const std::vector<SparseVector> &right_hand_sides) {
  Impl &ring = *impl_;
  const int n_loads = static_cast<int>(right_hand_sides.size());
  RingSolutions s;
  s.n = ring.n;
  s.n_wedges = 2 * ring.wedge.n_sectors;
  // the adapter's motions stand for wedge 0 alone
  s.images = ring.wedge.adapter.empty() ? load_images(right_hand_sides, s.n, s.n_wedges)
                                        : no_images(n_loads, s.n_wedges);
  std::vector<const SparseVector *> originals;
  std::vector<int> number(n_loads);
  for (int l = 0; l < n_loads; ++l) {
    LoadImage &image = s.images[l];
    if (image.original == l) {
      number[l] = static_cast<int>(originals.size());
      originals.push_back(&right_hand_sides[l]);
    }
    image.original = number[image.original];
  }
  s.x = ring.solve(originals);
  return s;
}

}  // namespace felloe::detail
