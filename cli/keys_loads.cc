// SPDX-License-Identifier: GPL-3.0-or-later
// Rows of the key table: loads, rig tests, rating and mesh.
#include "cli/key_rows.h"
#include "post/criteria.h"
#include "post/surface_state.h"
#include "post/weld_extrapolation.h"
#include "post/weld_residual_stress.h"

#include <cctype>
#include <stdexcept>

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
std::vector<std::string> mean_stress_names() { return names(mean_stress_rules()); }
std::vector<std::string> weld_class_names() {
  std::vector<std::string> all;
  for (const auto &row : weld_classes())
    if (row.for_toes) all.push_back(row.name);
  return all;
}
std::vector<std::string> toe_read_out_names() { return names(toe_read_outs()); }
std::vector<std::string> residual_stress_names() { return names(weld_residual_stresses()); }
std::vector<std::string> rig_test_kinds() { return {"rotating bending", "radial"}; }
std::vector<std::string> solvers() { return {"automatic", "direct", "matrix free"}; }
std::vector<std::string> edge_names() { return names(edge_finishes()); }
std::vector<std::string> finish_names() { return names(surface_finishes()); }
std::vector<std::string> burr_sides() { return {"unknown", "outboard", "inboard"}; }
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

/// A parameter of the table of loads: range, unit and default stand there once.
const Parameter &load_parameter(const std::string &kind, const std::string &key) {
  for (const auto &row : load_kinds())
    for (const auto &p : row.parameters)
      if (row.name == kind && p.key == key) return p;
  throw std::logic_error("the table of loads has no " + kind + ", " + key);
}

std::string sentence(std::string text) {
  text[0] = char(std::toupper(static_cast<unsigned char>(text[0])));
  return text + ".";
}

Domain range_of(const Parameter &p) { return number(p.unit, p.smallest, p.largest); }

Key optional_load(const std::string &kind, const std::string &key, Place place) {
  const Parameter &p = load_parameter(kind, key);
  return optional(key, range_of(p), sentence(p.summary), place);
}

Key standard_load(const std::string &kind, const std::string &key, Place place) {
  const Parameter &p = load_parameter(kind, key);
  return standard(key, range_of(p), p.standard, sentence(p.summary), place);
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
           standard_load("inflation", "outer_radius_mm",
                         [](Case &c, std::size_t) { return slot(c.tyre.outer_radius_mm); }),
           optional_load("inflation", "inflation_kPa",
                         [](Case &c, std::size_t) { return slot(c.tyre.inflation_kPa); })},
          [](const Case &c) {
            return c.tyre.static_radius_mm > 0 || c.tyre.dynamic_radius_mm > 0 ||
                   c.tyre.outer_radius_mm > 0 || c.tyre.inflation_kPa > 0;
          }};
}

Section bolt_clamp() {
  const std::string kind = "bolt clamp";
  return {"bolt_clamp",
          "Clamping of the disc on the hub; leave the section out for none.",
          always,
          false,
          {optional_load(kind, "torque_Nm",
                         [](Case &c, std::size_t) { return slot(c.clamp.torque_Nm); }),
           optional_load(kind, "preload_N",
                         [](Case &c, std::size_t) { return slot(c.clamp.preload_N); }),
           // a torque says nothing without its thread: no default here
           optional_load(kind, "thread_diameter_mm",
                         [](Case &c, std::size_t) { return slot(c.clamp.thread.diameter); }),
           optional_load(kind, "thread_pitch_mm",
                         [](Case &c, std::size_t) { return slot(c.clamp.thread.pitch); }),
           standard_load(kind, "thread_friction",
                         [](Case &c, std::size_t) { return slot(c.clamp.thread_friction); }),
           standard_load(kind, "seat_friction",
                         [](Case &c, std::size_t) { return slot(c.clamp.seat_friction); })},
          [](const Case &c) { return c.clamp.torque_Nm > 0 || c.clamp.preload_N > 0; }};
}

Section hub() {
  return {
      "hub",
      "How the hub face sits on its adapter.",
      welded,
      false,
      {standard("contact", yes_no(), false,
                "The face may lift off and bolts change their force; no: bonded to the adapter.",
                [](Case &c, std::size_t) { return slot(c.hub.contact); }),
       optional("bolt_stiffness_N_per_mm", number("N/mm", 1e3, 1e8),
                "Axial stiffness of a bolt; left out: from its thread (VDI 2230).",
                [](Case &c, std::size_t) { return slot(c.hub.bolt_stiffness_N_per_mm); }),
       optional("friction_coefficient", number("-", 0.05, 1),
                "Coulomb friction of face and adapter: it slips beyond; left out: it never slips.",
                [](Case &c, std::size_t) { return slot(c.hub.friction_coefficient); })}};
}

Section press_fit() {
  return {"press_fit",
          "Press fit of the disc flange in the rim; leave the section out for none.",
          welded,
          false,
          {standard_load("press fit", "interference_mm",
                         [](Case &c, std::size_t) { return slot(c.press_fit.interference_mm); }),
           standard("contact", yes_no(), false,
                    "Disc and rim part where the fit would have to pull; no: tied to each other.",
                    [](Case &c, std::size_t) { return slot(c.press_fit.contact); })},
          [](const Case &c) { return c.press_fit.interference_mm > 0; }};
}

