// SPDX-License-Identifier: GPL-3.0-or-later
// Two solutions of the same loads, node by node; and what the tests of that load and make of steel.
#pragma once
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <vector>

#include "solver/elastic_model.h"
#include "tests/support/steel.h"

namespace felloe::test {

inline std::map<Part, Material> steel_parts() {
  return {{Part::disc, steel()}, {Part::rim, steel()}, {Part::weld, steel()}};
}

inline LoadCase push(const std::string &surface, const Vec3 &traction) {
  LoadCase load;
  load.name = "traction on " + surface;
  load.tractions = {{surface, [=](const Vec3 &, const Vec3 &) { return traction; }}};
  return load;
}

/// Displacements, stresses, energy and motion of the adapter within the tolerance of the largest.
inline void expect_same_solutions(const std::vector<Solution> &found,
                                  const std::vector<Solution> &expected, double tolerance) {
  ASSERT_EQ(found.size(), expected.size());
  for (std::size_t l = 0; l < expected.size(); ++l) {
    const Solution &a = found[l], &b = expected[l];
    double size = 0, difference = 0, stress = 0, stress_difference = 0;
    for (std::size_t n = 0; n < b.displacement.size(); ++n) {
      size = std::max(size, norm(b.displacement[n]));
      difference = std::max(difference, norm(subtract(a.displacement[n], b.displacement[n])));
      for (int i = 0; i < 6; ++i) {
        stress = std::max(stress, std::abs(b.stress[n][i]));
        stress_difference = std::max(stress_difference, std::abs(a.stress[n][i] - b.stress[n][i]));
      }
    }
    EXPECT_GT(size, 0);
    EXPECT_LT(difference, tolerance * size) << b.load_case;
    EXPECT_LT(stress_difference, tolerance * stress) << b.load_case;
    EXPECT_NEAR(a.strain_energy, b.strain_energy, tolerance * b.strain_energy) << b.load_case;
    for (int i = 0; i < 6; ++i)
      EXPECT_NEAR(a.adapter_motion[i], b.adapter_motion[i], tolerance * size) << b.load_case;
  }
}

}  // namespace felloe::test
