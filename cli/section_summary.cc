// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/section_summary.h"

#include <algorithm>
#include <cmath>

#include "cli/wrapping.h"
#include "mesher/rim_contour.h"
#include "mesher/wheel_mesh.h"
#include "post/section_labels.h"

namespace felloe {
namespace {

std::string shown(double value) { return shown_length(value, 2); }

std::string rim_text(const Wheel &w) {
  const auto &r = w.rim;
  return shown(r.diameter_code) + " x " + shown(r.width_code) + " " + r.contour +
         ", seat diameter " + shown(specified_rim_diameter(r.diameter_code)) +
         " mm, width between flanges " + shown(rim_width(r.width_code)) + " mm, sheet " +
         shown(r.thickness) + " mm, inset " + shown(r.inset) + " mm";
}

std::string thickness_text(const WheelLayout &w) {
  const auto &stations = w.disc.thickness().stations();
  double least = stations.front().thickness;
  for (const auto &t : stations) least = std::min(least, t.thickness);
  const double most = w.disc.thickness().largest();
  return least == most ? shown(least) + " mm" : shown(least) + " to " + shown(most) + " mm";
}

std::string disc_text(const WheelLayout &w) {
  const auto end = w.disc.meridian().at(w.disc.length()).rz;
  double highest = 0;
  for (const auto &p : w.disc.meridian().pieces())
    for (int i = 0; i <= 8; ++i)
      highest = std::max(highest, w.disc.section_point(p.s0 + (p.s1 - p.s0) * i / 8, 1)[1]);
  return "sheet " + thickness_text(w) + ", mid-line " + shown(w.disc.length()) +
         " mm from the bore to radius " + shown(end[0]) + " mm, highest point z " + shown(highest) +
         " mm";
}

std::string hub_text(const WheelLayout &w) {
  const auto &d = w.wheel.disc;
  return "bore " + shown(d.bore_diameter) + " mm" +
         (d.hub_face_diameter > 0 ? ", face " + shown(d.hub_face_diameter) + " mm" : "");
}

std::string bends_text(const WheelLayout &w) {
  std::string text;
  for (const auto &f : w.disc_features) {
    const MeridianPiece *bend = piece_of(w, f);
    text += (text.empty() ? "" : "; ") + f.name + " R " +
            shown(bend ? 1 / std::abs(bend->curvature) : 0) + ", s " + shown(f.s0) + " to " +
            shown(f.s1);
  }
  return text.empty() ? "none" : text + " [mm]";
}

std::string mass_text(const Case &c, const WheelLayout &w) {
  const PartMasses m = exact_masses(c, w);
  if (w.wheel.construction == Construction::disc_only) return shown(m.disc) + " kg";
  return shown(m.total()) + " kg: disc " + shown(m.disc) + ", rim " + shown(m.rim) + ", weld " +
         shown(m.weld);
}

}  // namespace

PartMasses exact_masses(const Case &c, const WheelLayout &w) {
  const PartVolumes v = exact_volumes(w);
  const double disc = v.disc * c.disc_material.density;
  if (w.wheel.construction == Construction::disc_only) return {disc, 0, 0};
  return {disc, v.rim * c.rim_material.density, v.weld * c.weld_material.density};
}

std::vector<SectionFigure> section_figures(const Case &c, const WheelLayout &w) {
  const Wheel &wheel = w.wheel;
  const bool welded = wheel.construction == Construction::welded_disc;
  std::vector<SectionFigure> all = {
      {"case", c.file + (c.title.empty() ? "" : ": " + c.title)},
      {"construction", welded ? "pressed disc welded into a rolled rim" : "plain disc"}};
  if (welded) all.push_back({"rim", rim_text(wheel)});
  all.push_back({"disc", disc_text(w)});
  all.push_back({"hub", hub_text(w)});
  if (!w.bolts.empty())
    all.push_back({"bolt holes", std::to_string(wheel.bolts.count) + " of " +
                                     shown(wheel.bolts.diameter) + " mm on a circle of " +
                                     shown(wheel.bolts.pitch_circle_diameter) + " mm"});
  if (!w.vents.empty())
    all.push_back({"vent holes", std::to_string(wheel.vents.count) + " of " +
                                     shown(wheel.vents.diameter) + " mm on a circle of " +
                                     shown(wheel.vents.pitch_circle_diameter) + " mm, at s " +
                                     shown(w.vents.front().s) + " mm"});
  all.push_back({"bends", bends_text(w)});
  if (welded)
    all.push_back({"weld", "ring fillet, leg " + shown(wheel.weld.leg) + " mm on the rim, flange " +
                               shown(w.disc.length() - w.flange_s0) + " mm straight on the rim"});
  all.push_back({"materials",
                 c.disc_material.name + (welded ? " (disc), " + c.rim_material.name + " (rim), " +
                                                      c.weld_material.name + " (weld)"
                                                : "")});
  all.push_back({"mass", mass_text(c, w)});
  return all;
}

std::string section_summary(const std::vector<SectionFigure> &figures, std::size_t width) {
  std::string text;
  for (const SectionFigure &f : figures) text += hanging(f.name, f.text, 14, width);
  return text;
}

}  // namespace felloe
