// SPDX-License-Identifier: GPL-3.0-or-later
// The plane kernels for any processor.
#include "post/detail/plane_kernel_body.h"

namespace felloe {

extern const PlaneKernels plane_kernels_plain;
const PlaneKernels plane_kernels_plain{detail::answer_harmonic, detail::answer_sampled};

}  // namespace felloe
