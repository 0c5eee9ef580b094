// SPDX-License-Identifier: GPL-3.0-or-later
// A fixed share of the work for each processor, under the names of the solver's parts.
#pragma once
#include "solver/parallel.h"

namespace felloe::detail {

using felloe::in_parallel;
using felloe::n_threads;
using felloe::parallel_for;

}  // namespace felloe::detail
