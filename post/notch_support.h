// SPDX-License-Identifier: GPL-3.0-or-later
// Notch support: how much more a peak bears than a smooth bar, from the gradient of the computed
// stress. Rules are rows of one table.
#pragma once
#include <string>
#include <vector>

#include "mesher/vec3.h"
#include "solver/material.h"

namespace felloe {

struct SupportRule {
  std::string name, summary;
  /// Support number n >= 1 of a material for the related stress gradient [1/mm].
  double (*factor)(const Material &, double gradient) = nullptr;
  std::string source, confidence;
};
/// "FKM linear", "Siebel-Stieler".
const std::vector<SupportRule> &support_rules();
const SupportRule &support_rule(const std::string &name);  ///< Error lists the names

/// FKM non-linear: n = n_st n_bm from the highly stressed area A [mm2] and the gradient [1/mm]:
///   n_st = (500 / A)^(1 / k), k = 30 steel, 10 cast, 20 wrought aluminium;
///   n_bm = max(1, (5 + root G) / (5 n_st + Rm / Rm,bm root((7.5 + root G) / (1 + 0.2 root G)))),
///   Rm,bm = 680 MPa steel, 270 MPa aluminium.   Source: second-hand, verify.
double support_of_stressed_area(const Material &, double area, double gradient);

/// Notch sensitivity q = 1 / (1 + a / r), a = 0.0254 (2070 / Rm)^1.8 mm, of steel: Peterson, from
/// memory. Radius in mm, Rm in MPa.
double peterson_sensitivity(double tensile_strength, double radius);
/// q = 1 / (1 + root(a / r)), root a a cubic of Rm, of steel in bending: Neuber as printed by
/// Shigley, from memory.
double neuber_sensitivity(double tensile_strength, double radius);

/// FKM non-linear: K_RP = (1 - a_R lg Rz lg(2 Rm / 400))^0.43, a_R 0.27, steel. Rz [um].
double roughness_factor_non_linear(const Material &, double roughness_rz);

/// |grad s| / s at a point [1/mm] of values known at points round it: the linear part of a
/// quadratic (nine terms; with fewer than twelve points a linear) least-squares fit through the
/// point's own value, near points weigh more. 0 where the value is not positive or fewer than three
/// points are given.
double related_gradient(const Vec3 &at, double value, const std::vector<Vec3> &points,
                        const std::vector<double> &values);

}  // namespace felloe
