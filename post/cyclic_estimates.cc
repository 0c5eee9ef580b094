// SPDX-License-Identifier: GPL-3.0-or-later
// Cyclic constants from the tensile strength: the rows of the table of estimates.
#include <algorithm>
#include <cmath>

#include "mesher/error.h"
#include "post/local_strain.h"
#include "solver/nearest_name.h"

namespace felloe {

CyclicConstants uniform_material_law(const Material &m) {
  const double rm = m.tensile_strength, e = m.youngs_modulus;
  if (m.family != MaterialFamily::steel)
    return {{e, 1.61 * rm, 0.11}, {1.67 * rm, -0.095, 0.35, -0.69}};
  const double psi = rm / e <= 0.003 ? 1 : 1.375 - 125 * rm / e;
  return {{e, 1.65 * rm, 0.15}, {1.5 * rm, -0.087, 0.59 * psi, -0.58}};
}

namespace {

// K' = a Rm^b / (largest plastic strain)^n'.
CyclicConstants fkm_non_linear(const Material &m) {
  CyclicConstants c = uniform_material_law(m);
  const double rm = m.tensile_strength;
  if (m.family == MaterialFamily::steel)
    c.curve = {206000,
               3.1148 * std::pow(rm, 0.897) /
                   std::pow(std::min(0.338, 1033 * std::pow(rm, -1.235)), 0.187),
               0.187};
  else
    c.curve = {70000, 9.12 * std::pow(rm, 0.742) / std::pow(895.9 * std::pow(rm, -1.183), 0.128),
               0.128};
  return c;
}

}  // namespace

const std::vector<CyclicEstimate> &cyclic_estimates() {
  static const std::vector<CyclicEstimate> rows = {
      {"uniform material law", "steel and aluminium, from the tensile strength alone",
       uniform_material_law, "Baeumel and Seeger 1990", "from memory, verify"},
      {"FKM non-linear", "steel and wrought aluminium; strain-life of the uniform material law",
       fkm_non_linear, "FKM guideline non-linear, as a public library implements it",
       "found second-hand, verify"},
  };
  return rows;
}

const CyclicEstimate &cyclic_estimate(const std::string &name) {
  std::vector<std::string> names;
  for (const auto &row : cyclic_estimates()) {
    if (row.name == name) return row;
    names.push_back(row.name);
  }
  throw Error(unknown_name("estimate of cyclic constants", name, names));
}

}  // namespace felloe
