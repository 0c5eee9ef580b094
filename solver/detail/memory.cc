// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/detail/memory.h"

#ifdef __linux__
#include <malloc.h>
#endif

#include <fstream>
#include <limits>
#include <string>

namespace felloe {

double free_memory() {
  std::ifstream file("/proc/meminfo");
  for (std::string key, rest; file >> key && std::getline(file, rest);)
    if (key == "MemAvailable:") return std::stod(rest) * 1024;
  return std::numeric_limits<double>::infinity();
}

namespace detail {

NeedsMoreMemory::NeedsMoreMemory(double needed, double free)
    : std::runtime_error("a factor does not fit into memory"), needed_gb(needed), free_gb(free) {}

void return_free_memory() {
#ifdef __GLIBC__
  malloc_trim(0);
#endif
}

void require_memory(double bytes) {
  const double free = free_memory();
  if (bytes > free) throw NeedsMoreMemory(bytes * 1e-9, free * 1e-9);
}

}  // namespace detail
}  // namespace felloe
