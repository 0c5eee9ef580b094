// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that the harmonic element reproduces exact elastic states, has the right rank, and
// converges with the order of its quadratic shape functions.
#include <gtest/gtest.h>

#include <cmath>

#include "mesher/error.h"
#include "solver/harmonic_model.h"
#include "tests/support/section_block.h"

namespace felloe {
namespace {

constexpr double e_modulus = 1000, nu = 0.3;
constexpr double mu = e_modulus / (2 * (1 + nu)), lambda = 2 * mu * nu / (1 - 2 * nu);

Material elastic(double e = e_modulus, double poisson = nu) {
  Material m;
  m.name = "test";
  m.youngs_modulus = e;
  m.poissons_ratio = poisson;
  return m;
}

const std::map<Part, Material> all_elastic{{Part::disc, elastic()}};

using Field = std::function<HarmonicVector(const Vec2 &)>;
using StressField = std::function<HarmonicStress(const Vec2 &)>;

HarmonicSupports prescribed_all_round(const Field &u) {
  HarmonicSupports supports;
  for (const char *name : {"inner", "outer", "bottom", "top"})
    supports.held.push_back({name, {true, true, true}, u});
  return supports;
}

/// Prescribes the exact field on the whole border; inner nodes and all stresses must follow.
/// Tolerance 1e-9 of the largest value: rounding of one direct solve.
void expect_exact(int n, const Field &u, const StressField &s) {
  const SectionMesh mesh = test::distorted_rectangle(1, 2, -0.4, 0.7, 4, 3, 0.08);
  HarmonicLoad load;
  load.name = "patch";
  load.n = n;
  const auto solution =
      HarmonicModel(mesh, all_elastic).solve(prescribed_all_round(u), {load}).front();
  for (std::size_t i = 0; i < mesh.nodes.size(); ++i) {
    const HarmonicVector exact = u(mesh.nodes[i]);
    for (int c = 0; c < 3; ++c) EXPECT_NEAR(solution.displacement[i][c], exact[c], 1e-9);
    const HarmonicStress t = s(mesh.nodes[i]), &h = solution.stress[i];
    const double tolerance = 1e-9 * e_modulus;
    EXPECT_NEAR(h.rr, t.rr, tolerance);
    EXPECT_NEAR(h.tt, t.tt, tolerance);
    EXPECT_NEAR(h.zz, t.zz, tolerance);
    EXPECT_NEAR(h.rt, t.rt, tolerance);
    EXPECT_NEAR(h.tz, t.tz, tolerance);
    EXPECT_NEAR(h.zr, t.zr, tolerance);
  }
}

// The states below are exact solutions of the equations of elasticity, derived by hand.

TEST(HarmonicPatch, TorsionOfHarmonicZeroIsExact) {
  const double g = 0.01;
  expect_exact(
      0,
      [=](const Vec2 &x) {
        return HarmonicVector{0, g * x[0] * x[1], 0};
      },
      [=](const Vec2 &x) { return HarmonicStress{0, 0, 0, 0, mu * g * x[0], 0}; });
}

TEST(HarmonicPatch, UniaxialStressIsExactInHarmonicsZeroAndTwo) {
  const double s = 10;
  expect_exact(
      0,
      [=](const Vec2 &x) {
        return HarmonicVector{s * x[0] * (1 - nu) / (2 * e_modulus), 0, -nu * s * x[1] / e_modulus};
      },
      [=](const Vec2 &) { return HarmonicStress{s / 2, s / 2, 0, 0, 0, 0}; });
  expect_exact(
      2,
      [=](const Vec2 &x) {
        const double u = s * x[0] * (1 + nu) / (2 * e_modulus);
        return HarmonicVector{u, -u, 0};
      },
      [=](const Vec2 &) { return HarmonicStress{s / 2, -s / 2, 0, -s / 2, 0, 0}; });
}

TEST(HarmonicPatch, SimpleShearOfHarmonicOneIsExact) {
  const double g = 0.01;
  expect_exact(
      1,
      [=](const Vec2 &x) {
        return HarmonicVector{g * x[1], -g * x[1], 0};
      },
      [=](const Vec2 &) { return HarmonicStress{0, 0, 0, 0, -mu * g, mu * g}; });
}

Field bending(double k) {
  return [k](const Vec2 &x) {
    const double r = x[0], z = x[1];
    return HarmonicVector{-k * z * z / 2 - nu * k * r * r / 2, k * z * z / 2 - nu * k * r * r / 2,
                          k * r * z};
  };
}

TEST(HarmonicPatch, PureBendingOfHarmonicOneIsExact) {
  const double k = 0.01;
  expect_exact(1, bending(k),
               [=](const Vec2 &x) { return HarmonicStress{0, 0, e_modulus * k * x[0], 0, 0, 0}; });
}

TEST(HarmonicPatch, AnticlasticBendingOfHarmonicTwoIsExact) {
  const double c = 0.01;
  expect_exact(
      2,
      [=](const Vec2 &x) {
        return HarmonicVector{c * x[0] * x[1], -c * x[0] * x[1], -c * x[0] * x[0] / 2};
      },
      [=](const Vec2 &x) {
        const double s = 2 * mu * c * x[1];
        return HarmonicStress{s, -s, 0, -s, 0, 0};
      });
}

TEST(HarmonicPatch, RigidMotionsLeaveNoStress) {
  const StressField zero = [](const Vec2 &) { return HarmonicStress{}; };
  expect_exact(
      0,
      [](const Vec2 &x) {
        return HarmonicVector{0, x[0], 1};
      },
      zero);
  expect_exact(
      1,
      [](const Vec2 &) {
        return HarmonicVector{1, -1, 0};
      },
      zero);
  expect_exact(
      1,
      [](const Vec2 &x) {
        return HarmonicVector{-x[1], x[1], x[0]};
      },
      zero);
}

TEST(HarmonicPatch, BendingByEndTractionsNeedsOnlyTwoHeldComponents) {
  const double k = 0.01;
  const SectionMesh mesh = test::distorted_rectangle(1, 2, -0.4, 0.7, 4, 3, 0.08);
  HarmonicLoad load;
  load.name = "end tractions";
  load.n = 1;
  const HarmonicTraction pull = [=](const Vec2 &x, const Vec2 &normal) {
    return HarmonicVector{0, 0, e_modulus * k * x[0] * normal[1]};
  };
  load.tractions = {{"top", pull}, {"bottom", pull}};
  HarmonicSupports supports;
  supports.held.push_back({"inner bottom", {true, false, true}, bending(k)});
  const auto solution = HarmonicModel(mesh, all_elastic).solve(supports, {load}).front();
  for (std::size_t i = 0; i < mesh.nodes.size(); ++i)
    for (int c = 0; c < 3; ++c)
      EXPECT_NEAR(solution.displacement[i][c], bending(k)(mesh.nodes[i])[c], 1e-9);
  // Energy of a beam, E I k^2 L / 2, with I = pi (2^4 - 1^4) / 4.
  const double energy = e_modulus * pi * 15 / 4 * k * k * 1.1 / 2;
  EXPECT_NEAR(solution.strain_energy, energy, 1e-9 * energy);
  EXPECT_LT(solution.balance_error, 1e-9);
}

TEST(HarmonicPatch, BodiesThatReachTheAxisStayExact) {
  // Nothing is prescribed on the axis: there the model knows what a smooth field demands.
  const double c = 0.01;
  const SectionMesh mesh = test::distorted_rectangle(0, 1, -0.4, 0.7, 4, 3, 0.08);
  const Field uniaxial = [=](const Vec2 &x) { return HarmonicVector{c * x[0], 0, -nu * c * x[1]}; };
  const Field anticlastic = [=](const Vec2 &x) {
    return HarmonicVector{c * x[0] * x[1], -c * x[0] * x[1], -c * x[0] * x[0] / 2};
  };
  const Field exact[3] = {uniaxial, bending(c), anticlastic};
  for (int n = 0; n < 3; ++n) {
    HarmonicSupports supports;
    for (const char *name : {"outer", "bottom", "top"})
      supports.held.push_back({name, {true, true, true}, exact[n]});
    HarmonicLoad load;
    load.name = "axis";
    load.n = n;
    const auto solution = HarmonicModel(mesh, all_elastic).solve(supports, {load}).front();
    for (std::size_t i = 0; i < mesh.nodes.size(); ++i)
      for (int k = 0; k < 3; ++k)
        EXPECT_NEAR(solution.displacement[i][k], exact[n](mesh.nodes[i])[k], 1e-9) << "n = " << n;
  }
}

// Torsion of a tube, twist = M L / (G J), J = pi (b^4 - a^4) / 2; the field r z is in the element.
TEST(HarmonicAdapter, TwistOfATubeFollowsTorsionTheory) {
  const double length = 1.1, moment = 50;
  const SectionMesh mesh = test::distorted_rectangle(1, 2, 0, length, 4, 3, 0.08);
  HarmonicSupports supports;
  supports.held.push_back({"bottom", {true, true, true}, {}});
  supports.adapter_edge = "top";
  HarmonicLoad load;
  load.name = "twist";
  load.adapter_moment = moment;
  const auto solution = HarmonicModel(mesh, all_elastic).solve(supports, {load}).front();
  const double twist = moment * length / (mu * pi * 15 / 2);
  EXPECT_NEAR(solution.adapter_rotation, twist, 1e-9 * twist);
  EXPECT_NEAR(solution.adapter_motion, 0, 1e-12);
  EXPECT_NEAR(solution.strain_energy, moment * twist / 2, 1e-9 * moment * twist);
}

/// Rank of a symmetric positive semidefinite matrix: elimination with the largest diagonal first,
/// pivots below 1e-10 of the first count as zero.
int rank_of(std::vector<double> a, int n) {
  double first = 0;
  for (int rank = 0; rank < n; ++rank) {
    int p = rank;
    for (int i = rank; i < n; ++i)
      if (a[i * n + i] > a[p * n + p]) p = i;
    if (rank == 0) first = a[p * n + p];
    if (a[p * n + p] <= 1e-10 * first) return rank;
    for (int j = 0; j < n; ++j) std::swap(a[rank * n + j], a[p * n + j]);
    for (int i = 0; i < n; ++i) std::swap(a[i * n + rank], a[i * n + p]);
    for (int i = rank + 1; i < n; ++i) {
      const double factor = a[i * n + rank] / a[rank * n + rank];
      for (int j = rank; j < n; ++j) a[i * n + j] -= factor * a[rank * n + j];
    }
  }
  return n;
}

TEST(HarmonicStiffness, RankLeavesExactlyTheRigidMotions) {
  // Rigid motions of a set cos / sin: n = 0 axial shift and twist, n = 1 shift and tilt.
  const SectionMesh mesh = test::distorted_rectangle(1, 2, -0.4, 0.7, 2, 2, 0.08);
  const int size = 3 * int(mesh.nodes.size());
  const HarmonicModel model(mesh, all_elastic);
  const int expected[5] = {2, 2, 0, 0, 0};
  for (int n = 0; n < 5; ++n)
    EXPECT_EQ(size - rank_of(model.dense_stiffness(n), size), expected[n]) << "n = " << n;
}

TEST(HarmonicStiffness, IsSymmetric) {
  const SectionMesh mesh = test::distorted_rectangle(1, 2, -0.4, 0.7, 1, 2, 0.08);
  const std::size_t size = 3 * mesh.nodes.size();
  const auto k = HarmonicModel(mesh, all_elastic).dense_stiffness(3);
  for (std::size_t i = 0; i < size; ++i)
    for (std::size_t j = 0; j < i; ++j)
      EXPECT_NEAR(k[size * i + j], k[size * j + i], 1e-10 * e_modulus);
}

/// Manufactured cubic field U = z^3, V = -z^3, W = r z^2 of harmonic 1; derived by hand.
struct ErrorNorms {
  double displacement = 0, stress_at_point = 0;
};

ErrorNorms cubic_field_error(int n_cells) {
  const SectionMesh mesh = test::distorted_rectangle(1, 2, 0, 1, n_cells, n_cells, 0.08);
  const Field u = [](const Vec2 &x) {
    const double r = x[0], z = x[1];
    return HarmonicVector{z * z * z, -z * z * z, r * z * z};
  };
  HarmonicLoad load;
  load.name = "manufactured";
  load.n = 1;
  load.body_force = [](const Vec2 &x) {
    const double a = 2 * lambda + 8 * mu, b = 2 * lambda + 4 * mu;
    return HarmonicVector{-a * x[1], a * x[1], -b * x[0]};
  };
  const auto solution =
      HarmonicModel(mesh, all_elastic).solve(prescribed_all_round(u), {load}).front();
  ErrorNorms error;
  for (std::size_t i = 0; i < mesh.nodes.size(); ++i) {
    const HarmonicVector exact = u(mesh.nodes[i]);
    const double r = mesh.nodes[i][0], z = mesh.nodes[i][1];
    for (int c = 0; c < 3; ++c)
      error.displacement += std::pow(solution.displacement[i][c] - exact[c], 2);
    error.stress_at_point += std::pow(solution.stress[i].zr - 4 * mu * z * z, 2) +
                             std::pow(solution.stress[i].zz - (lambda + 2 * mu) * 2 * r * z, 2);
  }
  error.displacement = std::sqrt(error.displacement / mesh.nodes.size());
  error.stress_at_point = std::sqrt(error.stress_at_point / mesh.nodes.size());
  return error;
}

TEST(HarmonicPatch, ManufacturedFieldConvergesWithQuadraticOrder) {
  // Quadratic shape functions: displacement order 3 or better at nodes, stress order 2 or better.
  const ErrorNorms coarse = cubic_field_error(4), middle = cubic_field_error(8),
                   fine = cubic_field_error(16);
  const double order_u = std::log2(middle.displacement / fine.displacement);
  const double order_s = std::log2(middle.stress_at_point / fine.stress_at_point);
  EXPECT_GT(coarse.displacement, 1e-7);  // the field is not in the element's space
  EXPECT_GT(order_u, 2.7);
  EXPECT_GT(order_s, 1.7);
  EXPECT_LT(fine.displacement, 1e-4);
}

TEST(HarmonicModel, FreeBodyIsAnErrorThatNamesTheMotion) {
  const SectionMesh mesh = test::rectangle(1, 2, 0, 1, 2, 2);
  HarmonicLoad load;
  load.name = "free";
  load.tractions = {{"top", [](const Vec2 &, const Vec2 &) { return HarmonicVector{0, 0, 1}; }}};
  try {
    HarmonicModel(mesh, all_elastic).solve({}, {load});
    FAIL() << "no error";
  } catch (const Error &e) {
    const std::string text = e.what();
    EXPECT_NE(text.find("'free'"), std::string::npos) << text;
    EXPECT_NE(text.find("axial shift"), std::string::npos) << text;
  }
  load.n = 1;
  EXPECT_THROW(HarmonicModel(mesh, all_elastic).solve({}, {load}), Error);
}

TEST(HarmonicModel, TwistWithoutSupportIsAnErrorOnlyWhenLoaded) {
  const SectionMesh mesh = test::rectangle(1, 2, 0, 1, 2, 2);
  HarmonicSupports supports;
  supports.held.push_back({"bottom", {false, false, true}, {}});
  HarmonicLoad pull;
  pull.name = "pull";
  pull.tractions = {{"top", [](const Vec2 &, const Vec2 &) { return HarmonicVector{0, 0, 1}; }}};
  EXPECT_NO_THROW(HarmonicModel(mesh, all_elastic).solve(supports, {pull}));
  HarmonicLoad twist;
  twist.name = "twist";
  twist.tractions = {{"top", [](const Vec2 &, const Vec2 &) { return HarmonicVector{0, 1, 0}; }}};
  EXPECT_THROW(HarmonicModel(mesh, all_elastic).solve(supports, {twist}), Error);
}

}  // namespace
}  // namespace felloe
