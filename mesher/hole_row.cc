// SPDX-License-Identifier: GPL-3.0-or-later
// Space that a row of holes has, and the ring width that suits it.
#include <algorithm>
#include <cmath>
#include <cstdio>

#include "mesher/bands.h"
#include "mesher/error.h"
#include "mesher/hole_ring.h"

namespace felloe {
namespace {

std::string shown(double x) {
  char text[32];
  std::snprintf(text, sizeof text, "%.2f", x);
  return text;
}

/// A circle that no ring may cross.
struct Border {
  double s = 0;
  std::string name;
};

std::vector<Border> borders(const WheelLayout &l) {
  const double end = l.disc.length();
  std::vector<Border> list = {{0, "the bore"}, {end, "the disc's end"}};
  if (l.hub_face_s > 0 && l.hub_face_s < end) {
    list.push_back({l.hub_face_s, "the hub face's border"});
    const double beyond = l.hub_face_s + 0.5 * l.disc.thickness().at(l.hub_face_s);
    if (beyond < end) list.push_back({beyond, "the hub face's border"});
  }
  for (const auto &p : l.disc.meridian().pieces())
    if (p.is_bend()) {
      std::string name = "a bend";
      for (const auto &f : l.disc_features)
        if (f.s0 < 0.5 * (p.s0 + p.s1) && 0.5 * (p.s0 + p.s1) < f.s1) name = "the " + f.name;
      list.push_back({p.s0, name});
      list.push_back({p.s1, name});
    }
  if (has_flange(l)) list.push_back({l.flange_s0, "the flange"});
  return list;
}

HoleRow row_of(const WheelLayout &l, const std::string &name, const std::vector<Hole> &holes,
               int first) {
  HoleRow row;
  row.name = name;
  row.holes = holes;
  row.first = first;
  const Hole &hole = holes.front();
  const double centre = l.disc.sigma(hole.s);
  row.wall_low = centre - widest_wall(l.disc, hole, pi);
  row.wall_high = centre + widest_wall(l.disc, hole, 0);
  const double s_low = l.disc.s_at(row.wall_low), s_high = l.disc.s_at(row.wall_high);
  double low = -1e300, high = 1e300;
  for (const Border &b : borders(l)) {
    const double inside = hole.s < b.s ? s_high - b.s : b.s - s_low;
    if (inside > -1e-9)
      throw Error(name + ": the wall spans s = " + shown(s_low) + " to " + shown(s_high) +
                  " mm of the mid-line and crosses " + b.name + " at s = " + shown(b.s) +
                  " mm: holes must lie in one straight stretch; move the pitch circle by more "
                  "than " +
                  shown(inside) + " mm or make the holes smaller");
    if (b.s < hole.s) low = std::max(low, b.s);
    if (b.s > hole.s) high = std::min(high, b.s);
  }
  row.space_low = l.disc.sigma(low);
  row.space_high = l.disc.sigma(high);
  return row;
}

/// Two rows in one stretch share the space between them.
void separate(HoleRow &inner, HoleRow &outer, const Sheet &disc) {
  if (inner.space_high < outer.wall_low && outer.space_low > inner.wall_high) return;
  if (inner.wall_high >= outer.wall_low)
    throw Error(outer.name + ": their walls start at s = " + shown(disc.s_at(outer.wall_low)) +
                " mm, the " + inner.name + " end at s = " + shown(disc.s_at(inner.wall_high)) +
                " mm: the rows overlap; move the pitch circles apart");
  inner.space_high = outer.space_low = 0.5 * (inner.wall_high + outer.wall_low);
}

/// As wide as the layers want, at most 0.6 of the space to the nearest border or to the mirror line
/// between two holes.
void set_ring_width(HoleRow &row, const Sheet &disc, const MeshSize &size) {
  const Hole &hole = row.holes.front();
  const double radius = disc.section_point(hole.s, 0)[0];
  double reach = 0;
  for (int i = 1; i < 16; ++i) {
    const double phi = pi * i / 16;
    reach = std::max(reach, widest_wall(disc, hole, phi) * std::sin(phi));
  }
  const double half_ligament = pi / static_cast<double>(row.holes.size()) - reach;
  const double space =
      std::min({row.wall_low - row.space_low, row.space_high - row.wall_high, half_ligament});
  const double needed = 0.2 * disc.thickness().at(hole.s);
  if (space * radius < needed) {
    const bool ligament = space == half_ligament;
    throw Error(row.name + ": " +
                (ligament ? "neighbouring walls leave a ligament of " + shown(2 * space * radius)
                          : "the walls come within " + shown(space * radius)) +
                (ligament ? " mm" : " mm of a bend, an edge or another row of holes") +
                ": no ring of cells fits; leave at least " + shown((ligament ? 2 : 1) * needed) +
                " mm");
  }
  double wanted = 0, w = size.ring_first * hole.radius / radius;
  for (int i = 0; i < size.ring_layers; ++i, w *= 1.25) wanted += w;
  row.ring_width = std::min(wanted, 0.6 * space);
}

}  // namespace

bool has_flange(const WheelLayout &l) {
  return l.flange_s0 > 0 && l.flange_s0 < l.disc.length() - 1e-6;
}

std::vector<HoleRow> hole_rows(const WheelLayout &l, const MeshSize &size) {
  std::vector<HoleRow> rows;
  if (!l.bolts.empty()) rows.push_back(row_of(l, "bolt holes", l.bolts, 0));
  if (!l.vents.empty())
    rows.push_back(row_of(l, "vent holes", l.vents, static_cast<int>(l.bolts.size())));
  if (rows.size() == 2) {
    if (rows[1].holes.front().s < rows[0].holes.front().s) std::swap(rows[0], rows[1]);
    separate(rows[0], rows[1], l.disc);
  }
  for (HoleRow &row : rows) set_ring_width(row, l.disc, size);
  return rows;
}

}  // namespace felloe
