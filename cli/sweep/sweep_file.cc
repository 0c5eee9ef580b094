// SPDX-License-Identifier: GPL-3.0-or-later
// Reads a sweep file as strictly as a case file.
#include "cli/sweep/sweep_file.h"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <set>

#include "cli/case_file.h"
#include "cli/key_rows.h"
#include "cli/nearest.h"
#include "cli/sweep/detail/strict_tables.h"
#include "cli/text_file.h"

namespace felloe {
namespace {

constexpr double most_designs = 1e6;

std::vector<std::string> plan_kinds() {
  return {"full grid", "list", "latin hypercube", "sobol", "random"};
}
std::vector<std::string> depths() { return {"wheel", "section", "section first"}; }
std::vector<std::string> ways_to_apply() { return {"replace", "add", "multiply"}; }

template <class Enum>
Enum word_at(const std::vector<std::string> &words, const Value &value) {
  const auto at = std::find(words.begin(), words.end(), std::get<std::string>(value));
  return static_cast<Enum>(at - words.begin());
}

class Reader : private StrictTables {
 public:
  explicit Reader(const std::string &path) : StrictTables(path), path_(path) {}

  SweepFile read(const toml::table &root) {
    if (root.empty()) {
      findings_.add(Spot{}, "the sweep file is empty; 'felloe help sweep' shows a complete one");
      findings_.throw_if_any();
    }
    const auto wheel = root.find("wheel");
    if (wheel != root.end() && !root.contains("vary")) {
      findings_.add(spot_of(wheel->second), "[wheel]", "",
                    "this is a case file; a sweep file names it: case = \"" +
                        std::filesystem::path(path_).filename().string() +
                        "\", 'felloe help sweep' shows one");
      findings_.throw_if_any();
    }
    read_rows(root, "",
              {{"title", text(), [&](const Value &v) { s_.title = std::get<std::string>(v); }},
               {"case", text(), [&](const Value &v) { s_.case_path = std::get<std::string>(v); }}},
              {"plan", "vary", "require"});
    read_base(root);
    read_vary(root);
    read_plan(root);
    read_requirements(root);
    findings_.throw_if_any();
    return std::move(s_);
  }

 private:
  void read_base(const toml::table &root) {
    if (!root.contains("case"))
      findings_.add(Spot{}, "", "case", "the key is missing: the base case, relative to this file");
    if (s_.case_path.empty()) findings_.throw_if_any();
    s_.case_path = (std::filesystem::path(path_).parent_path() / s_.case_path).string();
    std::error_code ignored;
    if (!std::filesystem::is_regular_file(s_.case_path, ignored)) {
      add(root, "", "case",
          "there is no file " + s_.case_path +
              "; check the path, it counts from "
              "the sweep file's folder");
      findings_.throw_if_any();
    }
    s_.base = read_case(s_.case_path);
  }

  void read_vary(const toml::table &root) {
    const auto tables = tables_of(root, "vary");
    if (!root.contains("vary"))
      findings_.add(Spot{}, "[[vary]]", "", "the section is missing: it names a key that varies");
    std::set<std::string> names;
    for (std::size_t i = 0; i < tables.size(); ++i) {
      SweptKey k;
      if (!read_swept(*tables[i], section_text("vary", true, i), k)) all_keys_read_ = false;
      if (!k.name.empty() && !names.insert(k.name).second)
        add(*tables[i], section_text("vary", true, i), "key", "varies already; name each key once");
      s_.keys.push_back(std::move(k));
    }
  }

  /// The key stands there, rightly spelt or not.
  static bool meant(const toml::table &table, const std::string &key) {
    return std::any_of(table.begin(), table.end(), [&](const auto &entry) {
      const std::string name(entry.first.str());
      return name == key || nearest(name, {"key", "apply", "values", "from", "to", "steps", "mean",
                                           "deviation"}) == key;
    });
  }

