// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/bench/machine.h"

#include <algorithm>
#include <chrono>
#include <fstream>
#include <memory>
#include <thread>
#include <vector>

#include "solver/blas_check.h"

namespace felloe::bench {
namespace {

/// Best of five sweeps over arrays far larger than the caches.
double triad(int n_threads) {
  constexpr long n = 1L << 25;
  const std::unique_ptr<double[]> a(new double[n]), b(new double[n]), c(new double[n]);
  const auto on_all = [&](auto work) {
    std::vector<std::thread> threads;
    for (int t = 0; t < n_threads; ++t)
      threads.emplace_back([&, t] { work(n * t / n_threads, n * (t + 1) / n_threads); });
    for (std::thread &thread : threads) thread.join();
  };
  on_all([&](long begin, long end) {
    for (long i = begin; i < end; ++i) a[i] = 0, b[i] = 1, c[i] = 2;
  });
  double best = 0;
  for (int sweep = 0; sweep < 5; ++sweep) {
    const auto start = std::chrono::steady_clock::now();
    on_all([&](long begin, long end) {
      double *to = a.get();
      const double *from = b.get(), *other = c.get();
      for (long i = begin; i < end; ++i) to[i] = from[i] + 3.0 * other[i];
    });
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
    best = std::max(best, 24e-9 * n / took.count());
  }
  return best;
}

/// The first value of a key in a file of lines "key : value".
std::string value_in(const std::string &file, const std::string &key) {
  std::ifstream lines(file);
  for (std::string line; std::getline(lines, line);) {
    if (line.compare(0, key.size(), key) != 0) continue;
    const std::size_t begin = line.find_first_not_of(" \t", line.find(':') + 1);
    return begin == std::string::npos ? "" : line.substr(begin);
  }
  return "";
}

int simd_lanes() {
#if defined(__x86_64__)
  if (__builtin_cpu_supports("avx512f")) return 8;
  if (__builtin_cpu_supports("avx2")) return 4;
  return 2;
#else
  return 1;
#endif
}

}  // namespace

Machine this_machine() {
  Machine m;
  m.processor = value_in("/proc/cpuinfo", "model name");
  m.cores = static_cast<int>(std::thread::hardware_concurrency());
  m.lanes = simd_lanes();
  m.bandwidth_one_core = triad(1);
  m.bandwidth = triad(m.cores);
  m.blas = blas_in_use();
  return m;
}

double peak_memory() {
  const std::string text = value_in("/proc/self/status", "VmHWM");
  return text.empty() ? 0 : std::stod(text) / 1024;
}

}  // namespace felloe::bench
