// SPDX-License-Identifier: GPL-3.0-or-later
// The commands about felloe itself: list, help.
#include "cli/command_rows.h"
#include "cli/list.h"

namespace felloe {

CommandRow list_row() {
  CommandRow c;
  c.name = "list";
  c.arguments = "[TABLE]";
  c.summary = "print the tables: materials, rig tests, keys ...";
  c.usages = {"list [TABLE] [--json]"};
  c.text =
      R"(Prints a table, each row with its source and how sure that source is. Without TABLE all tables
of rows.)";
  c.options = {json_option("the rows as JSON"), help_option()};
  c.examples = {{"felloe list materials", ""},
                {"felloe list tests --json | jq '.tests[].name'", ""},
                {"felloe list schema > felloe.schema.json", "for editors that check TOML"},
                {"felloe list manual | man -l -", "the man page where it is not installed"},
                {"source <(felloe list completion)", "Tab completes commands, options, files"}};
  c.exit_codes = "0 printed; 2 something for you to repair.";
  c.more = "Tables:\n\n" + list_topic_lines();
  c.operands = {Completes::table};
  return c;
}

CommandRow help_row() {
  CommandRow c;
  c.name = "help";
  c.arguments = "[COMMAND]";
  c.summary = "options and examples of a command";
  c.usages = {"help [COMMAND]"};
  c.text = "Prints the options of a command with examples; without COMMAND all commands.";
  c.options = {help_option()};
  c.examples = {{"felloe help sweep", ""}, {"felloe sweep --help", "the same"}};
  c.exit_codes = "0 printed; 2 something for you to repair.";
  c.operands = {Completes::command};
  return c;
}

}  // namespace felloe