  bool read_swept(const toml::table &table, const std::string &place, SweptKey &k) {
    std::string name;
    double steps = 0;
    bool apply_read = false;
    read_rows(table, place,
              {{"key", text(), [&](const Value &v) { name = std::get<std::string>(v); }},
               {"apply", word(ways_to_apply),
                [&](const Value &v) {
                  k.apply = word_at<Apply>(ways_to_apply(), v);
                  apply_read = true;
                }},
               {"steps", whole(1, 100000), [&](const Value &v) { steps = std::get<int>(v); }}},
              {"values", "from", "to", "mean", "deviation"});
    // a faulty number of steps is said already: none is missing then
    k.steps = steps > 0 ? int(steps) : meant(table, "steps") ? 1 : 0;
    if (!table.contains("key"))
      add(table, place, "key",
          "the key is missing: which key of the case varies, for example "
          "\"vent_holes.diameter_mm\"");
    if (name.empty()) return false;
    std::string why = find_key(name, s_.base, k);
    if (why.empty()) why = no_change_of(k, s_.base);
    if (!why.empty()) return add(table, place, "key", why), false;
    if (list_) return refuse_choices(table, place);
    if (!apply_read && meant(table, "apply")) return false;  // which range counts is not known
    if (table.contains("mean") || table.contains("deviation")) return read_normal(table, place, k);
    return table.contains("values") ? read_values(table, place, k) : read_range(table, place, k);
  }

  /// A plan of explicit designs has its values in the list.
  bool refuse_choices(const toml::table &table, const std::string &place) {
    bool good = true;
    for (const char *key : {"values", "from", "to", "steps", "mean", "deviation"})
      if (table.contains(key))
        add(table, place, key, "kind = \"list\" gives the values in [plan] list; remove the key"),
            good = false;
    return good;
  }

  bool read_values(const toml::table &table, const std::string &place, SweptKey &k) {
    for (const char *other : {"from", "to", "steps"})
      if (table.contains(other))
        add(table, place, other, "given together with values; keep one of the two");
    const auto *list = table.get("values")->as_array();
    if (!list || list->empty())
      return add(table, place, "values", "wrong type; write a list, [ 3.5, 3.8 ]"), false;
    for (const auto &item : *list) {
      std::string why;
      const auto value = converted(item, swept_domain(k), why);
      if (!value)
        findings_.add(spot_of(item, written(item)), place, "values", why);
      else if (std::find(k.values.begin(), k.values.end(), *value) != k.values.end())
        findings_.add(spot_of(item, written(item)), place, "values", "stands there twice");
      else
        k.values.push_back(*value);
    }
    return k.values.size() == list->size();
  }

  bool read_normal(const toml::table &table, const std::string &place, SweptKey &k) {
    const Domain domain = swept_domain(k);
    if (domain.type != KeyType::number)
      return add(table, place, "mean", "only numbers with a decimal point are normal"), false;
    bool good = true;
    for (const char *other : {"values", "from", "to", "steps"})
      if (table.contains(other))
        add(table, place, other, "given together with mean or deviation; keep one of the two"),
            good = false;
    const Domain spread = number(domain.unit, 1e-9, 1e6);
    for (const auto &[name, value, accepts] :
         {std::tuple("mean", &k.mean, domain), std::tuple("deviation", &k.deviation, spread)}) {
      const auto at = table.find(name);
      std::string why = "the key is missing; a normal distribution needs mean and deviation";
      const auto found =
          at == table.end() ? std::optional<Value>() : converted(at->second, accepts, why);
      if (found)
        *value = std::get<double>(*found);
      else
        add(table, place, name, why), good = false;
    }
    return good;
  }

  bool read_range(const toml::table &table, const std::string &place, SweptKey &k) {
    const Domain domain = swept_domain(k);
    if (domain.type != KeyType::number && domain.type != KeyType::whole_number)
      return add(table, place, "values", "the key is missing: the list of what to try"), false;
    bool good = true;
    for (const auto &[name, end] : {std::pair("from", &k.from), std::pair("to", &k.to)}) {
      const auto at = table.find(name);
      std::string why = "the key is missing; give from and to, or a list of values";
      const auto value =
          at == table.end() ? std::optional<Value>() : converted(at->second, domain, why);
      if (value)
        *end =
            domain.type == KeyType::whole_number ? std::get<int>(*value) : std::get<double>(*value);
      else
        add(table, place, name, why), good = false;
    }
    if (good && k.from > k.to)
      return add(table, place, "to", "must not be below from, " + plain_number(k.from)), false;
    if (good && k.from == k.to && table.contains("to"))
      return add(table, place, "to", "equals from; a key that varies needs a range"), false;
    return good;
  }

  void read_plan(const toml::table &root);
  void check_plan(const toml::table &plan);
  void check_grid(const toml::table &plan);
  void read_list(const toml::table &plan);
  void read_requirements(const toml::table &root);
  void read_sum(const toml::table &sum, const std::string &prefix, const std::string &place,
                Requirement &r);

