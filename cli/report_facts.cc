// SPDX-License-Identifier: GPL-3.0-or-later
// The wheel and its loads in the words of a report.
#include <fmt/format.h>

#include <algorithm>

#include "cli/report_input.h"
#include "cli/unit_solutions.h"

namespace felloe {
namespace {

std::string mm(double value) { return fmt::format("{:g} mm", value); }

std::string thickness(const WheelLayout &w) {
  const auto &stations = w.disc.thickness().stations();
  const auto [least, most] =
      std::minmax_element(stations.begin(), stations.end(),
                          [](const auto &a, const auto &b) { return a.thickness < b.thickness; });
  return least->thickness == most->thickness
             ? mm(least->thickness)
             : fmt::format("{:g} to {:g} mm along the meridian", least->thickness, most->thickness);
}

std::string bolts(const BoltHoles &b) {
  std::string text =
      fmt::format("{} holes of {:g} mm on {:g} mm", b.count, b.diameter, b.pitch_circle_diameter);
  if (b.seat_cone_angle > 0)
    text += fmt::format(", cone {:g}\u00B0, seat {:g} mm", b.seat_cone_angle, b.seat_diameter);
  return text;
}

std::string material(const Material &m) {
  return fmt::format("{}, Re {:g} MPa, Rm {:g} MPa", m.name, m.yield_strength, m.tensile_strength);
}

std::string edges(const RatingInput &r) {
  std::string text = fmt::format("vent holes {}, bolt holes {}", r.vent_edges, r.bolt_edges);
  return text + (r.burr_side == "outboard" || r.burr_side == "inboard"
                     ? ", burr " + r.burr_side
                     : ", burr side unknown: every side counts as it");
}

}  // namespace

std::vector<ReportFact> wheel_facts(const Case &c, const WheelLayout &layout) {
  const Wheel &w = c.wheel;
  const bool welded = w.construction == Construction::welded_disc;
  std::vector<ReportFact> all = {
      {"Construction", welded ? "disc welded into a rim" : "plain disc"}};
  if (welded)
    all.push_back(
        {"Rim", fmt::format("{:g} x {:g} {}, sheet {:g} mm, inset {:g} mm", w.rim.diameter_code,
                            w.rim.width_code, w.rim.contour, w.rim.thickness, w.rim.inset)});
  all.push_back({"Disc thickness", thickness(layout)});
  all.push_back({"Bore", mm(w.disc.bore_diameter)});
  if (w.disc.hub_face_diameter > 0) all.push_back({"Hub face", mm(w.disc.hub_face_diameter)});
  if (w.bolts.count > 0) all.push_back({"Bolt holes", bolts(w.bolts)});
  if (w.vents.count > 0)
    all.push_back({"Vent holes", fmt::format("{} holes of {:g} mm on {:g} mm", w.vents.count,
                                             w.vents.diameter, w.vents.pitch_circle_diameter)});
  if (welded) all.push_back({"Weld", fmt::format("ring fillet, leg {:g} mm", w.weld.leg)});
  all.push_back({"Disc material", material(c.disc_material)});
  if (welded) {
    all.push_back({"Rim material", material(c.rim_material)});
    all.push_back({"Weld material", material(c.weld_material)});
    all.push_back({"Edges", edges(c.rating)});
    all.push_back({"Sheet surface",
                   fmt::format("{}, Rz {:g} \u00B5m", c.rating.surface, c.rating.roughness_rz_um)});
  }
  return all;
}

std::vector<ReportFact> load_facts(const Case &c) {
  std::vector<ReportFact> all;
  const auto plate = [&](const char *name, double value, const char *unit) {
    if (value != 0) all.push_back({name, fmt::format("{:g} {}", value, unit)});
  };
  plate("Moment on the hub", c.plate.hub_moment_Nm, "N m");
  plate("Axial force on the hub", c.plate.hub_force_N, "N");
  plate("Pressure", c.plate.pressure_MPa, "MPa");
  if (c.wheel.construction != Construction::welded_disc) return all;
  all.push_back({"Rated load", fmt::format("{:g} kg", c.rated_load_kg)});
  if (c.tyre.static_radius_mm > 0)
    all.push_back({"Tyre, loaded radius", mm(c.tyre.static_radius_mm)});
  if (c.tyre.dynamic_radius_mm > 0)
    all.push_back({"Tyre, rolling radius", mm(c.tyre.dynamic_radius_mm)});
  if (c.tyre.inflation_kPa > 0)
    all.push_back({"Inflation", fmt::format("{:g} kPa", c.tyre.inflation_kPa)});
  if (c.wheel.bolts.count > 0) {
    std::string clamp = fmt::format("{:.1f} kN a bolt", 1e-3 * bolt_preload_of(c));
    if (c.clamp.preload_N <= 0) clamp += fmt::format(" from {:g} N m", c.clamp.torque_Nm);
    all.push_back({"Bolt clamp", clamp});
  }
  if (c.press_fit.interference_mm > 0)
    all.push_back({"Press fit", mm(c.press_fit.interference_mm) + " on diameter"});
  std::string hub =
      c.hub.contact ? "face in contact with a rigid adapter" : "face bonded to a rigid adapter";
  if (c.hub.friction_coefficient > 0)
    hub += fmt::format(", friction {:g}", c.hub.friction_coefficient);
  all.push_back({"Hub", hub});
  all.push_back({"Contact patch of the radial load",
                 fmt::format("half angle {:g}\u00B0, {} positions a turn", c.radial.half_angle_deg,
                             c.radial.positions_per_turn)});
  return all;
}

}  // namespace felloe
