// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that `mpirun -n 2 felloe run` finds and writes what one process does, and that all
// processes end together when one fails. FELLOE_PROGRAM is mpirun here.
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <sstream>

#include "post/field_input.h"
#include "tests/cli/program.h"

namespace felloe::test {
namespace {

/// mpirun would refuse root and more processes than processors.
Outcome run_by(int n, const Folder &folder, const std::vector<std::string> &arguments) {
  std::vector<std::string> all{"--oversubscribe", "--bind-to",      "none", "-n",
                               std::to_string(n), FELLOE_UNDER_MPI, "run"};
  all.insert(all.end(), arguments.begin(), arguments.end());
  return felloe_in(folder.path(), all);
}

/// Disc only, held outside, under all three loads: small, and no rating in the way.
const char *plate = R"(title = "plate"
[wheel]
construction = "disc only"
[disc]
bore_diameter_mm = 60
hub_face_diameter_mm = 100
thickness_mm = 4
meridian = [ { r_mm = 120, z_mm = 0 } ]
[materials.disc]
youngs_modulus_MPa = 210000
poissons_ratio = 0.3
density_kg_m3 = 7850
yield_strength_MPa = 400
tensile_strength_MPa = 500
[support]
outer_edge = "held"
[plate_load]
hub_moment_Nm = 100
hub_force_N = 1000
pressure_MPa = 0.1
[mesh]
density = 0.5
)";

std::string key_of(const std::string &line) {
  const auto from = line.find('"'), to = line.find("\": ");
  return from == std::string::npos || to == std::string::npos
             ? ""
             : line.substr(from + 1, to - from - 1);
}

/// results.json line by line: words equal, numbers within 1e-8, and within 1e-6 MPa or so where
/// they nearly vanish. What tells of the run itself may differ.
void expect_same_results(const std::string &a, const std::string &b) {
  const std::set<std::string> of_the_run{
      "seconds",          "iterations",         "residual", "balance_error",
      "measured_seconds", "measured_bytes",     "reason",   "predicted_seconds",
      "predicted_bytes",  "processes",          "wall_s",   "processor_s",
      "writing_wall_s",   "writing_processor_s"};
  std::istringstream first(a), second(b);
  int n_numbers = 0;
  for (std::string x, y; std::getline(first, x);) {
    ASSERT_TRUE(std::getline(second, y));
    const std::string key = key_of(x);
    // A round plate has its largest stress at several angles: rounding says which is named.
    if (of_the_run.count(key) || key.empty() || key == "theta_deg") continue;
    const auto value = x.find("\": ") + 3;
    char *end = nullptr;
    const double number = std::strtod(x.c_str() + value, &end);
    if (end == x.c_str() + value) {
      EXPECT_EQ(x, y);
      continue;
    }
    ASSERT_EQ(key_of(y), key);
    EXPECT_NEAR(std::strtod(y.c_str() + value, nullptr), number, 1e-8 * std::abs(number) + 1e-6)
        << x;
    ++n_numbers;
  }
  EXPECT_GT(n_numbers, 30);
}

void expect_same_fields(const fs::path &pieces, const fs::path &whole) {
  const StoredFields a = read_vtu(pieces.string()), b = read_vtu(whole.string());
  EXPECT_EQ(a.mesh.cells.size(), b.mesh.cells.size());
  EXPECT_GT(a.mesh.nodes.size(), b.mesh.nodes.size());  // those between the pieces stand in both
  ASSERT_EQ(a.point_fields.size(), b.point_fields.size());
  std::map<Vec3, std::size_t> node_at;
  for (std::size_t n = 0; n < b.mesh.nodes.size(); ++n) node_at[b.mesh.nodes[n]] = n;
  std::set<std::size_t> met;
  for (const PointField &f : a.point_fields) {
    const PointField &g = point_field(b, f.name);
    ASSERT_EQ(f.components, g.components);
    double largest = 0, difference = 0;
    for (std::size_t n = 0; n < a.mesh.nodes.size(); ++n) {
      const auto found = node_at.find(a.mesh.nodes[n]);
      ASSERT_NE(found, node_at.end());
      met.insert(found->second);
      for (int c = 0; c < f.components; ++c) {
        const double x = f.values[n * f.components + c];
        const double y = g.values[found->second * f.components + c];
        largest = std::max(largest, std::abs(y));
        difference = std::max(difference, std::abs(x - y));
      }
    }
    EXPECT_GT(largest, 0) << f.name;
    // Results agree to 1e-8 (above); the files hold single precision, so that neighbours may differ
    // by its last digit, 2^-23.
    EXPECT_LE(difference, 1.2e-7 * largest) << f.name;
  }
  EXPECT_EQ(met.size(), b.mesh.nodes.size());
}

/// Both folders hold the same files, but that fields are in pieces.
void expect_same_files(const Folder &folder) {
  std::set<std::string> one, two;
  for (const auto &e : fs::recursive_directory_iterator(folder / "one"))
    one.insert(fs::relative(e.path(), folder / "one").string());
  for (const auto &e : fs::recursive_directory_iterator(folder / "two")) {
    const std::string name = fs::relative(e.path(), folder / "two").string();
    if (name.find("_piece") != std::string::npos) continue;
    const auto at = name.find(".pvtu");
    two.insert(at == std::string::npos ? name : name.substr(0, at) + ".vtu");
    if (at != std::string::npos)
      expect_same_fields(e.path(), folder / "one" / (name.substr(0, at) + ".vtu"));
  }
  EXPECT_EQ(one, two);
}

int count_of(const std::string &text, const std::string &part) {
  int n = 0;
  for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++n;
  return n;
}

void expect_same_runs(const std::string &text) {
  const Folder folder;
  folder.write("case.toml", text);
  const Outcome one = run_by(1, folder, {"case.toml", "-o", "one"});
  const Outcome two = run_by(2, folder, {"case.toml", "-o", "two"});
  ASSERT_TRUE(fs::exists(folder / "one" / "results.json")) << one.err;
  ASSERT_TRUE(fs::exists(folder / "two" / "results.json")) << two.err;
  EXPECT_EQ(one.exit_code, two.exit_code);
  EXPECT_EQ(count_of(two.out, "Cautions"), 1);  // the summary, once
  expect_same_results(contents(folder / "one" / "results.json"),
                      contents(folder / "two" / "results.json"));
  expect_same_files(folder);
}

TEST(TwoProcesses, ShareTheMatrixFreeSolves) {
  const std::string text = std::string(plate) + "solver = \"matrix free\"\n";
  expect_same_runs(text);
}

TEST(TwoProcesses, LeaveADirectSolveToTheFirst) {
  const Folder folder;
  folder.write("case.toml", std::string(plate) + "solver = \"direct\"\n");
  const Outcome o = run_by(2, folder, {"case.toml", "-o", "out"});
  EXPECT_EQ(o.exit_code, 0) << o.err;
  EXPECT_NE(o.err.find("by the first process, 1 wait"), std::string::npos) << o.err;
  EXPECT_NE(contents(folder / "out" / "results.json").find("\"processes\": 1"), std::string::npos);
}

TEST(TwoProcesses, EndTogetherWithOneMessage) {
  const Folder folder;
  folder.write("case.toml", plate);
  folder.write("taken/foreign.txt", "not ours");
  const Outcome missing = run_by(2, folder, {"none.toml", "-o", "out"});
  EXPECT_EQ(missing.exit_code, 2);
  EXPECT_EQ(count_of(missing.err, "none.toml: "), 1) << missing.err;
  const Outcome taken = run_by(2, folder, {"case.toml", "-o", "taken"});  // the first alone sees it
  EXPECT_EQ(taken.exit_code, 2);
  EXPECT_EQ(count_of(taken.err, "holds other files"), 1) << taken.err;
  EXPECT_EQ(folder.listing(), (std::set<std::string>{"case.toml", "taken", "taken/foreign.txt"}));
}

}  // namespace
}  // namespace felloe::test
