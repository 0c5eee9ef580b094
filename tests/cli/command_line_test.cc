// SPDX-License-Identifier: GPL-3.0-or-later
// Proves what the commands print, write and return, and that wrong command lines and full or
// foreign places end in exit code 2 without files.
#include "tests/cli/program.h"

namespace felloe::test {
namespace {

TEST(CommandLine, HelpAndVersionSucceed) {
  const Folder folder;
  for (const std::vector<std::string> &arguments : {std::vector<std::string>{},
                                                    {"--help"},
                                                    {"help"},
                                                    {"help", "check"},
                                                    {"help", "run"},
                                                    {"help", "list"},
                                                    {"check", "--help"}}) {
    const Outcome o = felloe_in(folder.path(), arguments);
    EXPECT_EQ(o.exit_code, 0);
    EXPECT_NE(o.out.find("felloe"), std::string::npos);
    EXPECT_EQ(o.err, "");
  }
  const Outcome version = felloe_in(folder.path(), {"--version"});
  EXPECT_EQ(version.exit_code, 0);
  EXPECT_EQ(version.out.find("felloe "), 0u);
}

TEST(CommandLine, TheCaseShownByHelpIsAccepted) {
  const Folder folder;
  const std::string help = felloe_in(folder.path(), {"help", "check"}).out;
  const auto begin = help.find("  title = ");
  ASSERT_NE(begin, std::string::npos);
  folder.write("shown.toml", help.substr(begin));
  const Outcome o = felloe_in(folder.path(), {"check", "shown.toml"});
  EXPECT_EQ(o.exit_code, 0) << o.err;
}

TEST(CommandLine, WrongOnesGetASuggestionAndExitCodeTwo) {
  struct Wrong {
    std::vector<std::string> arguments;
    std::string words;
  };
  const std::vector<Wrong> all = {
      {{"chek", "wheel.toml"}, "'chek': unknown command; did you mean 'check'?"},
      {{"wheel.toml"}, "write 'felloe check wheel.toml'"},
      {{"--frobnicate"}, "unknown option"},
      {{"check"}, "no case file given"},
      {{"check", "wheel.toml", "other.toml"}, "takes one case file"},
      {{"check", "wheel.toml", "--drawin", "x.svg"}, "did you mean '--drawing'?"},
      {{"check", "wheel.toml", "--drawing"}, "needs a value"},
      {{"check", "wheel.toml", "--drawing", "a.svg", "-o", "b"}, "keep one of the two"},
      {{"run", "wheel.toml"}, "no output folder; add '-o FOLDER'"},
      {{"run", "wheel.toml", "-o", "out", "--densty", "2"}, "did you mean '--density'?"},
      {{"run", "wheel.toml", "-o", "out", "--density", "fine"},
       "not a number; accepted: 0.25 to 4"},
      {{"run", "wheel.toml", "-o", "out", "--density", "nan"}, "accepted: 0.25 to 4"},
      {{"run", "wheel.toml", "-o", "out", "--density", "9"}, "too large; accepted: 0.25 to 4"},
      {{"run", "wheel.toml", "-o", "out", "-o", "out2"}, "more than once"},
      {{"list", "material"}, "did you mean 'materials'?"},
      {{"help", "rum"}, "did you mean 'run'?"},
  };
  const Folder folder;
  folder.write("wheel.toml", test_wheel());
  for (const auto &w : all) {
    const Outcome o = felloe_in(folder.path(), w.arguments);
    EXPECT_EQ(o.exit_code, 2) << w.words;
    EXPECT_NE(o.err.find(w.words), std::string::npos) << o.err;
    EXPECT_EQ(lines(o.err), 1u) << o.err;
    EXPECT_EQ(o.out, "");
    EXPECT_EQ(folder.listing(), std::set<std::string>{"wheel.toml"}) << w.words;
  }
}

TEST(CommandLine, EveryTableIsListedWithSources) {
  const Folder folder;
  for (const std::string topic :
       {"materials", "contours", "loads", "tests", "criteria", "weld-classes", "weld-toes"}) {
    const Outcome o = felloe_in(folder.path(), {"list", topic});
    EXPECT_EQ(o.exit_code, 0) << o.err;
    EXPECT_NE(o.out.find("source: "), std::string::npos) << topic;
  }
  const std::string keys = felloe_in(folder.path(), {"list", "keys"}).out;
  EXPECT_NE(keys.find("rated_load_kg  (number, required)"), std::string::npos);
  EXPECT_NE(keys.find("Defaults of numbers are own values"), std::string::npos);
  const std::string schema = felloe_in(folder.path(), {"list", "schema"}).out;
  EXPECT_NE(schema.find("json-schema.org"), std::string::npos);
}

TEST(CommandLine, NoColoursWhereThereIsNoTerminal) {
  const Folder folder;
  EXPECT_EQ(felloe_in(folder.path(), {"chek"}).err.find('\033'), std::string::npos);
}

TEST(Check, SummarisesAndDraws) {
  const Folder folder;
  folder.write("wheel.toml", test_wheel());
  folder.write("demo/case.toml", test_wheel());
  const Outcome o = felloe_in(folder.path(), {"check", "wheel.toml"});
  EXPECT_EQ(o.exit_code, 0) << o.err;
  for (const std::string word : {"15 x 6 J", "nave bend", "crown bend", "kg", "wheel-section.svg"})
    EXPECT_NE(o.out.find(word), std::string::npos) << o.out;
  EXPECT_EQ(contents(folder / "wheel-section.svg").find("<?xml"), 0u);
  // into a folder that does not exist yet, named after the folder of a file called case.toml
  EXPECT_EQ(felloe_in(folder.path(), {"check", "demo/case.toml", "-o", "drawings"}).exit_code, 0);
  EXPECT_TRUE(fs::exists(folder / "drawings/demo-section.svg"));
}

TEST(Check, UnwritablePlacesGiveOneMessageAndNoFiles) {
  const Folder folder;
  folder.write("wheel.toml", test_wheel());
  folder.write("file", "x");
  const auto before = folder.listing();
  const std::pair<std::vector<std::string>, std::string> wrong[] = {
      {{"-o", "file"}, "is a file"},
      {{"-o", "file/sub"}, "can't be made"},
      {{"-o", "absent/sub"}, "can't be made"},
      {{"--drawing", "file/x.svg"}, "could not be written"},
      {{"--drawing", "absent/x.svg"}, "could not be written"},
      {{"--drawing", "."}, "could not be written"},
      {{"--drawing", "/dev/full"}, "No space left"},
  };
  for (const auto &[options, words] : wrong) {
    std::vector<std::string> arguments = {"check", "wheel.toml"};
    arguments.insert(arguments.end(), options.begin(), options.end());
    const Outcome o = felloe_in(folder.path(), arguments);
    EXPECT_EQ(o.exit_code, 2) << words;
    EXPECT_NE(o.err.find(words), std::string::npos) << o.err;
    EXPECT_EQ(lines(o.err), 1u) << o.err;
    EXPECT_EQ(folder.listing(), before) << words;
  }
}

TEST(Check, AFileOverTheSizeLimitLeavesNothingBehind) {
  const Folder folder;
  folder.write("wheel.toml", test_wheel());
  const Outcome o = felloe_in(folder.path(), {"check", "wheel.toml", "-o", "out"}, 2000);
  EXPECT_EQ(o.exit_code, 2);
  EXPECT_NE(o.err.find("out/wheel-section.svg: could not be written"), std::string::npos) << o.err;
  EXPECT_EQ(folder.listing(), std::set<std::string>{"wheel.toml"});
}

TEST(List, AFullDiskBehindStandardOutputIsReported) {
  const Folder folder;
  const Outcome o = felloe_in(folder.path(), {"list", "keys"}, 0, "/dev/full");
  EXPECT_EQ(o.exit_code, 2);
  EXPECT_NE(o.err.find("standard output: can't be written"), std::string::npos) << o.err;
}

TEST(Run, RefusesForeignAndUnwritableFolders) {
  const Folder folder;
  folder.write("wheel.toml", test_wheel());
  folder.write("mine/letter.txt", "dear reader");
  folder.write("file", "x");
  const auto before = folder.listing();
  const std::pair<std::string, std::string> wrong[] = {
      {"mine", "the folder holds other files"},    {"file", "is a file"},
      {"file/out", "does not exist or is a file"}, {"absent/out", "does not exist or is a file"},
      {"/", "can't be an output folder"},          {"/proc/out", "can't be made"},
  };
  for (const auto &[target, words] : wrong) {
    const Outcome o = felloe_in(folder.path(), {"run", "wheel.toml", "-o", target});
    EXPECT_EQ(o.exit_code, 2) << target;
    EXPECT_NE(o.err.find(words), std::string::npos) << o.err;
    EXPECT_EQ(folder.listing(), before) << target;
  }
}

}  // namespace
}  // namespace felloe::test
