// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/rate.h"

#include <cstdio>
#include <filesystem>
#include <memory>

#include "cli/case_file.h"
#include "cli/case_keys.h"
#include "cli/gauges.h"
#include "cli/output_folder.h"
#include "cli/rating_steps.h"
#include "cli/report_input.h"
#include "cli/sensitivity.h"
#include "cli/service_spectrum.h"
#include "cli/stored_results.h"
#include "cli/stored_run.h"
#include "cli/terminal.h"
#include "cli/text_file.h"
#include "cli/thin/thickness_slopes.h"
#include "cli/version.h"
#include "mesher/error.h"
#include "post/results_json.h"
#include "post/summary.h"
#include "post/worst_first.h"

namespace felloe {
namespace {

namespace fs = std::filesystem;

void check_folder(const std::string &folder) {
  std::error_code ignored;
  for (const std::string &name :
       {std::string("case.toml"), std::string(histories_file), std::string("results.json")})
    if (!fs::exists(folder + "/" + name, ignored))
      throw Error(folder + ": no " + name +
                  " in it: not the folder of a rated wheel, or of an older run; make one with "
                  "'felloe run CASE.toml -o " +
                  folder + "'");
}

/// Where the results go, if anywhere. Never in place of the run: it holds more than a rating
/// writes.
std::unique_ptr<OutputFolder> output_of(const RateOptions &o) {
  if (o.output.empty()) return nullptr;
  std::error_code ignored;
  const fs::path run = fs::canonical(o.folder, ignored),
                 inside = run.lexically_relative(fs::weakly_canonical(o.output, ignored));
  if (!inside.empty() && *inside.begin() != "..")
    throw Error(o.output + ": would replace the run that is rated, " + o.folder +
                ", with its stored stresses, fields and pictures; choose another folder");
  return std::make_unique<OutputFolder>(o.output);
}

/// report.html with the pictures of the run.
std::string report_of(const Analysis &a, const Case &now, const RateOptions &o) {
  ReportInput in =
      report_input(now, a, resolved_case(now), "felloe rate FOLDER-OF-THE-RUN case.toml -o again");
  add_pictures(in, o.folder + "/pictures");
  if (!in.pictures.empty())
    in.pictures_note =
        "The pictures are those of the run whose stresses are rated here; where loads were changed "
        "since, they show the stresses before. " +
        in.pictures_note;
  return report_html(in);
}

}  // namespace

int rate_stored(const RateOptions &o) {
  check_folder(o.folder);
  const std::string run_case = o.folder + "/case.toml";
  const Case now = read_case(o.case_path.empty() ? run_case : o.case_path);
  if (o.thickness && now.hub.contact)
    throw Error(
        now.file +
        ": [hub] contact = true: --thickness follows a wheel with bonded hub only; leave the "
        "option out");
  if (o.thickness && now.press_fit.contact)
    throw Error(now.file +
                ": [press_fit] contact = true: --thickness follows a wheel with tied press fit "
                "only; leave the option out");
  const std::string results_file = o.folder + "/results.json";
  const StoredResults stored = read_stored_results(read_text_file(results_file), results_file);
  const std::unique_ptr<OutputFolder> folder = output_of(o);
  Progress progress(o.quiet);
  progress.step("stored histories");
  const std::string file = o.folder + "/" + histories_file;
  StoredHistories histories = from_bytes(read_text_file(file), file);
  // not the file beside the histories, which may have been edited since
  const Case solved = read_case_text(histories.case_text, run_case);
  RestoredRun run = restore_run(std::move(histories), solved, now);
  Analysis &a = run.analysis;
  a.results.program_version = version;
  rate_all_tests(a, now, run.units, progress);
  sort_and_number(a.results.hot_spots);
  rate_spectrum(a, now, run.units, progress);
  report_assumptions(a, now);
  add_stored(stored, now.press_fit.interference_mm > 0, a.results);
  if (o.thickness) progress.step("slopes in thickness on a coarse mesh");
  const StressSlopes slopes = o.thickness ? thickness_slopes(now) : StressSlopes{};
  progress.step("sensitivities");
  a.results.sensitivities = sensitivities(a, run.units, now, slopes);
  if (!slopes.empty())
    a.results.assumptions.push_back(
        "sheet thickness in the sensitivities: stored stresses times (new / old thickness)^slope, "
        "slope of every place from the gradient of one solve of a mesh of density " +
        plain_number(slope_density) + "; whole disc in proportion, by [thin] tolerance_mm");
  progress.finish();
  const std::string json = results_json(a.results);
  if (folder) {
    folder->write("case.toml", resolved_case(now));
    folder->write("results.json", json);
    folder->write("report.html", report_of(a, now, o));
    if (!a.results.gauges.empty()) folder->write("gauges.csv", gauge_traces(a.results));
    folder->publish();
  }
  std::fputs(o.json ? json.c_str() : summary(a.results, takes_colours(stdout)).c_str(), stdout);
  return overall_verdict(a.results) == Verdict::fail ? 1 : 0;
}

}  // namespace felloe
