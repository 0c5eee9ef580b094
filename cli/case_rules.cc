// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/case_rules.h"

#include <set>

#include "cli/case_keys.h"

namespace felloe {
namespace {

class Rules {
 public:
  Rules(const Case &c, const GivenKeys &given, Findings &findings)
      : c_(c), given_(given), findings_(findings) {}

  void disc() {
    const auto &d = c_.wheel.disc;
    if (d.bore_diameter > 0 && d.hub_face_diameter > 0 && d.hub_face_diameter <= d.bore_diameter)
      add("disc", "hub_face_diameter_mm", "must be larger than the bore, " + mm(d.bore_diameter));
    if (c_.wheel.construction == Construction::welded_disc && given_.has("disc", 0) &&
        !given_.has("disc", 0, "hub_face_diameter_mm"))
      add("disc", "hub_face_diameter_mm", "the key is missing; a welded disc needs it");
    const bool constant = given_.has("disc", 0, "thickness_mm");
    const bool stations = given_.has("disc.thickness", 0);
    if (constant && stations)
      add("disc", "thickness_mm", "given together with the list 'thickness'; keep one of the two");
    if (given_.has("disc", 0) && !constant && !stations)
      add("disc", "",
          "no sheet thickness; write thickness_mm = 3.8 or thickness = [ { s_mm = 0, "
          "thickness_mm = 3.8 }, ... ]");
    for (std::size_t i = 1; i < d.thickness.size() && stations; ++i)
      if (both("disc.thickness", i, "s_mm") && d.thickness[i].s <= d.thickness[i - 1].s)
        add("disc.thickness", i, "s_mm",
            d.thickness[i].s == d.thickness[i - 1].s
                ? "two stations at the same length; remove one"
                : "the stations must ascend; the one before lies at " + mm(d.thickness[i - 1].s));
  }

  void meridian() {
    const auto &points = c_.wheel.disc.meridian;
    const bool welded = c_.wheel.construction == Construction::welded_disc;
    const std::string path = "disc.meridian";
    for (std::size_t i = 0; i < points.size(); ++i) {
      const bool last = i + 1 == points.size(), r = given_.has(path, i, "r_mm");
      if (points[i].on_rim && r)
        add(path, i, "r_mm", "given together with on_rim = true; remove one of the two");
      if (!points[i].on_rim && !r)
        add(path, i, "", "the corner has no radius; give r_mm, or on_rim = true for the flange");
      if (points[i].on_rim && !welded)
        add(path, i, "on_rim", "a plain disc has no rim; give r_mm instead");
      if (points[i].bend_radius == 0 && !last)
        add(path, i, "bend_radius_mm", "every corner but the last needs a bend radius over 0");
      if (points[i].bend_radius != 0 && last)
        add(path, i, "bend_radius_mm", "the last corner ends the mid-line; it takes no bend");
    }
    if (welded && !points.empty() && !points.back().on_rim)
      add(path, points.size() - 1, given_.has(path, points.size() - 1, "r_mm") ? "r_mm" : "",
          "the last corner of a welded disc lies on the rim; write on_rim = true instead of r_mm");
  }

  void holes() {
    const auto &b = c_.wheel.bolts;
    if (b.seat_cone_angle > 0 && b.seat_diameter == 0)
      add("bolt_holes", "seat_cone_angle_deg", "a cone seat needs seat_diameter_mm too");
    if (b.seat_diameter > 0 && b.diameter > 0 && b.seat_diameter <= b.diameter)
      add("bolt_holes", "seat_diameter_mm", "must be larger than the hole, " + mm(b.diameter));
  }

  void materials() {
    const char *parts[] = {"disc", "rim", "weld"};
    const Material *all[] = {&c_.disc_material, &c_.rim_material, &c_.weld_material};
    for (int i = 0; i < 3; ++i) {
      if (i > 0 && c_.wheel.construction == Construction::disc_only) break;
      const std::string path = std::string("materials.") + parts[i];
      const bool own = given_.has(path, 0), by_name = given_.has("materials", 0, parts[i]);
      if (!own && !by_name && given_.has("materials", 0))
        add("materials", parts[i],
            "the material is missing; write the name of a row of 'felloe list materials' or a "
            "table of own values");
      if (!own || given_.has(path, 0, "row")) continue;
      const std::pair<const char *, double> values[] = {
          {"youngs_modulus_MPa", all[i]->youngs_modulus},
          {"poissons_ratio", all[i]->poissons_ratio},
          {"density_kg_m3", all[i]->density},
          {"yield_strength_MPa", all[i]->yield_strength},
          {"tensile_strength_MPa", all[i]->tensile_strength}};
      for (const auto &[key, value] : values)
        if (value == 0 && !given_.has(path, 0, key))
          add(path, key, "the key is missing; a material without a row needs all values");
    }
  }

