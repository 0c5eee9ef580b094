// SPDX-License-Identifier: GPL-3.0-or-later
// The table of grades. Every number carries where it was found.
#include "mesher/error.h"
#include "solver/material.h"
#include "solver/nearest_name.h"

namespace felloe {
namespace {

constexpr double steel_modulus = 206000;  // FKM guideline; other handbooks print up to 210000
constexpr double steel_poisson = 0.30;    // from memory
constexpr double steel_density = 7.85e-6;

Material steel(const char *name, const std::string &summary, double yield, double tensile,
               const std::string &strength_source, const std::string &confidence) {
  return {name,
          summary,
          MaterialFamily::steel,
          steel_modulus,
          steel_poisson,
          steel_density,
          yield,
          tensile,
          strength_source +
              "; E 206 GPa FKM guideline; nu 0.30 from memory; density 7850 kg/m3 steel data sheet",
          confidence};
}

Material high_yield(const char *name, double yield, double tensile) {
  return steel(name, "hot-rolled high-yield steel for cold forming", yield, tensile,
               "EN 10149-2, smallest yield and tensile strength", "found");
}

// The standard limits the tensile strength of these grades from above only.
Material soft(const char *name, double yield) {
  return steel(name, "hot-rolled mild steel for cold forming, 2 to 11 mm", yield, 270,
               "EN 10111:2008, smallest yield strength; its tensile strength is a maximum, so the "
               "fatigue strength uses 270 MPa",
               "yield found; tensile strength 270 MPa common practice, no source: use a measured "
               "value");
}

Material structural_sheet(const char *name, double yield, double tensile) {
  return steel(name, "hot-rolled sheet for automobile structures, below 6 mm", yield, tensile,
               "JIS G 3113, smallest yield and tensile strength", "found");
}

Material dual_phase(const char *name, double yield, double tensile) {
  return steel(name, "hot-rolled dual-phase steel for wheel discs, 3 to 6 mm", yield, tensile,
               "strip maker's data sheet, smallest yield and tensile strength", "found");
}

std::vector<Material> table() {
  return {
      high_yield("S315MC", 315, 390),
      high_yield("S355MC", 355, 430),
      high_yield("S420MC", 420, 480),
      high_yield("S460MC", 460, 520),
      high_yield("S500MC", 500, 550),
      dual_phase("DP550", 300, 530),
      dual_phase("DP600", 330, 580),
      structural_sheet("SAPH310", 195, 310),
      structural_sheet("SAPH370", 225, 370),
      structural_sheet("SAPH400", 255, 400),
      structural_sheet("SAPH440", 305, 440),
      soft("DD11", 170),
      soft("DD12", 170),
      soft("DD13", 170),
      soft("DD14", 170),
      {"6061-T6", "wrought aluminium, solution treated and aged", MaterialFamily::wrought_aluminium,
       68900, 0.33, 2.70e-6, 241, 262,
       "49 CFR 178.46 table 2, smallest yield and tensile strength; E, nu, density: two stock data "
       "sheets",
       "found"},
      {"6082-T6", "wrought aluminium, extruded 5 to 25 mm, solution treated and aged",
       MaterialFamily::wrought_aluminium, 70000, 0.33, 2.70e-6, 260, 310,
       "EN 755-2, smallest yield and tensile strength; E 70 GPa FKM guideline, wrought aluminium; "
       "nu and density from memory",
       "strength found; nu, density from memory"},
      {"A356-T6", "cast aluminium, solution treated and aged", MaterialFamily::cast_aluminium,
       72350, 0.33, 2.68e-6, 224, 262,
       "measured in the SAE Fatigue Design and Evaluation committee's round robin (not a specified "
       "minimum); nu and density from memory",
       "strength, E found; nu, density from memory"},
  };
}

}  // namespace

const std::vector<Material> &materials() {
  static const std::vector<Material> rows = table();
  return rows;
}

const Material &material(const std::string &name) {
  std::vector<std::string> names;
  for (const auto &row : materials()) {
    if (row.name == name) return row;
    names.push_back(row.name);
  }
  throw Error(unknown_name("material", name, names));
}

}  // namespace felloe
