// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that tables, help, man page and completion show every row, and that JSON is all that
// standard output holds when it is asked for.
#include <cstdlib>
#include <sstream>

#include "tests/cli/program.h"

namespace felloe::test {
namespace {

const std::vector<std::string> row_topics = {"materials", "contours",    "loads", "tests",
                                             "criteria",  "mean-stress", "edges", "weld-classes",
                                             "weld-toes", "estimates"};

std::size_t count(const std::string &text, const std::string &what) {
  std::size_t n = 0;
  for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) ++n;
  return n;
}

TEST(Tables, EveryRowHasSourceAndConfidence) {
  const Folder folder;
  for (const std::string &topic : row_topics) {
    const std::string json = felloe_in(folder.path(), {"list", topic, "--json"}).out;
    const std::size_t rows = count(json, "\"name\": \"");
    EXPECT_GE(rows, 2u) << topic;
    EXPECT_EQ(count(json, "\"source\": \"\""), 0u) << topic;
    EXPECT_EQ(count(json, "\"confidence\": \"\""), 0u) << topic;
    EXPECT_EQ(count(json, "\"summary\": \"\""), 0u) << topic;
    // the text shows as many
    const std::string text = felloe_in(folder.path(), {"list", topic}).out;
    EXPECT_EQ(count(text, "\n      source: "), rows) << topic;
  }
}

TEST(Tables, LinesFitWhereThereIsNoTerminal) {
  const Folder folder;
  for (const std::vector<std::string> &arguments :
       {std::vector<std::string>{"list"}, {"list", "keys"}, {"help"}, {"help", "sweep"}}) {
    std::istringstream text(felloe_in(folder.path(), arguments).out);
    for (std::string line; std::getline(text, line);) EXPECT_LE(line.size(), 98u) << line;
  }
}

TEST(Tables, JsonIsRefusedWhereThereAreNoRows) {
  const Folder folder;
  const Outcome o = felloe_in(folder.path(), {"list", "manual", "--json"});
  EXPECT_EQ(o.exit_code, 2);
  EXPECT_NE(o.err.find("leave out --json"), std::string::npos) << o.err;
}

TEST(Help, EveryCommandHasOptionsExamplesAndExitCodes) {
  const Folder folder;
  const std::string overview = felloe_in(folder.path(), {"help"}).out;
  for (const std::string command :
       {"check", "run", "sweep", "rate", "fit", "thin", "list", "help"}) {
    EXPECT_NE(overview.find("felloe " + command), std::string::npos);
    const Outcome page = felloe_in(folder.path(), {"help", command});
    for (const std::string part : {"\nOptions\n", "--help", "\nExamples\n", "Exit code: "})
      EXPECT_NE(page.out.find(part), std::string::npos) << command << ": " << part;
    EXPECT_EQ(page.out, felloe_in(folder.path(), {command, "--help"}).out);
  }
  EXPECT_EQ(felloe_in(folder.path(), {"help", "sweep"}).out.find("--worker "), std::string::npos);
}

TEST(ManPage, HasAllCommandsAndNoComplaintOfTheChecker) {
  const Folder folder;
  folder.write("felloe.1", felloe_in(folder.path(), {"list", "manual"}).out);
  const std::string page = contents(folder / "felloe.1");
  for (const std::string command : {"check", "run", "sweep", "rate", "fit", "thin", "list", "help"})
    EXPECT_NE(page.find(".SS felloe " + command), std::string::npos) << command;
  EXPECT_NE(page.find("accredited laboratory"), std::string::npos);
  if (std::system("command -v mandoc > /dev/null") != 0) GTEST_SKIP() << "mandoc is not installed";
  const std::string check = "mandoc -Tlint -W warning " + (folder / "felloe.1").string() + " > " +
                            (folder / "said").string() + " 2>&1";
  EXPECT_EQ(std::system(check.c_str()), 0) << contents(folder / "said");
}

/// What bash offers for the last word, in the folder.
std::string offered(const Folder &folder, const std::string &words) {
  const std::string script = "cd " + folder.path().string() + "; source felloe.bash; COMP_WORDS=(" +
                             words +
                             "); COMP_CWORD=$((${#COMP_WORDS[@]} - 1)); _felloe; "
                             "printf '%s;' \"${COMPREPLY[@]}\"";
  folder.write("script", script);
  EXPECT_EQ(std::system(("bash " + (folder / "script").string() + " > " +
                         (folder / "offered").string() + " 2>&1")
                            .c_str()),
            0);
  return contents(folder / "offered");
}

TEST(Completion, OffersCommandsOptionsTablesAndFiles) {
  const Folder folder;
  folder.write("felloe.bash", felloe_in(folder.path(), {"list", "completion"}).out);
  folder.write("wheels/van.toml", "");
  folder.write("van.toml", "");
  folder.write("van two.toml", "");
  folder.write("lives.csv", "");
  EXPECT_EQ(offered(folder, "felloe ch"), "check;");
  EXPECT_EQ(offered(folder, "felloe r"), "run;rate;");
  EXPECT_EQ(offered(folder, "felloe list mat"), "materials;");
  EXPECT_EQ(offered(folder, "felloe help sw"), "sweep;");
  EXPECT_EQ(offered(folder, "felloe run --d"), "--density;");
  EXPECT_EQ(offered(folder, "felloe sweep --w"), "--workers;");
  EXPECT_EQ(offered(folder, "felloe run v"), "van.toml;van two.toml;");
  EXPECT_EQ(offered(folder, "felloe run w"), "wheels;");
  EXPECT_EQ(offered(folder, "felloe run --density 2 v"), "van.toml;van two.toml;");
  EXPECT_EQ(offered(folder, "felloe run van.toml -o w"), "wheels;");
  EXPECT_EQ(offered(folder, "felloe run van.toml v"), ";");  // takes one case
  EXPECT_EQ(offered(folder, "felloe run van.toml --output = w"), "wheels;");
  EXPECT_EQ(offered(folder, "felloe fit l"), "lives.csv;");
  EXPECT_EQ(offered(folder, "felloe fit lives.csv --use-for w"), "weld\\ toe;");
  EXPECT_EQ(offered(folder, "felloe rate w"), "wheels;");
  EXPECT_EQ(offered(folder, "felloe rate wheels v"), "van.toml;van two.toml;");
}

/// One object from the first character to the last line break, brackets closed in their order.
bool one_json_object(const std::string &text) {
  std::string open;
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted && c == '\\')
      ++i;
    else if (c == '"')
      quoted = !quoted;
    else if (!quoted && (c == '{' || c == '['))
      open += c;
    else if (!quoted && (c == '}' || c == ']')) {
      if (open.empty() || open.back() != (c == '}' ? '{' : '[')) return false;
      open.pop_back();
      if (open.empty()) return text.substr(i + 1) == "\n";
    }
    if (open.empty()) return false;
  }
  return false;
}

TEST(Json, IsAllThatStandardOutputHolds) {
  const Folder folder;
  folder.write("wheel.toml", test_wheel());
  folder.write("lives.csv",
               "amplitude_MPa,cycles\n400,62000\n400,85000\n350,140000\n350,210000\n300,500000\n");
  for (const std::vector<std::string> &arguments :
       {std::vector<std::string>{"check", "wheel.toml", "--json"},
        {"list", "--json"},
        {"list", "keys", "--json"},
        {"fit", "lives.csv", "--json"}}) {
    const Outcome o = felloe_in(folder.path(), arguments);
    EXPECT_EQ(o.exit_code, 0) << o.err;
    EXPECT_EQ(o.err, "");
    EXPECT_TRUE(one_json_object(o.out)) << o.out;
  }
}

}  // namespace
}  // namespace felloe::test
