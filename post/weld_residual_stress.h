// SPDX-License-Identifier: GPL-3.0-or-later
// What the stress ratio counts at a weld, by its residual stress. Rows of one table.
#pragma once
#include <string>
#include <vector>

namespace felloe {

/// The class of a weld may be raised by f(R), R = smallest over largest stress of the cycle:
///   f = at_compression          R < -1, or compression all the time
///   f = falls + slope R         -1 <= R <= R1, where f has come down to 1
///   f = 1                       above
struct WeldResidualStress {
  std::string name, summary;
  double at_compression = 1;  ///< [-]
  double falls = 1, slope = 0;
  std::string source, confidence;

  /// f >= 1 for a cycle between two stresses [MPa].
  double enhancement(double smallest, double largest) const;
};
/// "high" (f = 1, the default) first, "medium", "low".
const std::vector<WeldResidualStress> &weld_residual_stresses();
const WeldResidualStress &weld_residual_stress(const std::string &name);  ///< Error lists names

}  // namespace felloe
