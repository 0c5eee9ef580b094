// SPDX-License-Identifier: GPL-3.0-or-later
// Rows of the key table: loads, rig tests, rating and mesh.
#include "cli/key_rows.h"
#include "post/criteria.h"

namespace felloe {
namespace {

template <class Row>
std::vector<std::string> names(const std::vector<Row> &rows) {
  std::vector<std::string> all;
  for (const auto &row : rows) all.push_back(row.name);
  return all;
}

std::vector<std::string> rig_test_names() { return names(rig_tests()); }
std::vector<std::string> criterion_names() { return names(fatigue_criteria()); }
std::vector<std::string> weld_class_names() { return names(weld_classes()); }
std::vector<std::string> rig_test_kinds() { return {"rotating bending", "radial"}; }
std::vector<std::string> edge_qualities() { return {"none", "sheared", "reamed"}; }
std::vector<std::string> outer_edges() { return {"held", "simply supported", "free"}; }

constexpr AppliesTo always = AppliesTo::every_construction;
constexpr AppliesTo welded = AppliesTo::welded_disc;
constexpr AppliesTo plain = AppliesTo::disc_only;

Section load() {
  return {"load",
          "What the wheel is rated for.",
          welded,
          true,
          {required("rated_load_kg", number("kg", 10, 20000), "Static wheel load rating.",
                    [](Case &c, std::size_t) { return slot(c.rated_load_kg); })}};
}

Section tyre() {
  return {"tyre",
          "The tyre that the rig tests are computed with.",
          welded,
          false,
          {optional("static_radius_mm", number("mm", 50, 2000),
                    "Loaded radius: lever arm of the bending moment.",
                    [](Case &c, std::size_t) { return slot(c.tyre.static_radius_mm); }),
           optional("dynamic_radius_mm", number("mm", 50, 2000),
                    "Rolling radius: turns a distance into cycles.",
                    [](Case &c, std::size_t) { return slot(c.tyre.dynamic_radius_mm); }),
           optional("outer_radius_mm", number("mm", 50, 2000),
                    "Free outer radius: push of the beads on the flanges under pressure; left out: "
                    "no push.",
                    [](Case &c, std::size_t) { return slot(c.tyre.outer_radius_mm); }),
           standard("inflation_kPa", number("kPa", 0, 2000), 0.0, "Pressure over the atmosphere.",
                    [](Case &c, std::size_t) { return slot(c.tyre.inflation_kPa); })},
          [](const Case &c) {
            return c.tyre.static_radius_mm > 0 || c.tyre.dynamic_radius_mm > 0 ||
                   c.tyre.outer_radius_mm > 0 || c.tyre.inflation_kPa > 0;
          }};
}

Section bolt_clamp() {
  return {"bolt_clamp",
          "Clamping of the disc on the hub; leave the section out for none.",
          always,
          false,
          {optional("torque_Nm", number("N m", 1, 2000), "Tightening torque of one bolt.",
                    [](Case &c, std::size_t) { return slot(c.clamp.torque_Nm); }),
           optional("preload_N", number("N", 1, 1e6), "Preload of one bolt, instead of a torque.",
                    [](Case &c, std::size_t) { return slot(c.clamp.preload_N); }),
           optional("thread_diameter_mm", number("mm", 4, 50), "Nominal thread diameter.",
                    [](Case &c, std::size_t) { return slot(c.clamp.thread.diameter); }),
           optional("thread_pitch_mm", number("mm", 0.5, 6), "Thread pitch.",
                    [](Case &c, std::size_t) { return slot(c.clamp.thread.pitch); }),
           standard("thread_friction", number("-", 0.02, 0.5), 0.12,
                    "Coefficient of friction in the thread.",
                    [](Case &c, std::size_t) { return slot(c.clamp.thread_friction); }),
           standard("seat_friction", number("-", 0.02, 0.5), 0.12,
                    "Coefficient of friction under the bolt head.",
                    [](Case &c, std::size_t) { return slot(c.clamp.seat_friction); })},
          [](const Case &c) { return c.clamp.torque_Nm > 0 || c.clamp.preload_N > 0; }};
}

Section press_fit() {
  return {"press_fit",
          "Press fit of the disc flange in the rim; leave the section out for none.",
          welded,
          false,
          {required("interference_mm", number("mm", 0, 3), "Interference on the diameter.",
                    [](Case &c, std::size_t) { return slot(c.press_fit.interference_mm); })},
          [](const Case &c) { return c.press_fit.interference_mm > 0; }};
}

Section radial_load() {
  return {"radial_load",
          "How a radial wheel load spreads on the bead seats.",
          welded,
          false,
          {standard("half_angle_deg", number("deg", 5, 90), 40.0,
                    "Half of the arc on which the tyre passes the load on.",
                    [](Case &c, std::size_t) { return slot(c.radial.half_angle_deg); }),
           standard("positions_per_turn", whole(8, 720), 72, "Load positions in one turn.",
                    [](Case &c, std::size_t) { return slot(c.radial.positions_per_turn); })}};
}

void fill_test(Case &c, std::size_t i) { c.tests[i] = rig_test(c.test_rows[i]); }

/// Cycles and distance are two ways to say the same: the later one replaces what the row says.
Key in_place_of(Key key, void (*clear_other)(Case &, std::size_t)) {
  key.after = clear_other;
  return key;
}

Section rig_test_section() {
  Key row = optional("row", word(rig_test_names, "tests"),
                     "Start from this row of 'felloe list tests'; the keys below change it.",
                     [](Case &c, std::size_t i) { return slot(c.test_rows[i]); });
  row.after = fill_test;
  return {
      "rig_test",
      "A rig test to rate against; repeat the section for more.",
      welded,
      false,
      {row,
       optional("name", text(), "What reports call the test; no two the same.",
                [](Case &c, std::size_t i) { return slot(c.tests[i].name); }),
       standard("kind", word(rig_test_kinds), std::string("rotating bending"),
                "Which way the rig loads the wheel.",
                [](Case &c, std::size_t i) { return word_slot(c.tests[i].kind, rig_test_kinds); }),
       optional("friction", number("-", 0.1, 2), "Tyre to road friction in the bending moment.",
                [](Case &c, std::size_t i) { return slot(c.tests[i].friction); }),
       optional("load_factor", number("-", 0.1, 10), "Factor on the rated load.",
                [](Case &c, std::size_t i) { return slot(c.tests[i].load_factor); }),
       standard("load_share", number("-", 0.05, 2), 1.0,
                "Share of the computed load at which this test is run.",
                [](Case &c, std::size_t i) { return slot(c.tests[i].load_share); }),
       standard("dynamic_radius", yes_no(), false,
                "The bending moment uses the rolling radius instead of the loaded one.",
                [](Case &c, std::size_t i) { return slot(c.tests[i].dynamic_radius); }),
       in_place_of(optional("cycles", number("-", 1, 1e10), "Required cycles.",
                            [](Case &c, std::size_t i) { return slot(c.tests[i].cycles); }),
                   [](Case &c, std::size_t i) { c.tests[i].distance_km = 0; }),
       in_place_of(optional("distance_km", number("km", 0.1, 1e6),
                            "Required rolling distance of a radial test, instead of cycles.",
                            [](Case &c, std::size_t i) { return slot(c.tests[i].distance_km); }),
                   [](Case &c, std::size_t i) { c.tests[i].cycles = 0; })},
      nullptr,
      [](const Case &c) { return c.tests.size(); },
      [](Case &c, std::size_t n) { c.tests.resize(n), c.test_rows.resize(n); }};
}

Section rating() {
  return {"rating",
          "How stress becomes life and verdict.",
          always,
          false,
          {standard("survival_percent", number("%", 50, 99.99), 90.0,
                    "Survival probability of the rated life.",
                    [](Case &c, std::size_t) { return slot(c.rating.survival_percent); }),
           standard("criterion", word(criterion_names, "criteria"), std::string("Findley"),
                    "Multiaxial criterion, see 'felloe list criteria'.",
                    [](Case &c, std::size_t) { return slot(c.rating.criterion); }),
           standard("roughness_rz_um", number("um", 0.5, 500), 20.0,
                    "Surface roughness Rz of the sheet.",
                    [](Case &c, std::size_t) { return slot(c.rating.roughness_rz_um); }),
           standard("sheared_edge_factor", number("-", 0.2, 1), 0.8,
                    "Fatigue strength of a sheared edge over that of the sheet's face.",
                    [](Case &c, std::size_t) { return slot(c.rating.sheared_edge_factor); }),
           standard(
               "vent_edges", word(edge_qualities), std::string("sheared"),
               "How the edges of the vent holes are made.",
               [](Case &c, std::size_t) { return word_slot(c.rating.vent_edges, edge_qualities); }),
           standard(
               "bolt_edges", word(edge_qualities), std::string("sheared"),
               "How the edges of the bolt holes are made.",
               [](Case &c, std::size_t) { return word_slot(c.rating.bolt_edges, edge_qualities); }),
           standard("weld_class", word(weld_class_names, "weld-classes"),
                    std::string("IIW FAT 90 hot-spot"),
                    "S-N class of the weld toes, see 'felloe list weld-classes'.",
                    [](Case &c, std::size_t) { return slot(c.rating.weld_class); })}};
}

Section mesh() {
  return {"mesh",
          "How fine to compute.",
          always,
          false,
          {standard("density", number("-", 0.25, 4), 1.0, "1: standard mesh; 2 halves every edge.",
                    [](Case &c, std::size_t) { return slot(c.mesh.density); }),
           standard("accuracy_percent", number("%", 0, 50), 0.0,
                    "Wanted accuracy of the worst hot-spot stress; 0: no demand.",
                    [](Case &c, std::size_t) { return slot(c.mesh.accuracy_percent); })}};
}

Section support() {
  return {"support",
          "Where a plain disc is held.",
          plain,
          true,
          {required("outer_edge", word(outer_edges),
                    "Held, simply supported, or free with the hub held instead.",
                    [](Case &c, std::size_t) { return word_slot(c.outer_edge, outer_edges); })}};
}

Section plate_load() {
  return {
      "plate_load",
      "What acts on a plain disc.",
      plain,
      true,
      {standard("hub_moment_Nm", number("N m", -1e6, 1e6), 0.0, "Tilting moment on the rigid hub.",
                [](Case &c, std::size_t) { return slot(c.plate.hub_moment_Nm); }),
       standard("hub_force_N", number("N", -1e7, 1e7), 0.0, "Axial force on the rigid hub.",
                [](Case &c, std::size_t) { return slot(c.plate.hub_force_N); }),
       standard("pressure_MPa", number("MPa", -1000, 1000), 0.0,
                "Pressure on the outboard side, acting inboard.",
                [](Case &c, std::size_t) { return slot(c.plate.pressure_MPa); })}};
}

}  // namespace

std::vector<Section> load_sections() {
  return {load(),   tyre(), bolt_clamp(), press_fit(), radial_load(), rig_test_section(),
          rating(), mesh(), support(),    plate_load()};
}

}  // namespace felloe
