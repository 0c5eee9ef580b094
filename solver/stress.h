// SPDX-License-Identifier: GPL-3.0-or-later
// One symmetric stress tensor for the whole program.
#pragma once
#include <array>

#include "mesher/vec3.h"

namespace felloe {

/// Components xx, yy, zz, xy, yz, zx in the wheel frame [MPa] unless a function says otherwise.
struct Stress {
  std::array<double, 6> s{};
  double &operator[](int i) { return s[i]; }
  double operator[](int i) const { return s[i]; }
};

Stress operator+(const Stress &, const Stress &);
Stress operator-(const Stress &, const Stress &);
Stress operator*(double, const Stress &);

double von_mises(const Stress &);                          ///< [MPa]
double hydrostatic(const Stress &);                        ///< trace / 3 [MPa]
std::array<double, 3> principal_stresses(const Stress &);  ///< largest first [MPa]
Vec3 traction(const Stress &, const Vec3 &normal);         ///< stress times normal [MPa]
double normal_stress(const Stress &, const Vec3 &normal);  ///< n . stress . n [MPa]

/// Components after the body (material and stress together) is turned about the z axis by the
/// angle [rad].
Stress turned_about_axis(const Stress &, double angle);
/// Components in the frame with the given orthonormal axes (rows).
Stress in_frame(const Stress &, const std::array<Vec3, 3> &axes);

}  // namespace felloe
