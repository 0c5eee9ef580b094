// SPDX-License-Identifier: GPL-3.0-or-later
// The one table of all keys of a case file. Reading, checking, defaults, suggestions, the resolved
// case, the key list and the JSON Schema all walk it: a new key is one row.
#pragma once
#include <functional>
#include <string>
#include <variant>
#include <vector>

#include "cli/case.h"

namespace felloe {

using Value = std::variant<double, int, bool, std::string>;

enum class KeyType { number, whole_number, yes_no, text, word };

/// What a key accepts.
struct Domain {
  KeyType type = KeyType::number;
  std::string unit;                  ///< "-" for a pure number, empty for words and text
  double smallest = 0, largest = 0;  ///< numbers only, both ends allowed
  std::vector<std::string> (*words)() = nullptr;  ///< of KeyType::word
  std::string table = {};  ///< of long lists of words: the `felloe list` table that shows them
};

enum class Need {
  required,      ///< must stand in the file
  has_default,   ///< takes `Key::standard` when it is left out
  may_be_absent  ///< left out means: not used; stored as 0 or an empty text
};

/// Where a key's value lives in a Case.
struct Slot {
  std::function<Value()> get;
  std::function<void(const Value &)> put;
};

struct Key {
  std::string name;  ///< with its unit as suffix
  Domain domain;
  Need need = Need::required;
  Value standard;  ///< default, for Need::has_default
  std::string summary;
  Slot (*place)(Case &, std::size_t) = nullptr;  ///< the index counts repeated sections
  void (*after)(Case &, std::size_t) = nullptr;  ///< run after reading: fills in a table row
  bool welded_only = false;  ///< the key has no meaning for the construction "disc only"
};

enum class AppliesTo { every_construction, welded_disc, disc_only };

/// A [section], or a repeated [[section]].
struct Section {
  std::string path;  ///< "" for the top of the file, "disc.meridian" for a list inside [disc]
  std::string summary;
  AppliesTo applies = AppliesTo::every_construction;
  bool required = true;
  std::vector<Key> keys;
  bool (*present)(const Case &) = nullptr;      ///< optional sections: written only when this holds
  std::size_t (*size)(const Case &) = nullptr;  ///< repeated sections only
  void (*resize)(Case &, std::size_t) = nullptr;  ///< repeated sections only
  bool repeated() const { return resize != nullptr; }
};

/// All sections in the order of reading and writing.
const std::vector<Section> &case_sections();

/// The parts of that table, each in its own file.
std::vector<Section> shape_sections();
std::vector<Section> material_sections();
std::vector<Section> load_sections();
std::vector<Section> curve_sections();
std::vector<Section> gauge_sections();

/// Words of [[sn_curve]] use_for, in the order of Surface.
std::vector<std::string> curve_uses();
std::vector<Section> thin_sections();

bool applies(const Section &, Construction);
bool applies(const Key &, Construction);
std::string to_text(Construction);

/// True when the value is what an absent optional key leaves behind: 0, no, or an empty text.
bool is_unset(const Value &);
/// The value as TOML: shortest decimals that read back to the same number, quoted text.
std::string toml_text(const Value &);
/// The number with the fewest digits that reads back unchanged, without a forced decimal point.
std::string plain_number(double);
/// "0.5 to 20 mm", "whole number, 3 to 12", "\"sheared\" or \"reamed\"": what a key accepts.
std::string accepted(const Domain &);
/// "number", "whole number", "true or false", "text", "word".
std::string to_text(KeyType);

}  // namespace felloe
