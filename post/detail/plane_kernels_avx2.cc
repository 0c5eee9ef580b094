// SPDX-License-Identifier: GPL-3.0-or-later
// The plane kernels for processors with AVX2 and FMA.
#include "post/detail/plane_kernel_body.h"

namespace felloe {

extern const PlaneKernels plane_kernels_avx2;
const PlaneKernels plane_kernels_avx2{detail::answer_harmonic, detail::answer_sampled};

}  // namespace felloe