  void clamp() {
    if (!given_.has("bolt_clamp", 0)) return;
    const auto &k = c_.clamp;
    const bool torque = k.torque_Nm > 0, preload = k.preload_N > 0;
    const bool unread = given_.spot("bolt_clamp", 0, "torque_Nm").faulty ||
                        given_.spot("bolt_clamp", 0, "preload_N").faulty;
    if (torque == preload && !unread)
      add("bolt_clamp", preload ? "preload_N" : "",
          preload ? "given together with torque_Nm; keep one of the two"
                  : "neither torque_Nm nor preload_N over 0; give one of the two");
    for (const auto &[key, value] : {std::pair("thread_diameter_mm", k.thread.diameter),
                                     std::pair("thread_pitch_mm", k.thread.pitch)})
      if (torque && value == 0 && !given_.has("bolt_clamp", 0, key))
        add("bolt_clamp", key,
            "the key is missing; it is needed to turn the torque into a preload");
    if (k.thread.pitch > 0 && k.thread.diameter > 0 && k.thread.pitch > 0.3 * k.thread.diameter)
      add("bolt_clamp", "thread_pitch_mm", "over 0.3 thread diameters; check both values");
    if (!given_.has("bolt_holes", 0))
      add("bolt_clamp", "", "there are no bolts: the section [bolt_holes] is missing");
  }

  void tyre() {
    const auto &t = c_.tyre;
    const auto ascending = [&](const char *small, double a, const char *large, double b) {
      if (a > 0 && b > 0 && a > b)
        add("tyre", small, std::string("larger than ") + large + ", " + mm(b));
    };
    ascending("static_radius_mm", t.static_radius_mm, "dynamic_radius_mm", t.dynamic_radius_mm);
    ascending("dynamic_radius_mm", t.dynamic_radius_mm, "outer_radius_mm", t.outer_radius_mm);
    ascending("static_radius_mm", t.static_radius_mm, "outer_radius_mm", t.outer_radius_mm);
  }

  void press_fit() {
    if (c_.press_fit.contact && c_.press_fit.interference_mm == 0)
      add("press_fit", "contact",
          "there is no press fit; give interference_mm, or set it to false");
  }

  void hub() {
    if (!c_.hub.contact) {
      if (given_.has("hub", 0, "friction_coefficient"))
        add("hub", "friction_coefficient",
            "a bonded face does not slip; set contact to true, or remove this key");
      return;
    }
    if (c_.wheel.bolts.count == 0 || (c_.clamp.torque_Nm == 0 && c_.clamp.preload_N == 0))
      add("hub", "contact",
          "contact needs bolts and their preload: give [bolt_holes] and [bolt_clamp], or set it to "
          "false");
  }

  void curves() {
    for (std::size_t i = 0; i < c_.curves.size(); ++i) {
      const CurveInput &own = c_.curves[i];
      for (std::size_t k = 0; k < i; ++k)
        if (c_.curves[k].use_for == own.use_for)
          add("sn_curve", i, "use_for", "an earlier curve rates the same places; remove one");
      if (own.curve.cutoff_cycles > 0 && own.curve.cutoff_cycles < own.curve.knee_cycles)
        add("sn_curve", i, "cutoff_cycles", "lies before the knee; raise it or leave it out");
    }
  }

  void gauges() {
    std::set<std::string> names, tests;
    for (const RigTest &t : c_.tests) tests.insert(t.name);
    for (std::size_t i = 0; i < c_.gauges.size(); ++i) {
      const GaugeInput &g = c_.gauges[i];
      const bool r = given_.has("gauge", i, "r_mm"), s = given_.has("gauge", i, "s_mm");
      if (r == s)
        add("gauge", i, r ? "s_mm" : "",
            r ? "given together with r_mm; keep one of the two" : "no place; give r_mm or s_mm");
      if (!g.name.empty() && !names.insert(g.name).second)
        add("gauge", i, "name", "two gauges have this name; give this one another");
      if (!g.measured_test.empty() && !tests.count(g.measured_test))
        add("gauge", i, "measured_test", "no [[rig_test]] has this name");
    }
  }

