// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/thin/thin.h"

#include <cmath>
#include <cstdio>

#include "cli/case_file.h"
#include "cli/output_folder.h"
#include "cli/thin/thinnest.h"
#include "cli/version.h"
#include "post/results_json.h"
#include "post/section_drawing.h"

namespace felloe {

int run_thin(const Case &c, const ThinOptions &options) {
  OutputFolder folder(options.run.output);
  Progress progress(options.run.quiet);
  progress.note("searching on a mesh of density " + std::to_string(options.density).substr(0, 4));
  ThinSearch search(c, options.density);
  search.report = [&](int solve, double mass, double worst) {
    char line[100];
    std::snprintf(line, sizeof line, "solve %2d: disc %.3f kg, worst place at %.1f %% of its limit",
                  solve, mass, 100 * (1 + worst));
    progress.note(line);
    // most searches end long before their last solve: a bound and no forecast
    const double one = progress.total_seconds() / solve;
    progress.step("search, at most " + duration_text(one * (options.max_solves - solve)) + " more");
  };
  ThinOutcome out = thinnest(search, c, options.max_solves, progress);
  progress.finish();
  const Case found = case_of(c, search.space(), out.x);
  out.verification.program_version = version;
  out.verification.assumptions.push_back(
      "results of the wheel with all disc sheet thinner by the tolerance of " +
      std::to_string(c.thin.tolerance_mm).substr(0, 5) + " mm");
  const std::string json = thin_json(c, search.space(), out, options.density);
  folder.write("case.toml", resolved_case(found));
  folder.write("section.svg", section_drawing(layout(found.wheel)));
  folder.write("thin.json", json);
  folder.write("results.json", results_json(out.verification));
  folder.publish();
  progress.note("everything written to " + options.run.output);
  const std::string text =
      options.run.json ? json : thin_summary(c, search.space(), out, options.density);
  std::fputs(text.c_str(), stdout);
  return out.passes ? 0 : 1;
}

}  // namespace felloe
