// SPDX-License-Identifier: GPL-3.0-or-later
// The section in about ten lines that an engineer reads in ten seconds.
#pragma once
#include <string>

#include "cli/case.h"
#include "mesher/layout.h"

namespace felloe {

/// Title, sizes, holes, weld, mass from the exact volumes, and the bends with their stretch s.
std::string section_summary(const Case &, const WheelLayout &);

}  // namespace felloe
