// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/rate.h"

#include <cstdio>
#include <filesystem>
#include <map>
#include <nlohmann/json.hpp>

#include "cli/case_file.h"
#include "cli/case_keys.h"
#include "cli/gauges.h"
#include "cli/output_folder.h"
#include "cli/rating_steps.h"
#include "cli/report_input.h"
#include "cli/sensitivity.h"
#include "cli/service_spectrum.h"
#include "cli/stored_run.h"
#include "cli/terminal.h"
#include "cli/text_file.h"
#include "cli/thin/thickness_slopes.h"
#include "cli/version.h"
#include "mesher/error.h"
#include "post/results_json.h"
#include "post/summary.h"

namespace felloe {
namespace {

namespace fs = std::filesystem;

void check_folder(const std::string &folder) {
  std::error_code ignored;
  for (const std::string &name : {std::string("case.toml"), std::string(histories_file)})
    if (!fs::exists(folder + "/" + name, ignored))
      throw Error(folder + ": no " + name +
                  " in it: not the folder of a rated wheel, or of an older run; make one with "
                  "'felloe run CASE.toml -o " +
                  folder + "'");
}

/// The two meshes behind the error bars of the run.
MeshConvergence stored_convergence(const nlohmann::json &json) {
  MeshConvergence c;
  const auto found = json.find("mesh_convergence");
  if (found == json.end() || !found->is_object()) return c;
  c.coarse_cells = found->value("coarse_cells", 0L);
  c.fine_cells = found->value("fine_cells", 0L);
  c.coarse_dofs = found->value("coarse_dofs", 0L);
  c.fine_dofs = found->value("fine_dofs", 0L);
  c.size_ratio = found->value("size_ratio", 0.0);
  for (const auto &s : found->value("spots", nlohmann::json::array()))
    c.spots.push_back({s.value("test", ""), s.value("feature", ""), s.value("coarse_MPa", 0.0),
                       s.value("fine_MPa", 0.0), s.value("order", 0.0),
                       s.value("error_percent", 0.0)});
  return c;
}

/// Error bars of the run's hot spots, by test and feature: a stress keeps its relative error.
void take_errors(Results &r, const std::string &folder) {
  std::map<std::pair<std::string, std::string>, double> errors;
  const auto json = nlohmann::json::parse(read_text_file(folder + "/results.json"), nullptr, false);
  if (!json.is_object() || !json.contains("hot_spots"))
    throw Error(folder + "/results.json: damaged; run the case again");
  r.convergence = stored_convergence(json);
  for (const auto &spot : json["hot_spots"])
    if (spot.is_object() && spot.value("error_percent", nlohmann::json()).is_number())
      errors[{spot.value("test", ""), spot.value("feature", "")}] = spot["error_percent"];
  for (HotSpot &spot : r.hot_spots) {
    const auto found = errors.find({spot.test, spot.feature});
    if (found != errors.end()) spot.error_percent = found->second;
  }
}

}  // namespace

namespace {

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
  Progress progress(o.quiet);
  progress.step("stored histories");
  const Case stored = read_case(o.folder + "/case.toml");
  const Case now = o.case_path.empty() ? stored : read_case(o.case_path);
  if (o.thickness && now.hub.contact)
    throw Error(
        now.file +
        ": [hub] contact = true: --thickness follows a wheel with bonded hub only; leave the "
        "option out");
  if (o.thickness && now.press_fit.contact)
    throw Error(now.file +
                ": [press_fit] contact = true: --thickness follows a wheel with tied press fit "
                "only; leave the option out");
  const std::string file = o.folder + "/" + histories_file;
  RestoredRun run = restore_run(from_bytes(read_text_file(file), file), stored, now);
  Analysis &a = run.analysis;
  a.results.program_version = version;
  rate_all_tests(a, now, run.units, progress);
  sort_and_number(a.results.hot_spots);
  rate_spectrum(a, now, run.units, progress);
  take_errors(a.results, o.folder);
  report_assumptions(a, now);
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
  if (!o.output.empty()) {
    OutputFolder folder(o.output);
    folder.write("case.toml", resolved_case(now));
    folder.write("results.json", json);
    folder.write("report.html", report_of(a, now, o));
    if (!a.results.gauges.empty()) folder.write("gauges.csv", gauge_traces(a.results));
    folder.publish();
  }
  std::fputs(o.json ? json.c_str() : summary(a.results, takes_colours(stdout)).c_str(), stdout);
  return overall_verdict(a.results) == Verdict::fail ? 1 : 0;
}

}  // namespace felloe
