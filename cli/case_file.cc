// SPDX-License-Identifier: GPL-3.0-or-later
// Reads a case file by walking the key table.
#include "cli/case_file.h"

#include <algorithm>

#include "cli/case_keys.h"
#include "cli/case_rules.h"
#include "cli/detail/toml_value.h"
#include "cli/findings.h"
#include "cli/nearest.h"
#include "cli/own_values.h"
#include "cli/text_file.h"
#include "mesher/error.h"

namespace felloe {
namespace {

std::vector<std::string> key_names(const Section &section, Construction construction) {
  std::vector<std::string> names;
  for (const auto &key : section.keys)
    if (applies(key, construction)) names.push_back(key.name);
  const std::string prefix = section.path.empty() ? "" : section.path + ".";
  for (const auto &s : case_sections())
    if (!s.path.empty() && s.path.compare(0, prefix.size(), prefix) == 0 &&
        s.path.find('.', prefix.size()) == std::string::npos && applies(s, construction))
      if (std::find(names.begin(), names.end(), s.path.substr(prefix.size())) == names.end())
        names.push_back(s.path.substr(prefix.size()));
  return names;
}

/// How a list of tables is written, with the section's required keys: "[ { z_mm = ... }, ... ]".
std::string list_form(const Section &section) {
  std::string keys;
  for (const auto &key : section.keys) keys += (keys.empty() ? "" : ", ") + key.name + " = ...";
  return "[ { " + keys + " }, ... ]";
}

class Reader {
 public:
  explicit Reader(const std::string &file) : findings_(file) { case_.file = file; }

  Case read(const toml::table &root) {
    refuse_sweep_file(root);
    if (root.empty())
      findings_.add(Spot{}, "the case file is empty; 'felloe help check' shows a complete one");
    else
      for (const auto &section : case_sections()) read_section(section, root);
    if (!root.empty()) check_rules(case_, given_, findings_);
    findings_.throw_if_any();
    note_own_values(case_);
    return std::move(case_);
  }

 private:
  Construction construction() const { return case_.wheel.construction; }

  /// One message in place of one for every key.
  void refuse_sweep_file(const toml::table &root) {
    const auto vary = root.find("vary");
    if (vary == root.end() || root.contains("wheel")) return;
    findings_.add(spot_of(vary->second), "[[vary]]", "",
                  "this is a sweep file: 'felloe sweep' computes it; give the case that it names");
    findings_.throw_if_any();
  }

  /// The node of a section, or null: nothing there, or its parent is no table.
  static const toml::node *node_of(const std::string &path, const toml::table &root) {
    if (path.empty()) return &root;
    const auto dot = path.find('.');
    const toml::node *node = root.get(path.substr(0, dot));
    if (dot == std::string::npos || !node) return node;
    const auto *parent = node->as_table();
    return parent ? parent->get(path.substr(dot + 1)) : nullptr;
  }

  void read_section(const Section &section, const toml::table &root) {
    const toml::node *node = node_of(section.path, root);
    if (!applies(section, construction())) {
      if (node)
        findings_.add(spot_of(*node), section_text(section.path), "",
                      "a wheel with construction = \"" + to_text(construction()) +
                          "\" has no such section; remove it");
      return;
    }
    if (section.repeated() && !node && given_.has(section.path, 0)) return;
    if (section.repeated()) return read_list(section, node);
    for (const auto &key : section.keys)
      if (key.need == Need::has_default) key.place(case_, 0).put(key.standard);
    if (!node) {
      if (section.required && !given_.has(section.path, 0))
        findings_.add(
            given_.spot("", 0), section_text(section.path), "",
            "the section is missing; its keys are " + listed(key_names(section, construction())));
      return;
    }
    if (const auto *table = node->as_table())
      read_table(section, *table, 0);
    else if (!is_short_form(section, *node))
      findings_.add(
          spot_of(*node, written(*node)), section_text(section.path), "",
          "must be a section with the keys " + listed(key_names(section, construction())));
  }

  /// [materials] disc = "row" stands for the section [materials.disc].
  static bool is_short_form(const Section &section, const toml::node &node) {
    return section.path.find('.') != std::string::npos && !node.is_array();
  }

