// SPDX-License-Identifier: GPL-3.0-or-later
// The key table as JSON Schema, for editors that check and complete TOML.
#include <nlohmann/json.hpp>

#include "cli/case_file.h"
#include "cli/case_keys.h"

namespace felloe {
namespace {

using Json = nlohmann::ordered_json;

Json json(const Value &value) {
  return std::visit([](const auto &v) { return Json(v); }, value);
}

Json key_schema(const Key &key) {
  const Domain &d = key.domain;
  Json s;
  s["description"] = key.summary + (d.unit.empty() || d.unit == "-" ? "" : " [" + d.unit + "]");
  switch (d.type) {
    case KeyType::number:
      s["type"] = "number";
      break;
    case KeyType::whole_number:
      s["type"] = "integer";
      break;
    case KeyType::yes_no:
      s["type"] = "boolean";
      break;
    default:
      s["type"] = "string";
  }
  if (d.type == KeyType::number || d.type == KeyType::whole_number) {
    s["minimum"] = d.smallest;
    s["maximum"] = d.largest;
  }
  if (d.type == KeyType::word) s["enum"] = d.words();
  if (key.need == Need::has_default) s["default"] = json(key.standard);
  return s;
}

Json section_schema(const Section &section) {
  Json s;
  s["description"] = section.summary;
  s["type"] = "object";
  s["additionalProperties"] = false;
  s["properties"] = Json::object();
  Json required = Json::array();
  for (const auto &key : section.keys) {
    s["properties"][key.name] = key_schema(key);
    if (key.need == Need::required) required.push_back(key.name);
  }
  if (!required.empty()) s["required"] = required;
  return s;
}

/// Puts a child into its parent; a key of the same name (a material's name) stays as alternative.
void put(Json &parent, const std::string &name, Json child) {
  Json &place = parent["properties"][name];
  place = place.is_null() ? std::move(child) : Json{{"anyOf", Json::array({place, child})}};
}

}  // namespace

std::string case_schema() {
  Json root = section_schema(case_sections().front());
  root["required"] = Json::array();
  for (const auto &section : case_sections()) {
    if (section.path.empty()) continue;
    Json s = section_schema(section);
    if (section.repeated()) {
      Json list{{"type", "array"}, {"items", std::move(s)}};
      if (section.required) list["minItems"] = 1;
      s = std::move(list);
    }
    const auto dot = section.path.find('.');
    if (dot == std::string::npos) {
      put(root, section.path, std::move(s));
    } else {
      put(root["properties"][section.path.substr(0, dot)], section.path.substr(dot + 1),
          std::move(s));
    }
    if (section.required && section.applies == AppliesTo::every_construction &&
        dot == std::string::npos)
      root["required"].push_back(section.path);
  }
  root["description"] = "Case file of felloe: one wheel, its materials, loads and rig tests.";
  Json schema{{"$schema", "https://json-schema.org/draft/2020-12/schema"},
              {"title", "felloe case"}};
  schema.update(root);
  return schema.dump(2) + "\n";
}

}  // namespace felloe
