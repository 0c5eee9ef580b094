// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/own_values.h"

#include <tuple>

namespace felloe {
namespace {

auto values(const Material &m) {
  return std::tie(m.family, m.youngs_modulus, m.poissons_ratio, m.density, m.yield_strength,
                  m.tensile_strength);
}

auto values(const RigTest &t) {
  return std::tie(t.kind, t.friction, t.load_factor, t.load_share, t.dynamic_radius, t.cycles,
                  t.distance_km, t.cycles_for_seven);
}

template <class Row>
void note(Row &used, const std::string &row_name, const Row &(*row_of)(const std::string &)) {
  if (!row_name.empty() && values(used) == values(row_of(row_name))) return;
  if (row_name.empty()) {
    used.source = "case file";
    if (used.name.empty()) used.name = "own values";
  } else {
    used.source = "case file, changed from row '" + row_name + "' (" + used.source + ")";
  }
  used.confidence = "own value";
}

}  // namespace

void note_own_values(Case &c) {
  note(c.disc_material, c.material_rows[0], material);
  if (c.wheel.construction == Construction::welded_disc) {
    note(c.rim_material, c.material_rows[1], material);
    note(c.weld_material, c.material_rows[2], material);
  }
  for (CurveInput &own : c.curves) {
    own.curve.confidence = "own value";
    own.curve.scatter_source = own.curve.source;
  }
  for (std::size_t i = 0; i < c.tests.size(); ++i) note(c.tests[i], c.test_rows[i], rig_test);
}

}  // namespace felloe
