// SPDX-License-Identifier: GPL-3.0-or-later
// Constants of the FKM guideline by material family, and the factors made from them.
#pragma once
#include "solver/material.h"

namespace felloe {

/// Source: FKM guideline, as stated in a public library that implements it. Strengths in MPa.
struct FkmConstants {
  double fatigue_ratio = 0;             ///< f_W: sigma_W(R = -1) = f_W Rm, 97.5 % survival [-]
  double mean_a = 0, mean_b = 0;        ///< M = a_M 1e-3 Rm + b_M
  double roughness_a = 0;               ///< a_R [-]
  double roughness_strength = 0;        ///< Rm,N,min [MPa]
  double support_a = 0, support_b = 0;  ///< a_G [-], b_G [MPa]
  double shear_factor = 0;              ///< f_W,tau: tau_W = f_W,tau sigma_W [-]
};
const FkmConstants &fkm_constants(MaterialFamily);

/// sigma_W = f_W Rm, fully reversed normal-stress amplitude at 1e6 cycles, 97.5 % survival [MPa].
double fatigue_strength(const Material &);

/// K_R = 1 - a_R lg Rz lg(2 Rm / Rm,N), 1 for Rz <= 1 um. Rz [um].
double roughness_factor(const Material &, double roughness_rz);

/// Support number n (Stieler) for the related stress gradient G [1/mm] at a notch:
///   G <= 0.1: 1 + G 10^-(a_G - 0.5 + Rm/b_G);  G <= 1: 1 + G^(1/2) 10^-(a_G + Rm/b_G);
///   G <= 100: 1 + G^(1/4) 10^-(a_G + Rm/b_G).  Error outside 0 ... 100.
double notch_support_factor(const Material &, double gradient);

}  // namespace felloe
