// SPDX-License-Identifier: GPL-3.0-or-later
// Times and memory of the solver on the demo wheel, each against what it replaces.
//
//   solver_bench [--json] [--unknowns N] [--without-library] [--designs N]
//   solver_bench measure ...        one measurement in this process, lines "key value"
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <exception>
#include <filesystem>
#include <regex>
#include <stdexcept>

#include "tests/bench/child.h"
#include "tests/bench/demo_loads.h"
#include "tests/bench/exported_problem.h"
#include "tests/bench/figures.h"

namespace felloe::bench {
namespace {

using Values = std::map<std::string, double>;
constexpr double limit_seconds = 600;            ///< of one measurement
constexpr double iterative_limit_seconds = 120;  ///< of the library's conjugate gradients

struct UsageError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

void print_times(const MeshedCase &m, const SolveTimes &t) {
  const auto line = [](const char *key, double value) { std::printf("%s %.9g\n", key, value); };
  line("mesh", m.mesh_seconds);
  line("dofs", static_cast<double>(t.dofs));
  line("loads", t.loads);
  line("sectors", t.sectors);
  line("total", t.total);
  line("assembly", t.assembly);
  line("factor", t.factor);
  line("solve", t.solve);
  line("stresses", t.stresses);
  line("entries", t.entries);
  line("residual", t.residual);
  line("peak", peak_memory());
}

/// What a child process does: measure section, or
/// measure all|flange|modes|export|LOADS DENSITY sectors|whole|FOLDER
int measure(const std::vector<std::string> &words) {
  const std::string what = words.at(1);
  if (what == "section") {
    const SectionTimes t = section_times(FELLOE_DEMO_CASE);
    std::printf("dofs %ld\nsolve %.9g\nwhole %.9g\n", t.dofs, t.solve, t.whole);
    return 0;
  }
  const MeshedCase m = meshed_case(FELLOE_DEMO_CASE, std::stod(words.at(2)));
  const SolvePath path = words.at(3) == "whole" ? SolvePath::whole : SolvePath::automatic;
  if (what == "export")
    export_problem(m, words.at(3));
  else if (what == "modes") {
    const auto [seconds, highest] = modes_times(m);
    std::printf("seconds %.9g\nhighest %.9g\n", seconds, highest);
  } else if (what == "all")
    print_times(m, all_loads(m, path));
  else if (what == "flange")
    print_times(m, flange_held_loads(m, path));
  else
    print_times(m, radial_loads(m, std::stoi(what), path));
  return 0;
}

Values measured(const std::string &what, double density, const std::string &path) {
  const ChildResult child =
      run_child({own_path(), "measure", what, std::to_string(density), path}, limit_seconds);
  return child.exit_code == 0 ? values_of(child.output) : Values{};
}

double value(const Values &values, const std::string &key) {
  const auto found = values.find(key);
  return found == values.end() ? NAN : found->second;
}

std::string rounded(double v, const char *format = "%.3g") {
  if (!std::isfinite(v)) return "?";
  char text[40];
  std::snprintf(text, sizeof text, format, v);
  return text;
}

class Bench {
 public:
  Bench(bool json, bool with_library) : json_(json), with_library_(with_library) {
    if (!json_) print_heading(machine_);
  }

  void measure_size(double density, bool key_size);
  void measure_section_and_modes();
  void measure_demo_run();
  void measure_large(double density);
  void take(const std::string &program, const std::vector<std::string> &options, double limit,
            const std::vector<std::pair<const char *, const char *>> &keys);
  void finish() {
    if (json_) std::fputs(json_object(machine_, figures_).c_str(), stdout);
  }

 private:
  void add(const std::string &key, double v, const std::string &unit, const std::string &against) {
    figures_.push_back({key, v, unit, against});
    if (json_)
      std::fprintf(stderr, "  %s %s\n", key.c_str(), rounded(v).c_str());
    else
      print_line(figures_.back());
  }
  void measure_paths(double density, const std::string &suffix);
  void measure_many(double density, const std::string &suffix);
  void measure_library(double density, const std::string &suffix, bool with_amg = true);

