// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/manual.h"

#include <sstream>

#include "cli/command_table.h"
#include "cli/version.h"

namespace felloe {
namespace {

/// Roff reads backslashes and hyphens, and a point or an apostrophe at the start of a line, as its
/// own; commands are copied from man pages, so that their hyphens must stay plain ones.
std::string roff(const std::string &text) {
  std::string out;
  for (const char c : text) {
    if (c == '\\')
      out += "\\e";
    else if (c == '-')
      out += "\\-";
    else if (c == '\'')
      out += "\\(aq";
    else if (c == '"')
      out += "\\(dq";
    else if (c == '^')
      out += "\\(ha";
    else if (c == '~')
      out += "\\(ti";
    else if (c == '`')
      out += "\\(ga";
    else
      out += c;
  }
  return !out.empty() && out[0] == '.' ? "\\&" + out : out;
}

/// Paragraphs filled by roff; lines that begin with two spaces as an example. Right after a heading
/// the first one needs no macro.
std::string paragraphs(const std::string &text, bool after_heading = false) {
  std::string out;
  bool verbatim = false, gap = !after_heading;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    const bool kept = line.compare(0, 2, "  ") == 0;
    if (verbatim && !kept) {
      out += ".EE\n.RE\n";
      gap = true;
    }
    if (line.empty()) {
      verbatim = false;
      gap = true;
      continue;
    }
    if (!verbatim && kept)
      out += ".PP\n.RS 4\n.EX\n";
    else if (!kept && gap)
      out += ".PP\n";
    gap = false;
    verbatim = kept;
    out += roff(kept ? line.substr(2) : line) + "\n";
  }
  return out + (verbatim ? ".EE\n.RE\n" : "");
}

std::string option_paragraph(const OptionRow &o) {
  std::string names = o.letter ? "\\fB\\-" + std::string(1, o.letter) + "\\fR, " : "";
  names += "\\fB\\-\\-" + roff(o.name) + "\\fR";
  if (!o.value.empty()) names += " \\fI" + roff(o.value) + "\\fR";
  return ".TP\n" + names + "\n" + roff(o.summary) + "\n";
}

std::string command_section(const CommandRow &c) {
  std::string text = ".SS felloe " + c.name + "\n";
  for (std::size_t i = 0; i < c.usages.size(); ++i)
    text += (i ? ".br\n" : "") + std::string(".B felloe ") + roff(c.usages[i]) + "\n";
  text += paragraphs(c.text);
  for (const OptionRow &o : c.options)
    if (!o.hidden) text += option_paragraph(o);
  text += ".PP\nExit code: " + roff(c.exit_codes) + "\n";
  if (!c.more.empty()) text += paragraphs(c.more);
  text += ".PP\nExamples:\n";
  for (const ExampleRow &e : c.examples) {
    text += ".PP\n.RS 4\n.EX\n" + roff(e.line) + "\n.EE\n.RE\n";
    if (!e.what.empty()) text += ".RS 8\n" + roff(e.what) + "\n.RE\n";
  }
  return text;
}

}  // namespace

std::string man_page() {
  const std::string about = about_felloe;
  std::string text = std::string(".\\\" Written by 'felloe list manual'.\n.TH FELLOE 1 ") +
                     version_date + " \"felloe " + roff(version) + "\" \"User Commands\"\n";
  text += ".SH NAME\nfelloe \\- " + roff(about.substr(about.find(": ") + 2)) + "\n.SH SYNOPSIS\n";
  for (const CommandRow &c : command_table())
    text += std::string(&c == &command_table().front() ? "" : ".br\n") + ".B felloe " + c.name +
            "\n.RI " + "\"" + roff(c.arguments) + "\"\n";
  text += ".br\n.B felloe \\-\\-version\n.SH DESCRIPTION\n";
  text += paragraphs(about_caution, true) + paragraphs(about_cases);
  text += ".SH COMMANDS\n";
  for (const CommandRow &c : command_table()) text += command_section(c);
  text += ".SH EXIT STATUS\n" + paragraphs(about_exit_codes, true);
  text += ".SH ENVIRONMENT\n" + paragraphs(about_environment, true);
  return text;
}

}  // namespace felloe
