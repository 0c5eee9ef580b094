// SPDX-License-Identifier: GPL-3.0-or-later
// The plane kernels for processors with AVX-512.
#include "post/detail/plane_kernel_body.h"

namespace felloe {

extern const PlaneKernels plane_kernels_avx512;
const PlaneKernels plane_kernels_avx512{detail::answer_harmonic, detail::answer_sampled};

}  // namespace felloe
