// SPDX-License-Identifier: GPL-3.0-or-later
// Reading the store.
#include <algorithm>
#include <cstdio>
#include <limits>
#include <map>

#include "cli/sweep/detail/store_impl.h"
#include "mesher/error.h"

namespace felloe {
namespace {

JobState state_of(const std::string &text) {
  return text == "queued"    ? JobState::queued
         : text == "running" ? JobState::running
         : text == "done"    ? JobState::done
                             : JobState::failed;
}

Verdict verdict_of(const std::string &text) {
  for (const Verdict v : {Verdict::pass, Verdict::fail})
    if (text == to_string(v)) return v;
  return Verdict::not_rated;
}

StoredDesign design_row(const Statement &s) {
  StoredDesign d;
  d.id = long(s.whole(0));
  d.depth = depth_of(s.text(1));
  d.state = state_of(s.text(2));
  d.reason = s.text(3);
  d.attempts = int(s.whole(4));
  d.version = s.text(5);
  d.input_hash = s.text(6);
  d.host = s.text(7);
  if (d.state != JobState::done) return d;
  DesignFigures &f = d.figures;
  f.mass_kg = s.number(8);
  f.disc_mass_kg = s.number(9);
  f.tilt_Nm_per_deg = s.number(10);
  f.axial_N_per_mm = s.number(11);
  f.radial_N_per_mm = s.number(12);
  f.verdict = verdict_of(s.text(13));
  f.dofs = long(s.whole(14));
  d.seconds = s.number(15);
  f.setup_seconds = s.number(16);
  f.solve_seconds = s.number(17);
  f.rating_seconds = s.number(18);
  return d;
}

TestFigures test_row(const Statement &s) {
  TestFigures t;
  t.test = s.text(2);
  t.feature = s.text(3);
  t.stress_MPa = s.number(4);
  t.allowed_stress_MPa = s.number(5);
  t.error_percent = s.number(6);
  t.life_p50 = s.number(7);
  t.life_design = s.number(8);
  t.required_cycles = s.number(9);
  t.verdict = verdict_of(s.text(10));
  return t;
}

}  // namespace

double StoredDesign::stress_margin() const {
  double margin = std::numeric_limits<double>::infinity();
  for (const TestFigures &t : figures.tests) margin = std::min(margin, felloe::stress_margin(t));
  return margin;
}

double StoredDesign::life_margin() const {
  double margin = std::numeric_limits<double>::infinity();
  for (const TestFigures &t : figures.tests)
    if (t.required_cycles > 0) margin = std::min(margin, t.life_design / t.required_cycles);
  return margin;
}

bool StoredDesign::has_lives() const {
  return std::any_of(figures.tests.begin(), figures.tests.end(),
                     [](const TestFigures &t) { return t.required_cycles > 0; });
}

Counts Store::counts() const {
  Counts c;
  Statement n(impl_->database, "SELECT count(*) FROM designs WHERE place IS NOT NULL");
  n.step();
  c.designs = long(n.whole(0));
  Statement s(impl_->database,
              "SELECT e.state, count(*) FROM evaluations e JOIN designs d ON d.id = e.design WHERE "
              "d.place IS NOT NULL GROUP BY e.state");
  while (s.step()) {
    const JobState state = state_of(s.text(0));
    (state == JobState::queued    ? c.queued
     : state == JobState::running ? c.running
     : state == JobState::done    ? c.done
                                  : c.failed) = long(s.whole(1));
  }
  return c;
}

std::string Store::lightest_that_passes() const {
  const bool section = impl_->meta("first") == "section" && impl_->meta("screened") != "yes";
  Statement s(impl_->database,
              "SELECT e.mass_kg, e.design FROM evaluations e JOIN designs d ON d.id = e.design "
              "WHERE e.state = 'done' AND e.verdict = ? AND e.depth = ? AND d.place IS NOT NULL "
              "ORDER BY e.mass_kg LIMIT 1");
  s.put(0, to_string(Verdict::pass)).put(1, to_text(section ? Depth::section : Depth::wheel));
  if (!s.step()) return "";
  char text[80];
  std::snprintf(text, sizeof text, "lightest that passes %.3f kg (design %ld)", s.number(0),
                long(s.whole(1)));
  return text;
}

std::vector<StoredDesign> Store::designs() const {
  impl_->database.run("BEGIN");  // one moment for all three tables
  std::vector<StoredDesign> all;
  std::map<long, std::size_t> places;
  // 'wheel' sorts behind 'section': of two depths the deeper row is the later one
  Statement rows(
      impl_->database,
      "SELECT e.design, e.depth, e.state, e.reason, e.attempts, e.version, "
      "e.input_hash, e.host, e.mass_kg, e.disc_mass_kg, e.tilt_Nm_per_deg, "
      "e.axial_N_per_mm, e.radial_N_per_mm, e.verdict, e.dofs, e.seconds, "
      "e.setup_seconds, e.solve_seconds, e.rating_seconds FROM evaluations e JOIN "
      "designs d ON d.id = e.design WHERE d.place IS NOT NULL ORDER BY d.place, e.depth");
  while (rows.step()) {
    StoredDesign d = design_row(rows);
    if (!all.empty() && all.back().id == d.id)
      all.back() = std::move(d);
    else
      all.push_back(std::move(d));
    places[all.back().id] = all.size() - 1;
  }
  Statement values(impl_->database,
                   "SELECT design, value FROM design_values ORDER BY design, place");
  while (values.step())
    if (const auto at = places.find(long(values.whole(0))); at != places.end())
      all[at->second].values.push_back(stored_value(values, 1));
  Statement tests(impl_->database,
                  "SELECT design, depth, test, feature, stress_MPa, allowed_stress_MPa, "
                  "error_percent, life_p50, life_design, required_cycles, verdict FROM "
                  "test_figures ORDER BY design, depth, place");
  while (tests.step()) {
    const auto at = places.find(long(tests.whole(0)));
    if (at == places.end()) continue;
    StoredDesign &d = all[at->second];
    if (d.state == JobState::done && depth_of(tests.text(1)) == d.depth)
      d.figures.tests.push_back(test_row(tests));
  }
  impl_->database.run("COMMIT");
  return all;
}

std::string Store::case_text(long design) const {
  Statement s(impl_->database, "SELECT case_text FROM designs WHERE id = ?");
  s.put(0, std::int64_t(design));
  if (s.step()) return s.text(0);
  Statement range(impl_->database, "SELECT min(id), max(id) FROM designs");
  range.step();
  throw Error(impl_->path + ": there is no design " + std::to_string(design) +
              "; numbers run from " + range.text(0) + " to " + range.text(1));
}

}  // namespace felloe
