// SPDX-License-Identifier: GPL-3.0-or-later
// Simple mechanics of the rigs.
#include "post/rig_measurements.h"

#include <cmath>

#include "post/rig_tests.h"

namespace felloe {

double arm_force(double moment, double arm_length) { return moment / arm_length; }

double deflection_growth(double first, double last) { return 100 * (last - first) / first; }

double impact_speed(double height) { return std::sqrt(2 * standard_gravity * height * 1e-3); }

double drop_height(double speed) { return 1e3 * speed * speed / (2 * standard_gravity); }

double impact_energy(double mass, double height) { return mass * standard_gravity * height * 1e-3; }

double support_stiffness(double mass, double sag) { return mass * standard_gravity / sag; }

double slope_between(double load_high, double cycles_high, double load_low, double cycles_low) {
  return std::log(cycles_low / cycles_high) / std::log(load_high / load_low);
}

}  // namespace felloe
