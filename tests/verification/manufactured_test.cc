// SPDX-License-Identifier: GPL-3.0-or-later
// Proves the order of convergence on slightly distorted meshes: displacement 3 in the mean square,
// strain energy of the error 2 (as its root), as theory promises for quadratic elements.
#include <gtest/gtest.h>

#include "solver/elastic_model.h"
#include "tests/support/block_mesh.h"
#include "tests/support/steel.h"

namespace felloe {
namespace {

constexpr double e_modulus = 1000, nu = 0.3, amplitude = 0.01;
constexpr double lambda = e_modulus * nu / ((1 + nu) * (1 - 2 * nu));
constexpr double mu = e_modulus / (2 * (1 + nu));

using Gradient = std::array<Vec3, 3>;  // [i][j] = du_i / dx_j

/// u = A (1, 2, 3) sin(pi x) sin(pi y) sin(pi z) on the unit cube, zero on its skin.
Vec3 exact(const Vec3 &x) {
  const double s = std::sin(pi * x[0]) * std::sin(pi * x[1]) * std::sin(pi * x[2]);
  return {amplitude * s, 2 * amplitude * s, 3 * amplitude * s};
}

Gradient exact_gradient(const Vec3 &x) {
  Gradient g;
  for (int i = 0; i < 3; ++i)
    for (int j = 0; j < 3; ++j) {
      g[i][j] = amplitude * (i + 1) * pi;
      for (int k = 0; k < 3; ++k) g[i][j] *= k == j ? std::cos(pi * x[k]) : std::sin(pi * x[k]);
    }
  return g;
}

/// -div sigma = -[(lambda + mu) grad div u - 3 pi^2 mu u].
Vec3 body_force(const Vec3 &x) {
  Vec3 f{};
  for (int i = 0; i < 3; ++i) {
    for (int j = 0; j < 3; ++j) {  // d_i d_j u_j
      double second = amplitude * (j + 1) * pi * pi;
      for (int k = 0; k < 3; ++k) {
        const bool both = i == j;
        const double s = std::sin(pi * x[k]), c = std::cos(pi * x[k]);
        second *= both ? s : (k == i || k == j ? c : s);
      }
      f[i] -= (lambda + mu) * (i == j ? -second : second);
    }
    f[i] += 3 * pi * pi * mu * exact(x)[i];
  }
  return f;
}

Mesh cube(int n) {
  test::Block block;
  block.n = {n, n, n};
  block.map = [](const Vec3 &p) {
    const double bump =
        0.05 * std::sin(2 * pi * p[0]) * std::sin(2 * pi * p[1]) * std::sin(2 * pi * p[2]);
    return Vec3{p[0] + bump, p[1] - bump, p[2] + bump};
  };
  block.sides.fill("skin");
  return test::block_mesh(block);
}

struct Norms {
  double displacement = 0, energy = 0;  // squares
};

/// Square of the error of a nodal field, or of the exact field itself when there is none.
Norms error_squares(const Mesh &mesh, const std::vector<Vec3> *field) {
  // 4 Gauss points (Abramowitz and Stegun, table 25.4): one more than the solver's own.
  const std::array<double, 4> points{0.069431844202974, 0.330009478207572, 0.669990521792428,
                                     0.930568155797026},
      weights{0.173927422568727, 0.326072577431273, 0.326072577431273, 0.173927422568727};
  const auto shape = [](double x) {
    return Vec3{2 * (x - 0.5) * (x - 1), 4 * x * (1 - x), 2 * x * (x - 0.5)};
  };
  const auto slope = [](double x) { return Vec3{4 * x - 3, 4 - 8 * x, 4 * x - 1}; };
  Norms sum;
  for (const auto &cell : mesh.cells)
    for (int q = 0; q < 64; ++q) {
      const std::array<int, 3> at{q % 4, q / 4 % 4, q / 16};
      std::array<Vec3, 3> n, d;
      for (int k = 0; k < 3; ++k) {
        n[k] = shape(points[at[k]]);
        d[k] = slope(points[at[k]]);
      }
      Vec3 x{}, u{};
      Gradient jacobian{}, local{};  // [i][a] = d / d unit coordinate a
      for (int l = 0; l < 27; ++l) {
        const std::array<int, 3> i{l % 3, l / 3 % 3, l / 9};
        const auto value = [&](int derivative) {
          double v = 1;
          for (int k = 0; k < 3; ++k) v *= k == derivative ? d[k][i[k]] : n[k][i[k]];
          return v;
        };
        const Vec3 node = mesh.nodes[cell[l]], un = field ? (*field)[cell[l]] : Vec3{};
        x = add(x, scale(value(-1), node));
        u = add(u, scale(value(-1), un));
        for (int c = 0; c < 3; ++c)
          for (int a = 0; a < 3; ++a) {
            jacobian[c][a] += value(a) * node[c];
            local[c][a] += value(a) * un[c];
          }
      }
      // rows of the inverse by cross products of the columns of the Jacobian
      const auto column = [&](int a) {
        return Vec3{jacobian[0][a], jacobian[1][a], jacobian[2][a]};
      };
      const double det = dot(column(0), cross(column(1), column(2)));
      Gradient error = exact_gradient(x);
      for (int a = 0; a < 3; ++a) {
        const Vec3 row = scale(1 / det, cross(column((a + 1) % 3), column((a + 2) % 3)));
        for (int i = 0; i < 3; ++i)
          for (int j = 0; j < 3; ++j) error[i][j] -= local[i][a] * row[j];
      }
      const double weight = det * weights[at[0]] * weights[at[1]] * weights[at[2]];
      const Vec3 difference = subtract(exact(x), u);
      sum.displacement += weight * dot(difference, difference);
      const double trace = error[0][0] + error[1][1] + error[2][2];
      double density = 0.5 * lambda * trace * trace;
      for (int i = 0; i < 3; ++i)
        for (int j = 0; j < 3; ++j) {
          const double strain = 0.5 * (error[i][j] + error[j][i]);
          density += mu * strain * strain;
        }
      sum.energy += weight * density;
    }
  return sum;
}

// The exact field first: energy (14 lambda + 56 mu) / 2 A^2 pi^2 / 8 = 1.826825815, mean-square
// displacement A sqrt(14 / 8) = 0.013228757; the cube of 8 cells integrates them to 1e-6.
TEST(ManufacturedSolution, NormsOfTheExactField) {
  const Norms whole = error_squares(cube(8), nullptr);
  EXPECT_NEAR(whole.energy, 1.826825815, 1e-6 * 1.826825815);
  EXPECT_NEAR(std::sqrt(whole.displacement), 0.013228757, 1e-6 * 0.013228757);
  const Vec3 f = body_force({0.25, 0.3, 0.4});  // by hand for this point
  EXPECT_NEAR(f[0], -11.76395219, 1e-7);
  EXPECT_NEAR(f[1], 153.10071234, 1e-7);
  EXPECT_NEAR(f[2], 299.61515993, 1e-7);
}

TEST(ManufacturedSolution, ConvergesWithTheOrderOfQuadraticElements) {
  std::vector<Norms> errors;
  for (const int n : {3, 6, 12}) {
    const Mesh mesh = cube(n);
    const ElasticModel model(mesh, {{Part::disc, test::steel(e_modulus, nu)}});
    Supports supports;
    supports.held = {{"skin"}};
    LoadCase load;
    load.name = "manufactured";
    load.body_force = body_force;
    const Solution s = model.solve(supports, {load}).front();
    errors.push_back(error_squares(mesh, &s.displacement));
  }
  const auto order = [](double coarse, double fine) { return 0.5 * std::log2(coarse / fine); };
  // Theory 3 and 2; 0.25 for the coarse side of the last pair.
  EXPECT_NEAR(order(errors[1].displacement, errors[2].displacement), 3, 0.25);
  EXPECT_NEAR(order(errors[1].energy, errors[2].energy), 2, 0.25);
  EXPECT_LT(std::sqrt(errors[2].displacement) / 0.013228757, 1e-3);
}

}  // namespace
}  // namespace felloe
