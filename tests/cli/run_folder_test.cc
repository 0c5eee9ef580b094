// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that the folder of a run can be opened by viewers and rated again as it is, that no damage
// to it goes unnoticed, and that rating never costs the run.
#include <functional>
#include <regex>

#include "post/field_input.h"
#include "post/surface_input.h"
#include "tests/cli/program.h"

namespace felloe::test {
namespace {

/// The test wheel on a coarse mesh, run once.
class RunFolder : public ::testing::Test {
 protected:
  static void SetUpTestSuite() {
    folder_ = new Folder;
    folder_->write("wheel.toml", test_wheel());
    const Outcome o = felloe_in(folder_->path(),
                                {"run", "wheel.toml", "-o", "out", "--density", "0.25", "--quiet"});
    ASSERT_LE(o.exit_code, 1) << o.err;
    first_ = o;
  }
  static void TearDownTestSuite() { delete folder_; }

  static std::string file(const std::string &name) { return (*folder_ / ("out/" + name)).string(); }

  /// Rates a copy of the run that `damage` has changed; the copy stays for the next question.
  Outcome rated(const std::function<void(const fs::path &)> &damage,
                const std::vector<std::string> &options = {}) {
    fs::remove_all(copy_.path());
    fs::create_directory(copy_.path());
    for (const char *name : {"case.toml", "results.json", "histories.bin"})
      fs::copy_file(file(name), copy_ / name);
    damage(copy_.path());
    std::vector<std::string> arguments{"rate", copy_.path().string(), "--quiet"};
    arguments.insert(arguments.end(), options.begin(), options.end());
    return felloe_in(folder_->path(), arguments);
  }

  static void rewrite(const fs::path &path, const std::string &from, const std::string &to) {
    const std::string text = std::regex_replace(contents(path), std::regex(from), to);
    std::ofstream(path, std::ios::binary) << text;
  }

