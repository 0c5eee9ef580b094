// SPDX-License-Identifier: GPL-3.0-or-later
// Short words in which the rows of the key table are written.
#pragma once
#include <string>
#include <utility>
#include <vector>

#include "cli/case_keys.h"

namespace felloe {

inline Domain number(std::string unit, double smallest, double largest) {
  return {KeyType::number, std::move(unit), smallest, largest, nullptr, {}};
}
inline Domain whole(int smallest, int largest) {
  return {KeyType::whole_number, "-", double(smallest), double(largest), nullptr, {}};
}
inline Domain yes_no() { return {KeyType::yes_no, "", 0, 0, nullptr, {}}; }
inline Domain text() { return {KeyType::text, "", 0, 0, nullptr, {}}; }
inline Domain word(std::vector<std::string> (*words)(), std::string table = {}) {
  return {KeyType::word, "", 0, 0, words, std::move(table)};
}

using Place = Slot (*)(Case &, std::size_t);

inline Key required(std::string name, Domain domain, std::string summary, Place place) {
  return {std::move(name), std::move(domain), Need::required, {}, std::move(summary), place};
}
inline Key optional(std::string name, Domain domain, std::string summary, Place place) {
  return {std::move(name), std::move(domain), Need::may_be_absent, {}, std::move(summary), place};
}
inline Key standard(std::string name, Domain domain, Value value, std::string summary,
                    Place place) {
  return {std::move(name),  std::move(domain),  Need::has_default,
          std::move(value), std::move(summary), place};
}

/// The slot of a plain member.
template <class T>
Slot slot(T &member) {
  return {[&member] { return Value(member); },
          [&member](const Value &v) { member = std::get<T>(v); }};
}

/// The number with the fewest digits that gives `stored` when it is divided by `divisor`.
double read_back(double stored, double divisor);

/// A number kept in another unit: stored = value in the file / divisor.
inline Slot divided_slot(double &member, double divisor) {
  return {[&member, divisor] { return Value(read_back(member, divisor)); },
          [&member, divisor](const Value &v) { member = std::get<double>(v) / divisor; }};
}

/// An enumeration whose values count 0, 1, 2 in the order of the words.
template <class Enum>
Slot word_slot(Enum &member, std::vector<std::string> (*words)()) {
  return {[&member, words] { return Value(words().at(static_cast<std::size_t>(member))); },
          [&member, words](const Value &v) {
            const auto all = words();
            for (std::size_t i = 0; i < all.size(); ++i)
              if (all[i] == std::get<std::string>(v)) member = static_cast<Enum>(i);
          }};
}

}  // namespace felloe
