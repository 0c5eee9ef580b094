// SPDX-License-Identifier: GPL-3.0-or-later
// results.json carries the agreed keys, exact numbers, and words for what is no number.
#include "post/results_json.h"

#include <gtest/gtest.h>

#include <cstdlib>

#include "tests/support/sample_results.h"

namespace felloe {
namespace {

bool contains(const std::string &text, const std::string &part) {
  return text.find(part) != std::string::npos;
}

/// The text from the n-th occurrence (from 0) of a key's value to the end of its line.
std::string value_of(const std::string &json, const std::string &key, int n = 0) {
  const std::string quoted = "\"" + key + "\": ";
  std::size_t at = json.find(quoted);
  for (; n > 0 && at != std::string::npos; --n) at = json.find(quoted, at + 1);
  if (at == std::string::npos) return "no such key";
  const std::size_t start = at + quoted.size(), end = json.find('\n', start);
  const std::string value = json.substr(start, end - start);
  return value.back() == ',' ? value.substr(0, value.size() - 1) : value;
}

TEST(ResultsJson, EveryAgreedKeyIsThere) {
  const std::string json = results_json(test::sample_results());
  for (const char *key : {"schema_version",
                          "program",
                          "name",
                          "version",
                          "title",
                          "case",
                          "survival_percent",
                          "verdict",
                          "mesh",
                          "cells",
                          "dofs",
                          "min_scaled_jacobian",
                          "volume_mm3",
                          "exact_volume_mm3",
                          "solver",
                          "path",
                          "reason",
                          "processes",
                          "predicted_seconds",
                          "measured_seconds",
                          "predicted_bytes",
                          "measured_bytes",
                          "mass_kg",
                          "balance",
                          "static_g_mm",
                          "couple_g_mm2",
                          "stiffness",
                          "tilt_Nm_per_deg",
                          "axial_N_per_mm",
                          "radial_N_per_mm",
                          "torsion_Nm_per_deg",
                          "matrix",
                          "modes",
                          "load_cases",
                          "kind",
                          "applied",
                          "force_N",
                          "moment_Nm",
                          "balance_error",
                          "residual",
                          "iterations",
                          "seconds",
                          "hot_spots",
                          "id",
                          "feature",
                          "test",
                          "r_mm",
                          "theta_deg",
                          "z_mm",
                          "side",
                          "mean_MPa",
                          "amplitude_MPa",
                          "error_percent",
                          "criterion",
                          "curve",
                          "life_p50",
                          "life_design",
                          "required_cycles",
                          "tests",
                          "load",
                          "gauges",
                          "assumptions",
                          "cautions"})
    EXPECT_TRUE(contains(json, std::string("\"") + key + "\":")) << key;
}

TEST(ResultsJson, NumbersReadBackToTheSameDouble) {
  Results r = test::sample_results();
  r.mass_kg = 0.1 + 0.2;  // 0.30000000000000004: needs all 17 digits
  const std::string json = results_json(r);
  EXPECT_EQ(std::strtod(value_of(json, "mass_kg").c_str(), nullptr), r.mass_kg);
  EXPECT_EQ(std::strtod(value_of(json, "r_mm").c_str(), nullptr), r.hot_spots[0].r);
  EXPECT_EQ(value_of(json, "dofs"), "1234567");
}

TEST(ResultsJson, InfiniteLifeIsAWordAndAnUnratedLifeIsNull) {
  const std::string json = results_json(test::sample_results());
  EXPECT_EQ(value_of(json, "life_p50", 0), "123400.0");
  EXPECT_EQ(value_of(json, "life_p50", 1), "\"infinite\"");
  EXPECT_EQ(value_of(json, "life_p50", 2), "null");
  EXPECT_EQ(value_of(json, "life_design", 2), "null");
}

TEST(ResultsJson, WhatWasNotComputedIsNull) {
  const std::string json = results_json(test::sample_results());
  EXPECT_EQ(value_of(json, "axial_N_per_mm"), "null");    // 0: not computed
  EXPECT_EQ(value_of(json, "error_percent", 1), "null");  // negative: not estimated
  EXPECT_EQ(value_of(json, "tilt_Nm_per_deg"), "18400.0");
}

TEST(ResultsJson, StiffnessMatrixAndModesAreLists) {
  Results r = test::sample_results();
  EXPECT_EQ(value_of(results_json(r), "matrix"), "null");  // not computed
  EXPECT_EQ(value_of(results_json(r), "frequency_Hz", 2), "88.75");
  EXPECT_EQ(value_of(results_json(r), "held", 2), "\"hub\"");
  for (int i = 0; i < 6; ++i) r.stiffness.matrix[i][i] = 1000.5 + i;
  EXPECT_TRUE(contains(results_json(r), "1005.5"));
  r.modes.clear();
  EXPECT_EQ(value_of(results_json(r), "modes"), "[]");
}

TEST(ResultsJson, ContactIsAListByRigTest) {
  Results r = test::sample_results();
  EXPECT_EQ(value_of(results_json(r), "contact"), "[]");  // hub bonded
  ContactFigures f;
  f.test = "cornering";
  f.open_share = 0.75;
  f.preload_N = 33000;
  f.smallest_bolt_force_N = 32000;
  r.contact = {f};
  const std::string json = results_json(r);
  EXPECT_EQ(value_of(json, "open_share"), "0.75");
  EXPECT_EQ(value_of(json, "largest_clamp_loss_N"), "1000.0");  // 33000 - 32000
  EXPECT_EQ(value_of(json, "superposed"), "false");
  EXPECT_EQ(value_of(json, "friction"), "null");  // sticks without limit
  r.contact[0].friction = {0.15, 0.25, 0.002};
  EXPECT_EQ(value_of(results_json(r), "coefficient"), "0.15");
  EXPECT_EQ(value_of(results_json(r), "slipping_share"), "0.25");
  EXPECT_EQ(value_of(results_json(r), "largest_slip_mm"), "0.002");
  EXPECT_EQ(value_of(results_json(r), "slip_margin"), "null");  // nothing to carry
}

TEST(ResultsJson, VerdictsAreFixedWords) {
  const std::string json = results_json(test::sample_results());
  EXPECT_EQ(value_of(json, "verdict", 0), "\"fail\"");  // of the run
  EXPECT_EQ(value_of(json, "verdict", 1), "\"fail\"");
  EXPECT_EQ(value_of(json, "verdict", 2), "\"pass\"");
  EXPECT_EQ(value_of(json, "verdict", 3), "\"not rated\"");
}

TEST(ResultsJson, OverallVerdictIsThatOfTheWorstTest) {
  Results r;
  EXPECT_EQ(overall_verdict(r), Verdict::not_rated);
  r.tests.resize(2);
  r.tests[0].verdict = r.tests[1].verdict = Verdict::pass;
  EXPECT_EQ(overall_verdict(r), Verdict::pass);
  r.tests[0].verdict = Verdict::not_rated;
  EXPECT_EQ(overall_verdict(r), Verdict::not_rated);
  r.tests[1].verdict = Verdict::fail;
  EXPECT_EQ(overall_verdict(r), Verdict::fail);
}

TEST(ResultsJson, TextIsEscapedAndBrokenUtf8DoesNotStopIt) {
  Results r;
  r.title = "a \"quoted\"\n title \xff";
  const std::string json = results_json(r);
  EXPECT_TRUE(contains(json, "a \\\"quoted\\\"\\n title \xef\xbf\xbd"));
}

TEST(ResultsJson, PicturesAndTheirScaleAreListed) {
  Results r = test::sample_results();
  EXPECT_EQ(value_of(results_json(r), "colour_scale"), "null");
  r.pictures = {{"pictures/cornering_front.png", "cornering", "front", "a wheel"}};
  r.colour_scale = {"stress amplitude", "MPa", 400};
  const std::string json = results_json(r);
  EXPECT_EQ(value_of(json, "file"), "\"pictures/cornering_front.png\"");
  EXPECT_EQ(value_of(json, "view"), "\"front\"");
  EXPECT_EQ(value_of(json, "alt"), "\"a wheel\"");
  EXPECT_EQ(value_of(json, "minimum"), "0");
  EXPECT_EQ(value_of(json, "maximum"), "400.0");
}

TEST(ResultsJson, TimesAreThoseOfTheSteps) {
  Results r = test::sample_results();
  EXPECT_EQ(value_of(results_json(r), "times"), "null");
  r.times.steps = {{"mesh", false, 1.5, 2.5}, {"report", true, 0.25, 0.5}};
  r.times.writing_processor_s = 0.75;
  const std::string json = results_json(r);
  EXPECT_EQ(value_of(json, "writing_processor_s"), "0.75");
  EXPECT_EQ(value_of(json, "step", 1), "\"report\"");
  EXPECT_EQ(value_of(json, "writes", 0), "false");
  EXPECT_EQ(value_of(json, "processor_s", 2), "0.5");  // 0: of the whole run
}

TEST(ResultsJson, EmptyListsStayLists) {
  const std::string json = results_json(Results{});
  for (const char *key :
       {"load_cases", "hot_spots", "tests", "gauges", "assumptions", "cautions", "pictures"})
    EXPECT_EQ(value_of(json, key), "[]") << key;
}

}  // namespace
}  // namespace felloe
