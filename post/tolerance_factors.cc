// SPDX-License-Identifier: GPL-3.0-or-later
// One-sided tolerance factors.
#include "post/tolerance_factors.h"

#include <boost/math/distributions/non_central_t.hpp>
#include <boost/math/distributions/normal.hpp>
#include <cmath>
#include <string>

#include "mesher/error.h"

namespace felloe {

double tolerance_factor(int n, double survival, double confidence) {
  if (n < 2)
    throw Error("tolerance factor: " + std::to_string(n) +
                " tests have no scatter; at least 2 are needed");
  if (!(survival >= 0.5 && survival < 1) || !(confidence > 0 && confidence < 1))
    throw Error(
        "tolerance factor: survival must lie between 0.5 and 1, confidence between 0 and 1");
  const double z = boost::math::quantile(boost::math::normal(), survival), root = std::sqrt(n);
  return boost::math::quantile(boost::math::non_central_t(n - 1, z * root), confidence) / root;
}

}  // namespace felloe
