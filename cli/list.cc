// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/list.h"

#include <nlohmann/json.hpp>

#include "cli/case_file.h"
#include "cli/case_keys.h"
#include "cli/list_tables.h"
#include "cli/manual.h"
#include "cli/nearest.h"
#include "cli/wrapping.h"
#include "mesher/error.h"

namespace felloe {
namespace {

using nlohmann::ordered_json;

std::string printed(const ListTable &table, std::size_t width) {
  std::string text = wrapped(table.title, 0, width);
  for (const ListRow &row : table.rows) {
    text += "\n  " + row.name + (row.standard ? "  (default)" : "") + "\n" +
            wrapped(row.summary, 6, width) + wrapped(row.figures, 6, width) +
            wrapped("source: " + row.source + " (confidence: " + row.confidence + ")", 6, width);
  }
  for (const std::string &remark : table.remarks) text += "\n" + wrapped(remark, 2, width);
  return text;
}

std::string printed(const std::vector<ListTable> &tables, std::size_t width) {
  std::string text;
  for (const ListTable &t : tables) text += (text.empty() ? "" : "\n") + printed(t, width);
  return text;
}

ordered_json rows_json(const std::vector<ListTable> &tables) {
  ordered_json all = ordered_json::array();
  for (const ListTable &t : tables)
    for (const ListRow &row : t.rows)
      all.push_back({{"table", t.title},
                     {"name", row.name},
                     {"summary", row.summary},
                     {"figures", row.figures},
                     {"standard", row.standard},
                     {"source", row.source},
                     {"confidence", row.confidence}});
  return all;
}

std::string section_name(const Section &s) {
  return s.path.empty() ? "top of the file"
         : s.repeated() ? "[[" + s.path + "]]"
                        : "[" + s.path + "]";
}

std::string need(const Key &k) {
  return k.need == Need::required      ? "required"
         : k.need == Need::has_default ? "default " + toml_text(k.standard)
                                       : "optional";
}

std::string key_list(std::size_t width) {
  std::string text =
      "Keys of a case file\n\n" +
      wrapped(
          "Defaults of numbers are own values unless their line says where they come from; those "
          "of "
          "loads come from 'felloe list loads', those named after a row from the row's table.",
          2, width);
  for (const Section &s : case_sections()) {
    text += "\n" + section_name(s) +
            (s.applies == AppliesTo::welded_disc ? "  (welded disc only)"
             : s.applies == AppliesTo::disc_only ? "  (disc only)"
                                                 : "") +
            (s.required ? "" : "  optional") + "\n" + wrapped(s.summary, 2, width);
    for (const Key &k : s.keys) {
      text += "    " + k.name + "  (" + to_text(k.domain.type) + ", " + need(k) + ")\n";
      text += wrapped(k.summary, 8, width);
      if (k.domain.type != KeyType::text && k.domain.type != KeyType::yes_no)
        text += wrapped("accepted: " + accepted(k.domain), 8, width);
    }
  }
  return text;
}

ordered_json keys_json() {
  ordered_json all = ordered_json::array();
  for (const Section &s : case_sections())
    for (const Key &k : s.keys)
      all.push_back({{"section", section_name(s)},
                     {"name", k.name},
                     {"type", to_text(k.domain.type)},
                     {"need", need(k)},
                     {"accepted", accepted(k.domain)},
                     {"summary", k.summary}});
  return all;
}

/// What is no table of rows.
struct TextTopic {
  std::string name, summary;
  std::string (*text)(std::size_t width);
};

const std::vector<TextTopic> &text_topics() {
  static const std::vector<TextTopic> all = {
      {"keys", "every key of a case file: type, unit, range, default", key_list},
      {"schema", "the same as JSON Schema, for editors", [](std::size_t) { return case_schema(); }},
      {"manual", "the man page", [](std::size_t) { return man_page(); }},
      {"completion", "completion for bash", [](std::size_t) { return bash_completion(); }}};
  return all;
}

[[noreturn]] void unknown_topic(const std::string &topic) {
  throw Error("list: " + topic + ": unknown table" + did_you_mean(topic, list_topics()) +
              " (known: " + listed(list_topics()) + ")");
}

}  // namespace

std::vector<std::string> list_topics() {
  std::vector<std::string> names;
  for (const ListTopic &t : list_tables()) names.push_back(t.name);
  for (const TextTopic &t : text_topics()) names.push_back(t.name);
  return names;
}

std::string list_topic_lines() {
  std::string text;
  const auto add = [&](std::string name, const std::string &summary) {
    name.resize(14, ' ');
    text += "  " + name + summary + "\n";
  };
  for (const ListTopic &t : list_tables()) add(t.name, t.summary);
  for (const TextTopic &t : text_topics()) add(t.name, t.summary);
  return text;
}

std::string list_text(const std::string &topic, std::size_t width) {
  std::string text;
  for (const ListTopic &t : list_tables())
    if (topic.empty() || topic == t.name)
      text += (text.empty() ? "" : "\n") + printed(t.tables(), width);
  for (const TextTopic &t : text_topics())
    if (topic == t.name) text = t.text(width);
  if (text.empty()) unknown_topic(topic);
  return text;
}

std::string list_json(const std::string &topic) {
  if (topic == "schema") return case_schema();
  if (topic == "manual" || topic == "completion")
    throw Error("list: " + topic + " is no table and has no JSON; leave out --json");
  ordered_json all;
  for (const ListTopic &t : list_tables())
    if (topic.empty() || topic == t.name) all[t.name] = rows_json(t.tables());
  if (topic == "keys") all["keys"] = keys_json();
  if (all.empty()) unknown_topic(topic);
  return all.dump(2) + "\n";
}

}  // namespace felloe
