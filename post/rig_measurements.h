// SPDX-License-Identifier: GPL-3.0-or-later
// Simple mechanics of the rigs, for comparing a calculation with a test record.
#pragma once

namespace felloe {

/// Force at the tip of a load arm that makes the moment [N]; moment [N mm], length [mm].
double arm_force(double moment, double arm_length);
/// Growth of the arm's deflection in percent of the first value.
double deflection_growth(double first, double last);

/// Speed of the striker after a free fall [m/s]; drop height [mm]. sqrt(2 g h).
double impact_speed(double drop_height);
/// Height of the free fall that gives the speed [mm]; speed [m/s].
double drop_height(double speed);
/// Energy of the striker after a free fall [J]; mass [kg], drop height [mm].
double impact_energy(double striker_mass, double drop_height);
/// Stiffness of the impact rig's support from its calibration [N/mm]: mass [kg] and sag [mm].
double support_stiffness(double mass, double sag);

/// Slope k of the S-N line through two test levels: ln(N_low / N_high) / ln(load_high / load_low).
double slope_between(double load_high, double cycles_high, double load_low, double cycles_low);

}  // namespace felloe
