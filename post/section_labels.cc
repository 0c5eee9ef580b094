// SPDX-License-Identifier: GPL-3.0-or-later
#include "post/section_labels.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "mesher/rim_contour.h"

namespace felloe {
namespace {

bool welded(const WheelLayout &w) { return w.wheel.construction == Construction::welded_disc; }

std::string mm(double value) { return shown_length(value, 2) + " mm"; }

/// "Ø 112": the diameter sign in UTF-8.
std::string diameter(double value) { return "\xC3\x98 " + shown_length(value, 2); }

std::string stretch(double s0, double s1) {
  return "s " + shown_length(s0) + " to " + shown_length(s1);
}

/// " R 12 mm, s 46.9 to 58.9, corner r 82 z 1.9": the corner is where the two tangents meet.
std::string bend_text(const WheelLayout &w, const Feature &f) {
  const MeridianPiece *bend = piece_of(w, f);
  if (!bend) return "";
  const double radius = 1 / std::abs(bend->curvature);
  const double cut = radius * std::tan(0.5 * (bend->s1 - bend->s0) / radius);
  return " R " + mm(radius) + ", " + stretch(f.s0, f.s1) + ", corner r " +
         shown_length(bend->start[0] + cut * bend->direction[0]) + " z " +
         shown_length(bend->start[1] + cut * bend->direction[1]);
}

const Feature *rim_feature(const WheelLayout &w, const std::string &name) {
  for (const auto &f : w.rim_features)
    if (f.name == name) return &f;
  return nullptr;
}

/// Heel of a bead seat: the seat's end next to the flange, on the tyre side.
Vec2 heel(const WheelLayout &w, const std::string &side) {
  const Feature *seat = rim_feature(w, "bead seat " + side);
  if (!seat) return w.rim.section_point(side == "outboard" ? 0 : w.rim.length(), 1);
  return w.rim.section_point(side == "outboard" ? seat->s0 : seat->s1, 1);
}

/// The point of the rim's tyre side with the largest radius, and that radius.
Vec2 rim_top(const WheelLayout &w) {
  Vec2 top{};
  for (int i = 0; i <= 2000; ++i)
    for (const double eta : {-1.0, 1.0}) {
      const Vec2 p = w.rim.section_point(w.rim.length() * i / 2000, eta);
      if (p[0] > top[0] && p[1] < -w.wheel.rim.inset) top = p;
    }
  return top;
}

std::string hole_text(const std::string &name, int count, double size) {
  return std::to_string(count) + (count == 1 ? " " + name : " " + name + "s") + " " +
         diameter(size) + " mm";
}

}  // namespace

const MeridianPiece *piece_of(const WheelLayout &w, const Feature &f) {
  for (const auto &p : w.disc.meridian().pieces())
    if (p.is_bend() && std::abs(p.s0 - f.s0) < 1e-6) return &p;
  return nullptr;
}

std::string shown_length(double value, int digits) {
  char text[40];
  std::snprintf(text, sizeof text, "%.*f", digits, value);
  std::string s = text;
  if (s.find('.') != std::string::npos) {
    s.erase(s.find_last_not_of('0') + 1);
    if (s.back() == '.') s.pop_back();
  }
  return s == "-0" ? "0" : s;
}

std::vector<SectionLabel> inboard_labels(const WheelLayout &w) {
  const Wheel &wheel = w.wheel;
  std::vector<SectionLabel> all;
  all.push_back({w.disc.section_point(0, -1), "bore " + diameter(wheel.disc.bore_diameter)});
  if (w.hub_face_s > 0)
    all.push_back({w.disc.section_point(w.hub_face_s, -1),
                   "hub face " + diameter(wheel.disc.hub_face_diameter)});
  if (!w.bolts.empty())
    all.push_back({w.disc.section_point(w.bolts[0].s, -1),
                   "bolt circle " + diameter(wheel.bolts.pitch_circle_diameter)});
  if (!w.vents.empty())
    all.push_back({w.disc.section_point(w.vents[0].s, -1),
                   "vent circle " + diameter(wheel.vents.pitch_circle_diameter)});
  const double length = w.disc.length();
  if (!welded(w)) {
    all.push_back({w.disc.section_point(length, -1),
                   "outer edge " + diameter(2 * w.disc.meridian().at(length).rz[0])});
    return all;
  }
  all.push_back({w.disc.section_point(0.5 * (w.flange_s0 + length), -1),
                 "flange on the rim " + mm(length - w.flange_s0) + ", outside " +
                     diameter(2 * w.disc.section_point(length, 1)[0])});
  const double toe = 0.5 * (w.rim_weld_root_s + w.rim_weld_toe_s);
  all.push_back({w.rim.section_point(toe, -1), "ring fillet, leg " + mm(wheel.weld.leg)});
  const Feature *well = rim_feature(w, "well");
  if (well)
    all.push_back({w.rim.section_point(well->s0 + 0.9 * (well->s1 - well->s0), 1),
                   "rim sheet " + mm(wheel.rim.thickness)});
  all.push_back({heel(w, "inboard"),
                 "rim seat " + diameter(specified_rim_diameter(wheel.rim.diameter_code))});
  const Vec2 top = rim_top(w);
  all.push_back({top, "over the flanges " + diameter(2 * top[0])});
  return all;
}

std::vector<SectionLabel> outboard_labels(const WheelLayout &w) {
  const Wheel &wheel = w.wheel;
  std::vector<SectionLabel> all;
  for (const auto &f : w.disc_features) {
    const double s = 0.5 * (f.s0 + f.s1);
    all.push_back({w.disc.section_point(s, 0), f.name + bend_text(w, f)});
  }
  const auto &stations = w.disc.thickness().stations();
  for (const auto &t : stations)
    if (t.s <= w.disc.length() && stations.size() > 1)
      all.push_back({w.disc.section_point(t.s, 0),
                     "sheet " + mm(t.thickness) + " at s " + shown_length(t.s)});
  const double clear = w.bolts.empty() ? 0.2 * w.disc.length() : w.bolts[0].s - w.bolts[0].radius;
  if (stations.size() == 1)
    all.push_back({w.disc.section_point(0.5 * clear, 0), "disc sheet " + mm(stations[0].thickness) +
                                                             ", mid-line " + mm(w.disc.length())});
  if (!w.bolts.empty()) {
    std::string text = hole_text("bolt hole", wheel.bolts.count, wheel.bolts.diameter);
    if (wheel.bolts.seat_diameter > 0) {
      text += ", seat " + diameter(wheel.bolts.seat_diameter);
      if (wheel.bolts.seat_cone_angle > 0)
        text += ", cone " + shown_length(wheel.bolts.seat_cone_angle) + "\xC2\xB0";
    }
    all.push_back({w.disc.section_point(w.bolts[0].s, 0), text});
  }
  if (!w.vents.empty())
    all.push_back({w.disc.section_point(w.vents[0].s, 0),
                   hole_text("vent hole", wheel.vents.count, wheel.vents.diameter) + ", at s " +
                       shown_length(w.vents[0].s)});
  return all;
}

std::vector<SectionLabel> heights(const WheelLayout &w) {
  std::vector<SectionLabel> all;
  const auto add = [&all](const Vec2 &point, const std::string &name) {
    for (const auto &other : all)
      if (std::abs(other.point[1] - point[1]) < 0.05) return;
    all.push_back({point, name + " z " + shown_length(point[1])});
  };
  const double length = w.disc.length();
  add(w.disc.section_point(0, -1), "hub face");
  Vec2 top = w.disc.section_point(0, 1);
  for (int i = 0; i <= 2000; ++i) {
    const Vec2 p = w.disc.section_point(length * i / 2000, 1);
    if (p[1] > top[1]) top = p;
  }
  add(top, "highest point");
  if (!w.vents.empty()) add(w.disc.section_point(w.vents[0].s, 0), "vent centre");
  if (welded(w)) {
    add({w.rim.section_point(0, 0)[0], -w.wheel.rim.inset}, "rim mid-plane");
    add(w.disc.section_point(w.flange_s0, 0), "flange begins");
    add(w.disc.section_point(length, 0), "flange ends");
    add(w.rim.section_point(w.rim_weld_toe_s, -1), "weld toe on the rim");
  }
  for (std::size_t i = 0; i < w.disc_features.size(); ++i) {
    const auto &f = w.disc_features[i];
    add(w.disc.section_point(0.5 * (f.s0 + f.s1), 0), f.name);
  }
  return all;
}

std::vector<AxialDimension> axial_dimensions(const WheelLayout &w) {
  if (!welded(w)) return {};
  const RimShape &rim = w.wheel.rim;
  const double middle = -rim.inset, half = 0.5 * rim_width(rim.width_code);
  const double top = rim_top(w)[0];
  return {{{top, middle}, {top, 0}, "inset " + mm(rim.inset)},
          {{top, middle - half},
           {top, middle + half},
           "between the flanges " + mm(rim_width(rim.width_code))}};
}

std::string section_title(const WheelLayout &w) {
  if (!welded(w)) return "plain disc, half section";
  const RimShape &rim = w.wheel.rim;
  return shown_length(rim.diameter_code, 2) + " x " + shown_length(rim.width_code, 2) + " " +
         rim.contour + ", inset " + mm(rim.inset) + ", half section";
}

}  // namespace felloe
