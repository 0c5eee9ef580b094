// SPDX-License-Identifier: GPL-3.0-or-later
// Why the stresses can be believed: two meshes, equilibrium, the mesh's own figures.
#include <fmt/format.h>

#include <cmath>

#include "post/html/table.h"
#include "post/html/text.h"
#include "post/plot/frame.h"
#include "post/report/sections.h"
#include "post/report/words.h"

namespace felloe {
namespace {

std::string mesh_facts(const Results &r) {
  std::vector<HtmlFact> all = {
      {"Cells", figure_text(double(r.mesh.cells), 8)},
      {"Unknowns", figure_text(double(r.mesh.dofs), 9)},
      {"Smallest scaled Jacobian", fixed_text(r.mesh.min_scaled_jacobian, 2)}};
  if (r.mesh.exact_volume_mm3 > 0)
    all.push_back({"Volume against the exact one",
                   figure_text(100 * (r.mesh.volume_mm3 / r.mesh.exact_volume_mm3 - 1), 2) + " %"});
  if (!r.solver.path.empty()) all.push_back({"Solver", html_text(r.solver.path)});
  double balance = 0, residual = 0;
  for (const LoadCaseFigures &c : r.load_cases) {
    balance = std::max(balance, c.balance_error);
    residual = std::max(residual, c.residual);
  }
  if (!r.load_cases.empty()) {
    all.push_back({"Loads against reactions, worst of all solves", fmt::format("{:.0e}", balance)});
    all.push_back({"Residual, worst of all solves", fmt::format("{:.0e}", residual)});
  }
  return html_facts(all);
}

std::string two_meshes(const Results &r) {
  const MeshConvergence &c = r.convergence;
  if (c.spots.empty())
    return "<p>The case asks for no accuracy ([mesh] accuracy_percent): the stresses carry no "
           "error "
           "bar, and lives have no range.</p>\n";
  HtmlTable t;
  t.id = "convergence-table";
  t.caption = fmt::format(
      "Fully reversed stress of the rated places on two nested meshes, of {} and {} cells ({} and "
      "{} unknowns); cells along the sheet {} times finer. Error bar: 1.25 times the change over "
      "(ratio to the power of the order, less 1), the largest of a place in any rig test and not "
      "below a floor by density.",
      figure_text(double(c.coarse_cells), 8), figure_text(double(c.fine_cells), 8),
      figure_text(double(c.coarse_dofs), 9), figure_text(double(c.fine_dofs), 9),
      figure_text(c.size_ratio, 3));
  t.columns = {{"Place", "", false},           {"Rig test", "", false}, {"Coarse", "MPa", true},
               {"Fine", "MPa", true},          {"Change", "%", true},   {"Order", "", true},
               {"Error bar \u00B1", "%", true}};
  for (const SpotOnMeshes &s : c.spots) {
    const double change = 100 * (s.fine_MPa / s.coarse_MPa - 1);
    t.rows.push_back({name_markup(s.feature), test_markup(r, s.test), fixed_text(s.coarse_MPa, 1),
                      fixed_text(s.fine_MPa, 1), (change > 0 ? "+" : "") + fixed_text(change, 2),
                      figure_text(s.order, 2), fixed_text(s.error_percent, 1)});
  }
  return html_table(t);
}

}  // namespace

std::string accuracy_section(const ReportInput &in) {
  return mesh_facts(in.results) + two_meshes(in.results);
}

}  // namespace felloe
