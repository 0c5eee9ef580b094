// SPDX-License-Identifier: GPL-3.0-or-later
// The steel of the checks: E 210000 MPa, nu 0.3, 7.85e-6 kg/mm3.
#pragma once
#include "solver/material.h"

namespace felloe::test {

inline Material steel(double youngs_modulus = 210000, double poissons_ratio = 0.3) {
  Material m;
  m.name = "steel";
  m.youngs_modulus = youngs_modulus;
  m.poissons_ratio = poissons_ratio;
  m.density = 7.85e-6;
  return m;
}

}  // namespace felloe::test
