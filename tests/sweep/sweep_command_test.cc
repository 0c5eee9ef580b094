// SPDX-License-Identifier: GPL-3.0-or-later
// The sweep command: wrong words are refused with a remedy, a design comes back as a whole case.
#include "cli/sweep/store.h"
#include "tests/sweep/small_sweep.h"

namespace felloe::test {
namespace {

TEST(SweepCommand, WrongWordsSayWhatToWrite) {
  const Folder folder;
  write_small_sweep(folder, 2);
  fs::create_directory(folder / "empty");
  fs::create_directories(folder / "odd/designs.sqlite");
  const std::vector<std::pair<std::vector<std::string>, std::string>> table = {
      {{"sweep"}, "sweep: no sweep given; write for example 'felloe sweep sweep.toml -o designs'"},
      {{"sweep", "sweep.toml"}, "no output folder; add '-o FOLDER'"},
      {{"sweep", "empty"}, "this folder holds no sweep; plan one with"},
      {{"sweep", "sweep.toml", "--table"}, "--best, --design and --retry take the folder"},
      {{"sweep", "nowhere.toml", "-o", "x"}, "nowhere.toml: there is no such folder or sweep file"},
      {{"sweep", "empti", "--best", "3"}, "empti: there is no such folder or sweep file"},
      {{"sweep", "odd"}, "this folder holds no sweep"},
      {{"sweep", "disc.toml", "-o", "x"}, "disc.toml:2:1: [wheel]: this is a case file"},
      {{"sweep", "empti"}, "empti: there is no such folder or sweep file"},
      {{"sweep", "sweep.toml", "--workers", "many"}, "--workers many: accepted: a whole number"},
      {{"sweep", "empty", "--best", "0"}, "--best 0: accepted: a whole number, 1 to"},
      {{"sweep", "empty", "--tabel"}, "unknown option '--tabel'; did you mean '--table'?"},
      {{"sweep", "empty", "--table", "--best", "3"}, "give one at a time"}};
  for (const auto &[words, part] : table) {
    const Outcome o = felloe_in(folder.path(), words);
    EXPECT_EQ(o.exit_code, 2) << part;
    EXPECT_NE(o.err.find(part), std::string::npos) << "missing: " << part << "\nin: " << o.err;
  }
}

TEST(SweepCommand, DesignComesBackAsACaseThatRunsToTheSameFigures) {
  const Folder folder;
  write_small_sweep(folder, 3);
  const Outcome planned = felloe_in(folder.path(), {"sweep", "sweep.toml", "-o", "d", "--plan"});
  ASSERT_EQ(planned.exit_code, 0) << planned.err;
  EXPECT_EQ(Store((folder / "d").string(), Store::Use::read).counts().queued, 3);
  const Outcome swept = felloe_in(folder.path(), {"sweep", "d", "--json", "--quiet"});
  ASSERT_EQ(swept.exit_code, 0) << swept.err;
  EXPECT_NE(swept.out.find("\"computed\": 3"), std::string::npos) << swept.out;
  ASSERT_EQ(felloe_in(folder.path(), {"sweep", "d", "--design", "2", "-o", "two.toml"}).exit_code,
            0);
  EXPECT_EQ(felloe_in(folder.path(), {"sweep", "d", "--design", "2"}).out,
            contents(folder / "two.toml"));
  const Outcome run = felloe_in(folder.path(), {"run", "two.toml", "-o", "r", "--json", "--quiet"});
  ASSERT_EQ(run.exit_code, 0) << run.err;
  const auto at = run.out.find("\"mass_kg\": ");
  ASSERT_NE(at, std::string::npos);
  const double mass = std::stod(run.out.substr(at + 11));
  EXPECT_NEAR(mass, Store((folder / "d").string(), Store::Use::read).designs()[1].figures.mass_kg,
              1e-9 * mass);
  const Outcome none = felloe_in(folder.path(), {"sweep", "d", "--design", "9"});
  EXPECT_EQ(none.exit_code, 2);
  EXPECT_NE(none.err.find("there is no design 9; numbers run from 1 to 3"), std::string::npos);
}

}  // namespace
}  // namespace felloe::test
