// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/peak_memory.h"

#include <fstream>
#include <string>

namespace felloe {
namespace {

/// A line of /proc/self/status [bytes].
double own_memory(const std::string &wanted) {
  std::ifstream file("/proc/self/status");
  for (std::string key, rest; file >> key && std::getline(file, rest);)
    if (key == wanted) return 1024 * std::stod(rest);
  return 0;
}

}  // namespace

PeakMemory::PeakMemory() : at_start_(own_memory("VmRSS:")), peak_before_(own_memory("VmHWM:")) {}

double PeakMemory::growth() const {
  const double peak = own_memory("VmHWM:");
  return peak > peak_before_ ? peak - at_start_ : 0;
}

}  // namespace felloe
