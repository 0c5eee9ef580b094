// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/command_table.h"

#include "cli/command_rows.h"

namespace felloe {

const char *const about_felloe = "felloe: stress and fatigue life of wheel discs";

const char *const about_cases =
    R"(A case file is TOML text: wheel, materials, loads and rig tests, each key with its unit
(thickness_mm). 'felloe list keys' prints all of them, 'felloe help check' shows a whole file.)";

const char *const about_exit_codes =
    R"(0 done and every rig test passed, 1 done and a test failed, 2 something for you to repair,
3 a bug in felloe.)";

const char *const about_environment =
    R"(Colours appear only on a terminal and never when NO_COLOR is set or TERM is dumb. Text is wrapped
to the width of the terminal. Progress goes to standard error.)";

const char *const about_caution =
    R"(A wheel is a safety-critical part. Calculation never replaces tests: only physical tests by an
accredited laboratory decide release. Local codes and licensed engineers take precedence.)";

OptionRow help_option() { return {"help", 'h', "", "show this help"}; }

OptionRow json_option(const std::string &what) {
  return {"json", 0, "", "print " + what + " on standard output instead of text"};
}

OptionRow quiet_option() { return {"quiet", 0, "", "no progress"}; }

const std::vector<CommandRow> &command_table() {
  static const std::vector<CommandRow> all = {check_row(), run_row(),  sweep_row(), rate_row(),
                                              fit_row(),   thin_row(), list_row(),  help_row()};
  return all;
}

const CommandRow *find_command(const std::string &name) {
  for (const CommandRow &row : command_table())
    if (row.name == name) return &row;
  return nullptr;
}

std::vector<std::string> command_names() {
  std::vector<std::string> names;
  for (const CommandRow &row : command_table()) names.push_back(row.name);
  return names;
}

}  // namespace felloe
