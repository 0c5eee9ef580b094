// SPDX-License-Identifier: GPL-3.0-or-later
// Writes a case with everything spelled out, by walking the key table.
#include "cli/case_file.h"
#include "cli/case_keys.h"

namespace felloe {
namespace {

/// The keys of one section as "name = value" lines, or joined for an inline table.
std::vector<std::string> assignments(const Section &section, Case &c, std::size_t index) {
  std::vector<std::string> all;
  for (const auto &key : section.keys) {
    if (!applies(key, c.wheel.construction)) continue;
    const Value value = key.place(c, index).get();
    if (key.need == Need::may_be_absent && is_unset(value)) continue;
    all.push_back(key.name + " = " + toml_text(value));
  }
  return all;
}

bool is_child_list(const Section &s) {
  return s.repeated() && s.path.find('.') != std::string::npos;
}

/// meridian = [ { ... }, ... ] inside its parent section.
std::string child_list(const Section &section, Case &c) {
  std::string text = section.path.substr(section.path.find('.') + 1) + " = [\n";
  for (std::size_t i = 0; i < section.size(c); ++i) {
    std::string row;
    for (const auto &a : assignments(section, c, i)) row += (row.empty() ? "" : ", ") + a;
    text += "  { " + row + " },\n";
  }
  return text + "]\n";
}

std::string block(const std::string &header, const Section &section, Case &c, std::size_t index) {
  std::string text = header.empty() ? "" : "\n" + header + "\n";
  for (const auto &a : assignments(section, c, index)) text += a + "\n";
  return text;
}

}  // namespace

std::string resolved_case(const Case &original) {
  Case c = original;  // slots give access to a Case that may change; the copy doesn't
  std::string text;
  for (const auto &section : case_sections()) {
    if (!applies(section, c.wheel.construction) || is_child_list(section)) continue;
    if (section.repeated()) {
      for (std::size_t i = 0; i < section.size(c); ++i)
        text += block("[[" + section.path + "]]", section, c, i);
      continue;
    }
    if (section.present && !section.present(c)) continue;
    text += block(section.path.empty() ? "" : "[" + section.path + "]", section, c, 0);
    for (const auto &list : case_sections())
      if (is_child_list(list) &&
          list.path.compare(0, section.path.size() + 1, section.path + ".") == 0)
        text += child_list(list, c);
  }
  return text;
}

}  // namespace felloe
