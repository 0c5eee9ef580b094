// SPDX-License-Identifier: GPL-3.0-or-later
// Rows of the key table: what `felloe thin` may change, and what sheet and press allow.
#include <tuple>

#include "cli/key_rows.h"

namespace felloe {
namespace {

auto values(const ThinInput &t) {
  return std::tie(t.stations, t.smallest_thickness_mm, t.largest_thickness_mm, t.largest_slope,
                  t.largest_thinning_percent, t.tolerance_mm, t.bend_radii, t.vent_diameter,
                  t.shape_range_percent, t.gauges_mm);
}

Section thin() {
  const ThinInput d;
  return {
      "thin",
      "What 'felloe thin' may change. A run pays no attention to it.",
      AppliesTo::welded_disc,
      false,
      {standard("stations", whole(2, 20), d.stations,
                "Thickness stations between hub and flange, both counted.",
                [](Case &c, std::size_t) { return slot(c.thin.stations); }),
       standard("smallest_thickness_mm", number("mm", 0.5, 40), d.smallest_thickness_mm,
                "No station gets thinner.",
                [](Case &c, std::size_t) { return slot(c.thin.smallest_thickness_mm); }),
       standard("largest_thickness_mm", number("mm", 0.5, 40), d.largest_thickness_mm,
                "No station gets thicker.",
                [](Case &c, std::size_t) { return slot(c.thin.largest_thickness_mm); }),
       standard("largest_slope", number("-", 0.0005, 1), d.largest_slope,
                "Most change of thickness per length along the mid-line (own value).",
                [](Case &c, std::size_t) { return slot(c.thin.largest_slope); }),
       standard("largest_thinning_percent", number("%", 0, 80), d.largest_thinning_percent,
                "Most that forming thins the base sheet, which the hub keeps (own value; spinning "
                "allows more than pressing).",
                [](Case &c, std::size_t) { return slot(c.thin.largest_thinning_percent); }),
       standard("tolerance_mm", number("mm", 0, 1), d.tolerance_mm,
                "The rig tests must be passed with sheet thinner by this (own value; EN 10051 "
                "allows about twice as much, from memory).",
                [](Case &c, std::size_t) { return slot(c.thin.tolerance_mm); }),
       standard("bend_radii", yes_no(), d.bend_radii, "Bend radii of the disc change too.",
                [](Case &c, std::size_t) { return slot(c.thin.bend_radii); }),
       standard("vent_diameter", yes_no(), d.vent_diameter,
                "The diameter of the vent holes changes too.",
                [](Case &c, std::size_t) { return slot(c.thin.vent_diameter); }),
       standard("shape_range_percent", number("%", 1, 50), d.shape_range_percent,
                "Most change of bend radii and vent diameter, each way.",
                [](Case &c, std::size_t) { return slot(c.thin.shape_range_percent); })},
      [](const Case &c) { return values(c.thin) != values(ThinInput{}); }};
}

Section gauges() {
  return {"thin.gauges",
          "Base sheets on sale, one of which the hub must have; left out: any thickness.",
          AppliesTo::welded_disc,
          false,
          {required("thickness_mm", number("mm", 0.5, 40), "Thickness of the sheet.",
                    [](Case &c, std::size_t i) {
                      if (i >= c.thin.gauges_mm.size()) c.thin.gauges_mm.resize(i + 1);
                      return slot(c.thin.gauges_mm[i]);
                    })},
          nullptr,
          [](const Case &c) { return c.thin.gauges_mm.size(); },
          [](Case &c, std::size_t n) { c.thin.gauges_mm.resize(n); }};
}

}  // namespace

std::vector<Section> thin_sections() { return {thin(), gauges()}; }

}  // namespace felloe
