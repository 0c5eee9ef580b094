// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/fit.h"

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <memory>

#include "cli/case_keys.h"
#include "cli/csv_table.h"
#include "cli/fit_report.h"
#include "cli/nearest.h"
#include "cli/output_folder.h"
#include "mesher/error.h"
#include "post/lives_plot.h"

namespace felloe {
namespace {

const std::vector<LoadUnit> &load_units() {
  static const std::vector<LoadUnit> all = {
      {"amplitude_MPa", "stress amplitude", "MPa", true, false},
      {"range_MPa", "stress range", "MPa", true, true},
      {"moment_Nm", "moment", "N m", false, false},
      {"force_N", "force", "N", false, false}};
  return all;
}

std::vector<CsvColumn> columns() {
  std::vector<CsvColumn> all;
  std::vector<std::string> names;
  for (const LoadUnit &u : load_units()) all.push_back({u.column, false, false, 1e-3, 1e9});
  all.push_back({"cycles", false, false, 1, 1e12});
  all.push_back({"run_out", false, true});
  all.push_back({"part", true});
  return all;
}

[[noreturn]] void refuse(const CsvTable &table, const std::string &why) {
  throw Error(table.file() + ":1:1: " + why);
}

const LoadUnit &load_unit(const CsvTable &table) {
  const LoadUnit *found = nullptr;
  for (const LoadUnit &u : load_units()) {
    if (!table.has(u.column)) continue;
    if (found)
      refuse(table, "both columns '" + found->column + "' and '" + u.column +
                        "' are loads; keep one of the two");
    found = &u;
  }
  if (found) return *found;
  std::vector<std::string> names;
  for (const LoadUnit &u : load_units()) names.push_back(u.column);
  refuse(table, "no column holds the load; name one of " + listed(names));
}

std::string curve_name(const FitOptions &o) {
  return "rig lives " + std::filesystem::path(o.lives).filename().string();
}

Surface surface_of(const std::string &word) {
  const auto words = curve_uses();
  if (word.empty()) return Surface::parent;
  const auto found = std::find(words.begin(), words.end(), word);
  if (found == words.end())
    throw Error("fit: --use-for " + word + ": unknown" + did_you_mean(word, words) +
                "; accepted: " + listed(words));
  return static_cast<Surface>(found - words.begin());
}

int put_out(const FitOptions &o, const std::string &text, const std::string &json) {
  std::fputs((o.json ? json : text).c_str(), stdout);
  return 0;
}

int evaluate_staircase(const FitOptions &o, const CsvTable &table, const LoadUnit &load) {
  if (!table.has("run_out")) refuse(table, "a staircase needs the column 'run_out' (yes or no)");
  std::vector<StaircaseTest> tests;
  for (std::size_t i = 0; i < table.rows(); ++i)
    tests.push_back({table.number(i, load.column), table.number(i, "run_out") == 0});
  const StaircaseEvaluation e = staircase(tests);
  const double p = o.survival_percent / 100, c = o.confidence_percent / 100;
  if (e.events < 2)
    refuse(table, "only one test ended unlike the others; a staircase needs several changes");
  const std::string json = staircase_json(e, o.lives, load, p, c);
  if (!o.output.empty()) {
    OutputFolder folder(o.output);
    folder.write("results.json", json);
    folder.publish();
  }
  return put_out(o, staircase_text(e, tests, o.lives, load, p, c), json);
}

FitReport fitted(const FitOptions &o, const CsvTable &table, const LoadUnit &load) {
  if (!table.has("cycles")) refuse(table, "the column 'cycles' is missing");
  FitReport r;
  r.file = o.lives;
  r.load = load;
  r.survival = o.survival_percent / 100;
  for (std::size_t i = 0; i < table.rows(); ++i)
    r.lives.push_back({table.number(i, load.column), table.number(i, "cycles"),
                       table.has("run_out") && table.number(i, "run_out") == 1});
  const double confidence = o.confidence_percent / 100;
  const auto asked = o.weibull ? LifeScatter::weibull : LifeScatter::lognormal;
  const auto other = o.weibull ? LifeScatter::lognormal : LifeScatter::weibull;
  r.fit = fit_lives(r.lives, asked, confidence);
  try {
    r.other = fit_lives(r.lives, other, confidence);
    r.has_other = true;
  } catch (const Error &) {  // only a comparison
  }
  return r;
}

}  // namespace

int fit_lives_file(const FitOptions &o) {
  const Surface use_for = surface_of(o.use_for);
  const CsvTable table(o.lives, columns());
  const LoadUnit &load = load_unit(table);
  if (o.staircase) return evaluate_staircase(o, table, load);
  FitReport r;
  try {
    r = fitted(o, table, load);
  } catch (const Error &e) {
    const std::string what = e.what();
    throw Error(what.compare(0, o.lives.size(), o.lives) == 0 ? what : o.lives + ": " + what);
  }
  const std::string json = fit_json(r);
  std::string text = fit_text(r);
  if (!o.output.empty()) {
    OutputFolder folder(o.output);
    folder.write("results.json", json);
    folder.write("lives.svg", lives_plot(r.fit, r.lives, r.survival,
                                         load.what + " [" + load.unit + "]", curve_name(o)));
    if (load.stress) {
      CurveInput curve{use_for, curve_of(r.fit, curve_name(o), load.range, curve_name(o))};
      folder.write(
          "sn_curve.toml",
          "# Fitted by 'felloe fit'. Copy the section into a case file. Below the knee, where "
          "the sample\n# ends, the line goes on.\n" +
              curve_section(curve));
      text += "\n  " + o.output + "/sn_curve.toml: a section for a case file\n";
    } else {
      text += "\n  no curve for a case: that needs loads in MPa (amplitude_MPa or range_MPa)\n";
    }
    folder.publish();
  }
  return put_out(o, text, json);
}

}  // namespace felloe
