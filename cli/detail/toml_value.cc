// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/detail/toml_value.h"

#include <algorithm>
#include <cmath>

#include "cli/nearest.h"

namespace felloe {

toml::table parsed_toml(const std::string &text, const std::string &name) {
  try {
    return toml::parse(text, name);
  } catch (const toml::parse_error &e) {
    const auto begin = e.source().begin;
    Findings findings(name);
    findings.add(Spot{std::max(1, int(begin.line)), std::max(1, int(begin.column)), {}},
                 "not valid TOML: " + std::string(e.description()));
    findings.throw_if_any();
    throw;
  }
}

std::string written(const toml::node &node) {
  if (const auto *v = node.as_integer()) return std::to_string(v->get());
  if (const auto *v = node.as_floating_point()) return plain_number(v->get());
  if (const auto *v = node.as_boolean()) return v->get() ? "true" : "false";
  if (const auto *v = node.as_string())
    return toml_text(v->get().size() > 60 ? v->get().substr(0, 57) + "..." : v->get());
  return node.is_array() ? "[...]" : node.is_table() ? "{...}" : "a date or time";
}

Spot spot_of(const toml::node &node, std::string text) {
  const auto begin = node.source().begin;
  return {std::max(1, int(begin.line)), std::max(1, int(begin.column)), std::move(text)};
}

Spot spot_of(const toml::key &key, const toml::node &node) {
  const auto begin = key.source().begin;
  return {std::max(1, int(begin.line)), std::max(1, int(begin.column)), written(node)};
}

std::optional<Value> converted(const toml::node &node, const Domain &domain, std::string &why) {
  const auto refuse = [&](const std::string &reason) {
    why = reason + (reason.back() == '?' ? " Accepted: " : "; accepted: ") + accepted(domain);
    return std::optional<Value>();
  };
  switch (domain.type) {
    case KeyType::yes_no:
      if (const auto *v = node.as_boolean()) return Value(v->get());
      return refuse("wrong type");
    case KeyType::text:
      if (const auto *v = node.as_string()) return Value(v->get());
      return refuse("wrong type");
    case KeyType::word: {
      const auto *v = node.as_string();
      if (!v) return refuse("wrong type");
      const auto words = domain.words();
      if (std::find(words.begin(), words.end(), v->get()) != words.end()) return Value(v->get());
      const std::string near = did_you_mean(v->get(), words);
      // a long list would bury the suggestion
      if (!near.empty() && !domain.table.empty()) {
        why = "unknown" + near + " ('felloe list " + domain.table + "' shows them all)";
        return {};
      }
      return refuse("unknown" + near);
    }
    default:
      break;
  }
  const bool whole = domain.type == KeyType::whole_number;
  if (!node.is_integer() && !node.is_floating_point())
    return refuse(node.is_string() ? "wrong type, write the number without quotes" : "wrong type");
  if (whole && !node.is_integer()) return refuse("not a whole number");
  const double number = *node.value<double>();
  if (!std::isfinite(number)) return refuse("not a finite number");
  if (number < domain.smallest) return refuse("too small");
  if (number > domain.largest) return refuse("too large");
  return whole ? Value(int(number)) : Value(number);
}

}  // namespace felloe
