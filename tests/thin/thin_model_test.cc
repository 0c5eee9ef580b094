// SPDX-License-Identifier: GPL-3.0-or-later
// Proves the sensitivities of the rated stresses: against central differences of complete solves.
#include "cli/thin/thin_model.h"

#include <gtest/gtest.h>

#include <cmath>

#include "cli/case_file.h"

namespace felloe {
namespace {

Case demo() { return read_case(FELLOE_CASES "/steel_15x6/case.toml"); }

/// Sheet thickness of hub, crown and flange, the vent holes' diameter, the radius of the crown
/// bend.
Wheel wheel_of(Wheel w, const std::vector<double> &x) {
  w.disc.thickness = {{0, x[0]}, {46, x[0]}, {84, x[1]}, {140, x[2]}};
  w.vents.diameter = x[3];
  w.disc.meridian[1].bend_radius = x[4];
  return w;
}

/// All variables move together, so that two complete solves see every one of them.
void expect_slope_along(ThinModel &model, const std::vector<double> &x,
                        const std::vector<PlaceStress> &places,
                        const std::vector<double> &direction) {
  constexpr double h = 5e-4;
  std::vector<double> more = x, less = x;
  for (std::size_t i = 0; i < x.size(); ++i) {
    more[i] += h * direction[i];
    less[i] -= h * direction[i];
  }
  const std::vector<PlaceStress> up = model.at(more, false), down = model.at(less, false);
  ASSERT_EQ(up.size(), places.size());
  ASSERT_EQ(down.size(), places.size());
  int compared = 0;
  for (std::size_t p = 0; p < places.size(); ++p) {
    if (places[p].gradient.empty()) continue;
    double slope = 0, size = 0;
    for (std::size_t i = 0; i < x.size(); ++i) {
      slope += direction[i] * places[p].gradient[i];
      size += std::abs(direction[i] * places[p].gradient[i]);
    }
    const double whole = (up[p].stress - down[p].stress) / (2 * h);
    EXPECT_NEAR(slope, whole, 1e-4 * size) << places[p].feature << " under " << places[p].test;
    ++compared;
  }
  EXPECT_GT(compared, 5);
}

/// Sheet thickness of hub, crown and flange, vent diameter and bend radius.
const std::vector<double> start = {3.8, 3.5, 3.7, 28, 14};

void expect_slopes(const Case &c) {
  ThinModel model(
      c, mesh_size(0.5), [&](const std::vector<double> &v) { return wheel_of(c.wheel, v); }, start);
  const std::vector<PlaceStress> places = model.at(start, true);
  EXPECT_EQ(model.n_solved(), 1);
  expect_slope_along(model, start, places, {3, -2, 1, 0, 0});
  expect_slope_along(model, start, places, {1, 1, 1, 8, -6});
}

TEST(ThinModel, GradientsEqualDifferencesOfCompleteSolves) {
  Case c = demo();
  c.rating.criterion = "normal stress plane";
  expect_slopes(c);
}

// A criterion with a circle round the shear path: as the load rolls by, every position makes a
// summit of its own, and a search that ends on the second highest of them spoils the slopes.
TEST(ThinModel, GradientsOfTheDefaultCriterionEqualDifferencesOfCompleteSolves) {
  expect_slopes(demo());
}

}  // namespace
}  // namespace felloe
