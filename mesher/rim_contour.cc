// SPDX-License-Identifier: GPL-3.0-or-later
// Rows of the contour table and the code rules.
#include "mesher/rim_contour.h"

namespace felloe {

// Columns: B, G, P, H, L, M, R2 [mm]. B, P, H, L and R2 are smallest values, M is a largest value,
// G holds to +-1 mm. A diameter code of 0: the source states no limit. Where the source has two
// values (seat width 15 or 17 of 4J, well depth 17.0 when M <= 43 of J) the row holds the one that
// suits every case.
const std::vector<RimContour> &rim_contours() {
  static const char *source = "JIS D 4218:2021 table 3 (ISO 4000-2:2013)";
  static const std::vector<RimContour> rows = {
      {"J", "J flange, width codes from 4.5, diameter codes 14 to 21", 4.5, 14, 21,  //
       11.0, 17.5, 19.5, 17.3, 22.0, 45.0, 9.5, source, "found"},
      {"J22", "J flange, width codes from 4.5, diameter codes from 22", 4.5, 22, 0,  //
       11.0, 17.5, 19.5, 22.0, 22.0, 45.0, 9.5, source, "found"},
      {"4J", "J flange, width code 4, diameter codes 14 to 21", 4, 14, 21,  //
       11.0, 17.5, 17.0, 17.3, 19.0, 45.0, 9.5, source, "found"},
      {"B", "B flange, width codes from 4.5", 4.5, 0, 0,  //
       10.0, 14.5, 19.5, 15.0, 22.0, 45.0, 7.5, source, "found"},
      {"K", "K flange, width codes from 6, diameter code 16", 6, 16, 16,  //
       11.5, 20.0, 19.5, 20.0, 22.0, 47.0, 10.5, source, "found"},
  };
  return rows;
}

double specified_rim_diameter(double diameter_code) {
  return 25.4 * diameter_code + (diameter_code < 16.5 ? -0.8 : 4.8);
}

double rim_width(double width_code) { return 25.4 * width_code; }

}  // namespace felloe
