// SPDX-License-Identifier: GPL-3.0-or-later
// The contour's corners, from the outboard flange edge to the inboard one, and their parallel
// polygon.
#include "mesher/rim_section.h"

#include <algorithm>
#include <cmath>

namespace felloe {
namespace {

constexpr double seat_slope = 5 * pi / 180;   // ISO 4000-1: 5 degree bead seat
constexpr double well_slope = 55 * pi / 180;  // common practice, no source
constexpr double heel_radius = 6.5;           // at the foot of the flange; from memory
constexpr double shelf_bend = 20;             // between inboard seat and shelf; common practice

/// Tyre-side radius of the bends round the well; common practice, kept clear of the sheet.
double well_bend(const RimShape &rim) { return std::max(8.0, 2.5 * rim.thickness); }

/// Measures of the tyre side that both ends of the well share.
struct Measures {
  double flange_z, width, seat_r, seat_toe_r, well_r, bend;
  double toe_run;   // axial, from the flange plane to the seat's toe corner
  double well_run;  // from the flange plane to the corner of the well bottom
  double cut;       // tangent length of the bend at the well bottom
};

Measures measures(const RimShape &rim, const RimContour &c) {
  Measures m{};
  m.bend = well_bend(rim);
  m.width = rim_width(rim.width_code);
  m.flange_z = -rim.inset + 0.5 * m.width;
  m.seat_r = 0.5 * specified_rim_diameter(rim.diameter_code);
  m.well_r = m.seat_r - c.well_depth;
  // the seat stays straight over its whole width P: its toe corner lies one tangent length beyond
  m.toe_run = c.seat_width + m.bend * std::tan(0.5 * (well_slope - seat_slope));
  m.seat_toe_r = m.seat_r - m.toe_run * std::tan(seat_slope);
  m.well_run = m.toe_run + (m.seat_toe_r - m.well_r) / std::tan(well_slope);
  m.cut = m.bend * std::tan(0.5 * well_slope);
  return m;
}

/// The polygon shifted by `shift` against its left-hand normal, every corner moved to the
/// intersection of the shifted straights, bend radii widened or narrowed to stay parallel curves.
std::vector<MeridianCorner> parallel_polygon(const std::vector<MeridianCorner> &corners,
                                             double shift) {
  const std::size_t n = corners.size();
  std::vector<Vec2> t(n - 1);
  for (std::size_t i = 0; i + 1 < n; ++i) {
    const double dr = corners[i + 1].rz[0] - corners[i].rz[0],
                 dz = corners[i + 1].rz[1] - corners[i].rz[1], l = std::hypot(dr, dz);
    t[i] = {dr / l, dz / l};
  }
  std::vector<MeridianCorner> out = corners;
  for (std::size_t i = 0; i < n; ++i) {
    const Vec2 a = t[i == 0 ? 0 : i - 1], b = t[i + 1 == n ? n - 2 : i];
    const double turn = std::atan2(a[0] * b[1] - a[1] * b[0], a[0] * b[0] + a[1] * b[1]);
    // along the bisector of the two normals, 1 / cos(half turn) long
    const Vec2 m = {-a[1] - b[1], a[0] + b[0]};
    const double k = shift / (0.5 * (m[0] * m[0] + m[1] * m[1]));
    for (int d = 0; d < 2; ++d) out[i].rz[d] -= k * m[d];
    if (out[i].bend_radius > 0) out[i].bend_radius += turn > 0 ? shift : -shift;
  }
  return out;
}

}  // namespace

double rim_inside_radius(const RimShape &rim, const RimContour &c) {
  return measures(rim, c).well_r - rim.thickness;
}

double well_outboard_z(const RimShape &rim, const RimContour &c) {
  const Measures m = measures(rim, c);
  return m.flange_z - m.well_run - m.cut;
}

double well_inboard_limit_z(const RimShape &rim, const RimContour &c) {
  const Measures m = measures(rim, c);
  return m.flange_z - m.width + m.well_run + m.cut;
}

RimSection rim_section(const RimShape &rim, const RimContour &c, double well_inboard_z) {
  const Measures m = measures(rim, c);
  const double z0 = m.flange_z, z1 = z0 - m.width, top = m.seat_r + c.flange_height;
  const double well_z0 = z0 - m.well_run;
  const double well_z1 = std::min(well_inboard_z, well_z0 - m.cut - c.well_width) - m.cut;
  RimSection out;
  auto &p = out.tyre_side;
  p = {{{top, z0 + c.flange_width}, 0}, {{top, z0}, c.flange_radius},
       {{m.seat_r, z0}, heel_radius},   {{m.seat_toe_r, z0 - m.toe_run}, m.bend},
       {{m.well_r, well_z0}, m.bend},   {{m.well_r, well_z1}, m.bend}};
  // A shelf at the height of the inboard seat's toe joins slope and seat where there is room; the
  // 5 degree corner needs a little more straight than the seat's own width.
  const double seat_end = c.seat_width + shelf_bend * std::tan(0.5 * seat_slope);
  const double shelf_r = m.seat_r - seat_end * std::tan(seat_slope);
  const double slope_top_z = well_z1 - (shelf_r - m.well_r) / std::tan(well_slope);
  const double shelf = slope_top_z - (z1 + seat_end);
  const bool has_shelf =
      shelf > m.bend * std::tan(0.5 * well_slope) + shelf_bend * std::tan(0.5 * seat_slope) + 1;
  if (has_shelf) {
    p.push_back({{shelf_r, slope_top_z}, m.bend});
    p.push_back({{shelf_r, z1 + seat_end}, shelf_bend});
  } else {
    // the slope meets the seat's own line
    const double run = z1 + 0;  // flange plane
    const double a = std::tan(seat_slope), b = std::tan(well_slope);
    // seat: r = seat_r - a (z - run); slope: r = well_r + b (well_z1 - z)
    const double z = (m.seat_r + a * run - m.well_r - b * well_z1) / (a - b);
    p.push_back({{m.seat_r - a * (z - run), z}, m.bend});
  }
  p.push_back({{m.seat_r, z1}, heel_radius});
  p.push_back({{top, z1}, c.flange_radius});
  p.push_back({{top, z1 - c.flange_width}, 0});
  out.sheet =
      Sheet(Meridian(parallel_polygon(p, 0.5 * rim.thickness)), ThicknessLaw({{0, rim.thickness}}));

  // straight, bend, straight, ...: the corners all turn, so the order of the pieces is known
  const auto &q = out.sheet.meridian().pieces();
  const std::size_t last = q.size() - 1, well = 8;
  out.well_s0 = q[well].s0;
  out.well_s1 = q[well].s1;
  out.features = {{"flange outboard", 0, q[2].s1},
                  {"heel bend outboard", q[3].s0, q[3].s1},
                  {"bead seat outboard", q[4].s0, q[4].s1},
                  {"well bend outboard", q[7].s0, q[7].s1},
                  {"well", out.well_s0, out.well_s1},
                  {"well bend inboard", q[9].s0, q[9].s1},
                  {"bead seat inboard", q[last - 4].s0, q[last - 4].s1},
                  {"heel bend inboard", q[last - 3].s0, q[last - 3].s1},
                  {"flange inboard", q[last - 2].s0, q[last].s1}};
  return out;
}

}  // namespace felloe
