// SPDX-License-Identifier: GPL-3.0-or-later
// A sweep of plain discs that takes a fraction of a second a design, for tests of the program.
#pragma once
#include <string>

#include "tests/cli/program.h"

namespace felloe::test {

inline const char *small_disc = R"(title = "flat disc"
[wheel]
construction = "disc only"
[disc]
bore_diameter_mm = 60
hub_face_diameter_mm = 100
thickness_mm = 4
meridian = [ { r_mm = 120, z_mm = 0 } ]
[materials.disc]
youngs_modulus_MPa = 210000
poissons_ratio = 0.3
density_kg_m3 = 7850
yield_strength_MPa = 400
tensile_strength_MPa = 500
[support]
outer_edge = "held"
[plate_load]
hub_moment_Nm = 100
[mesh]
density = 0.5
)";

/// n designs from 2 to 6 mm of sheet.
inline std::string small_sweep(int n) {
  return "title = \"discs\"\ncase = \"disc.toml\"\n[plan]\nkind = \"full grid\"\n[[vary]]\n"
         "key = \"disc.thickness_mm\"\nfrom = 2\nto = 6\nsteps = " +
         std::to_string(n) + "\n";
}

inline void write_small_sweep(const Folder &folder, int n) {
  folder.write("disc.toml", small_disc);
  folder.write("sweep.toml", small_sweep(n));
}

/// The table without what may differ: version, attempts, seconds, host.
inline std::string lasting_table(const std::string &table) {
  std::string kept;
  std::size_t begin = 0;
  while (begin < table.size()) {
    std::size_t end = table.find('\n', begin), cut = end;
    for (int commas = 0; commas < 4; ++commas) cut = table.rfind(',', cut - 1);
    kept += table.substr(begin, cut - begin) + "\n";
    begin = end + 1;
  }
  return kept;
}

}  // namespace felloe::test
