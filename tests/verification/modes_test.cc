// SPDX-License-Identifier: GPL-3.0-or-later
// Proves natural frequencies of free and held bodies against published benchmarks, beam, ring and
// plate theory; tests/verification/disc_modes_test.cc goes on with discs.
#include "solver/modes.h"

#include <gtest/gtest.h>

#include <cmath>

#include "mesher/error.h"
#include "tests/support/block_mesh.h"
#include "tests/support/steel.h"

namespace felloe {
namespace {

using test::Block;

/// E 200 GPa, nu 0.3, 8000 kg/m3: the steel of the NAFEMS vibration benchmarks.
std::map<Part, Material> benchmark_steel() {
  Material m = test::steel(200000, 0.3);
  m.density = 8e-6;
  return {{Part::disc, m}};
}

Mesh box(const Vec3 &size, std::array<int, 3> n) {
  Block block;
  block.n = n;
  block.map = [size](const Vec3 &p) {
    return Vec3{size[0] * p[0], size[1] * p[1], size[2] * (p[2] - 0.5)};
  };
  return test::block_mesh(block);
}

void expect_frequencies(const std::vector<Mode> &modes, std::size_t first,
                        const std::vector<double> &expected, double tolerance) {
  ASSERT_GE(modes.size(), first + expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i)
    EXPECT_NEAR(modes[first + i].frequency, expected[i], tolerance * expected[i])
        << "mode " << first + i + 1;
}

void expect_twins(const std::vector<Mode> &modes, std::size_t first) {
  EXPECT_NEAR(modes[first].frequency, modes[first + 1].frequency, 1e-3 * modes[first].frequency)
      << "modes " << first + 1 << " and " << first + 2;
}

// NAFEMS FV12, free square plate 10 x 10 x 0.05 m: 1.622, 2.360, 2.922, 4.190 (2), 7.356 (2), 7.668
// Hz as quoted by public example sets (second-hand, verify); own plate solution of high order
// 1.6206, 2.3593, 2.9219, 4.1874, 7.3539, 7.6610, which we compare with. 0.4 % for this mesh.
TEST(NafemsFV12, FreeThinSquarePlate) {
  const auto modes =
      natural_modes(box({10000, 10000, 50}, {24, 24, 1}), benchmark_steel(), Supports{}, 14);
  for (int i = 0; i < 6; ++i) EXPECT_EQ(modes[i].frequency, 0) << i;
  expect_frequencies(modes, 6, {1.6206, 2.3593, 2.9219, 4.1874, 4.1874, 7.3539, 7.3539, 7.6610},
                     0.004);
  expect_twins(modes, 9);
  expect_twins(modes, 11);
}

// NAFEMS FV52, simply supported thick plate 10 x 10 x 1 m. The published 45.897 Hz is that of
// Mindlin's plate with hard support and shear factor pi^2/12. The solid has u_z and the tangential
// displacement held on its side faces: 45.971, 109.857 (2), 168.82 Hz by own elements of high
// order (0.2 to 0.6 % above the plate's values, 45.897, 109.44, 167.89). Between them lie two shear
// waves in the plane, c / (2 L) with c^2 = G / rho: 155.046 Hz, exact. 0.2 % for this mesh.
TEST(NafemsFV52, ThickPlateWithHardSimpleSupport) {
  Supports hard;
  hard.held = {{"a-", {false, true, true}, {}},
               {"a+", {false, true, true}, {}},
               {"b-", {true, false, true}, {}},
               {"b+", {true, false, true}, {}}};
  const auto modes =
      natural_modes(box({10000, 10000, 1000}, {12, 12, 2}), benchmark_steel(), hard, 6);
  expect_frequencies(modes, 0, {45.971, 109.857, 109.857, 155.046, 155.046, 168.82}, 0.002);
  expect_frequencies(modes, 0, {45.897, 109.44, 109.44}, 0.007);
  expect_twins(modes, 1);
}

// NAFEMS FV32, cantilevered tapered membrane, L 10, width 5 to 1, t 0.05 m: 44.623, 130.03, 162.70,
// 246.05, 379.90, 391.44 Hz (quoted by public example sets, second-hand, verify); own elements of
// high order 44.618, 130.012, 162.690, 245.989, 379.720, 391.407. Plane stress: the mid-plane stays
// in its plane, the clamp leaves the thickness free. 0.2 % for this mesh.
TEST(NafemsFV32, TaperedMembrane) {
  Block block;
  block.n = {16, 8, 1};
  block.map = [](const Vec3 &p) {
    return Vec3{10000 * p[0], (5000 - 4000 * p[0]) * (p[1] - 0.5), 50 * (p[2] - 0.5)};
  };
  Mesh mesh = test::block_mesh(block);
  mesh.lines["mid-plane"] =
      test::nodes_where(mesh, [](const Vec3 &x) { return std::abs(x[2]) < 1e-6; });
  Supports supports;
  supports.held = {{"a-", {true, true, false}, {}}, {"mid-plane", {false, false, true}, {}}};
  const auto modes = natural_modes(mesh, benchmark_steel(), supports, 6);
  expect_frequencies(modes, 0, {44.618, 130.012, 162.690, 245.989, 379.720, 391.407}, 0.002);
}

// Cantilever 200 x 20 x 10, nu = 0: f = 1.8751^2 / (2 pi L^2) sqrt(E I / rho A) = 208.879 Hz over
// the thin and 417.758 Hz over the high side (Euler and Bernoulli; Timoshenko, Vibration Problems
// in Engineering). Shear and rotary inertia, h / L = 0.1, take away 0.5 %: 1 %. Of the mass 61.3 %
// takes part in the first mode (the beam's mode shape integrated, Blevins, from memory).
TEST(Cantilever, LowestFrequenciesFollowTheBeam) {
  Supports clamp;
  clamp.held = {{"a-"}};
  const auto modes = natural_modes(box({200, 20, 10}, {12, 2, 1}),
                                   {{Part::disc, test::steel(210000, 0)}}, clamp, 3);
  expect_frequencies(modes, 0, {208.879, 417.758}, 0.01);
  const double mass = 200 * 20 * 10 * 7.85e-6;
  EXPECT_NEAR(modes[0].effective_mass[2] / mass, 0.613, 0.005);
  EXPECT_NEAR(modes[1].effective_mass[1] / mass, 0.613, 0.005);
  EXPECT_LT(modes[0].effective_mass[1], 1e-8 * mass);
  const Mesh mesh = box({200, 20, 10}, {12, 2, 1});
  EXPECT_NEAR(std::abs(modes[0].shape[test::node_at(mesh, {200, 20, 5})][2]), 1, 1e-3);
}

// Both say the same about the end of a beam.
TEST(Cantilever, HeldAdapterIsAClamp) {
  const Mesh mesh = box({200, 20, 10}, {8, 1, 1});
  const std::map<Part, Material> steel{{Part::disc, test::steel()}};
  Supports clamp, adapter;
  clamp.held = {{"a-"}};
  adapter.adapter_surface = "a-";
  adapter.adapter_held = true;
  const auto a = natural_modes(mesh, steel, clamp, 4), b = natural_modes(mesh, steel, adapter, 4);
  for (int i = 0; i < 4; ++i) EXPECT_NEAR(a[i].frequency, b[i].frequency, 1e-7 * a[i].frequency);
}

// The frame of the unknowns is a matter of book-keeping.
TEST(FreeBlock, FrequenciesDoNotDependOnTheNodalFrame) {
  Mesh mesh = box({90, 50, 30}, {3, 2, 2});
  const std::map<Part, Material> steel{{Part::disc, test::steel()}};
  const auto a = natural_modes(mesh, steel, Supports{}, 10);
  const auto b = natural_modes(mesh, steel, Supports{}, 10, NodalFrame::cylindrical);
  for (int i = 0; i < 10; ++i) EXPECT_NEAR(a[i].frequency, b[i].frequency, 1e-7 * a[9].frequency);
}

// The rigid motions carry the whole mass along every axis: r^T M r = m for shifts, which the six
// modes of frequency zero span.
TEST(FreeBlock, RigidMotionsCarryTheWholeMass) {
  Mesh mesh = box({90, 50, 30}, {3, 2, 2});
  for (Vec3 &x : mesh.nodes) x = {x[0] + 0.1 * x[1], x[1] - 0.2 * x[2], x[2] + 0.05 * x[0]};
  const std::map<Part, Material> steel{{Part::disc, test::steel()}};
  const auto modes = natural_modes(mesh, steel, Supports{}, 7);
  const double mass = ElasticModel(mesh, steel).mass();
  for (int i = 0; i < 3; ++i) {
    double sum = 0;
    for (int m = 0; m < 6; ++m) sum += modes[m].effective_mass[i];
    EXPECT_NEAR(sum, mass, 1e-8 * mass);
    EXPECT_LT(modes[6].effective_mass[i], 1e-8 * mass);
  }
  EXPECT_EQ(modes[5].frequency, 0);
  EXPECT_GT(modes[6].frequency, 1000);
}

std::string message_of(const std::map<Part, Material> &materials, int count) {
  try {
    natural_modes(box({10, 10, 10}, {1, 1, 1}), materials, Supports{}, count);
  } catch (const Error &e) {
    return e.what();
  }
  return "no error";
}

TEST(NaturalModes, SayWhatIsMissing) {
  Material weightless = test::steel();
  weightless.density = 0;
  EXPECT_NE(message_of({}, 1).find("no material is given"), std::string::npos);
  EXPECT_NE(message_of({{Part::disc, weightless}}, 1).find("density 0"), std::string::npos);
  EXPECT_NE(message_of({{Part::disc, test::steel()}}, 81).find("81 modes of 81 unknowns"),
            std::string::npos);
}

}  // namespace
}  // namespace felloe
