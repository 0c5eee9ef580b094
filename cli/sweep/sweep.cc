// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sweep/sweep.h"

#include <signal.h>
#include <stdlib.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>

#include "cli/case_file.h"
#include "cli/sweep/crew.h"
#include "cli/sweep/scatter.h"
#include "cli/sweep/sweep_file.h"
#include "cli/sweep/sweep_page.h"
#include "cli/sweep/sweep_pictures.h"
#include "cli/sweep/sweep_progress.h"
#include "cli/sweep/sweep_report.h"
#include "cli/sweep/worker.h"
#include "mesher/error.h"
#include "post/whole_file.h"

namespace felloe {
namespace {

namespace fs = std::filesystem;

void print(const std::string &text) {
  const bool written = std::fwrite(text.data(), 1, text.size(), stdout) == text.size();
  if (!written || std::fflush(stdout) != 0)
    throw Error(std::string("standard output: can't be written: ") + std::strerror(errno));
}

/// The folder of the sweep; a sweep file is planned into it first.
std::string planned_folder(const SweepOptions &o, const std::string &version) {
  if (fs::is_directory(o.source)) return o.source;
  const SweepPlan plan = plan_of(read_sweep(o.source), o.source);
  make_folder(o.output);
  const long n = Store::plan(o.output, plan.head, plan.designs);
  if (o.quiet) return o.output;
  const long same = long(plan.designs.size()) - n;
  std::fprintf(stderr, "  felloe %s: %ld designs%s%s\n", version.c_str(), n,
               plan.left_out > 0
                   ? (", " + std::to_string(plan.left_out) + " left out by [[require]]").c_str()
                   : "",
               same > 0 ? (", " + std::to_string(same) + " the same as another").c_str() : "");
  return o.output;
}

/// A worker is this program once more, with one thread wherever a library would take all.
int become_worker(const std::string &folder) {
  for (const char *name : {"OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "DEAL_II_NUM_THREADS"})
    ::setenv(name, "1", 1);
  ::execl("/proc/self/exe", "felloe", "sweep", "--worker", "--", folder.c_str(),
          static_cast<char *>(nullptr));
  std::fprintf(stderr, "can't be started: %s\n", std::strerror(errno));
  return 126;
}

int be_worker(const std::string &folder, const std::string &version) {
  try {
    Store store(folder, Store::Use::write);
    work(store, design_evaluation(), version);
    return 0;
  } catch (const Error &e) {  // the parent shows it, once for all workers
    std::fprintf(stderr, "%s\n", e.what());
    return 2;
  }
}

void write_results(const Store &store, const SweepHead &head, const Designs &designs,
                   const std::string &folder, const std::string &version) {
  write_whole_file((fs::path(folder) / "table.csv").string(), sweep_table(head, designs));
  write_whole_file((fs::path(folder) / "compromises.svg").string(), pareto_picture(head, designs));
  write_whole_file((fs::path(folder) / "parallel.svg").string(), parallel_picture(head, designs));
  write_whole_file((fs::path(folder) / "report.html").string(),
                   sweep_page(head, designs, {folder, version, [&](long design) {
                                                return store.case_text(design);
                                              }}));
}

int exit_code(const SweepHead &head, const Designs &designs) {
  if (!anything_rated(designs)) return computed(head, designs).empty() ? 1 : 0;
  return lightest(head, designs, 1).empty() ? 1 : 0;
}

int compute(const SweepOptions &o, const std::string &version) {
  const std::string folder = planned_folder(o, version);
  Store store(folder, Store::Use::write);
  if (o.plan) return 0;
  store.refuse_other_machines(this_workplace());
  const SweepHead head = store.head();
  if (o.retry) store.retry_failed();
  int stopped = 0;
  {
    SweepProgress progress(store, store.counts(), o.quiet);
    Crew crew;
    crew.workers = o.workers >= 0 ? o.workers : head.workers;
    crew.worker = [&] { return become_worker(folder); };
    crew.watch = [&](const Counts &c) { progress.watch(c); };
    stopped = run_crew(store, crew);
    const Counts c = store.counts();
    if (stopped != 0)
      progress.note("stopped: " + std::to_string(c.finished()) + " of " + std::to_string(c.all()) +
                    " are done and kept; 'felloe sweep " + folder + "' goes on");
  }
  if (stopped != 0) {
    ::signal(stopped, SIG_DFL);
    ::raise(stopped);
  }
  const Designs designs = store.designs();
  write_results(store, head, designs, folder, version);
  print(o.json ? sweep_json(head, designs, folder) : sweep_summary(head, designs, folder));
  return exit_code(head, designs);
}

int read(const SweepOptions &o) {
  const Store store(o.source, Store::Use::read);
  if (o.design > 0) {
    const std::string text = store.case_text(o.design);
    if (o.output.empty())
      print(text);
    else
      write_whole_file(o.output, text);
    return 0;
  }
  const SweepHead head = store.head();
  const Designs designs = store.designs();
  if (o.scatter) {
    const Case first = read_case_text(store.case_text(designs.at(0).id), "design");
    print(scatter_report(head, designs, first.rating.survival_percent / 100));
    return 0;
  }
  print(o.table  ? sweep_table(head, designs)
        : o.json ? sweep_json(head, designs, o.source)
                 : best_list(head, designs, std::size_t(o.best)));
  return 0;
}

void check_source(const SweepOptions &o) {
  const bool folder = fs::is_directory(o.source);
  const bool reads = o.table || o.scatter || o.best > 0 || o.design > 0;
  if (folder && !Store::exists(o.source))
    throw Error("sweep: " + o.source +
                ": this folder holds no sweep; plan one with 'felloe sweep "
                "SWEEP.toml -o " +
                o.source + "'");
  if (!fs::exists(o.source))
    throw Error("sweep: " + o.source + ": there is no such folder or sweep file; check the path");
  if (!folder && (reads || o.retry))
    throw Error("sweep: " + o.source +
                ": --table, --scatter, --best, --design and --retry take the folder of "
                "a sweep");
  if (!folder && o.output.empty())
    throw Error("sweep: no output folder; add '-o FOLDER', for example 'felloe sweep " + o.source +
                " -o designs'");
  if (folder && !o.output.empty() && o.design == 0)
    throw Error("sweep: " + o.source +
                " holds a sweep already; leave out --output to go on with it");
}

}  // namespace

int sweep(const SweepOptions &o, const std::string &version) {
  check_source(o);
  if (o.worker) return be_worker(o.source, version);
  if (o.table || o.scatter || o.best > 0 || o.design > 0) return read(o);
  return compute(o, version);
}

}  // namespace felloe
