// SPDX-License-Identifier: GPL-3.0-or-later
// Refuses what does not fit, before the system kills the program.
#pragma once
#include <stdexcept>

#include "solver/memory.h"

namespace felloe::detail {

/// A factor larger than the free memory.
class NeedsMoreMemory : public std::runtime_error {
 public:
  NeedsMoreMemory(double needed_gb, double free_gb);
  double needed_gb, free_gb;
};

/// Gives freed memory back to the system (glibc keeps it when libraries forbid it separate maps, as
/// those of MPI do); nothing elsewhere.
void return_free_memory();

/// Throws NeedsMoreMemory when less than that is free.
void require_memory(double bytes);

}  // namespace felloe::detail
