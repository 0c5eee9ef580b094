// SPDX-License-Identifier: GPL-3.0-or-later
// What the measurements ran on.
#pragma once
#include <string>

namespace felloe::bench {

struct Machine {
  std::string processor;          ///< model name
  int cores = 0;                  ///< logical processors
  int lanes = 0;                  ///< doubles in one SIMD register
  double bandwidth_one_core = 0;  ///< triad a = b + s c [GB/s], 24 bytes an entry
  double bandwidth = 0;           ///< the same on all cores
  std::string blas;               ///< see blas_in_use()
};

Machine this_machine();

/// Largest resident memory of this process so far (VmHWM) [MB].
double peak_memory();

}  // namespace felloe::bench
