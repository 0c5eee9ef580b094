// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/findings.h"

#include <algorithm>

#include "mesher/error.h"

namespace felloe {
namespace {

std::string path_of(const std::string &section, std::size_t index, const std::string &key) {
  return section + '\n' + std::to_string(index) + '\n' + key;
}

}  // namespace

void GivenKeys::add(const std::string &section, std::size_t index, const std::string &key,
                    Spot spot) {
  spots_[path_of(section, index, key)] = std::move(spot);
}

bool GivenKeys::has(const std::string &section, std::size_t index, const std::string &key) const {
  return spots_.count(path_of(section, index, key)) > 0;
}

Spot GivenKeys::spot(const std::string &section, std::size_t index, const std::string &key) const {
  for (const auto &name : {key, std::string()}) {
    const auto found = spots_.find(path_of(section, index, name));
    if (found != spots_.end()) return found->second;
  }
  return {};
}

void Findings::add(const Spot &spot, const std::string &text) {
  lines_.push_back({spot.line, spot.column, {}, text});
}

void Findings::add(const Spot &spot, const std::string &section, const std::string &key,
                   const std::string &text) {
  std::string subject = section;
  if (!key.empty()) subject += (subject.empty() ? "" : " ") + key;
  if (!spot.written.empty()) subject += " = " + spot.written;
  for (const auto &l : lines_)
    if (l.line == spot.line && l.column == spot.column && l.subject == subject) return;
  lines_.push_back({spot.line, spot.column, subject, subject + ": " + text});
}

void Findings::throw_if_any() const {
  if (empty()) return;
  auto sorted = lines_;
  std::stable_sort(sorted.begin(), sorted.end(), [](const Line &a, const Line &b) {
    return a.line != b.line ? a.line < b.line : a.column < b.column;
  });
  std::vector<std::string> problems;
  for (const auto &l : sorted)
    problems.push_back(file_ + ":" + std::to_string(l.line) + ":" + std::to_string(l.column) +
                       ": " + l.text);
  throw Error(problems_text(file_, problems));
}

std::string section_text(const std::string &path, bool repeated, std::size_t index) {
  if (path.empty()) return "";
  return repeated ? "[[" + path + "]] no. " + std::to_string(index + 1) : "[" + path + "]";
}

std::string problems_text(const std::string &file, const std::vector<std::string> &problems) {
  std::string text = std::to_string(problems.size()) +
                     (problems.size() == 1 ? " problem in " : " problems in ") + file +
                     "; nothing was computed:";
  for (const auto &p : problems) text += "\n" + p;
  return text;
}

}  // namespace felloe
