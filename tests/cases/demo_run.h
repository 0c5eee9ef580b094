// SPDX-License-Identifier: GPL-3.0-or-later
// The demo wheel on a coarse mesh, with a gauge and a spectrum, solved once a test program.
#pragma once
#include <string>

#include "cli/analysis.h"
#include "cli/case_file.h"

namespace felloe::test {

inline Case demo() {
  Case c = read_case(std::string(FELLOE_CASES) + "/steel_15x6/case.toml");
  c.mesh.density = 0.5;
  c.mesh.accuracy_percent = 0;
  GaugeInput g;
  g.name = "crown";
  g.side = "outboard";
  g.s_mm = 78;
  g.grid_length_mm = 3;
  c.gauges = {g};
  c.spectrum = {{"straight", 4000, 0, 1e6}, {"bends", 4500, 2000, 1e4}};
  return c;
}

inline const Analysis &run() {
  static const Analysis a = [] {
    Progress quiet(true);
    return analyse(demo(), quiet, Purpose::files);
  }();
  return a;
}

}  // namespace felloe::test
