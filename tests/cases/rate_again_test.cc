// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that rating from stored histories gives what the run gave, and what a new run would give
// where only loads, strengths or edges change.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <map>

#include "cli/analysis.h"
#include "cli/case_file.h"
#include "cli/rating_steps.h"
#include "cli/sensitivity.h"
#include "cli/service_spectrum.h"
#include "cli/stored_run.h"
#include "cli/thin/thickness_slopes.h"
#include "cli/thin/thin_model.h"
#include "mesher/error.h"
#include "post/worst_first.h"
#include "tests/cases/demo_run.h"

namespace felloe {
namespace {

using test::demo;
using test::run;

/// Through the file's bytes and back, rated with another case.
Results rated(const Case &now) {
  RestoredRun again = restore_run(from_bytes(to_bytes(run().histories), "test"), demo(), now);
  Progress quiet(true);
  rate_all_tests(again.analysis, now, again.units, quiet);
  sort_and_number(again.analysis.results.hot_spots);
  return again.analysis.results;
}

/// Stored in single precision: 6e-8 a component, and sums of a few of them.
constexpr double rounding = 1e-6;

/// The search of planes may end elsewhere after rounding where the criterion has a ridge; it is
/// tested to end within this of the largest value (plane_search_test).
constexpr double search = 1e-4;

/// Support number and gradient are printed with two digits, which rounding may change.
std::vector<std::string> without_support(std::vector<std::string> notes, double &support) {
  support = 1;
  for (const std::string &n : notes)
    if (n.find("notch support ") == 0) support = std::stod(n.substr(14));
  notes.erase(std::remove_if(notes.begin(), notes.end(),
                             [](const std::string &n) { return n.find("notch support") == 0; }),
              notes.end());
  return notes;
}

void expect_equal_gauges(const Results &found, const Results &wanted) {
  ASSERT_EQ(found.gauges.size(), wanted.gauges.size());
  for (std::size_t i = 0; i < found.gauges.size(); ++i) {
    const GaugeFigures &f = found.gauges[i], &w = wanted.gauges[i];
    const double size = std::abs(w.mean_microstrain) + w.amplitude_microstrain;
    EXPECT_EQ(f.name, w.name);
    EXPECT_EQ(f.test, w.test);
    EXPECT_NEAR(f.mean_microstrain, w.mean_microstrain, rounding * size) << f.test;
    EXPECT_NEAR(f.amplitude_microstrain, w.amplitude_microstrain, rounding * size) << f.test;
    EXPECT_NEAR(f.r, w.r, 1e-9);
    ASSERT_EQ(f.trace.size(), w.trace.size());
    for (std::size_t k = 0; k < f.trace.size(); ++k)
      EXPECT_NEAR(f.trace[k], w.trace[k], rounding * size);
  }
}

void expect_equal(const Results &found, const Results &wanted) {
  ASSERT_EQ(found.hot_spots.size(), wanted.hot_spots.size());
  for (std::size_t i = 0; i < found.hot_spots.size(); ++i) {
    const HotSpot &f = found.hot_spots[i], &w = wanted.hot_spots[i];
    EXPECT_EQ(f.feature, w.feature);
    EXPECT_EQ(f.test, w.test);
    EXPECT_EQ(f.side, w.side);
    double support = 0, wanted_support = 0;
    EXPECT_EQ(without_support(f.notes, support), without_support(w.notes, wanted_support));
    EXPECT_NEAR(support, wanted_support, 0.0101) << f.feature;
    EXPECT_NEAR(f.fully_reversed / w.fully_reversed, 1, search) << f.feature;
    // on the plane that the search ends on
    EXPECT_NEAR(f.mean, w.mean, search * (std::abs(w.mean) + w.amplitude)) << f.feature;
    if (!std::isinf(w.life_design))
      EXPECT_NEAR(f.life_design / w.life_design, 1, 10 * search) << f.feature;
    EXPECT_EQ(f.verdict, w.verdict);
  }
  expect_equal_gauges(found, wanted);
  for (std::size_t i = 0; i < found.tests.size(); ++i) {
    EXPECT_EQ(found.tests[i].verdict, wanted.tests[i].verdict);
    EXPECT_NEAR(found.tests[i].pass_probability, wanted.tests[i].pass_probability, 1e-4);
  }
}

TEST(RateAgain, GivesTheRunsOwnRating) {
  const Results again = rated(demo());
  expect_equal(again, run().results);
  EXPECT_EQ(again.mass_kg, run().results.mass_kg);
  EXPECT_EQ(again.stiffness.matrix, run().results.stiffness.matrix);
}

// Another torque, load, edge and strength: as a run with them.
TEST(RateAgain, ChangedLoadsAndStrengthsAreThoseOfANewRun) {
  Case other = demo();
  other.clamp.torque_Nm *= 1.3;
  other.press_fit.interference_mm *= 0.5;
  other.tyre.inflation_kPa *= 1.2;
  other.rated_load_kg *= 1.1;
  other.rating.vent_edges = "reamed";
  other.rating.criterion = "normal stress plane";
  other.rating.mean_stress = "Goodman";
  other.rating.burr_side = "outboard";
  other.rating.notch_support = true;
  other.rating.toe_read_out = "quadratic";
  other.rating.weld_residual_stress = "medium";
  other.disc_material.tensile_strength = 600;
  Progress quiet(true);
  expect_equal(rated(other), analyse(other, quiet).results);
}

TEST(RateAgain, SaysWhatNeedsASolve) {
  const auto refused = [](const Case &c, const std::string &words) {
    try {
      rated(c);
      ADD_FAILURE() << "not refused: " << words;
    } catch (const Error &e) {
      EXPECT_NE(std::string(e.what()).find(words), std::string::npos) << e.what();
    }
  };
  Case c = demo();
  c.wheel.rim.inset += 2;
  refused(c, "inset_mm");
  c = demo();
  c.disc_material.youngs_modulus = 70000;
  refused(c, "youngs_modulus_MPa");
  c = demo();
  c.gauges[0].s_mm += 1;
  refused(c, "[[gauge]] 'crown' sits where the stored run had none");
  c = demo();
  c.radial.half_angle_deg = 35;
  refused(c, "half_angle_deg");
}

TEST(RateAgain, DamagedFilesAreRefused) {
  const std::string bytes = to_bytes(run().histories);
  std::string changed = bytes;
  changed[bytes.size() / 2] = static_cast<char>(changed[bytes.size() / 2] ^ 1);
  EXPECT_THROW(from_bytes(changed, "f"), Error);
  EXPECT_THROW(from_bytes(bytes.substr(0, bytes.size() - 5), "f"), Error);
  EXPECT_THROW(from_bytes("", "f"), Error);
  EXPECT_THROW(from_bytes("felloe histories", "f"), Error);
  EXPECT_THROW(from_bytes(std::string(500, 'x'), "f"), Error);
}

TEST(Gauges, AreReadUnderEveryTest) {
  const Results &r = run().results;
  ASSERT_EQ(r.gauges.size(), 2u);
  for (const GaugeFigures &g : r.gauges) {
    EXPECT_GT(g.amplitude_microstrain, 10) << g.test;
    EXPECT_LT(g.amplitude_microstrain, 5000) << g.test;
    EXPECT_GE(g.trace.size(), 72u);
  }
}

// A series through all positions of one turn with constant forces is a block of turns.
TEST(Spectrum, SeriesOfOneTurnIsABlock) {
  const std::string file = ::testing::TempDir() + "felloe_series.csv";
  const std::size_t n = 75;  // positions of a turn: 72 asked, 15 in each of five sectors
  std::ofstream out(file);
  out << "angle_deg,radial_N,lateral_N\n";
  for (std::size_t k = 0; k < n; ++k) out << 360.0 * double(k) / double(n) << ",4500,2000\n";
  out.close();
  Case series = demo();
  series.spectrum[1].radial_N = series.spectrum[1].lateral_N = 0;
  series.spectrum[1].time_series = file;
  Progress quiet(true);
  const auto damage = [&](Case c) {
    RestoredRun again = restore_run(from_bytes(to_bytes(run().histories), "test"), demo(), c);
    rate_spectrum(again.analysis, c, again.units, quiet);
    return again.analysis.results.spectrum;
  };
  const auto a = damage(demo()), b = damage(series);
  ASSERT_EQ(a.size(), b.size());
  for (std::size_t i = 0; i < a.size(); ++i) {
    EXPECT_EQ(a[i].feature, b[i].feature);
    // the angles are written with six digits
    if (a[i].damage > 0) EXPECT_NEAR(b[i].damage / a[i].damage, 1, 1e-3) << a[i].feature;
  }
  EXPECT_EQ(a.front().feature, run().results.spectrum.front().feature);
  EXPECT_NEAR(a.front().damage / run().results.spectrum.front().damage, 1, 1e-4);
}

// More load shortens lives, better edges and weld classes do not; an own variant of the case rates
// the same as the table says.
TEST(Sensitivities, AreThoseOfTheChangedCase) {
  RestoredRun again = restore_run(from_bytes(to_bytes(run().histories), "test"), demo(), demo());
  const Case c = demo();
  Progress quiet(true);
  rate_all_tests(again.analysis, c, again.units, quiet);
  const auto all = sensitivities(again.analysis, again.units, c);
  ASSERT_FALSE(all.empty());
  Case heavier = demo();
  heavier.rated_load_kg *= 1.1;
  const Results wanted = rated(heavier);
  int seen = 0;
  for (const Sensitivity &s : all) {
    if (s.change != "rated load +10 %") continue;
    ++seen;
    EXPECT_LE(s.life_ratio, 1);
    for (const TestVerdict &t : wanted.tests)
      if (t.name == s.test && !std::isinf(t.life_design))
        EXPECT_NEAR(s.life_design / t.life_design, 1, 1e-6);
  }
  EXPECT_EQ(seen, 2);
  // At the end of a run only one sector is looked at, which feels what all others feel.
  std::map<std::pair<std::string, std::string>, double> at_end;
  for (const Sensitivity &s : sensitivities_of_run(run(), run().histories, c))
    at_end[{s.change, s.test}] = s.life_ratio;
  EXPECT_EQ(at_end.size(), all.size());
  for (const Sensitivity &s : all) {
    const double ratio = at_end.at({s.change, s.test});
    if (s.life_ratio > 0 && std::isfinite(s.life_ratio))
      EXPECT_NEAR(ratio / s.life_ratio, 1, 1e-4) << s.change;
    else
      EXPECT_EQ(ratio, s.life_ratio) << s.change;
  }
}

// The sheet 3 % thinner: lives from the slopes of one solve against those of a run with that sheet,
// on a mesh of the slopes' own density. A slope is a tangent, runs smooth their stresses: one
// percent of stress is 5 % of life.
TEST(Sensitivities, ThicknessFollowsANewRun) {
  Case c = demo();
  c.gauges.clear();
  c.spectrum.clear();
  c.mesh.density = slope_density;
  c.radial.positions_per_turn = thin_rolling_positions;
  c.thin.tolerance_mm = 0.114;
  ASSERT_NEAR(c.thin.tolerance_mm / c.wheel.disc.thickness.front().thickness, 0.03, 0.002);
  Progress quiet(true);
  const Analysis first = analyse(c, quiet, Purpose::files);
  RestoredRun again = restore_run(from_bytes(to_bytes(first.histories), "test"), c, c);
  rate_all_tests(again.analysis, c, again.units, quiet);
  const auto all = sensitivities(again.analysis, again.units, c, thickness_slopes(c));
  Case other = c;
  const double sheet = c.wheel.disc.thickness.front().thickness;
  for (auto &station : other.wheel.disc.thickness)
    station.thickness *= 1 - c.thin.tolerance_mm / sheet;
  const Analysis wanted = analyse(other, quiet);
  int compared = 0;
  for (const Sensitivity &s : all) {
    if (s.change != "sheet 0.114 mm thinner") continue;
    for (std::size_t i = 0; i < c.tests.size(); ++i) {
      const TestVerdict &t = wanted.results.tests[i];
      if (t.name != s.test || std::isinf(t.life_design)) continue;
      const double ratio = t.life_design / first.results.tests[i].life_design;
      EXPECT_NEAR(s.life_ratio / ratio, 1, 0.05) << s.test << ": " << ratio;
      EXPECT_LT(s.life_ratio, 1);
      ++compared;
    }
  }
  EXPECT_EQ(compared, 2);
}

}  // namespace
}  // namespace felloe
