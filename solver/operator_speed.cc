// SPDX-License-Identifier: GPL-3.0-or-later
// Times the bare product.
#include "solver/operator_speed.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <limits>

#include "solver/detail/cell_operator.h"

namespace felloe {
namespace {

template <class T>
double seconds(const Mesh &mesh, const Material &material, int n_threads, int repetitions) {
  const std::vector<detail::Lame> of_cells(mesh.cells.size(), detail::lame(material));
  const int n_shares = std::clamp<int>(n_threads, 1, static_cast<int>(mesh.cells.size()));
  const detail::NodeExchange alone;
  const detail::CellOperator<T> k(mesh, detail::cell_columns(mesh, n_shares), of_cells, alone);
  detail::AlignedVector<T> x(k.vector_size()), y(k.vector_size());
  for (long i = 0; i < k.n_unknowns(); ++i) x[i] = static_cast<T>(std::sin(0.1 * i));
  double best = std::numeric_limits<double>::max();
  for (int r = 0; r < repetitions; ++r) {
    const auto start = std::chrono::steady_clock::now();
    k.multiply(x.data(), y.data());
    const std::chrono::duration<double> time = std::chrono::steady_clock::now() - start;
    best = std::min(best, time.count());
  }
  return best;
}

}  // namespace

double operator_seconds(const Mesh &mesh, const Material &material, Precision precision,
                        int n_threads, int repetitions) {
  return precision == Precision::double_precision
             ? seconds<double>(mesh, material, n_threads, repetitions)
             : seconds<float>(mesh, material, n_threads, repetitions);
}

}  // namespace felloe
