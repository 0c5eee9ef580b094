// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sweep/sweep_report.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "post/summary.h"

namespace felloe {
namespace {

std::string digits(double value, const char *format = "%.6g") {
  if (std::isnan(value)) return "";
  char text[40];
  std::snprintf(text, sizeof text, format, value);
  return text;
}

std::string cell(const std::string &text) {
  if (text.find_first_of(",\"\n\r") == std::string::npos) return text;
  std::string quoted = "\"";
  for (const char c : text) quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
  return quoted + '"';
}

const char *word_of(JobState state) {
  switch (state) {
    case JobState::queued:
      return "queued";
    case JobState::running:
      return "running";
    case JobState::done:
      return "done";
    default:
      return "failed";
  }
}

std::vector<std::string> test_names(const Designs &designs) {
  for (const StoredDesign &d : designs)
    if (d.complete() && !d.figures.tests.empty()) {
      std::vector<std::string> names;
      for (const TestFigures &t : d.figures.tests) names.push_back(t.test);
      return names;
    }
  return {};
}

void add_test(std::vector<std::string> &row, const TestFigures &t) {
  row.push_back(t.feature);
  row.push_back(digits(t.stress_MPa));
  row.push_back(t.allowed_stress_MPa > 0 ? digits(t.allowed_stress_MPa) : "");
  row.push_back(t.error_percent >= 0 ? digits(t.error_percent) : "");
  for (const double x : {t.life_p50, t.life_design, t.required_cycles})
    row.push_back(t.required_cycles > 0 ? digits(x) : "");
  row.push_back(to_string(t.verdict));
}

std::string line(const std::vector<std::string> &cells) {
  std::string text;
  for (const std::string &c : cells) text += (text.empty() ? "" : ",") + cell(c);
  return text + "\n";
}

std::vector<std::string> row_of(const StoredDesign &d, std::size_t n_tests) {
  std::vector<std::string> row = {std::to_string(d.id)};
  for (const Value &v : d.values) row.push_back(plain_text(v));
  const DesignFigures &f = d.figures;
  const bool done = d.complete();
  row.push_back(to_text(d.depth));
  row.push_back(word_of(d.state));
  row.push_back(done ? to_string(f.verdict) : "");
  for (const double x :
       {f.mass_kg, f.disc_mass_kg, f.tilt_Nm_per_deg, f.axial_N_per_mm, f.radial_N_per_mm})
    row.push_back(done && x > 0 ? digits(x) : "");
  row.push_back(std::isfinite(d.stress_margin()) ? digits(d.stress_margin()) : "");
  row.push_back(d.has_lives() ? digits(d.life_margin()) : "");
  for (std::size_t i = 0; i < n_tests; ++i)
    if (i < f.tests.size())
      add_test(row, f.tests[i]);
    else
      row.insert(row.end(), 8, "");
  row.push_back(d.reason);
  row.push_back(d.input_hash);
  row.push_back(d.version);
  row.push_back(std::to_string(d.attempts));
  row.push_back(done ? digits(d.seconds, "%.3f") : "");
  row.push_back(d.host);
  return row;
}

/// Columns side by side, the first row being their heads.
std::string aligned(const std::vector<std::vector<std::string>> &rows) {
  std::vector<std::size_t> widths(rows.front().size());
  for (const auto &row : rows)
    for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], row[i].size());
  std::string text;
  for (const auto &row : rows) {
    for (std::size_t i = 0; i < row.size(); ++i)
      text += "  " + std::string(widths[i] - row[i].size(), ' ') + row[i];
    text += "\n";
  }
  return text;
}

std::string life_text(const StoredDesign &d) {
  if (!d.has_lives()) return "-";
  return std::isinf(d.life_margin()) ? "no crack" : digits(d.life_margin(), "%.3g");
}

std::string design_rows(const SweepHead &head, const Designs &designs,
                        const std::vector<std::size_t> &chosen) {
  std::vector<std::vector<std::string>> rows = {
      {"design", "mass kg", "life/required", "tilt N m/deg"}};
  for (const std::string &key : head.keys) rows[0].push_back(key);
  for (const std::size_t i : chosen) {
    const StoredDesign &d = designs[i];
    rows.push_back({std::to_string(d.id), digits(d.figures.mass_kg, "%.3f"), life_text(d),
                    digits(d.figures.tilt_Nm_per_deg, "%.4g")});
    for (const Value &v : d.values) rows.back().push_back(plain_text(v));
  }
  return aligned(rows);
}

long number_of(const Designs &designs, JobState state) {
  return long(std::count_if(designs.begin(), designs.end(),
                            [&](const StoredDesign &d) { return d.state == state; }));
}

long number_passed(const SweepHead &head, const Designs &designs) {
  long n = 0;
  for (const std::size_t i : computed(head, designs))
    n += designs[i].figures.verdict == Verdict::pass;
  return n;
}

