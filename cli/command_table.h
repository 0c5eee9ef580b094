// SPDX-License-Identifier: GPL-3.0-or-later
// Every command with its options: the command line, the help, the man page and the completion are
// made from this table.
#pragma once
#include <string>
#include <vector>

namespace felloe {

/// What a name on the command line stands for; a shell completes accordingly.
enum class Completes {
  nothing,
  case_file,
  lives_file,
  any_file,
  folder,
  command,
  table,
  curve_use
};

struct OptionRow {
  std::string name;   ///< without dashes
  char letter = 0;    ///< short form; 0: none
  std::string value;  ///< what stands for its value in texts, "FOLDER"; empty: takes none
  std::string summary;
  Completes completes = Completes::nothing;
  bool hidden = false;  ///< for felloe itself: read, but not shown
};

struct ExampleRow {
  std::string line;  ///< as typed
  std::string what;  ///< it does; may be empty
};

/// Texts are paragraphs, parted by empty lines and wrapped when they are shown; lines that begin
/// with two spaces stay as they are.
struct CommandRow {
  std::string name;
  std::string arguments;            ///< in the overview, "CASE.toml -o FOLDER"
  std::string summary;              ///< in the overview
  std::vector<std::string> usages;  ///< in full, without the program's name
  std::string text;                 ///< what it does
  std::vector<OptionRow> options;
  std::vector<ExampleRow> examples;
  std::string exit_codes;  ///< empty: the ordinary ones
  std::string more;        ///< forms of files; last on the page
  std::vector<Completes>
      operands;  ///< names without an option, in their order; the last one repeats
};

/// In the order of the overview.
const std::vector<CommandRow> &command_table();
/// nullptr for an unknown one.
const CommandRow *find_command(const std::string &name);
std::vector<std::string> command_names();

/// What all commands share, as texts of the same kind.
extern const char *const about_felloe;       ///< the name line: what the program is
extern const char *const about_cases;        ///< what a case file is, where to begin
extern const char *const about_exit_codes;   ///< of all commands
extern const char *const about_environment;  ///< variables that are read
extern const char *const about_caution;      ///< what calculation does not replace

}  // namespace felloe