  void read_list(const Section &section, const toml::node *node) {
    const auto *list = node ? node->as_array() : nullptr;
    const bool tables = list && std::all_of(list->begin(), list->end(),
                                            [](const toml::node &n) { return n.is_table(); });
    if (node && !tables) {
      Spot spot = spot_of(*node, written(*node));
      findings_.add(
          spot, section_text(section.path), "",
          node->is_table()
              ? "the section may repeat; write its header with two brackets, [[" + section.path +
                    "]]"
              : "must be a list of the form " + list_form(section) + ". " + section.summary);
      spot.faulty = true;
      return given_.add(section.path, 0, "", spot);
    }
    const auto dot = section.path.find('.');
    if (dot != std::string::npos && !given_.has(section.path.substr(0, dot), 0))
      return;  // the section around it is missing or faulty: said already
    if (section.required && !given_.has(section.path, 0) && (!list || list->empty()))
      return findings_.add(node ? spot_of(*node) : parent_spot(section.path),
                           section_text(section.path), "",
                           "the list is missing; write " + list_form(section));
    if (!list) return;
    section.resize(case_, list->size());
    for (std::size_t i = 0; i < list->size(); ++i) {
      for (const auto &key : section.keys)
        if (key.need == Need::has_default) key.place(case_, i).put(key.standard);
      read_table(section, *list->get(i)->as_table(), i);
    }
  }

  Spot parent_spot(const std::string &path) const {
    return given_.spot(path.substr(0, path.find('.')), 0);
  }

  void read_table(const Section &section, const toml::table &table, std::size_t index) {
    given_.add(section.path, index, "", spot_of(table));
    const std::string place = section_text(section.path, section.repeated(), index);
    refuse_unknown(section, table, index);
    for (const auto &key : section.keys) {
      const auto found = table.find(key.name);
      if (found != table.end())
        read_key(section, key, found->first, found->second, index);
      else if (key.need == Need::required && applies(key, construction()) &&
               !given_.has(section.path, index, key.name))
        findings_.add(spot_of(table), place, key.name,
                      "the key is missing: " + key.summary + " Accepted: " + accepted(key.domain));
    }
  }

  /// A key that is misspelt counts as given, so that it is not called missing as well.
  void refuse_unknown(const Section &section, const toml::table &table, std::size_t index) {
    const auto known = key_names(section, construction());
    for (const auto &[name, node] : table) {
      const std::string found(name.str());
      bool is_known = false;
      for (const auto c : {Construction::welded_disc, Construction::disc_only}) {
        const auto names = key_names(section, c);
        is_known = is_known || std::find(names.begin(), names.end(), found) != names.end();
      }
      if (is_known) continue;
      Spot spot = spot_of(name, node);
      findings_.add(spot, section_text(section.path, section.repeated(), index), found,
                    unknown(section, found));
      const std::string meant = nearest(found, known);
      if (meant.empty() || table.contains(meant)) continue;
      spot.faulty = true;
      given_.add(section.path, index, meant, spot);
      const std::string child = section.path.empty() ? meant : section.path + "." + meant;
      given_.add(child, 0, "", spot);
    }
  }

  std::string unknown(const Section &section, const std::string &found) const {
    const auto known = key_names(section, construction());
    const std::string what = section.path.empty() ? "unknown section or key" : "unknown key";
    const std::string near = did_you_mean(found, known);
    if (!near.empty()) return what + near;
    for (const auto &other : case_sections())
      for (const auto &key : other.keys)
        if (key.name == found && applies(other, construction()))
          return what + " here; it belongs to " +
                 (other.path.empty() ? "the top of the file" : section_text(other.path));
    return what + "; known are " + listed(known);
  }

  void read_key(const Section &section, const Key &key, const toml::key &name,
                const toml::node &node, std::size_t index) {
    // [materials] disc = { ... } is read as the section [materials.disc].
    if (node.is_table() && key.domain.type == KeyType::word) {
      for (const auto &s : case_sections())
        if (s.path == section.path + "." + key.name) return;
    }
    const std::string place = section_text(section.path, section.repeated(), index);
    const Spot spot = spot_of(name, node);
    Spot faulty = spot;
    faulty.faulty = true;
    given_.add(section.path, index, key.name, faulty);
    if (!applies(key, construction()))
      return findings_.add(spot, place, key.name,
                           "a wheel with construction = \"" + to_text(construction()) +
                               "\" has no " + key.name + "; remove the key");
    std::string why;
    const auto value = converted(node, key.domain, why);
    if (!value) return findings_.add(spot, place, key.name, why);
    given_.add(section.path, index, key.name, spot);
    key.place(case_, index).put(*value);
    if (key.after) key.after(case_, index);
  }

  Case case_;
  GivenKeys given_;
  Findings findings_;
};

}  // namespace

Case read_case_text(const std::string &text, const std::string &name) {
  return Reader(name).read(parsed_toml(text, name));
}

Case read_case(const std::string &path) { return read_case_text(read_text_file(path), path); }

}  // namespace felloe
