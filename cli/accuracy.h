// SPDX-License-Identifier: GPL-3.0-or-later
// Error bars of hot-spot stresses from meshes of different density.
#pragma once
#include <string>

#include "cli/analysis.h"

namespace felloe {

/// Fills error_percent of every hot spot of `fine` that is one of `coarse` too (same feature and
/// test): E = 1.25 |f - c| / (q^p - 1) / f with q the ratio of the cells' sizes along the sheet,
/// from the root of the numbers of cells, and p the order of convergence. None when the meshes are
/// nearly the same (q < 1.1). Source: grid convergence index, P. J. Roache, J. Fluids Eng. 116
/// (1994) 405 (from memory). The difference of two meshes can vanish by chance; so a feature's bar
/// is the largest that it shows in any rig test (the mesh errs there alike, whatever the load), and
/// never less than least_error_percent(). density: of the fine mesh.
void estimate_errors(Results &fine, const Results &coarse, double density);

/// Order of convergence of a rated place's stress: 2, in the midst of what nested meshes show
/// (density 0.5, 1 and 2 of the demo wheel); 1 where they do not show more: the flange bend lies
/// beside the end of the press fit, bolt holes at the border of the bonded face.
double convergence_order(const std::string &feature);

/// 1.5 % up to density 1, falling with the square of the density above: own value, about what
/// hot spots of the demo wheel at density 1 differ by from those at density 2 where the two meshes
/// below agree.
double least_error_percent(double density);

/// Density of the next mesh when `error` [%] (negative: not known) is to become `wanted`: from the
/// order of convergence, at least 1.25 and at most 2 times the last one, and exactly 2 where it
/// comes near. 0 when the last mesh is about as fine as the program goes (2.8).
double next_density(double density, double error, double wanted);

/// Largest error of the hot spots that decide a verdict: the worst of every rig test [%]; negative
/// when one of them has no estimate.
double deciding_error(const Results &);

/// analyse(), and when the case wants an accuracy: a mesh half as dense first, then meshes that
/// grow until the deciding hot spots are estimated to be within it. When that can't be reached, the
/// finest result comes back with a caution that says what is missing.
Analysis analyse_to_accuracy(const Case &, Progress &);

}  // namespace felloe