  static Folder *folder_;
  static Outcome first_;
  Folder copy_;
};

Folder *RunFolder::folder_ = nullptr;
Outcome RunFolder::first_;

TEST_F(RunFolder, ViewersFindBlocksFieldsAndTheTurnAsTime) {
  const StoredFields volume = read_vtu(file("1_cornering.vtu"));
  EXPECT_EQ(volume.coloured_by, field_names::utilisation);
  EXPECT_EQ(volume.point_fields.size(), 6u);
  const auto blocks = read_blocks(file("surface_cornering.vtm"));
  std::vector<std::string> names;
  for (const auto &[name, surface] : blocks) {
    names.push_back(name);
    EXPECT_EQ(surface.coloured_by, field_names::utilisation) << name;
    // a life only where stress may be judged
    const PointField *life = nullptr, *rated = nullptr;
    for (const PointField &f : surface.point_fields) {
      if (f.name == field_names::life) life = &f;
      if (f.name == field_names::rated) rated = &f;
    }
    ASSERT_NE(life, nullptr) << name;
    for (std::size_t i = 0; rated && i < life->values.size(); ++i)
      ASSERT_EQ(std::isnan(life->values[i]), rated->values[i] == 0) << name;
  }
  EXPECT_EQ(names, (std::vector<std::string>{"disc", "rim", "weld", "hot spots"}));
  // one file an angle, time is the angle in degrees
  const std::string turn = contents(file("turn_cornering.pvd"));
  const std::regex step("timestep=\"([0-9.]+)\"[^>]*file=\"([^\"]+)\"");
  std::vector<double> angles;
  for (std::sregex_iterator i(turn.begin(), turn.end(), step), end; i != end; ++i) {
    angles.push_back(std::stod((*i)[1]));
    EXPECT_EQ(read_surface(file((*i)[2])).coloured_by, field_names::von_mises);
  }
  ASSERT_EQ(angles.size(), 24u);
  for (std::size_t k = 0; k < angles.size(); ++k) EXPECT_EQ(angles[k], 15 * double(k));
}

TEST_F(RunFolder, RatingKeepsTheCautionsOfTheRun) {
  const Outcome o = rated([](const fs::path &) {});
  EXPECT_EQ(o.exit_code, first_.exit_code) << o.err;
  const std::string words = "The press fit is tied and pulls at";
  ASSERT_NE(first_.out.find(words), std::string::npos) << first_.out;
  EXPECT_NE(o.out.find(words), std::string::npos) << o.out;
}

TEST_F(RunFolder, AnEditedCaseBesideTheRunCountsAsANewOne) {
  // what needs no solve is followed: half the torque, half the preload
  const auto preload = [](const Outcome &o) {
    std::smatch found;
    return std::regex_search(o.out, found, std::regex("bolt preload ([0-9]+) N"))
               ? std::stod(found[1])
               : 0;
  };
  const auto stress = [](const Outcome &o) {
    std::smatch found;
    EXPECT_TRUE(std::regex_search(o.out, found, std::regex("\"mean_MPa\": (-?[0-9.]+)")));
    return found.str(1);
  };
  const Outcome tight = rated([](const fs::path &) {});
  const auto loosen = [](const fs::path &run) {
    rewrite(run / "case.toml", "torque_Nm = [0-9.]+", "torque_Nm = 55");
  };
  const Outcome loose = rated(loosen);
  EXPECT_NEAR(preload(loose) / preload(tight), 0.5, 1e-3) << loose.out;
  EXPECT_NE(stress(rated(loosen, {"--json"})), stress(rated([](const fs::path &) {}, {"--json"})))
      << "stresses of the clamp are still those of the run";
  // what needs one is refused
  const Outcome moved = rated([](const fs::path &run) {
    rewrite(run / "case.toml", "inset_mm = [0-9.]+", "inset_mm = 41");
  });
  EXPECT_EQ(moved.exit_code, 2);
  EXPECT_NE(moved.err.find("inset_mm = 41.0 differs from the stored run"), std::string::npos)
      << moved.err;
  EXPECT_EQ(lines(moved.err), 1u) << moved.err;
}

TEST_F(RunFolder, DamageIsNamedAndNothingIsWritten) {
  const std::vector<std::pair<std::string, std::function<void(const fs::path &)>>> all = {
      {"results.json: damaged",
       [](const fs::path &run) { fs::resize_file(run / "results.json", 3000); }},
      {"results.json: damaged",
       [](const fs::path &run) { fs::resize_file(run / "results.json", 0); }},
      {"results.json: damaged",
       [](const fs::path &run) { std::ofstream(run / "results.json") << "[]\n"; }},
      {"results.json: damaged",
       [](const fs::path &run) {
         std::ofstream(run / "results.json") << "{\"hot_spots\": \"x\"}";
       }},
      {"results.json: damaged",
       [](const fs::path &run) {
         rewrite(run / "results.json", "\"hot_spots\": \\[", "\"hot\": [");
       }},
      {"results.json: damaged",
       [](const fs::path &run) {
         rewrite(run / "results.json", "\"error_percent\": null", "\"error_percent\": \"small\"");
       }},
      {"error_percent = 1e+308 is no error",
       [](const fs::path &run) {
         rewrite(run / "results.json", "\"error_percent\": null", "\"error_percent\": 1e308");
       }},
      {"error_percent = -5 is no error",
       [](const fs::path &run) {
         rewrite(run / "results.json", "\"error_percent\": null", "\"error_percent\": -5");
       }},
      {"results.json: damaged",
       [](const fs::path &run) {
         rewrite(run / "results.json", "\"mesh_convergence\": null",
                 "\"mesh_convergence\": {\"coarse_cells\": \"few\"}");
       }},
      {"results.json: damaged",
       [](const fs::path &run) {
         rewrite(run / "results.json", "\"cautions\": \\[", "\"cautions\": [7, ");
       }},
      {"no results.json in it", [](const fs::path &run) { fs::remove(run / "results.json"); }},
      {"results.json: this is a folder",
       [](const fs::path &run) {
         fs::remove(run / "results.json");
         fs::create_directory(run / "results.json");
       }},
      {"histories.bin: this is a folder; give the file itself",
       [](const fs::path &run) {
         fs::remove(run / "histories.bin");
         fs::create_directory(run / "histories.bin");
       }},
      {"stored histories are damaged",
       [](const fs::path &run) {
         std::ofstream(run / "histories.bin", std::ios::app) << "one line more\n";
       }},
      {"holds no stored histories",
       [](const fs::path &run) { fs::resize_file(run / "histories.bin", 20); }},
      {"did you mean 'rated_load_kg'?",
       [](const fs::path &run) { rewrite(run / "case.toml", "rated_load_kg", "rated_load"); }}};
  const auto before = folder_->listing();
  for (std::size_t i = 0; i < all.size(); ++i) {
    const auto &[words, damage] = all[i];
    const Outcome o = rated(damage, {"-o", "again"});
    EXPECT_EQ(o.exit_code, 2) << i << ": " << words;
    EXPECT_NE(o.err.find(words), std::string::npos) << i << ": " << words << "\nin: " << o.err;
    EXPECT_EQ(o.out, "");
    EXPECT_EQ(folder_->listing(), before) << i << ": " << words;
  }
}

TEST_F(RunFolder, IsNeverReplacedByItsOwnRating) {
  const auto before = folder_->listing();
  for (const std::string target : {"out", "./out/", "out/../out", "."}) {
    const Outcome o = felloe_in(folder_->path(), {"rate", "out", "-o", target, "--quiet"});
    EXPECT_EQ(o.exit_code, 2) << target;
    EXPECT_NE(o.err.find("would replace the run that is rated"), std::string::npos) << o.err;
    EXPECT_EQ(o.out, "");
    EXPECT_EQ(folder_->listing(), before) << target;
  }
  const Outcome beside = felloe_in(folder_->path(), {"rate", "out", "-o", "other", "--quiet"});
  EXPECT_EQ(beside.exit_code, first_.exit_code) << beside.err;
  EXPECT_TRUE(fs::exists(*folder_ / "other/report.html"));
  fs::remove_all(*folder_ / "other");
}

}  // namespace
}  // namespace felloe::test
