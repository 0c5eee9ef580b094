// SPDX-License-Identifier: GPL-3.0-or-later
// Materials: elastic constants and strengths, one row a grade.
#pragma once
#include <string>
#include <vector>

namespace felloe {

enum class MaterialFamily { steel, wrought_aluminium, cast_aluminium };

struct Material {
  std::string name, summary;
  MaterialFamily family = MaterialFamily::steel;
  double youngs_modulus = 0;    ///< E [MPa]
  double poissons_ratio = 0;    ///< nu [-]
  double density = 0;           ///< [kg/mm3]
  double yield_strength = 0;    ///< specified minimum [MPa]
  double tensile_strength = 0;  ///< specified minimum, used for fatigue [MPa]
  std::string source, confidence;
};

/// The table of grades. Sheet steels: EN 10149-2, EN 10111, hot-rolled dual phase; aluminium.
const std::vector<Material> &materials();
/// The row of that name; Error with the nearest names when there is none.
const Material &material(const std::string &name);

}  // namespace felloe
