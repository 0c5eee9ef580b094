// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that rating again refuses what is no folder of a run, with a remedy.
#include "tests/cli/program.h"

namespace felloe::test {
namespace {

TEST(Rate, RefusesWhatIsNoRun) {
  const Folder folder;
  folder.write("empty/readme.txt", "nothing");
  folder.write("old/case.toml", test_wheel());
  folder.write("damaged/case.toml", test_wheel());
  folder.write("damaged/histories.bin", "felloe histories and then nothing that makes any sense");
  const struct {
    std::vector<std::string> arguments;
    std::string words;
  } all[] = {{{"rate"}, "no folder of a run given"},
             {{"rate", "a", "b", "c"}, "takes a folder and a case file"},
             {{"rate", "nowhere"}, "no case.toml in it"},
             {{"rate", "empty"}, "no case.toml in it"},
             {{"rate", "old"}, "no histories.bin in it"},
             {{"rate", "damaged"}, "no results.json in it"},
             {{"rate", "old", "--jsn"}, "did you mean '--json'?"},
             {{"rate", "old", "--output", ""}, "the name is empty"}};
  for (const auto &wrong : all) {
    const Outcome o = felloe_in(folder.path(), wrong.arguments);
    EXPECT_EQ(o.exit_code, 2) << wrong.words;
    EXPECT_NE(o.err.find(wrong.words), std::string::npos) << o.err;
    EXPECT_EQ(o.out, "");
  }
}

// Gauges and blocks that cannot be are named before anything is solved.
TEST(Rate, WrongGaugesAndSpectraAreNamed) {
  const struct {
    std::string section, words;
  } all[] = {
      {"[[gauge]]\nname = \"a\"\nside = \"outboard\"\n", "no place; give r_mm or s_mm"},
      {"[[gauge]]\nname = \"a\"\nside = \"outboard\"\nr_mm = 100\ns_mm = 50\n",
       "keep one of the two"},
      {"[[gauge]]\nname = \"a\"\nside = \"outbord\"\nr_mm = 100\n", "did you mean 'outboard'?"},
      {"[[gauge]]\nname = \"a\"\nside = \"outboard\"\nr_mm = 100\nmeasured_test = \"x\"\n",
       "no [[rig_test]] has this name"},
      {"[[spectrum]]\nname = \"a\"\nradial_N = 5000\n", "turns: the key is missing"}};
  const Folder folder;
  for (const auto &wrong : all) {
    folder.write("wheel.toml", test_wheel() + "\n" + wrong.section);
    const Outcome o = felloe_in(folder.path(), {"check", "wheel.toml", "-o", "."});
    EXPECT_EQ(o.exit_code, 2) << wrong.words;
    EXPECT_NE(o.err.find(wrong.words), std::string::npos) << o.err;
  }
}

}  // namespace
}  // namespace felloe::test