  void spectrum() {
    for (std::size_t i = 0; i < c_.spectrum.size(); ++i)
      if (c_.spectrum[i].lateral_N != 0 && c_.tyre.static_radius_mm == 0)
        add("spectrum", i, "lateral_N", "needs [tyre] static_radius_mm, its lever arm");
    for (std::size_t i = 0; i < c_.spectrum.size(); ++i)
      for (const char *force : {"radial_N", "lateral_N"})
        if (!c_.spectrum[i].time_series.empty() && given_.has("spectrum", i, force))
          add("spectrum", i, force, "the time series holds the forces; remove one of the two");
    if (!c_.spectrum.empty() && c_.hub.contact)
      add("hub", "contact", "a spectrum is superposed, which needs a bonded hub; set it to false");
  }

  void tests() {
    std::set<std::string> names;
    for (std::size_t i = 0; i < c_.tests.size(); ++i) {
      const RigTest &t = c_.tests[i];
      const bool bending = t.kind == RigTestKind::rotating_bending;
      if (t.name.empty() && !given_.has("rig_test", i, "row"))
        add("rig_test", i, "", "neither row nor name; start from a row or name your own test");
      if (!t.name.empty() && !names.insert(t.name).second)
        add("rig_test", i, given_.has("rig_test", i, "name") ? "name" : "row",
            "two tests are called '" + t.name + "'; give this one a name of its own");
      if (given_.has("rig_test", i, "row") && t.load_factor == 0) continue;  // row not found
      own_test(i, t, bending);
      const bool rolling = bending ? t.dynamic_radius : t.cycles == 0;
      const char *radius = rolling ? "dynamic_radius_mm" : "static_radius_mm";
      const double value = rolling ? c_.tyre.dynamic_radius_mm : c_.tyre.static_radius_mm;
      if ((bending || rolling) && value == 0 && !given_.has("tyre", 0, radius))
        add("rig_test", i, "", std::string("needs [tyre] ") + radius);
    }
  }

 private:
  void own_test(std::size_t i, const RigTest &t, bool bending) {
    const auto missing = [&](const char *key, double value) {
      if (value == 0 && !given_.has("rig_test", i, key))
        add("rig_test", i, key, "the key is missing; a test needs it");
    };
    missing("load_factor", t.load_factor);
    if (bending) missing("friction", t.friction);
    if (bending || t.distance_km == 0) missing("cycles", t.cycles);
    if (bending && given_.has("rig_test", i, "distance_km"))
      add("rig_test", i, "distance_km", "only for radial tests; give cycles");
    if (given_.has("rig_test", i, "cycles") && given_.has("rig_test", i, "distance_km"))
      add("rig_test", i, "distance_km", "given together with cycles; keep one of the two");
  }

 public:
  void plain_disc() {
    if (c_.wheel.construction != Construction::disc_only) return;
    const auto &p = c_.plate;
    if (p.hub_moment_Nm == 0 && p.hub_force_N == 0 && p.pressure_MPa == 0)
      add("plate_load", "", "no load is given; set hub_moment_Nm, hub_force_N or pressure_MPa");
    if (c_.outer_edge != OuterEdge::free) return;
    for (const auto &[key, value] : {std::pair("hub_moment_Nm", c_.plate.hub_moment_Nm),
                                     std::pair("hub_force_N", c_.plate.hub_force_N)})
      if (value != 0)
        add("plate_load", key,
            "the outer edge is free, so that the hub is held and can't be loaded; set it to 0 or "
            "hold the outer edge");
  }

 private:
  static std::string mm(double value) { return plain_number(value) + " mm"; }

  bool both(const std::string &path, std::size_t i, const std::string &key) const {
    return given_.has(path, i, key) && given_.has(path, i - 1, key);
  }

  void add(const std::string &path, const std::string &key, const std::string &text) {
    add(path, 0, section_text(path), key, text);
  }

  void add(const std::string &path, std::size_t i, const std::string &key,
           const std::string &text) {
    add(path, i, section_text(path, true, i), key, text);
  }

  void add(const std::string &path, std::size_t i, const std::string &place, const std::string &key,
           const std::string &text) {
    const Spot spot = given_.spot(path, i, key);
    if (!spot.faulty) findings_.add(spot, place, key, text);
  }

  const Case &c_;
  const GivenKeys &given_;
  Findings &findings_;
};

}  // namespace

void check_rules(const Case &c, const GivenKeys &given, Findings &findings) {
  Rules rules(c, given, findings);
  rules.disc();
  rules.meridian();
  rules.holes();
  rules.materials();
  rules.clamp();
  rules.hub();
  rules.press_fit();
  rules.tyre();
  rules.tests();
  rules.curves();
  rules.gauges();
  rules.spectrum();
  rules.plain_disc();
}

}  // namespace felloe