std::string numbers(const SweepHead &head, const Designs &designs) {
  const long failed = number_of(designs, JobState::failed),
             done = number_of(designs, JobState::done);
  const long open = long(designs.size()) - failed - done;
  std::string text = std::to_string(designs.size()) + " designs: " + std::to_string(done) +
                     " computed, " + std::to_string(failed) + " failed";
  if (open > 0) text += ", " + std::to_string(open) + " still to do";
  if (head.screened)
    text += "; the wheel of " + std::to_string(computed(head, designs).size()) +
            " whose section was good enough";
  if (anything_rated(designs))
    text += "; " + std::to_string(number_passed(head, designs)) + " pass every rig test";
  return text + "\n";
}

nlohmann::ordered_json number(double x) {
  return std::isfinite(x) ? nlohmann::ordered_json(x) : nlohmann::ordered_json();
}

nlohmann::ordered_json json_of(const SweepHead &head, const StoredDesign &d) {
  nlohmann::ordered_json j;
  j["design"] = d.id;
  for (std::size_t k = 0; k < d.values.size(); ++k)
    std::visit([&](const auto &v) { j["values"][head.keys[k]] = v; }, d.values[k]);
  j["mass_kg"] = d.figures.mass_kg;
  j["tilt_Nm_per_deg"] = d.figures.tilt_Nm_per_deg;
  j["stress_margin"] = number(d.stress_margin());
  j["life_margin"] = number(d.life_margin());
  j["verdict"] = to_string(d.figures.verdict);
  return j;
}

}  // namespace

std::string plain_text(const Value &value) {
  if (const auto *text = std::get_if<std::string>(&value)) return *text;
  if (const auto *number = std::get_if<double>(&value)) return plain_number(*number);
  return toml_text(value);
}

std::string sweep_table(const SweepHead &head, const Designs &designs) {
  const auto tests = test_names(designs);
  std::vector<std::string> names = {"design"};
  names.insert(names.end(), head.keys.begin(), head.keys.end());
  for (const char *name :
       {"depth", "state", "verdict", "mass_kg", "disc_mass_kg", "tilt_Nm_per_deg", "axial_N_per_mm",
        "radial_N_per_mm", "stress_margin", "life_margin"})
    names.push_back(name);
  for (const std::string &test : tests)
    for (const char *name : {"feature", "stress_MPa", "allowed_stress_MPa", "error_percent",
                             "life_p50", "life_design", "required_cycles", "verdict"})
      names.push_back(test + " " + name);
  for (const char *name : {"reason", "input_hash", "version", "attempts", "seconds", "host"})
    names.push_back(name);
  std::string text = line(names);
  for (const StoredDesign &d : designs) text += line(row_of(d, tests.size()));
  return text;
}

std::string best_list(const SweepHead &head, const Designs &designs, std::size_t at_most) {
  const auto best = lightest(head, designs, at_most);
  if (best.empty())
    return anything_rated(designs) ? "no design passes every rig test\n" : "nothing is computed\n";
  return (anything_rated(designs) ? "lightest designs that pass\n" : "lightest designs\n") +
         design_rows(head, designs, best);
}

std::string sweep_summary(const SweepHead &head, const Designs &designs,
                          const std::string &folder) {
  std::string text = head.title + (head.title.empty() ? "" : "\n") + numbers(head, designs) + "\n";
  text += best_list(head, designs, 10);
  auto front = pareto_front(head, designs);
  if (!front.empty()) {
    text += "\n" + std::to_string(front.size()) +
            " best compromises (no other design is lighter, longer lived and stiffer)\n";
    if (front.size() > 10) text += "the ten lightest of them\n", front.resize(10);
    text += design_rows(head, designs, front);
  }
  const auto reasons = failure_reasons(designs);
  if (!reasons.empty()) text += "\nfailures\n";
  for (const FailureReason &r : reasons)
    text += "  " + std::to_string(r.count) + " x  " + r.example + " (design " +
            std::to_string(r.design) + ")\n";
  return text + "\nOne of them again, whole:\n  felloe sweep " + folder +
         " --design N -o design.toml && felloe run design.toml -o out\n" +
         caution_text(sweep_cautions(designs), false);
}

std::string sweep_json(const SweepHead &head, const Designs &designs, const std::string &folder) {
  nlohmann::ordered_json j;
  j["title"] = head.title;
  j["folder"] = folder;
  j["designs"] = designs.size();
  j["computed"] = number_of(designs, JobState::done);
  j["failed"] = number_of(designs, JobState::failed);
  j["passed"] = number_passed(head, designs);
  j["lightest"] = j["compromises"] = j["failures"] = nlohmann::ordered_json::array();
  for (const std::size_t i : lightest(head, designs, 10))
    j["lightest"].push_back(json_of(head, designs[i]));
  for (const std::size_t i : pareto_front(head, designs))
    j["compromises"].push_back(json_of(head, designs[i]));
  for (const FailureReason &r : failure_reasons(designs))
    j["failures"].push_back({{"reason", r.example}, {"count", r.count}, {"design", r.design}});
  j["cautions"] = sweep_cautions(designs);
  return j.dump(2) + "\n";
}

}  // namespace felloe
