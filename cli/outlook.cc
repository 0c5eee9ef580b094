// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/outlook.h"

#include <cmath>

#include "solver/cost_model.h"

namespace felloe {
namespace {

// For two rig tests, by unknown [s]. Own values: demo wheel of 0.69 million unknowns, on a machine
// whose solves took as long as the cost model says. Good to a factor of two, which is what a line
// of progress needs.
constexpr double rating = 2e-6, fields_and_pictures = 4e-6;

double seconds_of_solves(const SolveTask &t, bool matrix_free) {
  return (matrix_free ? matrix_free_cost(t) : direct_cost(t)).seconds;
}

/// Cells that are divided along the sheet only, as those of meshes of two densities are.
SolveTask finer(SolveTask t, double growth) {
  t.dofs = std::lround(growth * double(t.dofs));
  t.cut_dofs = std::lround(std::sqrt(growth) * double(t.cut_dofs));
  t.slenderness /= std::sqrt(growth);
  return t;
}

}  // namespace

void Outlook::predict(const SolveTask &task, bool matrix_free) {
  solves = seconds_of_solves(task, matrix_free);
  after_solves = rating * double(task.dofs);
  SolveTask last = task;
  if (growth > 1) {
    last = finer(task, growth);
    after_solves += seconds_of_solves(last, matrix_free) + rating * double(last.dofs);
  }
  if (writes_fields) after_solves += fields_and_pictures * double(last.dofs);
}

}  // namespace felloe
