// SPDX-License-Identifier: GPL-3.0-or-later
// What the cost model says, what a solve needs, and the ratio: cost_bench CASE.toml DENSITY PATH
// N_LOADS; PATH automatic, sectors, whole or free. Positions of the radial load, hub held; a
// process for each solve, so that peaks of memory do not mix. Beside other work only memory means
// anything: waiting threads of a BLAS count as processor time too.
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <string>

#include "cli/case_file.h"
#include "mesher/wheel_mesh.h"
#include "solver/any_model.h"
#include "solver/cost_model.h"
#include "solver/load_kinds.h"
#include "solver/peak_memory.h"
#include "solver/processes.h"

namespace felloe {
namespace {

double wall_seconds() {
  return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}
double cpu_seconds() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

std::vector<LoadCase> radial_loads(const WheelLayout &wheel, const Mesh &mesh, int n) {
  std::vector<LoadCase> loads;
  for (int k = 0; k < n; ++k) {
    loads.push_back(radial_load(wheel, mesh, 1e4, 40, 2 * pi * k / n));
    loads.back().name = "position " + std::to_string(k);
  }
  return loads;
}

void measure(const std::string &file, double density, const std::string &path, int n_loads) {
  const Case c = read_case(file);
  const WheelLayout wheel = layout(c.wheel);
  const Mesh mesh = wheel_mesh(wheel, mesh_size(density));
  const std::map<Part, Material> parts{
      {Part::disc, c.disc_material}, {Part::rim, c.rim_material}, {Part::weld, c.weld_material}};
  Supports supports;
  supports.adapter_surface = "hub face";
  supports.adapter_held = true;
  const double mesh_s = wall_seconds();
  SolveTask task = solve_task(mesh);
  const double task_seconds = wall_seconds() - mesh_s;
  task.n_loads = n_loads;
  task.n_symmetric = n_loads == 1 ? 1 : 0;  // the first position lies on a mirror plane
  task.n_processes = Processes::count();
  if (path == "whole" || path == "sectors") task.mirrored = false;
  if (path == "whole") task.sectors = 1;
  const bool free = path == "free";
  const SolveCost cost = free ? matrix_free_cost(task) : direct_cost(task);
  const PeakMemory memory;
  const double start = wall_seconds(), start_cpu = cpu_seconds();
  char text[200];
  if (free) {
    MatrixFreeSettings settings;
    settings.tolerance = AnyModel::tolerance;
    const MatrixFreeModel model(mesh, parts, NodalFrame::cylindrical, settings);
    model.solve(supports, radial_loads(wheel, mesh, n_loads));
    const MatrixFreeFigures &f = model.figures();
    std::snprintf(text, sizeof text,
                  "setup %.2f factor %.2f solve %.2f recovery %.2f s, %d iterations, coarse %ld "
                  "unknowns %.3g entries",
                  f.setup_seconds, f.factor_seconds, f.solve_seconds, f.recovery_seconds,
                  f.iterations[0], f.coarse_unknowns, f.coarse_entries);
  } else {
    const ElasticModel model(mesh, parts, NodalFrame::cylindrical,
                             path == "whole"     ? SolvePath::whole
                             : path == "sectors" ? SolvePath::sectors
                                                 : SolvePath::automatic);
    model.solve(supports, radial_loads(wheel, mesh, n_loads));
    const SolveFigures &f = model.figures();
    std::snprintf(text, sizeof text,
                  "assembly %.2f factor %.2f solve %.2f recovery %.2f s, %.3g entries",
                  f.assembly_seconds, f.factor_seconds, f.solve_seconds, f.recovery_seconds,
                  f.factor_entries);
  }
  const double seconds = wall_seconds() - start;
  if (!Processes::first()) return;
  const double processor = cpu_seconds() - start_cpu, growth = memory.growth();
  std::printf(
      "%ld unknowns, %d sectors%s, %ld on a cut, %.2f nodes a column, slenderness %.2f "
      "(found in %.2f s), %d loads, %s, %d x %d; %s\n",
      task.dofs, task.sectors, task.mirrored ? " mirrored" : "", task.cut_dofs,
      task.nodes_in_column, task.slenderness, task_seconds, n_loads, path.c_str(), task.n_processes,
      task.n_threads, text);
  const auto ratio = [](const char *what, double expected, double measured, const char *unit) {
    std::printf("  %-10s expected %.3g, measured %.3g %s: %.2f times\n", what, expected, measured,
                unit, expected / measured);
  };
  ratio("processor", cost.processor_seconds, processor, "s");
  ratio("wall", cost.seconds, seconds, "s");
  ratio("memory", 1e-9 * cost.bytes, 1e-9 * growth, "GB");
}

}  // namespace
}  // namespace felloe

int main(int argc, char **argv) {
  const felloe::Processes processes(argc, argv);
  if (argc != 5) {
    std::fprintf(stderr, "cost_bench CASE.toml DENSITY automatic|sectors|whole|free N_LOADS\n");
    return 2;
  }
  felloe::measure(argv[1], std::atof(argv[2]), argv[3], std::atoi(argv[4]));
}
