// SPDX-License-Identifier: GPL-3.0-or-later
// The table of criteria and the constants that they share.
#include "post/criteria.h"

#include "mesher/error.h"
#include "post/criteria_rows.h"
#include "solver/nearest_name.h"

namespace felloe {
namespace {

template <class History, class One>
auto one_by_one(const One &one) {
  return [one](const std::vector<History> &histories, const FatigueConstants &constants) {
    std::vector<EquivalentStress> all;
    for (const History &h : histories) all.push_back(one(h, constants));
    return all;
  };
}

std::vector<FatigueCriterion> all_rows() {
  std::vector<FatigueCriterion> rows = {
      limited_findley_row(),  findley_row(),          matake_row(),   fatemi_socie_row(),
      papadopoulos_row(),     crossland_row(),        dang_van_row(), normal_stress_plane_row(),
      signed_von_mises_row(), largest_principal_row()};
  for (FatigueCriterion &row : rows) {
    if (!row.many_harmonic) row.many_harmonic = one_by_one<HarmonicHistory>(row.harmonic);
    if (!row.many_sampled) row.many_sampled = one_by_one<SampledHistory>(row.sampled);
  }
  return rows;
}

}  // namespace

const std::vector<FatigueCriterion> &fatigue_criteria() {
  static const std::vector<FatigueCriterion> rows = all_rows();
  return rows;
}

const FatigueCriterion &fatigue_criterion(const std::string &name) {
  std::vector<std::string> names;
  for (const auto &row : fatigue_criteria()) {
    if (row.name == name) return row;
    names.push_back(row.name);
  }
  throw Error(unknown_name("fatigue criterion", name, names));
}

// Chosen by bending_torsion_tests.h; the reasons in words: why_default_criterion().
const FatigueCriterion &default_criterion() { return fatigue_criterion("limited Findley"); }

double limit_ratio(const FatigueConstants &c) {
  const double ratio = c.limit_torsion / c.limit_bending;
  if (!(c.limit_bending > 0 && ratio >= 0.5 && ratio < 1))
    throw Error("fatigue limits: bending " + std::to_string(c.limit_bending) + " MPa, torsion " +
                std::to_string(c.limit_torsion) +
                " MPa: the criterion cannot be fitted; torsion must be 0.5 to 1 times bending");
  return ratio;
}

}  // namespace felloe