  bool json_, with_library_;
  Machine machine_ = this_machine();
  std::vector<Figure> figures_;
};

/// All loads of a run by sectors and with the whole matrix.
void Bench::measure_paths(double density, const std::string &suffix) {
  const Values sectors = measured("all", density, "sectors"),
               whole = measured("all", density, "whole");
  const std::string size = rounded(value(sectors, "dofs"), "%.0f") + " unknowns, " +
                           rounded(value(sectors, "loads"), "%.0f") + " loads";
  const auto parts = [](const Values &v) {
    return "assembly " + rounded(value(v, "assembly")) + ", factors " +
           rounded(value(v, "factor")) + ", solves and checks " + rounded(value(v, "solve"));
  };
  add("all_loads_seconds" + suffix, value(sectors, "total"), "s",
      size + ", by " + rounded(value(sectors, "sectors")) + " sectors: " + parts(sectors) +
          "; largest residual " + rounded(value(sectors, "residual")));
  add("all_loads_whole_seconds" + suffix, value(whole, "total"), "s",
      "the same with the whole matrix: " + parts(whole));
  add("sector_speedup" + suffix, value(whole, "total") / value(sectors, "total"), "x",
      "sector path against whole-matrix path, all loads");
  add("sector_peak_MB" + suffix, value(sectors, "peak"), "MB",
      "whole matrix: " + rounded(value(whole, "peak"), "%.0f") +
          " MB; both with mesh and stresses");
  add("sector_factor_entries" + suffix, value(sectors, "entries"), "",
      "whole matrix: " + rounded(value(whole, "entries")));
  add("mesh_seconds" + suffix, value(sectors, "mesh"), "s", "not counted above");
  add("stresses_seconds" + suffix, value(sectors, "stresses"), "s",
      "nodal stresses of all loads, not counted above");
}

void Bench::measure_many(double density, const std::string &suffix) {
  for (const std::string path : {"sectors", "whole"}) {
    const Values one = measured("1", density, path), many = measured("24", density, path);
    add("many_loads_vs_one" + std::string(path == "whole" ? "_whole" : "") + suffix,
        value(many, "total") / value(one, "total"), "x",
        path + ": 24 radial loads " + rounded(value(many, "total")) + " s (solves " +
            rounded(value(many, "solve")) + "), 1 load " + rounded(value(one, "total")) +
            " s; assembly and factor included");
  }
}

/// The library on an exported problem; empty when it did not finish.
Values library_run(const std::string &folder, const std::string &solver, int processes,
                   std::string &remark) {
  std::vector<std::string> words = {"env", "OPENBLAS_NUM_THREADS=" + std::to_string(3 - processes),
                                    "OMP_NUM_THREADS=1"};
  if (processes > 1)
    for (const char *word : {"OMPI_ALLOW_RUN_AS_ROOT=1", "OMPI_ALLOW_RUN_AS_ROOT_CONFIRM=1",
                             "mpirun", "--oversubscribe", "-n"})
      words.push_back(word);
  if (processes > 1) words.push_back(std::to_string(processes));
  for (const std::string &word :
       {std::string("/usr/bin/python3"), std::string(FELLOE_LIBRARY_SCRIPT), folder, solver,
        std::to_string(iterative_limit_seconds)})
    words.push_back(word);
  const ChildResult child = run_child(words, limit_seconds);
  if (child.exit_code == 0) return values_of(child.output);
  remark = child.timed_out ? "did not finish in " + rounded(limit_seconds) + " s"
                           : "failed or is not installed (python3-dolfinx-real)";
  return {};
}

double library_total(const Values &v) {
  return value(v, "assembly_seconds") + value(v, "factor_seconds") + value(v, "solve_seconds");
}

std::string library_parts(const Values &v) {
  return "assembly " + rounded(value(v, "assembly_seconds")) + ", set-up " +
         rounded(value(v, "factor_seconds")) + ", solves " + rounded(value(v, "solve_seconds")) +
         " s, residual " + rounded(value(v, "residual")) + ", difference to ours " +
         rounded(value(v, "difference"));
}

/// Both on the same mesh with the same nodal forces, held at the inboard flange.
void Bench::measure_library(double density, const std::string &suffix, bool with_amg) {
  const std::string folder =
      std::filesystem::temp_directory_path() / ("felloe-bench-" + std::to_string(getpid()));
  std::filesystem::create_directories(folder);
  const Values ours = measured("flange", density, "sectors");
  measured("export", density, folder);
  double best = NAN;
  const double loads = value(ours, "loads");
  for (const int processes : {1, 2}) {
    std::string remark;
    const Values v = library_run(folder, "mumps", processes, remark);
    const double total = library_total(v);
    if (!(best < total)) best = std::isfinite(total) ? total : best;
    add("library_mumps_seconds_" + std::to_string(processes) + suffix, total, "s",
        v.empty() ? remark
                  : "DOLFINx + MUMPS, " + std::to_string(processes) +
                        " process(es): " + library_parts(v));
  }
  if (with_amg) {
    std::string remark;
    const Values cg = library_run(folder, "gamg", 1, remark);
    const bool done = value(cg, "done") == 1;
    const double cg_total = value(cg, "assembly_seconds") + value(cg, "factor_seconds") +
                            loads * value(cg, "solve_seconds");
    if (done && !(best < cg_total)) best = cg_total;
    add("library_amg_seconds" + suffix, done ? cg_total : NAN, "s",
        cg.empty() ? remark
                   : "DOLFINx + CG + GAMG, one load" +
                         std::string(done ? "" : " NOT converged within the limit") + ": " +
                         rounded(value(cg, "iterations"), "%.0f") + " iterations, " +
                         library_parts(cg) + "; all loads: the solve times their number");
  }
  add("total_vs_library" + suffix, best / value(ours, "total"), "x",
      "best of the library " + rounded(best) + " s against ours " + rounded(value(ours, "total")) +
          " s, " + rounded(value(ours, "dofs"), "%.0f") + " unknowns, " + rounded(loads, "%.0f") +
          " loads, assembly and solve; our largest residual " + rounded(value(ours, "residual")));
  std::filesystem::remove_all(folder);
}

void Bench::measure_size(double density, bool key_size) {
  const std::string suffix = key_size ? "" : "_at_density_" + rounded(density);
  measure_paths(density, suffix);
  measure_many(density, suffix);
  if (with_library_)
    measure_library(density, suffix);
  else if (key_size)
    add("total_vs_library", NAN, "x", "left out by --without-library");
}

/// A size where the library's conjugate gradients are not worth the wait.
void Bench::measure_large(double density) {
  if (with_library_) measure_library(density, "_at_density_" + rounded(density), false);
}

void Bench::measure_section_and_modes() {
  const ChildResult child = run_child({own_path(), "measure", "section"}, limit_seconds);
  const Values section = child.exit_code == 0 ? values_of(child.output) : Values{};
  add("harmonics_seconds", value(section, "solve"), "s",
      "all harmonics of the section for all loads, " + rounded(value(section, "dofs"), "%.0f") +
          " unknowns a harmonic; with mesh and rating " + rounded(value(section, "whole")) + " s");
  const Values modes = measured("modes", 1, "whole");
  add("modes_20_seconds", value(modes, "seconds"), "s",
      "20 natural frequencies at density 1, hub held, up to " + rounded(value(modes, "highest")) +
          " Hz");
}

void Bench::measure_demo_run() {
  const std::string folder =
      std::filesystem::temp_directory_path() / ("felloe-bench-run-" + std::to_string(getpid()));
  const ChildResult run =
      run_child({FELLOE_PROGRAM, "run", FELLOE_DEMO_CASE, "-o", folder, "--quiet"}, limit_seconds);
  std::filesystem::remove_all(folder);
  const bool done = run.exit_code == 0 || run.exit_code == 1;
  add("demo_run_seconds", done ? run.seconds : NAN, "s",
      "felloe run of the demo wheel as it stands, everything written, whole process; peak " +
          rounded(run.peak_MB, "%.0f") + " MB");
}

using Keys = std::vector<std::pair<const char *, const char *>>;  ///< with units

/// Figures that another bench program prints as JSON; absent ones are not measured.
void Bench::take(const std::string &name, const std::vector<std::string> &options, double limit,
                 const Keys &keys) {
  const std::filesystem::path here = std::filesystem::path(own_path()).parent_path();
  std::filesystem::path program = here / name;
  if (!std::filesystem::exists(program)) program = here.parent_path() / name;
  std::string output;
  if (std::filesystem::is_regular_file(program)) {
    std::vector<std::string> words = {program, "--json"};
    words.insert(words.end(), options.begin(), options.end());
    const ChildResult child = run_child(words, limit);
    if (child.exit_code == 0) output = child.output;
  }
  for (const auto &[key, unit] : keys) {
    std::smatch found;
    const std::regex pattern("\"" + std::string(key) + "\"\\s*:\\s*([-+0-9.eE]+)");
    const bool any = std::regex_search(output, found, pattern);
    add(key, any ? std::stod(found[1]) : NAN, unit, any ? name : "");
  }
}

int run_bench(const std::vector<std::string> &words) {
  bool json = false, with_library = true;
  long unknowns = 500000, designs = 0;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words[i] == "--json")
      json = true;
    else if (words[i] == "--without-library")
      with_library = false;
    else if (words[i] == "--unknowns" && i + 1 < words.size())
      unknowns = std::atol(words[++i].c_str());
    else if (words[i] == "--designs" && i + 1 < words.size())
      designs = std::atol(words[++i].c_str());
    else
      throw UsageError("unknown word '" + words[i] + "'");
  }
  if (unknowns < 1000) throw UsageError("--unknowns needs a number from 1000 on");
  Bench bench(json, with_library);
  bench.measure_size(density_for(FELLOE_DEMO_CASE, unknowns), true);
  bench.measure_size(0.5, false);
  bench.measure_large(1.4);
  bench.measure_section_and_modes();
  bench.measure_demo_run();
  bench.take("matrix_free_bench", {}, limit_seconds,
             {{"operator_vs_assembled", "x"},
              {"solve_iterations", ""},
              {"thin_iteration_growth", "x"},
              {"bytes_per_dof", "B"},
              {"two_thread_speedup", "x"},
              {"two_process_speedup", "x"}});
  const Keys coverage = {{"error_bar_coverage_percent", "%"}};
  if (designs > 0)
    bench.take("coverage_bench", {"--designs", std::to_string(designs)}, 200.0 * designs, coverage);
  else
    bench.take("", {}, 0, coverage);
  bench.finish();
  return 0;
}

}  // namespace
}  // namespace felloe::bench

int main(int n_words, char **words) {
  const std::vector<std::string> all(words + 1, words + n_words);
  try {
    return !all.empty() && all[0] == "measure" ? felloe::bench::measure(all)
                                               : felloe::bench::run_bench(all);
  } catch (const felloe::bench::UsageError &e) {
    std::fprintf(stderr,
                 "solver_bench: %s; usage: solver_bench [--json] [--unknowns N] "
                 "[--without-library] [--designs N]\n",
                 e.what());
    return 2;
  } catch (const std::exception &e) {
    std::fprintf(stderr, "solver_bench: %s\n", e.what());
    return 3;
  }
}
