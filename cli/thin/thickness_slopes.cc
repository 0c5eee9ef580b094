// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/thin/thickness_slopes.h"

#include "cli/thin/thin_model.h"

namespace felloe {

StressSlopes thickness_slopes(const Case &c) {
  if (c.hub.contact || c.press_fit.contact || c.tests.empty()) return {};
  const auto scaled = [&](const std::vector<double> &x) {
    Wheel wheel = c.wheel;
    for (auto &station : wheel.disc.thickness) station.thickness *= x[0];
    return wheel;
  };
  ThinModel model(c, mesh_size(slope_density), scaled, {1.0});
  model.gradients_from(0.1);  // lives hundreds of times the required one may still lead a test
  StressSlopes slopes;
  for (const PlaceStress &p : model.at({1.0}, true))
    if (!p.gradient.empty() && p.stress > 0)
      slopes[{p.test, p.feature}] = p.gradient[0] / p.stress;  // at x = 1
  return slopes;
}

}  // namespace felloe