  std::string path_;
  SweepFile s_;
  bool all_keys_read_ = true, list_ = false;

 public:
  void expect_list(const toml::table &root) {
    const auto kind = root["plan"]["kind"].value<std::string>();
    list_ = kind && *kind == "list";
  }
};

void Reader::read_plan(const toml::table &root) {
  const toml::node *node = root.get("plan");
  if (!node || !node->is_table())
    return findings_.add(node ? spot_of(*node, written(*node)) : Spot{}, "[plan]", "",
                         node ? "wrong type; write [plan] and its keys below"
                              : "the section is missing: it says how designs are chosen");
  const toml::table &plan = *node->as_table();
  const auto yes = [](const Value &v) { return std::get<bool>(v); };
  const auto count = [](const Value &v) { return std::get<int>(v); };
  read_rows(
      plan, "[plan]",
      {{"kind", word(plan_kinds),
        [&](const Value &v) { s_.kind = word_at<PlanKind>(plan_kinds(), v); }},
       {"depth", word(depths),
        [&](const Value &v) {
          s_.screened = std::get<std::string>(v) == "section first";
          s_.first = std::get<std::string>(v) == "wheel" ? Depth::wheel : Depth::section;
        }},
       {"screen_utilisation", number("-", 0.05, 10),
        [&](const Value &v) { s_.screen_utilisation = std::get<double>(v); }},
       {"designs", whole(1, int(most_designs)), [&](const Value &v) { s_.designs = count(v); }},
       {"seed", whole(0, 2147483647), [&](const Value &v) { s_.seed = count(v); }},
       {"workers", whole(0, 1024), [&](const Value &v) { s_.workers = count(v); }},
       {"shared_disk", yes_no(), [&](const Value &v) { s_.shared_disk = yes(v); }}},
      {"list"});
  check_plan(plan);
}

void Reader::check_plan(const toml::table &plan) {
  const auto misplaced = [&](const char *key, bool fits, const std::string &where) {
    if (plan.contains(key) && !fits)
      add(plan, "[plan]", key, "only for " + where + "; remove it or change the other");
  };
  const bool seeded = s_.kind == PlanKind::latin_hypercube || s_.kind == PlanKind::random;
  const bool sampled = seeded || s_.kind == PlanKind::sobol;
  if (!plan.contains("kind"))
    add(plan, "[plan]", "kind", "the key is missing; accepted: " + accepted(word(plan_kinds)));
  else if (sampled && !plan.contains("designs"))
    add(plan, "[plan]", "designs", "the key is missing: how many designs to choose");
  misplaced("designs", sampled, "kind = \"latin hypercube\", \"sobol\" and \"random\"");
  misplaced("seed", seeded, "kind = \"latin hypercube\" and \"random\"");
  misplaced("list", s_.kind == PlanKind::list, "kind = \"list\"");
  misplaced("screen_utilisation", s_.screened, "depth = \"section first\"");
  if (s_.screened && !plan.contains("screen_utilisation"))
    add(plan, "[plan]", "screen_utilisation",
        "the key is missing: up to which share of the allowed stress in the section a wheel is "
        "computed");
  if (s_.first == Depth::section && s_.base.wheel.construction != Construction::welded_disc)
    add(plan, "[plan]", "depth", "only a welded disc has a section model; write depth = \"wheel\"");
  if (s_.kind == PlanKind::list) read_list(plan);
  if (s_.kind == PlanKind::full_grid && all_keys_read_) check_grid(plan);
}

void Reader::check_grid(const toml::table &plan) {
  double n = 1;
  for (const SweptKey &k : s_.keys) {
    if (k.deviation > 0)
      add(plan, "[plan]", "kind", "a full grid takes no normal distribution ('" + k.name + "')");
    else if (k.values.empty() && k.steps == 0 && !(k.apply == Apply::replace && k.whole()))
      add(plan, "[plan]", "kind",
          "a full grid needs steps (how many values) beside from and to of '" + k.name + "'");
    else
      n *= double(k.values.empty() && k.steps > 0 ? k.steps : int(grid_values(k).size()));
  }
  if (n > most_designs)
    add(plan, "[plan]", "kind",
        "the grid has " + plain_number(n) + " designs; at most " + plain_number(most_designs) +
            "; take fewer steps, or kind = \"sobol\"");
}

void Reader::read_list(const toml::table &plan) {
  const std::string form = "; write list = [ [ ... ], ... ], in each the values of the " +
                           std::to_string(s_.keys.size()) + " keys of [[vary]] in their order";
  const toml::node *node = plan.get("list");
  if (!node) return add(plan, "[plan]", "list", "the key is missing" + form);
  const auto *list = node->as_array();
  if (!list || list->empty()) return add(plan, "[plan]", "list", "wrong type" + form);
  if (!all_keys_read_) return;
  for (const auto &item : *list) {
    const auto *row = item.as_array();
    if (!row || row->size() != s_.keys.size()) {
      findings_.add(spot_of(item, written(item)), "[plan]", "list",
                    (row ? "has " + std::to_string(row->size()) + " values" : "wrong type") + form);
      continue;
    }
    std::vector<Value> values;
    for (std::size_t k = 0; k < row->size(); ++k) {
      std::string why;
      const toml::node &cell = *row->get(k);
      if (const auto value = converted(cell, swept_domain(s_.keys[k]), why))
        values.push_back(*value);
      else
        findings_.add(spot_of(cell, written(cell)), "[plan]", "list, " + s_.keys[k].name, why);
    }
    s_.list.push_back(std::move(values));
  }
}

void Reader::read_requirements(const toml::table &root) {
  const auto tables = tables_of(root, "require");
  for (std::size_t i = 0; i < tables.size(); ++i) {
    const toml::table &table = *tables[i];
    const std::string place = section_text("require", true, i);
    Requirement r;
    const Domain any = number("-", -1e12, 1e12);
    read_rows(table, place,
              {{"at_least", any, [&](const Value &v) { r.at_least = std::get<double>(v); }},
               {"at_most", any, [&](const Value &v) { r.at_most = std::get<double>(v); }}},
              {"sum"});
    if (!table.contains("at_least") && !table.contains("at_most"))
      add(table, place, "at_least", "neither at_least nor at_most is given; a sum needs a bound");
    if (r.at_least > r.at_most)
      add(table, place, "at_most", "below at_least, " + plain_number(r.at_least));
    const toml::node *sum = table.get("sum");
    if (!sum || !sum->is_table() || sum->as_table()->empty())
      add(table, place, "sum",
          std::string(sum ? "wrong type" : "the key is missing") +
              "; write sum = { \"vent_holes.diameter_mm\" = 1.0, \"weld.leg_mm\" = -2.0 }");
    else
      read_sum(*sum->as_table(), "", place, r);
    s_.requirements.push_back(std::move(r));
  }
}

/// Keys may be quoted or, as TOML reads dots, nested tables.
void Reader::read_sum(const toml::table &sum, const std::string &prefix, const std::string &place,
                      Requirement &r) {
  std::vector<std::string> known;
  for (const SweptKey &k : s_.keys) known.push_back(k.name);
  for (const auto &[key, node] : sum) {
    const std::string name = prefix + std::string(key.str());
    if (const auto *inner = node.as_table()) {
      read_sum(*inner, name + ".", place, r);
      continue;
    }
    const auto at = std::find(known.begin(), known.end(), name);
    std::string why;
    const auto factor = converted(node, number("-", -1e9, 1e9), why);
    if (at == known.end()) {
      if (all_keys_read_) {
        const std::string near = did_you_mean(name, known);
        findings_.add(spot_of(key, node), place, "sum, " + name,
                      "does not vary; a sum takes keys of [[vary]]: " +
                          (near.empty() ? listed(known) : near.substr(2)));
      }
    } else if (!factor) {
      findings_.add(spot_of(key, node), place, "sum, " + name, why);
    } else {
      const std::size_t k = std::size_t(at - known.begin());
      const KeyType type = all_keys_read_ ? swept_domain(s_.keys[k]).type : KeyType::number;
      if (type != KeyType::number && type != KeyType::whole_number)
        findings_.add(spot_of(key, node), place, "sum, " + name, "is no number; leave it out");
      r.sum.push_back({k, std::get<double>(*factor)});
    }
  }
}

}  // namespace

SweepFile read_sweep_text(const std::string &text, const std::string &path) {
  const toml::table root = parsed_toml(text, path);
  Reader reader(path);
  reader.expect_list(root);
  SweepFile sweep = reader.read(root);
  sweep.text = text;
  return sweep;
}

SweepFile read_sweep(const std::string &path) {
  return read_sweep_text(read_text_file(path), path);
}

}  // namespace felloe
