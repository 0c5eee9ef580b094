// SPDX-License-Identifier: GPL-3.0-or-later
// The joint's outline in (a, b): a along the sheets from the root over the weld, b inwards from the
// rim's face. It becomes the section r = far - b, z = a of a ring so large that it is plane strain.
#include "post/weld_notch.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "mesher/error.h"
#include "mesher/outline_mesh.h"
#include "solver/harmonic_model.h"

namespace felloe {
namespace {

constexpr double far = 1e5;  // radius of the ring [mm]; hoop strains are 1e-4 of the others

Vec2 section(double a, double b) { return {far - b, a}; }
Vec2 joint(const Vec2 &rz) { return {rz[1], far - rz[0]}; }

struct Outline {
  Vec2 start{};
  std::vector<OutlineEdge> edges;
  Vec2 toe_centre{}, root_centre{};
};

void check(const WeldJoint &j, double way) {
  const auto refuse = [&](const char *what, double value, double limit, const char *remedy) {
    throw Error(
        fmt::format("effective notch: {} {:.3g} mm does not hold a radius of {:g} mm "
                    "(needed: {:.3g} mm); {}",
                    what, value, j.radius, limit, remedy));
  };
  const char *smaller = "thin sheet takes 0.05 mm";
  if (j.disc_thickness < 3 * j.radius)
    refuse("a disc flange of", j.disc_thickness, 3 * j.radius, smaller);
  if (j.rim_thickness < 3 * j.radius) refuse("a rim of", j.rim_thickness, 3 * j.radius, smaller);
  if (j.leg < 2 * way) refuse("a weld leg of", j.leg, 2 * way, smaller);
}

Outline outline(const WeldJoint &j, int fineness) {
  const double rho = j.radius, gap = 0.02 * rho, top = j.disc_thickness + gap;
  const double slope = std::atan2(top, j.leg), way = rho * std::tan(0.5 * slope);
  check(j, way);
  const double fine = rho * pi / 12 / fineness;
  const double coarse = std::min(j.disc_thickness, j.rim_thickness) / 4 / fineness;
  const double length = 5 * std::max(j.disc_thickness, j.rim_thickness);
  const double hole = rho + std::sqrt(rho * rho - gap * gap);  // from the root to the slit's mouth
  const double c = std::cos(slope), s = std::sin(slope);
  Outline o;
  o.toe_centre = section(j.leg + way, rho);
  o.root_centre = section(-rho, 0);
  o.start = section(-length, -j.rim_thickness);
  const auto to = [&](double a, double b, double from, double at, const std::string &name = "") {
    o.edges.push_back({section(a, b), from, at, {}, false, name});
  };
  to(j.leg + length, -j.rim_thickness, coarse, coarse);
  to(j.leg + length, 0, coarse, coarse, "rim end");
  to(j.leg + way, 0, coarse, fine);
  o.edges.push_back({section(j.leg - way * c, way * s), fine, fine, o.toe_centre, true, "toe"});
  to(0, top, fine, coarse);
  to(-length, top, coarse, coarse);
  to(-length, gap, coarse, coarse, "disc end");
  to(-hole, gap, coarse, fine);
  o.edges.push_back({section(-hole, -gap), fine, fine, o.root_centre, true, "root"});
  to(-length, -gap, fine, coarse);
  to(-length, -j.rim_thickness, coarse, coarse, "held");
  return o;
}

/// Stress along the surface at the nodes of a circle, in the order of the loop.
std::vector<NotchPoint> points_on(const SectionMesh &mesh, const std::string &name,
                                  const Vec2 &centre,
                                  const std::vector<HarmonicSolution> &solutions) {
  std::vector<NotchPoint> points;
  for (const int node : edge_node_set(mesh, name)) {
    const Vec2 &x = mesh.nodes[node];
    const double r = x[0] - centre[0], z = x[1] - centre[1], l = std::hypot(r, z);
    const double tr = -z / l, tz = r / l;
    NotchPoint p;
    p.at = joint(x);
    p.angle = std::atan2(r, z);
    for (int k = 0; k < n_joint_stresses; ++k) {
      const HarmonicStress &s = solutions[k].stress[node];
      p.factor[k] = s.rr * tr * tr + s.zz * tz * tz + 2 * s.zr * tr * tz;
    }
    points.push_back(p);
  }
  std::sort(points.begin(), points.end(),
            [](const NotchPoint &a, const NotchPoint &b) { return a.angle < b.angle; });
  return points;
}

/// Normal stress on an end: 1 MPa, or from -1 to 1 MPa at the weld's side.
HarmonicTraction on_end(double low, double high, bool bending) {
  return [=](const Vec2 &rz, const Vec2 &normal) -> HarmonicVector {
    const double b = joint(rz)[1];
    const double stress = bending ? (2 * b - low - high) / (high - low) : 1;
    return {stress * normal[0], 0, stress * normal[1]};
  };
}

}  // namespace

WeldNotches weld_notches(const WeldJoint &j, int fineness) {
  const Outline o = outline(j, fineness);
  const SectionMesh mesh = outline_mesh(o.start, o.edges, Part::weld);
  Material steel;  // stress of given tractions does not depend on it but near the held end
  steel.youngs_modulus = 206000;
  steel.poissons_ratio = 0.3;
  const HarmonicModel model(mesh, {{Part::weld, steel}});
  HarmonicSupports supports;
  supports.held = {{"held", {true, true, true}, {}}};
  supports.press_fit_tied = false;
  const double gap = 0.02 * j.radius;
  std::vector<HarmonicLoad> loads(n_joint_stresses);
  for (int k = 0; k < n_joint_stresses; ++k) {
    const bool disc = k < 2, bending = k % 2 == 1;
    loads[k].name = fmt::format("{} {}", disc ? "disc" : "rim", bending ? "bending" : "membrane");
    loads[k].tractions = {
        {disc ? "disc end" : "rim end", disc ? on_end(gap, j.disc_thickness + gap, bending)
                                             : on_end(-j.rim_thickness, 0, bending)}};
  }
  const std::vector<HarmonicSolution> solutions = model.solve(supports, loads);
  WeldNotches notches;
  notches.cells = static_cast<int>(mesh.cells.size());
  for (const HarmonicSolution &s : solutions) {
    notches.residual = std::max(notches.residual, s.residual);
    notches.balance_error = std::max(notches.balance_error, s.balance_error);
  }
  notches.toe = points_on(mesh, "toe", o.toe_centre, solutions);
  notches.root = points_on(mesh, "root", o.root_centre, solutions);
  return notches;
}

}  // namespace felloe
