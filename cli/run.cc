// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/run.h"

#include <cstdio>
#include <functional>
#include <memory>

#include "cli/accuracy.h"
#include "cli/case_file.h"
#include "cli/field_files.h"
#include "cli/gauges.h"
#include "cli/output_folder.h"
#include "cli/picture_files.h"
#include "cli/progress.h"
#include "cli/report_input.h"
#include "cli/sensitivity.h"
#include "cli/service_spectrum.h"
#include "cli/stored_run.h"
#include "cli/surface_loads.h"
#include "cli/terminal.h"
#include "cli/text_file.h"
#include "cli/version.h"
#include "post/results_json.h"
#include "post/section_drawing.h"
#include "post/summary.h"
#include "solver/blas_check.h"
#include "solver/processes.h"

namespace felloe {
namespace {

/// Of several processes the first one works, the others hear when it fails.
void on_first(const std::function<void()> &work) {
  Processes::together([&] {
    if (Processes::first()) work();
  });
}

/// What `felloe rate` needs to rate the folder again, and the traces of the gauges.
void write_for_later(const Analysis &a, const Case &input, OutputFolder &folder) {
  if (!a.histories.states.empty()) folder.write(histories_file, to_bytes(a.histories));
  for (const SpectrumInput &block : input.spectrum)
    if (!block.time_series.empty() && block.time_series[0] != '/' &&
        block.time_series.find("..") == std::string::npos)
      folder.write(block.time_series, read_text_file(series_path(input, block)));
  if (!a.results.gauges.empty()) folder.write("gauges.csv", gauge_traces(a.results));
}

/// Everything but the report, side by side; by several processes their pieces of the fields first.
void write_files(Analysis &a, const Case &input, OutputFolder *folder, const std::string &shown,
                 Progress &progress) {
  if (Processes::count() > 1)
    write_pieces(a, Processes::of_first(folder ? folder->path() : ""), shown);
  on_first([&] {
    folder->fill([&](const std::string &path) {
      Jobs jobs{[&] { write_for_later(a, input, *folder); }};  // the longest first
      for (auto &job : field_jobs(a, path)) jobs.push_back(std::move(job));
      progress.remark(draw_pictures(a, input, path, jobs));
    });
  });
}

/// report.html, with the pictures that stand in the folder.
void write_report(const Analysis &a, const Case &input, OutputFolder &folder) {
  ReportInput in = report_input(input, a, resolved_case(input), "felloe run case.toml -o again");
  folder.fill([&](const std::string &path) { add_pictures(in, path + "/pictures"); });
  in.view_3d = surface_view(a.mesh, surface_loads(a));
  folder.write("report.html", report_html(in));
}

/// Writes results.json, moves the folder into place, prints.
void report(Results &results, OutputFolder &folder, const RunOptions &options, Progress &progress) {
  results.times = progress.times();
  const std::string json = results_json(results);
  folder.write("results.json", json);
  folder.publish();
  progress.note("everything written to " + options.output + " after " +
                std::to_string(progress.total_seconds()).substr(0, 5) + " s");
  if (options.json)
    std::fputs(json.c_str(), stdout);
  else
    std::fputs(summary(results, takes_colours(stdout)).c_str(), stdout);
  std::fflush(stdout);  // mpirun ends all processes once one has left with a code other than 0
}

}  // namespace

int run_case(const Case &input, const RunOptions &options) {
  std::unique_ptr<OutputFolder> folder;  // of the first process
  Progress progress(options.quiet || !Processes::first());
  progress.outlook.writes_fields = true;
  on_first([&] {
    folder = std::make_unique<OutputFolder>(options.output);
    const std::string slow_blas = slow_blas_warning(blas_file());
    if (!slow_blas.empty()) progress.note(slow_blas);
    folder->write("case.toml", resolved_case(input));
  });
  Analysis a = analyse_to_accuracy(input, progress);
  a.results.program_version = version;
  a.histories.case_text = resolved_case(input);
  on_first([&] { folder->write("section.svg", section_drawing(a.layout)); });
  progress.step("fields and pictures", Work::writing);
  write_files(a, input, folder.get(), options.output, progress);
  progress.finish();
  on_first([&] {
    progress.step("what moves the life");
    a.results.sensitivities = sensitivities_of_run(a, std::move(a.histories), input);
    progress.step("report", Work::writing);
    write_report(a, input, *folder);
    progress.finish();
    report(a.results, *folder, options, progress);
  });
  return overall_verdict(a.results) == Verdict::fail ? 1 : 0;
}

}  // namespace felloe
