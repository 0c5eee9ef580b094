// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/analysis.h"

#include "mesher/error.h"
#include "mesher/wheel_mesh.h"
#include "solver/processes.h"

namespace felloe {
namespace {

/// The processes of a run make their meshes by themselves: numbering and places must agree.
void require_same_mesh(const Mesh &mesh) {
  double sum = 0;
  for (std::size_t n = 0; n < mesh.nodes.size(); ++n)
    sum += static_cast<double>(n) * (mesh.nodes[n][0] + 2 * mesh.nodes[n][1] + mesh.nodes[n][2]);
  for (std::size_t c = 0; c < mesh.cells.size(); ++c)
    sum += static_cast<double>(c) * mesh.cells[c][0];
  const double of_first = Processes::of_first(sum);
  Processes::together([&] {
    if (of_first != sum)
      throw Error(
          "mesh: the processes of the run made different meshes: their libraries or processors "
          "differ; start all processes on machines of one kind");
  });
}

}  // namespace

Analysis analyse(const Case &input, Progress &progress, Purpose purpose) {
  Analysis a;
  Processes::together([&] {
    a = input.wheel.construction == Construction::welded_disc
            ? analyse_wheel(input, progress, purpose)
            : analyse_plate(input, progress);
  });
  return a;
}

Analysis meshed(const Case &input, Progress &progress) {
  Analysis a;
  progress.step("section and layout");
  a.layout = layout(input.wheel);
  progress.step("mesh");
  const MeshSize size = mesh_size(input.mesh.density);
  Processes::together([&] { a.mesh = wheel_mesh(a.layout, size); });
  require_same_mesh(a.mesh);
  const MeshQuality quality = mesh_quality(a.mesh);
  const double exact = exact_volumes(a.layout).total();
  progress.remark(std::to_string(a.mesh.cells.size()) + " hexahedra, smallest scaled Jacobian " +
                  std::to_string(quality.min_scaled_jacobian).substr(0, 5));
  Results &r = a.results;
  r.title = input.title;
  r.case_file = input.file;
  r.survival_percent = input.rating.survival_percent;
  r.mesh.cells = static_cast<long>(a.mesh.cells.size());
  r.mesh.min_scaled_jacobian = quality.min_scaled_jacobian;
  r.mesh.volume_mm3 = quality.volume;
  r.mesh.exact_volume_mm3 = exact;
  r.cautions = standing_cautions();
  return a;
}

void report_load_cases(Analysis &a, const std::vector<LoadCase> &loads,
                       const std::vector<Solution> &solutions, double seconds,
                       const AnyModel *iterated) {
  for (std::size_t i = 0; i < loads.size(); ++i) {
    const Solution &s = solutions[i];
    LoadCaseFigures f;
    f.name = loads[i].name;
    f.kind = loads[i].kind;
    f.force_N = s.applied.force;
    f.moment_Nm = scale(1e-3, s.applied.moment);
    f.balance_error = s.balance_error;
    f.residual = s.residual;
    if (iterated) f.iterations = iterated->iterations(i);
    f.seconds = seconds / static_cast<double>(loads.size());
    a.results.load_cases.push_back(f);
  }
}

}  // namespace felloe
