// SPDX-License-Identifier: GPL-3.0-or-later
// Rows of the key table: materials, by name of a table row or with own values.
#include "cli/key_rows.h"

namespace felloe {
namespace {

std::vector<std::string> material_names() {
  std::vector<std::string> names;
  for (const auto &m : materials()) names.push_back(m.name);
  return names;
}

std::vector<std::string> families() { return {"steel", "wrought aluminium", "cast aluminium"}; }

/// The place of one part's material in a Case: 0 disc, 1 rim, 2 weld.
template <int part>
Material &material_of(Case &c) {
  return part == 0 ? c.disc_material : part == 1 ? c.rim_material : c.weld_material;
}

template <int part>
void fill_from_row(Case &c, std::size_t) {
  material_of<part>(c) = material(c.material_rows[part]);
}

template <int part>
Slot row_slot(Case &c, std::size_t) {
  return slot(c.material_rows[part]);
}

/// [materials] disc = "row": short for [materials.disc] row = "row"; only ever read.
template <int part>
Key short_form(const std::string &name, bool welded_only) {
  Key key = optional(name, word(material_names, "materials"),
                     "Name of a row of 'felloe list materials', or a table of own values.",
                     [](Case &c, std::size_t) {
                       return Slot{[] { return Value(std::string()); }, row_slot<part>(c, 0).put};
                     });
  key.after = fill_from_row<part>;
  key.welded_only = welded_only;
  return key;
}

template <int part>
Section own_values(const std::string &name, AppliesTo applies) {
  Key row = optional("row", word(material_names, "materials"),
                     "Start from this row of 'felloe list materials'; the keys below change it.",
                     row_slot<part>);
  row.after = fill_from_row<part>;
  return {
      "materials." + name,
      "The " + name + "'s material in own values; or write " + name + " = \"row\" in [materials].",
      applies,
      false,
      {row,
       optional("name", text(), "What reports call the material.",
                [](Case &c, std::size_t) { return slot(material_of<part>(c).name); }),
       standard(
           "family", word(families), std::string("steel"), "Which fatigue constants hold for it.",
           [](Case &c, std::size_t) { return word_slot(material_of<part>(c).family, families); }),
       optional("youngs_modulus_MPa", number("MPa", 1000, 1e6), "Young's modulus.",
                [](Case &c, std::size_t) { return slot(material_of<part>(c).youngs_modulus); }),
       optional("poissons_ratio", number("-", 0.01, 0.49), "Poisson's ratio.",
                [](Case &c, std::size_t) { return slot(material_of<part>(c).poissons_ratio); }),
       optional(
           "density_kg_m3", number("kg/m3", 100, 30000), "Density.",
           [](Case &c, std::size_t) { return divided_slot(material_of<part>(c).density, 1e9); }),
       optional("yield_strength_MPa", number("MPa", 10, 5000), "Specified minimum yield strength.",
                [](Case &c, std::size_t) { return slot(material_of<part>(c).yield_strength); }),
       optional("tensile_strength_MPa", number("MPa", 20, 5000),
                "Specified minimum tensile strength; the S-N curve starts from it.",
                [](Case &c, std::size_t) { return slot(material_of<part>(c).tensile_strength); })},
      [](const Case &c) { return material_of<part>(const_cast<Case &>(c)).youngs_modulus > 0; }};
}

}  // namespace

std::vector<Section> material_sections() {
  return {{"materials",
           "What the parts are made of.",
           AppliesTo::every_construction,
           true,
           {short_form<0>("disc", false), short_form<1>("rim", true), short_form<2>("weld", true)},
           [](const Case &) { return false; }},
          own_values<0>("disc", AppliesTo::every_construction),
          own_values<1>("rim", AppliesTo::welded_disc),
          own_values<2>("weld", AppliesTo::welded_disc)};
}

}  // namespace felloe
