// SPDX-License-Identifier: GPL-3.0-or-later
// Everything that is wrong with a case file, collected, so that it is reported in one go.
#pragma once
#include <map>
#include <string>
#include <vector>

namespace felloe {

/// Where something stands in the file, and how it is written there.
struct Spot {
  int line = 1, column = 1;
  std::string written;  ///< the value as in the file; empty for sections
  bool faulty = false;  ///< it has a finding of its own, so that no rule needs to judge it
};

/// What the file gives: one spot a section and a key, by section path, index of a repeated section
/// and key name (empty for the section itself).
class GivenKeys {
 public:
  void add(const std::string &section, std::size_t index, const std::string &key, Spot);
  bool has(const std::string &section, std::size_t index, const std::string &key = "") const;
  /// The key's spot, or that of its section, or the top of the file.
  Spot spot(const std::string &section, std::size_t index, const std::string &key = "") const;

 private:
  std::map<std::string, Spot> spots_;
};

class Findings {
 public:
  explicit Findings(std::string file) : file_(std::move(file)) {}

  /// "file:line:column: text".
  void add(const Spot &, const std::string &text);
  /// "file:line:column: [section] key = value: text". Only the first finding about a key counts.
  void add(const Spot &, const std::string &section, const std::string &key,
           const std::string &text);
  bool empty() const { return lines_.empty(); }
  /// Throws Error with all of them in the order of the file; does nothing when there is none.
  void throw_if_any() const;

 private:
  struct Line {
    int line, column;
    std::string subject, text;
  };
  std::string file_;
  std::vector<Line> lines_;
};

/// "[rim]", "[[rig_test]] no. 2" or "the top of the file": how messages call a section.
std::string section_text(const std::string &path, bool repeated = false, std::size_t index = 0);

/// The Error text for several problems of one file, one a line.
std::string problems_text(const std::string &file, const std::vector<std::string> &problems);

}  // namespace felloe
