// SPDX-License-Identifier: GPL-3.0-or-later
// The demo wheel on the coarsest mesh.
#pragma once
#include "cli/case_file.h"

namespace felloe::test {

inline Case coarse_demo() {
  Case c = read_case(std::string(FELLOE_CASES) + "/steel_15x6/case.toml");
  c.mesh.density = 0.5;
  c.mesh.accuracy_percent = 0;
  return c;
}

}  // namespace felloe::test
