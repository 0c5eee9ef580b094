// SPDX-License-Identifier: GPL-3.0-or-later
// Help texts, made from the command table.
#include <algorithm>

#include "cli/command_table.h"
#include "cli/nearest.h"
#include "cli/options.h"
#include "cli/wrapping.h"
#include "mesher/error.h"

namespace felloe {
namespace {

std::string overview(std::size_t width) {
  std::string text = std::string(about_felloe) + "\n\n";
  std::size_t indent = 0;
  for (const CommandRow &c : command_table())
    indent = std::max(indent, c.name.size() + c.arguments.size());
  indent += 13;
  for (const CommandRow &c : command_table()) {
    std::string head = "  felloe " + c.name;
    head.resize(15, ' ');
    text += hanging(head + c.arguments, c.summary, indent, width);
  }
  text += hanging("  felloe --version", "number and commit", indent, width);
  return text + "\n" + wrapped_paragraphs(about_cases, width) + "\n" +
         wrapped_paragraphs(
             std::string("Exit codes: ") + about_exit_codes + " " + about_environment, width) +
         "\n" + wrapped_paragraphs(about_caution, width);
}

std::string shown_option(const OptionRow &o, std::size_t indent, std::size_t width) {
  const std::string letter = o.letter ? std::string("-") + o.letter + ", " : "    ";
  return hanging("  " + letter + "--" + o.name + (o.value.empty() ? "" : " " + o.value), o.summary,
                 indent, width);
}

std::string page(const CommandRow &c, std::size_t width) {
  std::string text;
  for (const std::string &usage : c.usages) {
    std::string lines = wrapped(usage, 11, width);
    lines.replace(0, 11, "felloe ");
    text += lines;
  }
  text += "\n" + wrapped_paragraphs(c.text, width) + "\nOptions\n";
  for (const OptionRow &o : c.options)
    if (!o.hidden) text += shown_option(o, 28, width);
  text += "\nExamples\n";
  for (const ExampleRow &e : c.examples)
    text += (e.what.empty() ? "" : "  # " + e.what + "\n") + "  " + e.line + "\n";
  text += "\n" + wrapped_paragraphs("Exit code: " + c.exit_codes, width);
  return c.more.empty() ? text : text + "\n" + wrapped_paragraphs(c.more, width);
}

}  // namespace

std::string help_text(const std::string &topic, std::size_t width) {
  if (topic.empty()) return overview(width);
  if (const CommandRow *c = find_command(topic)) return page(*c, width);
  throw Error("help: " + topic + ": unknown command" + did_you_mean(topic, command_names()) +
              " (known: " + listed(command_names()) + ")");
}

}  // namespace felloe
