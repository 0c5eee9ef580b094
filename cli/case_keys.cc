// SPDX-License-Identifier: GPL-3.0-or-later
// The key table put together, and how its values and ranges are spelled.
#include "cli/case_keys.h"

#include <charconv>
#include <cmath>
#include <cstdio>
#include <cstdlib>

#include "cli/key_rows.h"

namespace felloe {

const std::vector<Section> &case_sections() {
  static const std::vector<Section> all = [] {
    std::vector<Section> sections = shape_sections();
    for (const auto &more : {material_sections(), load_sections(), curve_sections(),
                             gauge_sections(), thin_sections()})
      sections.insert(sections.end(), more.begin(), more.end());
    return sections;
  }();
  return all;
}

bool applies(const Section &section, Construction construction) {
  return section.applies == AppliesTo::every_construction ||
         (section.applies == AppliesTo::welded_disc) == (construction == Construction::welded_disc);
}

bool applies(const Key &key, Construction construction) {
  return !key.welded_only || construction == Construction::welded_disc;
}

std::string to_text(Construction construction) {
  return construction == Construction::welded_disc ? "welded disc" : "disc only";
}

bool is_unset(const Value &value) {
  if (const auto *d = std::get_if<double>(&value)) return *d == 0;
  if (const auto *i = std::get_if<int>(&value)) return *i == 0;
  if (const auto *b = std::get_if<bool>(&value)) return !*b;
  return std::get<std::string>(value).empty();
}

double read_back(double stored, double divisor) {
  char digits[40];
  for (int n = 1; n <= 17; ++n) {
    std::snprintf(digits, sizeof digits, "%.*g", n, stored * divisor);
    const double value = std::strtod(digits, nullptr);
    if (value / divisor == stored) return value;
  }
  return stored * divisor;
}

std::string plain_number(double value) {
  char digits[40];
  // 200000 reads better than 2e+05
  const bool plain = std::abs(value) < 1e7 && value == std::floor(value);
  const auto end =
      plain ? std::to_chars(digits, digits + sizeof digits, value, std::chars_format::fixed)
            : std::to_chars(digits, digits + sizeof digits, value);
  return std::string(digits, end.ptr);
}

std::string toml_text(const Value &value) {
  if (const auto *d = std::get_if<double>(&value)) {
    const std::string digits = plain_number(*d);
    return digits.find_first_of(".en") == std::string::npos ? digits + ".0" : digits;
  }
  if (const auto *i = std::get_if<int>(&value)) return std::to_string(*i);
  if (const auto *b = std::get_if<bool>(&value)) return *b ? "true" : "false";
  std::string quoted = "\"";
  for (const char c : std::get<std::string>(value)) {
    const auto code = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      quoted += '\\';
      quoted += c;
    } else if (code < 0x20 || code == 0x7f) {
      char escape[8];
      std::snprintf(escape, sizeof escape, "\\u%04X", code);
      quoted += escape;
    } else {
      quoted += c;
    }
  }
  return quoted + '"';
}

std::string to_text(KeyType type) {
  switch (type) {
    case KeyType::number:
      return "number";
    case KeyType::whole_number:
      return "whole number";
    case KeyType::yes_no:
      return "true or false";
    case KeyType::text:
      return "text in quotes";
    default:
      return "word in quotes";
  }
}

std::string accepted(const Domain &domain) {
  const std::string range = plain_number(domain.smallest) + " to " + plain_number(domain.largest);
  switch (domain.type) {
    case KeyType::number:
      return range + (domain.unit == "-" ? "" : " " + domain.unit);
    case KeyType::whole_number:
      return "a whole number, " + range;
    case KeyType::word: {
      std::string list;
      for (const auto &w : domain.words()) list += (list.empty() ? "\"" : ", \"") + w + '"';
      return list;
    }
    default:
      return to_text(domain.type);
  }
}

}  // namespace felloe
