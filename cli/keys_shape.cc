// SPDX-License-Identifier: GPL-3.0-or-later
// Rows of the key table: the wheel's shape.
#include "cli/key_rows.h"
#include "mesher/rim_contour.h"

namespace felloe {
namespace {

std::vector<std::string> constructions() { return {"welded disc", "disc only"}; }

std::vector<std::string> contour_names() {
  std::vector<std::string> names;
  for (const auto &contour : rim_contours()) names.push_back(contour.name);
  return names;
}

Section top() {
  return {"",
          "Free text at the top of the file.",
          AppliesTo::every_construction,
          false,
          {standard("title", text(), std::string(), "A line that names the design in every report.",
                    [](Case &c, std::size_t) { return slot(c.title); })}};
}

Section wheel() {
  return {"wheel",
          "What kind of wheel this is.",
          AppliesTo::every_construction,
          true,
          {required("construction", word(constructions),
                    "A pressed disc welded into a rolled rim, or a plain disc without rim.",
                    [](Case &c, std::size_t) {
                      return word_slot(c.wheel.construction, constructions);
                    })}};
}

Section rim() {
  return {
      "rim",
      "The rolled rim.",
      AppliesTo::welded_disc,
      true,
      {required("contour", word(contour_names),
                "Flange and well contour, see 'felloe list contours'.",
                [](Case &c, std::size_t) { return slot(c.wheel.rim.contour); }),
       required("diameter_code", number("-", 10, 30), "Nominal rim diameter code, for example 15.",
                [](Case &c, std::size_t) { return slot(c.wheel.rim.diameter_code); }),
       required("width_code", number("-", 3, 16), "Nominal rim width code, for example 6.",
                [](Case &c, std::size_t) { return slot(c.wheel.rim.width_code); }),
       required("thickness_mm", number("mm", 0.5, 20), "Thickness of the rim sheet.",
                [](Case &c, std::size_t) { return slot(c.wheel.rim.thickness); }),
       required("inset_mm", number("mm", -150, 150),
                "Hub face to the rim's mid-plane; positive when the hub face lies outboard.",
                [](Case &c, std::size_t) { return slot(c.wheel.rim.inset); })}};
}

Slot constant_thickness(Case &c, std::size_t) {
  return {[] { return Value(0.0); },
          [&c](const Value &v) {
            c.wheel.disc.thickness = {{0, std::get<double>(v)}};
          }};
}

Section disc() {
  return {
      "disc",
      "The pressed disc.",
      AppliesTo::every_construction,
      true,
      {required("bore_diameter_mm", number("mm", 5, 500), "Diameter of the centre bore.",
                [](Case &c, std::size_t) { return slot(c.wheel.disc.bore_diameter); }),
       optional("hub_face_diameter_mm", number("mm", 10, 600),
                "Outer diameter of the flat face that lies on the hub. A welded disc needs it; a "
                "plain disc without it is held at its bore.",
                [](Case &c, std::size_t) { return slot(c.wheel.disc.hub_face_diameter); }),
       optional("thickness_mm", number("mm", 0.5, 40),
                "Constant sheet thickness; or give the list 'thickness' instead.",
                constant_thickness)}};
}

Section meridian() {
  return {
      "disc.meridian",
      "Corners of the disc's mid-line after the bore edge, in order. z counts from the mid-line "
      "at the hub, positive outboard.",
      AppliesTo::every_construction,
      true,
      {optional("r_mm", number("mm", 5, 500), "Radius of the corner; left out when on_rim = true.",
                [](Case &c, std::size_t i) { return slot(c.wheel.disc.meridian[i].r); }),
       standard("on_rim", yes_no(), false,
                "The radius follows from the rim: the flange lies inside the rim.",
                [](Case &c, std::size_t i) { return slot(c.wheel.disc.meridian[i].on_rim); }),
       required("z_mm", number("mm", -300, 300), "Height over the hub's mid-line.",
                [](Case &c, std::size_t i) { return slot(c.wheel.disc.meridian[i].z); }),
       standard("bend_radius_mm", number("mm", 0, 500), 0.0,
                "Mid-line radius of the bend at this corner; 0 only at the last corner.",
                [](Case &c, std::size_t i) { return slot(c.wheel.disc.meridian[i].bend_radius); })},
      nullptr,
      [](const Case &c) { return c.wheel.disc.meridian.size(); },
      [](Case &c, std::size_t n) { c.wheel.disc.meridian.resize(n); }};
}

Section thickness() {
  return {
      "disc.thickness",
      "Sheet thickness at lengths s along the mid-line, counted from the bore; linear between. For "
      "one "
      "thickness all over write thickness_mm in [disc].",
      AppliesTo::every_construction,
      false,
      {required("s_mm", number("mm", 0, 1000), "Length along the mid-line from the bore edge.",
                [](Case &c, std::size_t i) { return slot(c.wheel.disc.thickness[i].s); }),
       required("thickness_mm", number("mm", 0.5, 40), "Sheet thickness there.",
                [](Case &c, std::size_t i) { return slot(c.wheel.disc.thickness[i].thickness); })},
      nullptr,
      [](const Case &c) { return c.wheel.disc.thickness.size(); },
      [](Case &c, std::size_t n) { c.wheel.disc.thickness.resize(n); }};
}

Section bolt_holes() {
  return {
      "bolt_holes",
      "Bolt holes in the flat hub; leave the section out for none.",
      AppliesTo::every_construction,
      false,
      {required("count", whole(2, 20), "Number of bolt holes.",
                [](Case &c, std::size_t) { return slot(c.wheel.bolts.count); }),
       required("pitch_circle_mm", number("mm", 20, 500), "Diameter of the circle of the centres.",
                [](Case &c, std::size_t) { return slot(c.wheel.bolts.pitch_circle_diameter); }),
       required("diameter_mm", number("mm", 3, 60), "Diameter of the cylindrical hole.",
                [](Case &c, std::size_t) { return slot(c.wheel.bolts.diameter); }),
       standard("seat_cone_angle_deg", number("deg", 0, 170), 0.0,
                "Included angle of the cone seat cut from outboard; 0: flat seat.",
                [](Case &c, std::size_t) { return slot(c.wheel.bolts.seat_cone_angle); }),
       standard("seat_diameter_mm", number("mm", 0, 100), 0.0,
                "Diameter of the seat on the outboard side; 0: no seat.",
                [](Case &c, std::size_t) { return slot(c.wheel.bolts.seat_diameter); })},
      [](const Case &c) { return c.wheel.bolts.count > 0; }};
}

Section vent_holes() {
  return {"vent_holes",
          "Round vent holes in the disc; leave the section out for none.",
          AppliesTo::every_construction,
          false,
          {required("count", whole(1, 60), "Number of vent holes.",
                    [](Case &c, std::size_t) { return slot(c.wheel.vents.count); }),
           required("pitch_circle_mm", number("mm", 20, 1000),
                    "Diameter of the circle of the centres on the mid-surface.",
                    [](Case &c, std::size_t) { return slot(c.wheel.vents.pitch_circle_diameter); }),
           required("diameter_mm", number("mm", 3, 200), "Diameter of a vent hole.",
                    [](Case &c, std::size_t) { return slot(c.wheel.vents.diameter); }),
           standard("phase_deg", number("deg", -360, 360), 0.0,
                    "Angle of the first vent centre against the first bolt.",
                    [](Case &c, std::size_t) { return slot(c.wheel.vents.phase); })},
          [](const Case &c) { return c.wheel.vents.count > 0; }};
}

Section weld() {
  return {"weld",
          "Ring fillet between the disc flange's end face and the rim.",
          AppliesTo::welded_disc,
          true,
          {required("leg_mm", number("mm", 0.5, 30), "Leg of the fillet along the rim.",
                    [](Case &c, std::size_t) { return slot(c.wheel.weld.leg); })}};
}

}  // namespace

std::vector<Section> shape_sections() {
  return {top(),       wheel(),      rim(),        disc(), meridian(),
          thickness(), bolt_holes(), vent_holes(), weld()};
}

}  // namespace felloe
