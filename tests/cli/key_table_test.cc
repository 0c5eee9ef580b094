// SPDX-License-Identifier: GPL-3.0-or-later
// Proves for every row of the key table at once what a new row must keep: it is documented, its
// default lies in its range, and it has a place of its own in the Case.
#include "cli/case_keys.h"

#include "cli/case_file.h"
#include "cli/nearest.h"
#include "tests/cli/program.h"

namespace felloe::test {
namespace {

/// A value that the key accepts and that differs from its default where there is more than one.
Value other_value(const Key &key) {
  const Domain &d = key.domain;
  switch (d.type) {
    case KeyType::number:
      return Value(0.25 * d.smallest + 0.75 * d.largest);
    case KeyType::whole_number:
      return Value(int(d.largest));
    case KeyType::yes_no:
      return Value(true);
    case KeyType::text:
      return Value(std::string("some text"));
    default:
      return Value(d.words().back());
  }
}

TEST(KeyTable, EveryRowIsDocumentedAndItsRangeMakesSense) {
  for (const auto &s : case_sections()) {
    std::set<std::string> names;
    EXPECT_FALSE(s.summary.empty()) << s.path;
    for (const auto &k : s.keys) {
      const std::string where = s.path + "." + k.name;
      EXPECT_TRUE(names.insert(k.name).second) << where;
      EXPECT_GT(k.summary.size(), 5u) << where;
      if (k.domain.type == KeyType::number || k.domain.type == KeyType::whole_number) {
        EXPECT_LT(k.domain.smallest, k.domain.largest) << where;
        EXPECT_FALSE(k.domain.unit.empty()) << where;
      }
      EXPECT_EQ(k.domain.type == KeyType::word, k.domain.words != nullptr) << where;
    }
  }
}

TEST(KeyTable, EveryDefaultIsAccepted) {
  for (const auto &s : case_sections())
    for (const auto &k : s.keys) {
      if (k.need != Need::has_default) continue;
      const std::string where = s.path + "." + k.name;
      if (const auto *d = std::get_if<double>(&k.standard)) {
        EXPECT_GE(*d, k.domain.smallest) << where;
        EXPECT_LE(*d, k.domain.largest) << where;
      }
      if (k.domain.type != KeyType::word) continue;
      const auto words = k.domain.words();
      EXPECT_EQ(std::count(words.begin(), words.end(), std::get<std::string>(k.standard)), 1)
          << where;
    }
}

TEST(KeyTable, NumbersCarryTheirUnitInTheName) {
  const std::pair<std::string, std::string> suffixes[] = {
      {"mm", "_mm"},     {"kg", "_kg"}, {"deg", "_deg"},    {"MPa", "_MPa"},
      {"N m", "_Nm"},    {"N", "_N"},   {"kPa", "_kPa"},    {"km", "_km"},
      {"%", "_percent"}, {"um", "_um"}, {"kg/m3", "_kg_m3"}};
  for (const auto &s : case_sections())
    for (const auto &k : s.keys)
      for (const auto &[unit, suffix] : suffixes)
        if (k.domain.unit == unit) {
          ASSERT_GT(k.name.size(), suffix.size());
          EXPECT_EQ(k.name.substr(k.name.size() - suffix.size()), suffix) << s.path;
        }
}

// Writes a different value through every key in turn: it must be read back there, and change the
// resolved case.
TEST(KeyTable, EveryKeyHasAPlaceOfItsOwn) {
  const Case wheel = read_case_text(test_wheel(), "w.toml");
  for (const auto &s : case_sections()) {
    if (!applies(s, Construction::welded_disc)) continue;
    if (s.path == "materials" || s.path == "wheel") continue;  // short forms; changes everything
    Case start = wheel;
    if (s.repeated() && s.size(start) == 0) s.resize(start, 1);
    for (const auto &k : s.keys) {
      if (k.name == "thickness_mm" && s.path == "disc") continue;  // short form of the list
      Case c = start;
      const Slot slot = k.place(c, 0);
      const Value value = other_value(k);
      if (slot.get() == value) continue;
      slot.put(value);
      EXPECT_EQ(slot.get(), value) << s.path << "." << k.name;
      EXPECT_NE(resolved_case(c), resolved_case(start)) << s.path << "." << k.name;
    }
  }
}

TEST(Nearest, FindsTheWordThatWasMeant) {
  const std::vector<std::string> known = {"thickness_mm", "inset_mm", "contour", "width_code"};
  EXPECT_EQ(nearest("thicknes_mm", known), "thickness_mm");
  EXPECT_EQ(nearest("thickness", known), "thickness_mm");
  EXPECT_EQ(nearest("Width-Code", known), "width_code");
  EXPECT_EQ(nearest("cnotour", known), "contour");
  EXPECT_EQ(nearest("colour_of_paint", known), "");
  EXPECT_EQ(nearest("", known), "");
}

TEST(PlainNumber, HasTheFewestDigitsThatReadBack) {
  EXPECT_EQ(plain_number(0.1), "0.1");
  EXPECT_EQ(plain_number(15), "15");
  EXPECT_EQ(toml_text(Value(15.0)), "15.0");
  EXPECT_EQ(toml_text(Value(1e22)), "1e+22");
  EXPECT_EQ(toml_text(Value(std::string("a\"b\\c\n"))), "\"a\\\"b\\\\c\\u000A\"");
}

}  // namespace
}  // namespace felloe::test
