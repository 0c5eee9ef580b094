// SPDX-License-Identifier: GPL-3.0-or-later
// The rules that a wheel must keep to exist, each with its message.
#include "mesher/layout_check.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "mesher/error.h"
#include "mesher/rim_section.h"

namespace felloe {

std::string shown(double x) {
  char text[40];
  std::snprintf(text, sizeof text, "%.1f", x);
  return text;
}

namespace {

bool is_welded(const Wheel &w) { return w.construction == Construction::welded_disc; }

/// The straight piece on which s lies; null inside a bend.
const MeridianPiece *straight_at(const Sheet &sheet, double s) {
  for (const auto &p : sheet.meridian().pieces())
    if (s >= p.s0 && s <= p.s1) return p.is_bend() ? nullptr : &p;
  return nullptr;
}

/// Room that a hole's ring of cells needs between the hole's edge and the end of its straight.
double ring_space(double thickness, double radius) { return std::max(thickness, 0.15 * radius); }

void check_hole_circle(const WheelLayout &w, const std::vector<Hole> &holes,
                       const std::string &what, Problems &problems) {
  if (holes.empty()) return;
  const Hole &h = holes.front();
  const double t = w.disc.thickness().at(h.s);
  const std::string size = what + ": a hole of " + shown(2 * h.radius) + " mm diameter on the " +
                           shown(2 * w.disc.meridian().at(h.s).rz[0]) + " mm circle ";
  const MeridianPiece *p = straight_at(w.disc, h.s);
  if (!p) {
    problems.push_back(size + "lies in a bend (s " + shown(h.s) +
                       " mm); move the circle to a straight stretch");
    return;
  }
  const double space = ring_space(t, h.radius), reach = h.radius + space;
  const double over = std::max(p->s0 + reach - h.s, h.s + reach - p->s1);
  if (over > 1e-9) {
    const auto circle = [&](double s) { return shown(2 * w.disc.meridian().at(s).rz[0]); };
    const std::string remedy =
        p->s1 - p->s0 > 2 * reach
            ? "make the holes smaller or move the circle to " + circle(p->s0 + reach) + " ... " +
                  circle(p->s1 - reach) + " mm"
            : "make the holes smaller than " + shown(p->s1 - p->s0 - 2 * space) +
                  " mm or the stretch longer";
    problems.push_back(size + "leaves its straight stretch (s " + shown(p->s0) + " ... " +
                       shown(p->s1) + " mm, " + shown(space) + " mm kept free at both ends) by " +
                       shown(over) + " mm; " + remedy);
  }
  if (holes.size() > 1) {
    const double pitch =
        2 * w.disc.meridian().at(h.s).rz[0] * std::sin(pi / static_cast<double>(holes.size()));
    const double widest = std::max(h.radius, h.cone_radius), ligament = pitch - 2 * widest;
    if (ligament < t)
      problems.push_back(what + ": the ligament between neighbours is " + shown(ligament) +
                         " mm, less than the thickness of " + shown(t) +
                         " mm; make the holes smaller or fewer, or the circle larger");
  }
}

void check_hub_face(const WheelLayout &w, Problems &problems) {
  const DiscShape &d = w.wheel.disc;
  const auto &first = w.disc.meridian().pieces().front();
  if (w.hub_face_s > 0 && w.hub_face_s > first.s1 + 1e-9)
    problems.push_back("hub face: its diameter of " + shown(d.hub_face_diameter) +
                       " mm reaches beyond the flat hub, which ends at " +
                       shown(2 * w.disc.meridian().at(first.s1).rz[0]) +
                       " mm; make the hub face smaller or move the nave bend outwards");
  if (w.bolts.empty()) return;
  const Hole &h = w.bolts.front();
  const double t = w.disc.thickness().at(h.s);
  if (h.s - h.radius - t < -1e-9)
    problems.push_back("bolt holes: the ligament to the bore is " + shown(h.s - h.radius) +
                       " mm, less than the thickness of " + shown(t) +
                       " mm; make the bore or the holes smaller, or the pitch circle larger");
  if (w.hub_face_s > 0 && h.s + h.radius + t > w.hub_face_s + 1e-9)
    problems.push_back("bolt holes: between holes and border of the hub face lie " +
                       shown(w.hub_face_s - h.s - h.radius) + " mm, less than the thickness of " +
                       shown(t) + " mm; make the pitch circle smaller than " +
                       shown(d.hub_face_diameter - 2 * (h.radius + t)) +
                       " mm or the hub face larger");
}

}  // namespace

void check_values(const Wheel &w, Problems &problems) {
  const auto positive = [&](double x, const std::string &what) {
    if (!(x > 0 && std::isfinite(x)))
      problems.push_back(what + ": is " + shown(x) + "; it must be positive");
  };
  positive(w.disc.bore_diameter, "disc: bore diameter [mm]");
  if (w.disc.thickness.empty())
    problems.push_back("disc: no thickness is given; give at least one thickness station");
  for (const auto &t : w.disc.thickness) positive(t.thickness, "disc: thickness [mm]");
  if (w.disc.meridian.empty())
    problems.push_back("disc: the meridian has no points; give at least the outer edge");
  for (std::size_t i = 0; i < w.disc.meridian.size(); ++i) {
    const auto &p = w.disc.meridian[i];
    const std::string name = "disc: meridian point " + std::to_string(i + 1);
    if (!p.on_rim) positive(p.r, name + ", radius [mm]");
    if (p.on_rim && !is_welded(w))
      problems.push_back(name + ": lies on the rim, but a disc alone has none; give its radius");
    if (i + 1 < w.disc.meridian.size() && !(p.bend_radius > 0))
      problems.push_back(name + ": has no bend radius; sheet cannot fold sharply, give one");
  }
  if (w.bolts.count < 0 || w.vents.count < 0)
    problems.push_back("holes: a count is negative; give 0 for none");
  if (w.bolts.count > 0) {
    positive(w.bolts.pitch_circle_diameter, "bolt holes: pitch circle diameter [mm]");
    positive(w.bolts.diameter, "bolt holes: diameter [mm]");
    const double angle = w.bolts.seat_cone_angle;
    if (!(angle >= 0 && angle < 170))
      problems.push_back("bolt holes: seat cone angle is " + shown(angle) +
                         " degrees; accepted are 0 (flat seat) and 20 to 170");
    if (angle > 0 && angle < 20)
      problems.push_back("bolt holes: seat cone angle is " + shown(angle) +
                         " degrees; accepted are 0 (flat seat) and 20 to 170");
    if (w.bolts.seat_diameter > 0 || angle > 0)
      if (!(w.bolts.seat_diameter > w.bolts.diameter))
        problems.push_back("bolt holes: the seat diameter of " + shown(w.bolts.seat_diameter) +
                           " mm does not exceed the hole's " + shown(w.bolts.diameter) +
                           " mm; make it larger");
  }
  if (w.vents.count > 0) {
    positive(w.vents.pitch_circle_diameter, "vent holes: circle diameter [mm]");
    positive(w.vents.diameter, "vent holes: diameter [mm]");
  }
  if (!is_welded(w)) return;
  positive(w.rim.diameter_code, "rim: diameter code");
  positive(w.rim.width_code, "rim: width code");
  positive(w.rim.thickness, "rim: thickness [mm]");
  positive(w.weld.leg, "weld: leg [mm]");
  if (w.disc.meridian.size() < 2)
    problems.push_back("disc: a welded disc needs at least two meridian points, its flange");
  if (w.rim.thickness > 6)
    problems.push_back("rim: a thickness of " + shown(w.rim.thickness) +
                       " mm does not fit the contour's bends; accepted is up to 6 mm");
}

void check_bends(const WheelLayout &w, Problems &problems) {
  for (const auto &f : w.disc_features) {
    const double s = 0.5 * (f.s0 + f.s1);
    double t = 0, radius = 0;
    for (const auto &p : w.disc.meridian().pieces())
      if (p.is_bend() && s > p.s0 && s < p.s1) radius = 1 / std::abs(p.curvature);
    for (int i = 0; i <= 8; ++i)
      t = std::max(t, w.disc.thickness().at(f.s0 + (f.s1 - f.s0) * i / 8));
    if (0.5 * t > 0.8 * radius)
      problems.push_back("disc, " + f.name + ": a mid-line radius of " + shown(radius) +
                         " mm is too tight for a thickness of " + shown(t) +
                         " mm; make it at least " + shown(0.5 * t / 0.8) + " mm");
  }
}

void check_holes(const WheelLayout &w, Problems &problems) {
  check_hub_face(w, problems);
  check_hole_circle(w, w.bolts, "bolt holes", problems);
  check_hole_circle(w, w.vents, "vent holes", problems);
  if (w.bolts.empty() || w.vents.empty()) return;
  const Hole &b = w.bolts.front(), &v = w.vents.front();
  const double ligament = v.s - v.radius - b.s - std::max(b.radius, b.cone_radius);
  const double needed = ring_space(w.disc.thickness().at(b.s), b.radius) +
                        ring_space(w.disc.thickness().at(v.s), v.radius);
  if (ligament < needed)
    problems.push_back("vent holes: " + shown(ligament) + " mm lie between bolt and vent holes, " +
                       shown(needed) + " mm are needed; make the vent circle larger");
}

bool check_flange(const WheelLayout &w, Problems &problems) {
  const Meridian &m = w.disc.meridian();
  const MeridianPiece &flange = m.pieces().back();
  const double t = w.disc.thickness().at(w.disc.length());
  const double inside = [&] {
    for (const auto &c : rim_contours())
      if (c.name == w.wheel.rim.contour) return rim_inside_radius(w.wheel.rim, c);
    return 0.0;
  }();
  const double right = inside - 0.5 * t;
  const auto &points = w.wheel.disc.meridian;
  for (std::size_t i = points.size() < 2 ? 0 : points.size() - 2; i < points.size(); ++i)
    if (!points[i].on_rim && std::abs(points[i].r - right) > 0.3)
      problems.push_back("disc flange: meridian point " + std::to_string(i + 1) +
                         " has a radius of " + shown(points[i].r) +
                         " mm; the rim's well asks for " + shown(right) +
                         " mm (mid-line); give that or put the point on the rim");
  if (std::abs(flange.direction[0]) > 1e-9 || flange.direction[1] > 0) {
    problems.push_back(
        "disc flange: the last stretch must run inboard, parallel to the axis; give "
        "the last two meridian points the same radius, the last one the smaller z");
    return false;
  }
  for (int i = 0; i <= 16; ++i) {
    const double s = flange.s0 + (flange.s1 - flange.s0) * i / 16;
    if (std::abs(w.disc.thickness().at(s) - t) > 1e-9) {
      problems.push_back("disc flange: the thickness changes along the flange (s " +
                         shown(flange.s0) + " ... " + shown(flange.s1) +
                         " mm), which sits on a cylinder; end the thickness stations before it");
      break;
    }
  }
  if (flange.s1 - flange.s0 < 2 * t)
    problems.push_back("disc flange: its straight is " + shown(flange.s1 - flange.s0) +
                       " mm long; at least two thicknesses, " + shown(2 * t) +
                       " mm, are needed on the rim");
  const double leg = w.wheel.weld.leg;
  if (leg < 0.6 * t || leg > 2 * t)
    problems.push_back("weld: a leg of " + shown(leg) + " mm at a flange of " + shown(t) +
                       " mm; accepted are " + shown(0.6 * t) + " to " + shown(2 * t) + " mm");
  return true;
}

void check_clearance(const WheelLayout &w, Problems &problems) {
  const double length = w.disc.length(), step = std::max(0.5, length / 800);
  std::vector<double> disc_s;
  for (double s = 0; s < length; s += step) disc_s.push_back(s);
  std::vector<Vec2> disc;
  for (double s : disc_s) disc.push_back(w.disc.meridian().at(s).rz);
  const auto gap = [](const Vec2 &a, const Vec2 &b) {
    return std::hypot(a[0] - b[0], a[1] - b[1]);
  };
  for (std::size_t i = 0; i < disc.size(); ++i) {
    const double t = w.disc.thickness().at(disc_s[i]);
    for (std::size_t j = i + 1; j < disc.size(); ++j)
      if (disc_s[j] - disc_s[i] > 3 * w.disc.thickness().largest() && gap(disc[i], disc[j]) < t) {
        problems.push_back("disc: the sheet touches itself at s " + shown(disc_s[i]) + " and " +
                           shown(disc_s[j]) + " mm; move the meridian points apart");
        return;
      }
  }
  if (!is_welded(w.wheel)) return;
  const double rim_t = w.wheel.rim.thickness;
  for (std::size_t i = 0; i < disc.size() && disc_s[i] < w.flange_s0; ++i)
    for (double s = 0; s < w.rim.length(); s += 0.5) {
      const Vec2 p = w.rim.meridian().at(s).rz;
      if (gap(disc[i], p) < 0.5 * (w.disc.thickness().at(disc_s[i]) + rim_t) - 0.02) {
        problems.push_back("disc: touches the rim at s " + shown(disc_s[i]) + " mm (radius " +
                           shown(disc[i][0]) +
                           " mm), outside the flange; move the meridian inwards");
        return;
      }
    }
}

}  // namespace felloe
