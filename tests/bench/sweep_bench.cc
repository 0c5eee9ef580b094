// SPDX-License-Identifier: GPL-3.0-or-later
// Designs an hour of a sweep: whole wheels in 3D and sections in harmonics, one worker process
// pinned to each core, as `felloe sweep` starts them.
#include <sched.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstring>
#include <ctime>
#include <stdexcept>
#include <string>
#include <vector>

#include "cli/case_file.h"
#include "cli/sweep/design_figures.h"
#include "solver/parallel.h"
#include "tests/bench/figures.h"

namespace felloe::bench {
namespace {

double wall() {
  return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

/// What one worker measured, written through a pipe.
struct WorkerFigures {
  int designs = 0;
  long dofs = 0;
  double seconds = 0, processor_seconds = 0;  ///< after the first design
  double first_seconds = 0;
  double setup = 0, solve = 0, rating = 0;  ///< of all designs after the first [s]
};

/// Neighbours: thickness, a bend radius and the weld leg move a little from design to design.
Case neighbour(const Case &base, int k) {
  Case c = base;
  const auto wave = [k](double step) { return 2 * std::abs(std::fmod(step * k, 1.0) - 0.5) - 0.5; };
  for (auto &station : c.wheel.disc.thickness) station.thickness *= 1 + 0.1 * wave(0.618034);
  c.wheel.disc.meridian[0].bend_radius *= 1 + 0.08 * wave(0.414214);
  c.wheel.weld.leg *= 1 + 0.1 * wave(0.732051);
  return c;
}

WorkerFigures work(const Case &base, Depth depth, int worker, int n_workers, int n_designs) {
  const ProcessorsHere one(1);
  WorkerFigures f;
  DesignEvaluator evaluator(depth);
  double start = wall(), processor = std::clock();
  for (int i = 0; i <= n_designs; ++i) {
    const DesignFigures d = evaluator.evaluate(neighbour(base, worker + n_workers * i));
    f.dofs = d.dofs;
    if (i == 0) {
      f.first_seconds = wall() - start;
      start = wall();
      processor = std::clock();
      continue;
    }
    ++f.designs;
    f.setup += d.setup_seconds;
    f.solve += d.solve_seconds;
    f.rating += d.rating_seconds;
  }
  f.seconds = wall() - start;
  f.processor_seconds = (std::clock() - processor) / CLOCKS_PER_SEC;
  return f;
}

std::vector<int> processors() {
  cpu_set_t set;
  sched_getaffinity(0, sizeof set, &set);
  std::vector<int> cpus;
  for (int k = 0; k < CPU_SETSIZE; ++k)
    if (CPU_ISSET(k, &set)) cpus.push_back(k);
  return cpus;
}

/// One process a core, at most two; every one evaluates n designs after a first one that does not
/// count.
std::vector<WorkerFigures> measured(const Case &base, Depth depth, int n_designs) {
  std::vector<int> cpus = processors();
  cpus.resize(std::min<std::size_t>(cpus.size(), 2));
  std::vector<std::pair<pid_t, int>> children;
  for (std::size_t w = 0; w < cpus.size(); ++w) {
    int ends[2];
    if (pipe(ends) != 0) throw std::runtime_error("pipe failed");
    const pid_t child = fork();
    if (child == 0) {
      cpu_set_t own;
      CPU_ZERO(&own);
      CPU_SET(cpus[w], &own);
      sched_setaffinity(0, sizeof own, &own);
      int code = 1;
      try {
        const WorkerFigures f =
            work(base, depth, static_cast<int>(w), static_cast<int>(cpus.size()), n_designs);
        code = write(ends[1], &f, sizeof f) == sizeof f ? 0 : 1;
      } catch (const std::exception &e) {
        std::fprintf(stderr, "%s\n", e.what());
      }
      _exit(code);
    }
    close(ends[1]);
    children.emplace_back(child, ends[0]);
  }
  std::vector<WorkerFigures> all;
  for (const auto &[child, end] : children) {
    WorkerFigures f;
    if (read(end, &f, sizeof f) == sizeof f) all.push_back(f);
    close(end);
    int status = 0;
    waitpid(child, &status, 0);
  }
  if (all.size() != cpus.size()) throw std::runtime_error("a worker failed");
  return all;
}

struct Rate {
  double per_hour = 0, by_processor_time = 0, setup_share = 0;
  WorkerFigures sum;
};

Rate rate(const std::vector<WorkerFigures> &workers) {
  Rate r;
  for (const WorkerFigures &w : workers) {
    r.per_hour += 3600 * w.designs / w.seconds;
    r.by_processor_time += 3600 * w.designs / w.processor_seconds;
    r.sum.designs += w.designs;
    r.sum.dofs = w.dofs;
    r.sum.setup += w.setup;
    r.sum.solve += w.solve;
    r.sum.rating += w.rating;
    r.sum.first_seconds += w.first_seconds / static_cast<double>(workers.size());
  }
  r.setup_share = r.sum.setup / (r.sum.setup + r.sum.solve + r.sum.rating);
  return r;
}

std::string described(const Rate &r, const char *what) {
  char text[300];
  const double n = r.sum.designs;
  std::snprintf(text, sizeof text,
                "%s, %ld unknowns, %d neighbours on %d cores; a design: set-up %.3f, solve %.3f, "
                "rating %.3f s, the first %.2f s; %.0f an hour by processor time",
                what, r.sum.dofs, r.sum.designs, static_cast<int>(processors().size()),
                r.sum.setup / n, r.sum.solve / n, r.sum.rating / n, r.sum.first_seconds,
                r.by_processor_time);
  return text;
}

int run(int argc, char **argv) {
  bool json = false;
  int designs_3d = 6, designs_section = 200;
  for (int i = 1; i < argc; ++i) {
    const auto number = [&] { return i + 1 < argc ? std::stoi(argv[++i]) : 0; };
    if (!std::strcmp(argv[i], "--json")) json = true;
    if (!std::strcmp(argv[i], "--wheels")) designs_3d = number();
    if (!std::strcmp(argv[i], "--sections")) designs_section = number();
  }
  Case base = read_case(FELLOE_DEMO_CASE);
  base.mesh.density = 0.65;  // 304,755 unknowns
  const Machine machine = this_machine();
  if (!json) print_heading(machine);
  std::vector<Figure> figures;
  const auto add = [&](const Figure &f) {
    figures.push_back(f);
    if (!json) print_line(f);
  };
  if (designs_3d > 0) {
    const Rate wheels = rate(measured(base, Depth::wheel, designs_3d));
    add({"designs_3d_per_hour", wheels.per_hour, "1/h", described(wheels, "whole wheel")});
    add({"neighbour_setup_share", wheels.setup_share, "",
         "layout, mesh and rated places in the time of a 3D design; the solver's numbering and "
         "symbolic analysis count as solving"});
  }
  if (designs_section > 0) {
    const Rate sections = rate(measured(base, Depth::section, designs_section));
    add({"designs_axisymmetric_per_hour", sections.per_hour, "1/h",
         described(sections, "section in harmonics")});
  }
  if (json) std::printf("%s\n", json_object(machine, figures).c_str());
  return 0;
}

}  // namespace
}  // namespace felloe::bench

int main(int argc, char **argv) {
  try {
    return felloe::bench::run(argc, argv);
  } catch (const std::exception &e) {
    std::fprintf(stderr, "%s\n", e.what());
    return 1;
  }
}
