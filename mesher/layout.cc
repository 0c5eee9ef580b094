// SPDX-License-Identifier: GPL-3.0-or-later
// Builds the sheets, features and holes of a wheel, then lets the checks speak.
#include "mesher/layout.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "mesher/error.h"
#include "mesher/layout_check.h"
#include "mesher/rim_section.h"

namespace felloe {
namespace {

const RimContour *contour_of(const RimShape &rim, Problems &problems) {
  std::string names;
  for (const auto &c : rim_contours()) {
    names += (names.empty() ? "" : ", ") + c.name;
    if (c.name != rim.contour) continue;
    const double d = rim.diameter_code;
    if (rim.width_code < c.smallest_width_code)
      problems.push_back("rim: width code " + shown(rim.width_code) + " is below " +
                         shown(c.smallest_width_code) + ", the narrowest of contour " + c.name +
                         "; choose a wider rim or another contour");
    if (d < c.smallest_diameter_code ||
        (c.largest_diameter_code > 0 && d > c.largest_diameter_code))
      problems.push_back("rim: contour " + c.name + " has no diameter code " + shown(d) + " (" +
                         c.summary + "); choose another diameter or contour");
    return &c;
  }
  problems.push_back("rim: contour \"" + rim.contour + "\" is not in the table; choose one of " +
                     names);
  return nullptr;
}

/// The mid-line's corners in the wheel frame: the hub face lies in z = 0.
std::vector<MeridianCorner> disc_corners(const Wheel &w, double flange_radius) {
  const double lift = 0.5 * ThicknessLaw(w.disc.thickness).at(0);
  std::vector<MeridianCorner> corners = {{{0.5 * w.disc.bore_diameter, lift}, 0}};
  const std::size_t n = w.disc.meridian.size();
  for (std::size_t i = 0; i < n; ++i) {
    const auto &p = w.disc.meridian[i];
    const bool snaps = w.construction == Construction::welded_disc && i + 2 >= n &&
                       std::abs(p.r - flange_radius) <= 0.3;
    corners.push_back({{p.on_rim || snaps ? flange_radius : p.r, p.z + lift}, p.bend_radius});
  }
  corners.back().bend_radius = 0;
  return corners;
}

/// The disc sheet. The flange's mid-line radius depends on the thickness at the flange, and that on
/// the arc length: repeated until it stands still.
Sheet disc_sheet(const Wheel &w, double rim_inside) {
  const ThicknessLaw law(w.disc.thickness);
  Meridian m;
  double t = law.at(1e9);
  for (int k = 0; k < 50; ++k) {
    m = Meridian(disc_corners(w, rim_inside - 0.5 * t));
    const double next = law.at(m.pieces().back().s0);
    if (std::abs(next - t) < 1e-12) break;
    t = next;
  }
  return {m, law};
}

std::vector<Feature> disc_bends(const Sheet &disc, bool welded) {
  std::vector<Feature> bends;
  for (const auto &p : disc.meridian().pieces())
    if (p.is_bend()) bends.push_back({"", p.s0, p.s1});
  const std::size_t n = bends.size(), inner = welded && n > 0 ? n - 1 : n;
  for (std::size_t i = 0; i < inner; ++i)
    bends[i].name = i == 0                 ? "nave bend"
                    : i == 1 && inner == 2 ? "crown bend"
                                           : "bend " + std::to_string(i + 1);
  if (inner < n) bends.back().name = "flange bend";
  return bends;
}

std::vector<Hole> bolt_holes(const Wheel &w, const Sheet &disc, Problems &problems) {
  std::vector<Hole> holes;
  const BoltHoles &b = w.bolts;
  if (b.count == 0) return holes;
  const double s = disc.meridian().first_s_at_radius(0.5 * b.pitch_circle_diameter);
  if (s < 0) {
    problems.push_back("bolt holes: the disc does not reach the pitch circle of " +
                       shown(b.pitch_circle_diameter) + " mm; make the circle smaller");
    return holes;
  }
  Hole h;
  h.s = s;
  h.radius = 0.5 * b.diameter;
  if (b.seat_cone_angle > 0) {
    const double t = disc.thickness().at(s), tan_half = std::tan(b.seat_cone_angle * pi / 360);
    const double depth = 0.5 * (b.seat_diameter - b.diameter) / tan_half;
    if (depth >= 0.9 * t)
      problems.push_back("bolt holes: a seat cone of " + shown(b.seat_diameter) +
                         " mm diameter is " + shown(depth) + " mm deep in a sheet of " + shown(t) +
                         " mm; make the seat diameter smaller than " +
                         shown(b.diameter + 2 * 0.9 * t * tan_half) + " mm");
    h.cone_eta = 1 - 2 * depth / t;
    h.cone_radius = 0.5 * b.seat_diameter;
  }
  for (int k = 0; k < b.count; ++k) {
    h.name = "bolt hole " + std::to_string(k + 1);
    h.theta = 2 * pi * k / b.count;
    holes.push_back(h);
  }
  return holes;
}

std::vector<Hole> vent_holes(const Wheel &w, const Sheet &disc, Problems &problems) {
  std::vector<Hole> holes;
  const VentHoles &v = w.vents;
  if (v.count == 0) return holes;
  const double s = disc.meridian().first_s_at_radius(0.5 * v.pitch_circle_diameter);
  if (s < 0) {
    problems.push_back("vent holes: the disc does not reach the circle of " +
                       shown(v.pitch_circle_diameter) + " mm; make the circle smaller");
    return holes;
  }
  for (int k = 0; k < v.count; ++k)
    holes.push_back({"vent hole " + std::to_string(k + 1), s,
                     v.phase * pi / 180 + 2 * pi * k / v.count, 0.5 * v.diameter, 1, 0});
  return holes;
}

/// Rim, overlap and weld, from the disc's finished flange.
void place_rim(WheelLayout &out, const RimContour &contour, Problems &problems) {
  const RimShape &rim = out.wheel.rim;
  const auto &flange = out.disc.meridian().pieces().back();
  const double z0 = flange.start[1], z1 = out.disc.meridian().at(out.disc.length()).rz[1];
  const double toe_z = z1 - out.wheel.weld.leg;
  const double well_z0 = well_outboard_z(rim, contour), limit = well_inboard_limit_z(rim, contour);
  // the stress at the weld toe is read one thickness beyond it, on straight sheet
  const double needed = toe_z - rim.thickness - 2;
  if (z0 > well_z0 + 1e-9)
    problems.push_back("disc flange: its straight begins " + shown(z0 - well_z0) +
                       " mm outboard of the well bottom (z " + shown(well_z0) +
                       " mm over the hub face); move the last two points of the meridian inboard "
                       "or make the flange bend smaller");
  if (needed < limit)
    problems.push_back("disc flange: flange and weld reach " + shown(limit - needed) +
                       " mm beyond the farthest place of the well bottom (z " + shown(limit) +
                       " mm over the hub face); shorten the flange, move it outboard, or make the "
                       "rim wider");
  if (limit > well_z0 - contour.well_width) {
    problems.push_back("rim: a width code of " + shown(rim.width_code) +
                       " leaves no room for the well of contour " + contour.name +
                       "; choose a wider rim");
    return;
  }
  const RimSection section =
      in_context("rim", [&] { return rim_section(rim, contour, std::max(needed, limit)); });
  out.rim = section.sheet;
  out.rim_features = section.features;
  out.flange_s0 = flange.s0;
  out.rim_overlap_s0 = section.well_s0 + (well_z0 - z0);
  out.rim_weld_root_s = section.well_s0 + (well_z0 - z1);
  out.rim_weld_toe_s = out.rim_weld_root_s + out.wheel.weld.leg;
}

void throw_if_any(const Problems &problems) {
  if (problems.empty()) return;
  std::string text;
  for (const auto &p : problems) text += (text.empty() ? "" : "\n") + p;
  throw Error(text);
}

}  // namespace

WheelLayout layout(const Wheel &wheel) {
  Problems problems;
  const bool welded = wheel.construction == Construction::welded_disc;
  check_values(wheel, problems);
  const RimContour *contour = welded ? contour_of(wheel.rim, problems) : nullptr;
  throw_if_any(problems);

  WheelLayout out;
  out.wheel = wheel;
  const double rim_inside = welded ? rim_inside_radius(wheel.rim, *contour) : 0;
  out.disc = in_context("disc", [&] { return disc_sheet(wheel, rim_inside); });
  out.disc_features = disc_bends(out.disc, welded);
  if (wheel.disc.hub_face_diameter > wheel.disc.bore_diameter)
    out.hub_face_s =
        std::max(0.0, out.disc.meridian().first_s_at_radius(0.5 * wheel.disc.hub_face_diameter));
  out.bolts = bolt_holes(wheel, out.disc, problems);
  out.vents = vent_holes(wheel, out.disc, problems);
  out.symmetry = std::gcd(wheel.bolts.count, wheel.vents.count);
  check_bends(out, problems);
  check_holes(out, problems);
  if (welded) {
    if (check_flange(out, problems)) place_rim(out, *contour, problems);
  }
  // a wheel that is wrong already would only repeat itself here
  if (problems.empty()) check_clearance(out, problems);
  throw_if_any(problems);
  return out;
}

}  // namespace felloe
