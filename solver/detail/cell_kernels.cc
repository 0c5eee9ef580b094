// SPDX-License-Identifier: GPL-3.0-or-later
// Chooses the kernels that the processor can run.
#include "solver/detail/cell_kernels.h"

namespace felloe::detail {

extern const CellKernels<double> kernels_plain_double;
extern const CellKernels<float> kernels_plain_float;
#ifdef __x86_64__
extern const CellKernels<double> kernels_avx512_double, kernels_avx2_double;
extern const CellKernels<float> kernels_avx512_float, kernels_avx2_float;
#endif

namespace {

enum class Instructions { plain, avx2, avx512 };

Instructions instructions() {
#ifdef __x86_64__
  __builtin_cpu_init();
  if (__builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512dq") &&
      __builtin_cpu_supports("avx512vl") && __builtin_cpu_supports("avx512bw"))
    return Instructions::avx512;
  if (__builtin_cpu_supports("avx2") && __builtin_cpu_supports("fma")) return Instructions::avx2;
#endif
  return Instructions::plain;
}

}  // namespace

template <>
const CellKernels<double> &cell_kernels<double>() {
#ifdef __x86_64__
  static const Instructions best = instructions();
  if (best == Instructions::avx512) return kernels_avx512_double;
  if (best == Instructions::avx2) return kernels_avx2_double;
#endif
  return kernels_plain_double;
}

template <>
const CellKernels<float> &cell_kernels<float>() {
#ifdef __x86_64__
  static const Instructions best = instructions();
  if (best == Instructions::avx512) return kernels_avx512_float;
  if (best == Instructions::avx2) return kernels_avx2_float;
#endif
  return kernels_plain_float;
}

}  // namespace felloe::detail
