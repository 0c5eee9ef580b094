// SPDX-License-Identifier: GPL-3.0-or-later
// The cell kernels for AVX-512; the compiler's flags make the difference.
#include "solver/detail/cell_kernel_body.h"

FELLOE_CELL_KERNELS(kernels_avx512)
