// SPDX-License-Identifier: GPL-3.0-or-later
#include "post/rated_places.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "mesher/error.h"
#include "post/toe_points.h"

namespace felloe {
namespace {

constexpr double tolerance = 1e-6;  // of parameters that the mesh reproduces exactly [mm]

double angle_of(const Vec3 &x) {
  const double a = std::atan2(x[1], x[0]);
  return a < -1e-9 ? a + 2 * pi : std::max(a, 0.0);
}

/// Nodes on the upper or lower face of their sheet.
bool on_face(const Mesh &mesh, int node) {
  return std::abs(std::abs(mesh.node_points[node].eta) - 1) < 1e-9;
}

class PlaceFinder {
 public:
  PlaceFinder(const WheelLayout &layout, const Mesh &mesh, Held held, const ToeReadOut &read_out)
      : layout_(layout),
        mesh_(mesh),
        held_(held),
        read_out_(read_out),
        hub_thickness_(layout.disc.thickness().at(0)) {
    for (const auto &[name, faces] : mesh.surfaces) {
      if (faces.empty()) continue;
      const bool vent = name.rfind("vent hole", 0) == 0;
      const bool bolt = name.rfind("bolt hole", 0) == 0 || name.rfind("bolt seat", 0) == 0;
      if (vent || bolt)
        for (int n : surface_nodes(mesh, name)) (vent ? vent_wall_ : bolt_wall_).insert(n);
    }
  }

  std::vector<RatedPlace> find() {
    edges();
    disc_faces();
    if (layout_.wheel.construction == Construction::welded_disc) {
      rim_faces();
      for (RatedPlace &toe : weld_toe_places(layout_, mesh_, read_out_))
        places_.push_back(std::move(toe));
    }
    places_.erase(
        std::remove_if(places_.begin(), places_.end(),
                       [](const RatedPlace &p) { return p.nodes.empty() && p.toe_points.empty(); }),
        places_.end());
    return std::move(places_);
  }

 private:
  bool in_sector(int node) const {
    if (mesh_.symmetry <= 1) return true;
    return angle_of(mesh_.nodes[node]) < 2 * pi / mesh_.symmetry + 1e-9;
  }

  bool has_hub_face() const { return layout_.hub_face_s > 0; }

  /// Bonded hub face and the half thickness round its border.
  bool near_hub_face(const SheetPoint &p) const {
    return has_hub_face() && p.eta < -1e-9 &&
           p.s < layout_.hub_face_s + 0.5 * hub_thickness_ - tolerance;
  }

  bool near_disc_end(const SheetPoint &p) const {
    const double end = layout_.disc.length(), t = layout_.disc.thickness().at(end);
    if (layout_.wheel.construction == Construction::welded_disc)
      return p.s > end - 0.4 * t + tolerance ||
             (p.eta > 0 && p.s > layout_.flange_s0 - 0.5 * t);  // under the press fit
    return p.s > end - t;                                       // held edge of a plate
  }

  void edges() {
    RatedPlace vent{"vent edge", Part::disc, Surface::vent_edge, {}, {}, {}};
    for (int n : vent_wall_)
      if (in_sector(n)) vent.nodes.push_back(n);
    RatedPlace bolt{"bolt hole edge", Part::disc, Surface::bolt_edge, {}, {}, {}};
    for (int n : bolt_wall_)
      if (in_sector(n) && !near_hub_face(mesh_.node_points[n])) bolt.nodes.push_back(n);
    bolt.notes.push_back("hub face bonded: moment stress at bolt holes is underestimated");
    places_.push_back(vent);
    places_.push_back(bolt);
  }

  void disc_faces() {
    std::vector<RatedPlace> bends;
    for (const Feature &f : layout_.disc_features)
      bends.push_back({f.name, Part::disc, Surface::parent, {}, {}, {}});
    RatedPlace plain{"disc face", Part::disc, Surface::parent, {}, {}, {}};
    RatedPlace border{"hub face border", Part::disc, Surface::parent, {}, {}, {}};
    border.notes.push_back(
        "structural stress half a thickness outside the bonded hub face; contact is not modelled");
    for (std::size_t i = 0; i < mesh_.nodes.size(); ++i) {
      const int n = static_cast<int>(i);
      if (mesh_.node_parts[n] != Part::disc || !on_face(mesh_, n) || !in_sector(n)) continue;
      if (vent_wall_.count(n) || bolt_wall_.count(n)) continue;
      const SheetPoint &p = mesh_.node_points[n];
      if (near_hub_face(p) || near_disc_end(p)) continue;
      if (layout_.wheel.construction == Construction::disc_only && !has_hub_face() &&
          p.s < hub_thickness_)
        continue;  // hub of a plate held at its bore
      if (has_hub_face() && p.eta < 0 &&
          std::abs(p.s - layout_.hub_face_s - 0.5 * hub_thickness_) < tolerance) {
        border.nodes.push_back(n);
        continue;
      }
      std::size_t k = 0;
      while (k < bends.size() && (p.s < layout_.disc_features[k].s0 - tolerance ||
                                  p.s > layout_.disc_features[k].s1 + tolerance))
        ++k;
      (k < bends.size() ? bends[k] : plain).nodes.push_back(n);
    }
    places_.insert(places_.end(), bends.begin(), bends.end());
    places_.push_back(plain);
    places_.push_back(border);
  }

