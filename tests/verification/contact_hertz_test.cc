// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that contact finds Hertz's line and point contact and the flat punch: border, pressure and
// approach, from initial gaps and a force alone.
#include <gtest/gtest.h>

#include <cmath>

#include "solver/contact.h"
#include "tests/support/block_mesh.h"
#include "tests/support/steel.h"

namespace felloe {
namespace {

using test::Block;

/// 0 ... 1 to low ... high in steps that grow with the distance from low; the first of n steps has
/// the size `first`.
std::function<double(double)> growing(double low, double high, int n, double first) {
  const double wanted = (high - low) / first;
  double q_low = 1 + 1e-9, q_high = 10;
  for (int i = 0; i < 200; ++i) {
    const double q = 0.5 * (q_low + q_high);
    ((std::pow(q, n) - 1) / (q - 1) < wanted ? q_low : q_high) = q;
  }
  const double q = q_low;
  return [=](double p) { return low + first * (std::pow(q, n * p) - 1) / (q - 1); };
}

/// A body below z = 0 with the contact face across[0] ... across[1] on top, one cell in the third
/// direction: width across a plane of symmetry, or an angle round the z axis.
struct Ground {
  double from, to, far;  ///< of the face, and of the body [mm]
  double third;          ///< [mm] or [rad]
  bool round;
  int n_face, n_beyond, n_deep;
  double first_depth;                          ///< height of the topmost cells [mm]
  std::function<double(double)> along_face{};  ///< 0 ... 1 to from ... to; empty: even
};

Mesh ground_mesh(const Ground &g) {
  const auto place = [g](double x, double third, double z) -> Vec3 {
    return g.round ? revolved({x, z}, third) : Vec3{x, third, z};
  };
  const auto depth = growing(0, g.far, g.n_deep, g.first_depth);
  const auto along =
      g.along_face ? g.along_face : [g](double p) { return g.from + (g.to - g.from) * p; };
  const auto beyond = growing(g.to, g.far, g.n_beyond, g.to - along(1 - 1.0 / g.n_face));
  Block face, rest;
  face.n = {g.n_face, 1, g.n_deep};
  rest.n = {g.n_beyond, 1, g.n_deep};
  face.map = [=](const Vec3 &p) { return place(along(p[0]), g.third * p[1], -depth(1 - p[2])); };
  rest.map = [=](const Vec3 &p) { return place(beyond(p[0]), g.third * p[1], -depth(1 - p[2])); };
  face.sides = {"middle", "", "start", "end", "bottom", "face"};
  rest.sides = {"", "far", "start", "end", "bottom", ""};
  return test::block_mesh({face, rest});
}

Supports ground_supports(const Ground &g) {
  Supports s;
  s.held = {{"start", {false, true, false}, {}},
            {"end", {false, true, false}, {}},
            {"bottom", {false, false, true}, {}}};
  s.held.push_back({g.round ? "far" : "middle", {true, false, false}, {}});
  return s;
}

HubContact pressed_down(const std::function<double(const Vec3 &)> &gap) {
  HubContact c;
  c.face = "face";
  c.friction = FaceFriction::none;
  c.adapter_free = {false, false, true, false, false, false};
  c.initial_gap = gap;
  return c;
}

LoadCase push(double force) {
  LoadCase load;
  load.name = "push";
  load.adapter.force = {0, 0, -force};
  return load;
}

double distance(const Mesh &mesh, const Ground &g, int node) {
  const Vec3 &x = mesh.nodes[node];
  return g.round ? std::hypot(x[0], x[1]) : x[0];
}

/// Sum of force x distance^2 over sum of force.
double mean_square(const Mesh &mesh, const Ground &g, const ContactModel &model,
                   const ContactState &s) {
  double sum = 0, weighted = 0;
  for (std::size_t i = 0; i < s.pressure.size(); ++i) {
    const double r = distance(mesh, g, model.nodes()[i]), force = s.pressure[i] * model.areas()[i];
    sum += force;
    weighted += force * r * r;
  }
  return weighted / sum;
}

/// Largest relative error of the pressure where `inside` holds.
double pressure_error(const Mesh &mesh, const Ground &g, const ContactModel &model,
                      const ContactState &s, const std::function<double(double)> &expected,
                      double low, double high) {
  double worst = 0;
  for (std::size_t i = 0; i < s.pressure.size(); ++i) {
    const double r = distance(mesh, g, model.nodes()[i]);
    if (r < low || r > high) continue;
    worst = std::max(worst, std::abs(s.pressure[i] / expected(r) - 1));
  }
  return worst;
}

double last_closed(const Mesh &mesh, const Ground &g, const ContactModel &model,
                   const ContactState &s) {
  double last = 0;
  for (std::size_t i = 0; i < s.closed.size(); ++i)
    if (s.closed[i]) last = std::max(last, distance(mesh, g, model.nodes()[i]));
  return last;
}

// Cylinder R 50 (210000, 0.3) on a plane (70000, 0.3) under 35000 N/mm: a = 6.214628 mm,
// p0 = 3585.362 MPa (Hertz; Johnson, Contact Mechanics, chapter 4). E* = 57692.308 MPa stands here
// as a rigid cylinder on a body of E = E* (1 - nu^2). p = p0 sqrt(1 - x^2/a^2) has the mean
// square a^2 / 4. Border within the node spacing 0.21 mm.
TEST(HertzLine, BorderAndPressure) {
  const double a = 6.214628, p0 = 3585.362, width = 1;
  const Ground g{0, 10, 400, width, false, 24, 12, 16, 0.4, {}};
  const Mesh mesh = ground_mesh(g);
  const ElasticModel model(mesh, {{Part::disc, test::steel(52500, 0.3)}});
  const ContactModel contact(mesh, model, ground_supports(g),
                             pressed_down([](const Vec3 &x) { return x[0] * x[0] / 100; }),
                             {push(35000 * width / 2)});
  const ContactState s = contact.clamped({1});
  EXPECT_NEAR(2 * std::sqrt(mean_square(mesh, g, contact, s)), a, 0.005 * a);
  EXPECT_NEAR(last_closed(mesh, g, contact, s), a, 0.21);
  const auto hertz = [&](double x) { return p0 * std::sqrt(1 - x * x / (a * a)); };
  EXPECT_LT(pressure_error(mesh, g, contact, s, hertz, 0, 0.8 * a), 0.02);
  EXPECT_LT(s.complementarity_error, 1e-8);

  // a grows with the root of the load: twice the load, sqrt 2
  const ContactState twice = contact.clamped({2});
  EXPECT_NEAR(mean_square(mesh, g, contact, twice) / mean_square(mesh, g, contact, s), 2, 0.02);
}

// Sphere R 10 on a half-space, both 210000 / 0.3, 1000 N: a = 0.4020726 mm, p0 = 2953.469 MPa,
// approach 0.01616624 mm (Hertz; Johnson, chapter 4). Rigid sphere on a body of half the modulus; a
// slice of 0.1 rad with a hole of a/100 at the axis, 60 mm deep. The mean square of
// p0 sqrt(1 - r^2/a^2) is 2 a^2 / 5.
TEST(HertzPoint, BorderPressureAndApproach) {
  const double a = 0.4020726, p0 = 2953.469, slice = 0.1;
  const Ground g{a / 100, 0.6, 60, slice, true, 24, 16, 20, 0.025, {}};
  const Mesh mesh = ground_mesh(g);
  const ElasticModel model(mesh, {{Part::disc, test::steel(105000, 0.3)}}, NodalFrame::cylindrical);
  const auto gap = [](const Vec3 &x) { return (x[0] * x[0] + x[1] * x[1]) / 20; };
  const ContactModel contact(mesh, model, ground_supports(g), pressed_down(gap),
                             {push(1000 * slice / (2 * pi))});
  const ContactState s = contact.clamped({1});
  EXPECT_NEAR(std::sqrt(2.5 * mean_square(mesh, g, contact, s)), a, 0.01 * a);
  EXPECT_NEAR(-s.adapter_motion[2], 0.01616624, 0.01 * 0.01616624);
  const auto hertz = [&](double r) { return p0 * std::sqrt(1 - r * r / (a * a)); };
  EXPECT_LT(pressure_error(mesh, g, contact, s, hertz, 0.05 * a, 0.8 * a), 0.03);
  EXPECT_LT(s.complementarity_error, 1e-8);
}

// Rigid flat punch of radius a: sinks in by P (1 - nu^2) / (2 a E), pressure
// P / (2 pi a^2) / sqrt(1 - r^2/a^2) (Boussinesq; Johnson, section 3.6). All nodes stay closed.
TEST(FlatPunch, SinksInAndPresses) {
  const double a = 5, force = 1e4, slice = 0.1, modulus = 210000, nu = 0.3;
  // cells shrink towards the singular border
  const auto inwards = growing(0, a - a / 100, 20, a / 200);
  const Ground g{a / 100, a,  750, slice,   true,
                 20,      18, 22,  a / 100, [=](double p) { return a - inwards(1 - p); }};
  const Mesh mesh = ground_mesh(g);
  const ElasticModel model(mesh, {{Part::disc, test::steel(modulus, nu)}}, NodalFrame::cylindrical);
  const ContactModel contact(mesh, model, ground_supports(g), pressed_down({}),
                             {push(force * slice / (2 * pi))});
  const ContactState s = contact.clamped({1});
  const double depth = force * (1 - nu * nu) / (2 * a * modulus);
  EXPECT_NEAR(-s.adapter_motion[2], depth, 0.01 * depth);
  const auto punch = [&](double r) {
    return force / (2 * pi * a * a) / std::sqrt(1 - r * r / (a * a));
  };
  EXPECT_LT(pressure_error(mesh, g, contact, s, punch, 0.1 * a, 0.8 * a), 0.02);
  EXPECT_EQ(s.open_share, 0);
}

}  // namespace
}  // namespace felloe