Section radial_load() {
  const Parameter &positions = load_parameter("radial load", "positions_per_turn");
  return {"radial_load",
          "How a radial wheel load spreads on the bead seats.",
          welded,
          false,
          {standard_load("radial load", "half_angle_deg",
                         [](Case &c, std::size_t) { return slot(c.radial.half_angle_deg); }),
           standard("positions_per_turn", whole(int(positions.smallest), int(positions.largest)),
                    int(positions.standard), sentence(positions.summary),
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
                   [](Case &c, std::size_t i) { c.tests[i].cycles = 0; }),
       standard("wheels", whole(1, 100), 1, "How many wheels run the test; all have to pass.",
                [](Case &c, std::size_t i) { return slot(c.tests[i].wheels); }),
       standard("cycles_for_seven", yes_no(), false,
                "The cycles hold for seven wheels; fewer run longer (SAE J267 sample-size rule).",
                [](Case &c, std::size_t i) { return slot(c.tests[i].cycles_for_seven); }),
       optional("failure", text(), "What ends the test as failed; left out: a crack.",
                [](Case &c, std::size_t i) { return slot(c.tests[i].failure); })},
      nullptr,
      [](const Case &c) { return c.tests.size(); },
      [](Case &c, std::size_t n) { c.tests.resize(n), c.test_rows.resize(n); }};
}

Section rating() {
  return {
      "rating",
      "How stress becomes life and verdict.",
      always,
      false,
      {standard("survival_percent", number("%", 50, 99.99), 90.0,
                "Survival probability of the rated life.",
                [](Case &c, std::size_t) { return slot(c.rating.survival_percent); }),
       standard("criterion", word(criterion_names, "criteria"), default_criterion().name,
                "Multiaxial criterion, see 'felloe list criteria'.",
                [](Case &c, std::size_t) { return slot(c.rating.criterion); }),
       standard("mean_stress", word(mean_stress_names, "mean-stress"),
                default_mean_stress_rule().name,
                "Mean-stress rule of criteria of normal stress, see 'felloe list mean-stress'; "
                "the others count the mean their own way.",
                [](Case &c, std::size_t) { return slot(c.rating.mean_stress); }),
       standard("roughness_rz_um", number("um", 0.5, 500), 20.0,
                "Surface roughness Rz of the sheet; default: common practice, no source.",
                [](Case &c, std::size_t) { return slot(c.rating.roughness_rz_um); }),
       standard("sheared_edge_factor", number("-", 0.2, 1), standard_sheared_edge_factor,
                "Fatigue strength of a sheared edge over that of the sheet's face.",
                [](Case &c, std::size_t) { return slot(c.rating.sheared_edge_factor); }),
       standard("vent_edges", word(edge_names, "edges"), std::string("sheared"),
                "How the edges of the vent holes are made, see 'felloe list edges'.",
                [](Case &c, std::size_t) { return slot(c.rating.vent_edges); }),
       standard("bolt_edges", word(edge_names, "edges"), std::string("sheared"),
                "How the edges of the bolt holes are made.",
                [](Case &c, std::size_t) { return slot(c.rating.bolt_edges); }),
       standard("burr_side", word(burr_sides), std::string("unknown"),
                "Side of the disc with the burr of its holes; unknown: both count as it.",
                [](Case &c, std::size_t) { return slot(c.rating.burr_side); }),
       standard("surface", word(finish_names, "edges"), std::string("as delivered"),
                "Finish of the sheet, see 'felloe list edges'.",
                [](Case &c, std::size_t) { return slot(c.rating.surface); }),
       standard("notch_support", yes_no(), false,
                "Count the support of the computed stress gradient (FKM) away from cut edges; "
                "no: hot spots only say it.",
                [](Case &c, std::size_t) { return slot(c.rating.notch_support); }),
       standard("weld_class", word(weld_class_names, "weld-classes"),
                std::string("IIW FAT 90 hot-spot"),
                "S-N class of the weld toes, see 'felloe list weld-classes'.",
                [](Case &c, std::size_t) { return slot(c.rating.weld_class); }),
       standard("toe_read_out", word(toe_read_out_names, "weld-toes"), toe_read_outs().front().name,
                "Where the structural stress of weld toes is read, see 'felloe list "
                "weld-toes'.",
                [](Case &c, std::size_t) { return slot(c.rating.toe_read_out); }),
       standard("weld_residual_stress", word(residual_stress_names, "weld-toes"),
                weld_residual_stresses().front().name,
                "Residual stress at the weld: low ones let compression count less.",
                [](Case &c, std::size_t) { return slot(c.rating.weld_residual_stress); })}};
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
                    [](Case &c, std::size_t) { return slot(c.mesh.accuracy_percent); }),
           standard("solver", word(solvers), std::string("automatic"),
                    "Automatic: the one expected to be faster, of those that fit into memory.",
                    [](Case &c, std::size_t) { return word_slot(c.mesh.solver, solvers); })}};
}

Section modes() {
  return {"modes",
          "Natural frequencies of the wheel, free and with its hub held.",
          welded,
          false,
          {standard("count", whole(0, 200), 0,
                    "How many of each; 0: none. Rigid motions of the free wheel do not count.",
                    [](Case &c, std::size_t) { return slot(c.modes.count); })}};
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
  return {load(),   tyre(), bolt_clamp(), hub(),     press_fit(), radial_load(), rig_test_section(),
          rating(), mesh(), modes(),      support(), plate_load()};
}

}  // namespace felloe