  /// Rim nodes that the weld, the press fit or the clamp ring make singular.
  bool near_rim_corner(const SheetPoint &p) const {
    const double t = layout_.rim.thickness().at(p.s);
    if (p.eta < 0 && p.s > layout_.rim_overlap_s0 - 0.5 * t &&
        p.s < layout_.rim_weld_toe_s + 0.4 * t - tolerance)
      return true;
    if (held_ != Held::rim) return false;
    for (const Feature &f : layout_.rim_features)
      if (f.name == "flange inboard" && p.s > f.s0 - 2 * t) return true;
    return false;
  }

  void rim_faces() {
    std::vector<RatedPlace> features;
    for (const Feature &f : layout_.rim_features)
      features.push_back({"rim " + f.name, Part::rim, Surface::parent, {}, {}, {}});
    RatedPlace plain{"rim face", Part::rim, Surface::parent, {}, {}, {}};
    for (std::size_t i = 0; i < mesh_.nodes.size(); ++i) {
      const int n = static_cast<int>(i);
      if (mesh_.node_parts[n] != Part::rim || !on_face(mesh_, n) || !in_sector(n)) continue;
      const SheetPoint &p = mesh_.node_points[n];
      if (near_rim_corner(p)) continue;
      std::size_t k = 0;
      while (k < features.size() && (p.s < layout_.rim_features[k].s0 - tolerance ||
                                     p.s > layout_.rim_features[k].s1 + tolerance))
        ++k;
      (k < features.size() ? features[k] : plain).nodes.push_back(n);
    }
    places_.insert(places_.end(), features.begin(), features.end());
    places_.push_back(plain);
  }

  const WheelLayout &layout_;
  const Mesh &mesh_;
  Held held_;
  const ToeReadOut &read_out_;
  double hub_thickness_;
  std::set<int> vent_wall_, bolt_wall_;
  std::vector<RatedPlace> places_;
};

}  // namespace

std::vector<RatedPlace> rated_places(const WheelLayout &layout, const Mesh &mesh, Held held,
                                     const ToeReadOut &read_out) {
  return PlaceFinder(layout, mesh, held, read_out).find();
}

std::vector<RatedPlace> weld_toe_places(const WheelLayout &layout, const Mesh &mesh,
                                        const ToeReadOut &read_out) {
  std::vector<RatedPlace> places;
  const auto add = [&](const std::string &feature, const WeldToe &where) {
    RatedPlace place{feature, where.part, Surface::weld_toe, {}, {}, {}};
    place.thickness = where.sheet->thickness().at(where.s);
    try {
      for (ToePoint &point : toe_points(mesh, where, read_out))
        if (mesh.symmetry <= 1 || angle_of(point.toe) < 2 * pi / mesh.symmetry + 1e-6)
          place.toe_points.push_back(std::move(point));
    } catch (const Error &e) {
      throw Error(feature + ": " + e.what());
    }
    places.push_back(std::move(place));
  };
  add("weld toe disc", {&layout.disc, Part::disc, layout.disc.length(), -1});
  add("weld toe rim", {&layout.rim, Part::rim, layout.rim_weld_toe_s, 1});
  return places;
}

std::string side_of(const WheelLayout &layout, const Mesh &mesh, int node) {
  const double eta = mesh.node_points[node].eta;
  if (std::abs(eta) < 0.999) return "wall";
  if (mesh.node_parts[node] == Part::rim) return eta > 0 ? "tyre side" : "inner side";
  if (layout.flange_s0 > 0 && mesh.node_points[node].s > layout.flange_s0)
    return eta > 0 ? "rim side" : "inner side";
  return eta > 0 ? "outboard" : "inboard";
}

}  // namespace felloe
