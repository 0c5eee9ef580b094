// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that every case of cases/ gives what its expected.csv says, from file to results.
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>

#include "cli/analysis.h"
#include "cli/case_file.h"

namespace felloe {
namespace {

struct Expected {
  std::string quantity;
  double value = 0, tolerance = 0;
  std::string source;
};

std::string trimmed(const std::string &text) {
  const auto a = text.find_first_not_of(' '), b = text.find_last_not_of(' ');
  return a == std::string::npos ? "" : text.substr(a, b - a + 1);
}

/// Rows "quantity, value, relative tolerance, source"; # starts a comment line.
std::vector<Expected> read_expected(const std::string &path) {
  std::ifstream file(path);
  EXPECT_TRUE(file) << path;
  std::vector<Expected> rows;
  for (std::string row; std::getline(file, row);) {
    if (row.empty() || row[0] == '#') continue;
    std::istringstream fields(row);
    std::string quantity, value, tolerance, source;
    std::getline(fields, quantity, ',');
    std::getline(fields, value, ',');
    std::getline(fields, tolerance, ',');
    std::getline(fields, source);
    rows.push_back({trimmed(quantity), std::stod(value), std::stod(tolerance), trimmed(source)});
    EXPECT_FALSE(rows.back().source.empty()) << "no source: " << row;
  }
  return rows;
}

/// Every figure that expected.csv may name.
std::map<std::string, double> figures(const Results &r) {
  std::map<std::string, double> f = {{"mass_kg", r.mass_kg},
                                     {"tilt_Nm_per_deg", r.stiffness.tilt_Nm_per_deg},
                                     {"axial_N_per_mm", r.stiffness.axial_N_per_mm},
                                     {"radial_N_per_mm", r.stiffness.radial_N_per_mm},
                                     {"volume_mm3", r.mesh.volume_mm3},
                                     {"exact_volume_mm3", r.mesh.exact_volume_mm3}};
  for (const HotSpot &h : r.hot_spots)
    f[h.test + " / " + h.feature + " / fully_reversed_MPa"] = h.fully_reversed;
  for (const TestVerdict &t : r.tests) {
    f[t.name + " / load"] = t.load;
    f[t.name + " / required_cycles"] = t.required_cycles;
    f[t.name + " / passed"] = t.verdict == Verdict::pass ? 1 : 0;
  }
  return f;
}

class Cases : public ::testing::TestWithParam<std::string> {};

TEST_P(Cases, GivesItsExpectedFigures) {
  const std::string folder = std::string(FELLOE_CASES) + "/" + GetParam();
  Progress quiet(true);
  const Analysis a = analyse(read_case(folder + "/case.toml"), quiet);
  EXPECT_TRUE(std::filesystem::exists(folder + "/README.md"));
  // what every run must keep, whatever the case
  EXPECT_GE(a.results.mesh.min_scaled_jacobian, 0.2);
  EXPECT_NEAR(a.results.mesh.volume_mm3 / a.results.mesh.exact_volume_mm3, 1, 0.005);
  for (const LoadCaseFigures &l : a.results.load_cases) {
    EXPECT_LT(l.balance_error, 1e-6) << l.name;
    EXPECT_LT(l.residual, 1e-6) << l.name;
  }
  const auto found = figures(a.results);
  for (const Expected &e : read_expected(folder + "/expected.csv")) {
    ASSERT_TRUE(found.count(e.quantity)) << "no such figure: " << e.quantity;
    EXPECT_NEAR(found.at(e.quantity), e.value, e.tolerance * std::abs(e.value))
        << e.quantity << " (" << e.source << ")";
  }
}

std::vector<std::string> case_names() {
  std::vector<std::string> names;
  for (const auto &entry : std::filesystem::directory_iterator(FELLOE_CASES))
    if (std::filesystem::exists(entry.path() / "case.toml"))
      names.push_back(entry.path().filename().string());
  return names;
}

INSTANTIATE_TEST_SUITE_P(All, Cases, ::testing::ValuesIn(case_names()),
                         [](const auto &info) { return info.param; });

}  // namespace
}  // namespace felloe
