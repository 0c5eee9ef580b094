// SPDX-License-Identifier: GPL-3.0-or-later
#include "post/weld_residual_stress.h"

#include <algorithm>

#include "mesher/error.h"
#include "solver/nearest_name.h"

namespace felloe {

double WeldResidualStress::enhancement(double smallest, double largest) const {
  if (!(smallest < largest)) return 1;  // nothing alternates
  if (largest <= 0) return at_compression;
  const double ratio = smallest / largest;
  return ratio < -1 ? at_compression : std::max(1.0, falls + slope * ratio);
}

const std::vector<WeldResidualStress> &weld_residual_stresses() {
  const char *source = "IIW recommendations (Hobbacher 2016), fatigue enhancement factor f(R)",
             *sure = "from memory, verify";
  static const std::vector<WeldResidualStress> rows = {
      {"high", "as welded, residual stress up to yield, press fits: the mean does not count", 1, 1,
       0, source, sure},
      {"medium",
       "small thin-walled simple parts with short welds: 1.3 in compression, 0.9 - 0.4 R, 1 above "
       "R = -0.25",
       1.3, 0.9, -0.4, source, sure},
      {"low",
       "stress-relieved, residual stress below 0.2 of yield and known to be: 1.6 in compression, "
       "1.2 - 0.4 R, 1 above R = 0.5",
       1.6, 1.2, -0.4, source, sure},
  };
  return rows;
}

const WeldResidualStress &weld_residual_stress(const std::string &name) {
  std::vector<std::string> names;
  for (const auto &row : weld_residual_stresses()) {
    if (row.name == name) return row;
    names.push_back(row.name);
  }
  throw Error(unknown_name("residual stress at welds", name, names));
}

}  // namespace felloe
