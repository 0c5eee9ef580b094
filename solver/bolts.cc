// SPDX-License-Identifier: GPL-3.0-or-later
// Preload of wheel bolts from torque or from yield.
#include <cmath>
#include <string>

#include "mesher/error.h"
#include "mesher/vec3.h"
#include "solver/load_kinds.h"

namespace felloe {
namespace {

/// Torque per preload [mm]: lead of the thread, friction in the thread, friction on the seat.
/// VDI 2230 (from memory); a cone presses on its flank with F / sin(half angle).
double torque_arm(const BoltThread &thread, double thread_friction, double seat_friction,
                  double seat_mean_diameter, double seat_cone_angle) {
  const bool flat = seat_cone_angle == 0 || seat_cone_angle == 180;
  const double wedge = flat ? 1 : std::sin(seat_cone_angle / 2 * pi / 180);
  const double arm = 0.16 * thread.pitch + 0.58 * thread.pitch_diameter() * thread_friction +
                     seat_mean_diameter / 2 * seat_friction / wedge;
  if (!(arm > 0) || !(wedge > 0))
    throw Error("bolt: torque per preload " + std::to_string(arm) +
                " mm: must be positive; check pitch, friction and the cone angle (0 to 180 deg)");
  return arm;
}

}  // namespace

double BoltThread::stress_area() const {
  const double mean = (pitch_diameter() + minor_diameter()) / 2;
  return pi / 4 * mean * mean;
}

double bolt_preload(double torque, const BoltThread &thread, double thread_friction,
                    double seat_friction, double seat_mean_diameter, double seat_cone_angle) {
  return torque /
         torque_arm(thread, thread_friction, seat_friction, seat_mean_diameter, seat_cone_angle);
}

double bolt_torque(double preload, const BoltThread &thread, double thread_friction,
                   double seat_friction, double seat_mean_diameter, double seat_cone_angle) {
  return preload *
         torque_arm(thread, thread_friction, seat_friction, seat_mean_diameter, seat_cone_angle);
}

/// Tension and torsion of the tightened thread reach the share of yield as von Mises stress:
/// F = A_s utilisation R_p / sqrt(1 + 3 [1.5 d2/d0 (P / (pi d2) + 1.155 mu)]^2), d0 = (d2 + d3)
/// / 2.
double bolt_preload_at_yield(const BoltThread &thread, double yield_strength,
                             double thread_friction, double utilisation) {
  const double d2 = thread.pitch_diameter(), d0 = (d2 + thread.minor_diameter()) / 2;
  const double torsion = 1.5 * d2 / d0 * (thread.pitch / (pi * d2) + 1.155 * thread_friction);
  return thread.stress_area() * utilisation * yield_strength / std::sqrt(1 + 3 * torsion * torsion);
}

double bolt_force_from_moment(double moment, int count, double pitch_circle_diameter) {
  if (count < 3 || !(pitch_circle_diameter > 0))
    throw Error("bolts: " + std::to_string(count) + " on a circle of " +
                std::to_string(pitch_circle_diameter) +
                " mm: needs at least three bolts on a circle of positive diameter");
  return 4 * moment / (count * pitch_circle_diameter);
}

}  // namespace felloe
