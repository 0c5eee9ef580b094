// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sweep/swept_key.h"

#include <boost/math/distributions/normal.hpp>

#include <algorithm>
#include <cmath>
#include <regex>

#include "cli/nearest.h"

namespace felloe {
namespace {

std::string path_of(const Section &section, const Key &key, const std::string &row) {
  return (section.path.empty() ? "" : section.path + row + ".") + key.name;
}

bool can_vary(const Section &section, const Key &key, const Case &base) {
  const Construction c = base.wheel.construction;
  return applies(section, c) && applies(key, c) && key.domain.type != KeyType::text &&
         section.path != "wheel";
}

/// "; did you mean 'disc.thickness[1].s_mm'?" for a name without its row numbers.
std::string suggestion(const std::string &bare, const Case &base) {
  std::vector<std::string> plain, full;
  for (const Section &s : case_sections())
    for (const Key &k : s.keys)
      if (can_vary(s, k, base)) {
        plain.push_back(path_of(s, k, ""));
        full.push_back(path_of(s, k, s.repeated() ? "[1]" : ""));
      }
  std::string near = nearest(bare, plain);
  if (near.empty()) {  // the key alone, without its section
    for (std::size_t i = 0; i < plain.size() && near.empty(); ++i)
      if (plain[i].substr(plain[i].rfind('.') + 1) == bare.substr(bare.rfind('.') + 1))
        near = plain[i];
  }
  if (near.empty()) return "; 'felloe list keys' shows all: write section.key";
  return "; did you mean '" +
         full[std::size_t(std::find(plain.begin(), plain.end(), near) - plain.begin())] + "'?";
}

std::string row_problem(const std::string &row, std::size_t rows, SweptKey &found) {
  const std::string &path = found.section->path;
  if (!found.section->repeated())
    return row.empty() ? "" : "[" + path + "] stands once; leave out the row number";
  if (row.empty())
    return "'" + path + "' is a list; write " + path + "[1]." + found.key->name +
           " for its first row, [*] "
           "for all rows";
  if (rows == 0) return "the base case has no '" + path + "'; add it there first";
  found.row = row == "*" ? -1 : std::stoi(row) - 1;
  if (row != "*" && (found.row < 0 || found.row >= int(rows)))
    return "the base case has no such row; accepted: 1 to " + std::to_string(rows) + ", or *";
  return "";
}

}  // namespace

std::string find_key(const std::string &name, const Case &base, SweptKey &found) {
  static const std::regex form(
      R"(([a-z_A-Z]+(?:\.[a-z_A-Z]+)*?)(?:\[(\d{1,4}|\*)\])?\.([A-Za-z_0-9]+))");
  std::smatch parts;
  const std::string bare = std::regex_replace(name, std::regex(R"(\[[^\]]*\])"), "");
  if (!std::regex_match(name, parts, form)) return "no key of a case" + suggestion(bare, base);
  for (const Section &s : case_sections())
    for (const Key &k : s.keys)
      if (s.path == parts[1] && k.name == parts[3]) {
        found.section = &s;
        found.key = &k;
      }
  if (!found.key) return "no key of a case" + suggestion(bare, base);
  found.name = name;
  found.unit = found.key->domain.unit == "-" ? "" : found.key->domain.unit;
  if (!can_vary(*found.section, *found.key, base))
    return applies(*found.section, base.wheel.construction) &&
                   applies(*found.key, base.wheel.construction)
               ? "can't be varied"
               : "the base case, construction = \"" + to_text(base.wheel.construction) +
                     "\", has no such key";
  const std::size_t rows = found.section->repeated() ? found.section->size(base) : 0;
  const std::string problem = row_problem(parts[2], rows, found);
  if (!problem.empty()) return problem;
  const bool needs_more = std::any_of(
      found.section->keys.begin(), found.section->keys.end(),
      [&](const Key &k) { return k.need == Need::required && k.name != found.key->name; });
  if (needs_more && found.section->present && !found.section->present(base))
    return "the base case has no [" + found.section->path + "]; add it there first";
  return "";
}

Domain swept_domain(const SweptKey &k) {
  if (k.apply == Apply::replace) return k.key->domain;
  return {KeyType::number, k.apply == Apply::add ? k.unit : "-", -1e6, 1e6, nullptr, {}};
}

std::string no_change_of(const SweptKey &k, const Case &base) {
  if (k.apply == Apply::replace) return "";
  const std::string verb = k.apply == Apply::add ? "add to" : "multiply";
  if (k.key->domain.type != KeyType::number)
    return "only numbers with a decimal point can change this way; there is nothing to " + verb;
  Case c = base;
  if (k.key->need == Need::may_be_absent &&
      is_unset(k.key->place(c, std::size_t(std::max(0, k.row))).get()))
    return "the base case gives no " + k.key->name + " to " + verb +
           (k.name == "disc.thickness_mm" ? "; use disc.thickness[*].thickness_mm" : "");
  return "";
}

void apply_value(Case &c, const SweptKey &k, const Value &value) {
  const bool every = k.section->repeated() && k.row < 0;
  const std::size_t begin = every ? 0 : std::size_t(k.row);
  const std::size_t end = every ? k.section->size(c) : begin + 1;
  for (std::size_t i = begin; i < end; ++i) {
    const Slot slot = k.key->place(c, i);
    if (k.apply == Apply::replace) {
      slot.put(value);
    } else {
      const double before = std::get<double>(slot.get()), change = std::get<double>(value);
      // twelve digits: 3.8 - 0.1 is 3.7 in the case of the design, not 3.6999999999999997
      const double after = k.apply == Apply::add ? before + change : before * change;
      char digits[40];
      std::snprintf(digits, sizeof digits, "%.12g", after);
      slot.put(std::strtod(digits, nullptr));
    }
    if (k.key->after) k.key->after(c, i);
  }
}

namespace {

/// A number of the range, as a person would write it.
Value rounded(const SweptKey &k, double x) {
  if (k.apply == Apply::replace && k.whole()) return int(std::lround(x));
  const double unit = std::pow(10, std::floor(std::log10(std::abs(k.to - k.from))) - 6);
  char digits[40];
  std::snprintf(digits, sizeof digits, "%.12g", std::round(x / unit) * unit);
  return std::strtod(digits, nullptr);
}

}  // namespace

std::vector<Value> grid_values(const SweptKey &k) {
  if (!k.values.empty()) return k.values;
  const int n = k.steps > 0 ? k.steps : int(std::lround(k.to - k.from)) + 1;
  std::vector<Value> all;
  for (int i = 0; i < n; ++i) {
    const Value v = rounded(k, n > 1 ? k.from + (k.to - k.from) * i / (n - 1) : k.from);
    if (all.empty() || v != all.back()) all.push_back(v);
  }
  return all;
}

Value value_at(const SweptKey &k, double u) {
  const auto choice = [u](std::size_t n) { return std::min(n - 1, std::size_t(u * double(n))); };
  if (!k.values.empty()) return k.values[choice(k.values.size())];
  if (k.apply == Apply::replace && k.whole())
    return int(std::lround(k.from)) + int(choice(std::size_t(std::lround(k.to - k.from)) + 1));
  if (k.deviation == 0) return rounded(k, k.from + u * (k.to - k.from));
  // u = 0 would lie at minus infinity; half of the smallest step of the generator is near enough
  const double z = boost::math::quantile(boost::math::normal(), std::max(u, 0x1p-54));
  SweptKey range = k;
  range.from = k.mean - k.deviation, range.to = k.mean + k.deviation;
  return rounded(range, k.mean + z * k.deviation);
}

}  // namespace felloe
