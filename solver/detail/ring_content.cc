// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/detail/ring_content.h"

#include <cmath>
#include <complex>
#include <map>

#include "mesher/vec3.h"
#include "solver/detail/parallel.h"

namespace felloe::detail {
namespace {

using Complex = std::complex<double>;

/// A part of the loads smaller than this in relation to all of them is rounding; to leave it out
/// shows in the residual, which is checked.
constexpr double negligible = 1e-12;

}  // namespace

RingContent ring_content(const WedgeMatrix &wedge, const std::vector<const SparseVector *> &loads,
                         double &scale) {
  const long n = wedge.matrix.size();
  const int n_sectors = wedge.n_sectors, n_loads = static_cast<int>(loads.size());
  const int n_harmonics = n_sectors / 2 + 1;
  std::vector<bool> on_adapter(n, false);
  for (const long u : wedge.adapter) on_adapter[u] = true;
  // [load][harmonic][parity]: square of the size; total: of a whole load
  std::vector<double> power(2L * n_loads * n_harmonics, 0.0), total(n_loads, 0.0);
  parallel_for(0, n_loads, [&](int load) {
    std::vector<double> part[2] = {std::vector<double>(n_sectors), std::vector<double>(n_sectors)};
    const auto amplitude = [&](Parity p, int h) {
      Complex sum = 0;
      for (int k = 0; k < n_sectors; ++k)
        sum += std::polar(1.0, -2 * pi * (h * k % n_sectors) / n_sectors) * part[p][k];
      return sum;
    };
    const auto read = [&](const std::vector<double> &of_wedges) {
      for (int k = 0; k < n_sectors; ++k) {
        const double a = of_wedges[2 * k], b = of_wedges[2 * k + 1];
        part[even][k] = a + b;
        part[odd][k] = a - b;
        total[load] += a * a + b * b;
      }
    };
    const auto add = [&](Parity p, int h, Complex sum) {
      power[2L * (load * n_harmonics + h) + p] += std::norm(sum) / (2 * n_sectors);
    };
    std::map<long, std::vector<double>> of_adapter;
    by_unknown(*loads[load], n, 2 * n_sectors, [&](long i, const std::vector<double> &of_wedges) {
      if (on_adapter[i]) {
        of_adapter[i] = of_wedges;
        return;
      }
      read(of_wedges);
      for (const Parity p : {even, odd})
        for (int h = 0; h < n_harmonics; ++h) add(p, h, amplitude(p, h));
    });
    if (of_adapter.empty()) return;
    // one body for all sectors: it knows the axial motions and two lateral ones
    const auto motion = [&](int m, int h) -> Complex {
      const auto found = of_adapter.find(wedge.adapter[m]);
      if (found == of_adapter.end()) return 0;
      read(found->second);
      return amplitude(m % 2 == 0 ? even : odd, h);
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
  RingContent c;
  c.harmonic.assign(n_harmonics, false);
  for (std::size_t k = 0; k < power.size(); ++k) {
    if (!(std::sqrt(power[k]) > negligible * scale)) continue;
    const int h = static_cast<int>(k / 2) % n_harmonics;
    if (h == 0)
      c.part[k % 2] = true;
    else
      c.harmonic[h] = true;
  }
  return c;
}

}  // namespace felloe::detail
