// SPDX-License-Identifier: GPL-3.0-or-later
// Error bars of hot-spot stresses from meshes of different density.
#pragma once
#include "cli/analysis.h"

namespace felloe {

/// Fills error_percent of every hot spot of `fine` that is one of `coarse` too (same feature and
/// test): E = 1.25 |f - c| / (q^p - 1) / f with q the ratio of the cells' sizes along the sheet,
/// from the root of the numbers of cells (the layers through the thickness hardly grow), and p
/// = 1.5, below the order 2 that smooth stresses show, so that the bar is wide rather than narrow.
/// None when the meshes are nearly the same (q < 1.1). Source: grid convergence index, P. J.
/// Roache, J. Fluids Eng. 116 (1994) 405 (from memory).
/// Never less than least_error_percent(): the difference of two meshes can vanish by chance, and
/// below density 1 the divisions along the meridian, set by the shortest bends, are the same in
/// both, so that their error does not show. density: of the fine mesh.
void estimate_errors(Results &fine, const Results &coarse, double density);

/// 1.75 % up to density 1, falling with the power 1.5 of the density above: own value, what the
/// demo wheel's hot spots at density 1 differ by from those at density 2 where two coarser meshes
/// agree.
double least_error_percent(double density);

/// Largest error of the hot spots that decide a verdict: the worst of every rig test [%]; negative
/// when one of them has no estimate.
double deciding_error(const Results &);

/// analyse(), and when the case wants an accuracy: a coarser mesh first, then meshes that grow
/// until the deciding hot spots are estimated to be within it. When that can't be reached, the
/// finest result comes back with a caution that says what is missing.
Analysis analyse_to_accuracy(const Case &, Progress &);

}  // namespace felloe
