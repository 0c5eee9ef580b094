// SPDX-License-Identifier: GPL-3.0-or-later
// Completion for bash, made from the command table.
#include <algorithm>
#include <sstream>

#include "cli/case_keys.h"
#include "cli/command_table.h"
#include "cli/list.h"
#include "cli/manual.h"

namespace felloe {
namespace {

std::string joined(const std::vector<std::string> &words) {
  std::string text;
  for (const std::string &w : words) text += (text.empty() ? "" : " ") + w;
  return text;
}

/// The call that offers what may stand there; the functions are in `head`.
std::string offer(Completes what) {
  switch (what) {
    case Completes::case_file:
      return "_felloe_files .toml";
    case Completes::lives_file:
      return "_felloe_files .csv";
    case Completes::any_file:
      return "_felloe_files ''";
    case Completes::folder:
      return "_felloe_folders";
    case Completes::command:
      return "_felloe_words " + joined(command_names());
    case Completes::table:
      return "_felloe_words " + joined(list_topics());
    case Completes::curve_use: {
      std::string words;  // of several words each
      for (std::string use : curve_uses()) words += " '" + use + "'";
      return "_felloe_words" + words;
    }
    default:
      return ":";
  }
}

const char *head = R"bash(# bash completion for felloe, written by 'felloe list completion'

# each offers what begins with the word under the cursor
_felloe_words() {
  local candidate
  for candidate in "$@"; do
    [[ $candidate == "$word"* ]] && COMPREPLY+=("$(printf '%q' "$candidate")")
  done
}
_felloe_folders() {
  compopt -o filenames 2> /dev/null
  mapfile -t -O "${#COMPREPLY[@]}" COMPREPLY < <(compgen -d -- "$word")
}
_felloe_files() {
  local file
  _felloe_folders
  while IFS= read -r file; do
    [[ -d $file || $file != *"$1" ]] || COMPREPLY+=("$file")
  done < <(compgen -f -- "$word")
}

_felloe() {
  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} i names=0
  COMPREPLY=()
  if [[ $COMP_CWORD -eq 1 ]]; then
    _felloe_words )bash";

/// What follows an option, what options there are, what the names mean: one branch a command.
std::string branch(const CommandRow &c) {
  std::string values, taking, options;
  for (const OptionRow &o : c.options) {
    if (o.hidden) continue;
    options += (options.empty() ? "" : " ") + std::string("--") + o.name;
    if (o.value.empty()) continue;
    const std::string pattern = (o.letter ? std::string("-") + o.letter + "|" : "") + "--" + o.name;
    values += "        " + pattern + ") " + offer(o.completes) + "; return ;;\n";
    taking += (taking.empty() ? "" : "|") + pattern;
  }
  std::string text = "    " + c.name + ")\n";
  if (!values.empty()) text += "      case $before in\n" + values + "      esac\n";
  text += "      [[ $word != -* ]] || { _felloe_words " + options + "; return; }\n";
  // names that stand before the cursor, without options and their values
  text += "      for ((i = 2; i < COMP_CWORD; i++)); do\n        case ${COMP_WORDS[i]} in\n";
  if (!taking.empty()) text += "          " + taking + ") ((i++)) ;;\n";
  text += "          -*) ;;\n          *) ((names++)) ;;\n        esac\n      done\n";
  text += "      case $names in\n";
  for (std::size_t i = 0; i < c.operands.size(); ++i)
    text += "        " + std::to_string(i) + ") " + offer(c.operands[i]) + " ;;\n";
  return text + "      esac ;;\n";
}

}  // namespace

std::string bash_completion() {
  std::string text = head + joined(command_names()) + " --help --version\n    return\n  fi\n";
  // "--output=x" comes as three words
  text +=
      "  if [[ $word == '=' ]]; then word=''; "
      "elif [[ $before == '=' && $COMP_CWORD -gt 2 ]]; then\n"
      "    before=${COMP_WORDS[COMP_CWORD-2]}\n  fi\n";
  text += "  case ${COMP_WORDS[1]} in\n";
  for (const CommandRow &c : command_table()) text += branch(c);
  return text + "  esac\n}\ncomplete -F _felloe felloe\n";
}

}  // namespace felloe
