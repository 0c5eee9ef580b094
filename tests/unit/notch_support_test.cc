// SPDX-License-Identifier: GPL-3.0-or-later
// Proves the support rules on worked numbers, and the gradient on fields whose gradient is known.
#include "post/notch_support.h"

#include <gtest/gtest.h>

#include <cmath>

#include "mesher/error.h"
#include "post/fkm.h"

namespace felloe {
namespace {

Material steel(double tensile, double yield = 0) {
  Material m;
  m.tensile_strength = tensile;
  m.yield_strength = yield;
  return m;
}

// FKM linear, Rm 600 and 400 MPa, worked out by hand; continuous at 0.1 and 1 per mm.
TEST(NotchSupport, FkmLinear) {
  const double gradient[] = {.05, .1, .25, .5, 1, 2.3333, 5};
  const double at_600[] = {1.029974, 1.059948, 1.094787, 1.134049, 1.189574, 1.234299, 1.283479},
               at_400[] = {1.035549, 1.071097, 1.112414, 1.158978, 1.224829, 1.277872, 1.336197};
  for (int i = 0; i < 7; ++i) {
    EXPECT_NEAR(notch_support_factor(steel(600), gradient[i]), at_600[i], 1e-6);
    EXPECT_NEAR(notch_support_factor(steel(400), gradient[i]), at_400[i], 1e-6);
  }
}

// FKM non-linear (second-hand): area, gradient, Rm worked out by hand.
TEST(NotchSupport, FkmNonLinear) {
  EXPECT_NEAR(support_of_stressed_area(steel(600), 50, .5), 1.079775, 1e-6);
  EXPECT_NEAR(support_of_stressed_area(steel(600), 5, 2), 1.165914, 1e-6);
  EXPECT_NEAR(support_of_stressed_area(steel(600), 1, 5), 1.230172, 1e-6);
}

// DIN 743-2 (from memory), worked out by hand.
TEST(NotchSupport, SiebelStieler) {
  const auto n = [](double gradient, double yield) {
    return support_rule("Siebel-Stieler").factor(steel(600, yield), gradient);
  };
  EXPECT_NEAR(n(.5, 400), 1.090717, 1e-6);
  EXPECT_NEAR(n(2, 400), 1.181433, 1e-6);
  EXPECT_NEAR(n(2, 600), 1.095021, 1e-6);
}

TEST(NotchSupport, EveryRuleGivesOneWithoutGradientAndGrows) {
  for (const auto &row : support_rules()) {
    double last = row.factor(steel(580, 330), 0);
    EXPECT_EQ(last, 1);
    for (double g = 0.02; g < 50; g *= 1.3) {
      EXPECT_GT(row.factor(steel(580, 330), g), last) << row.name << " " << g;
      last = row.factor(steel(580, 330), g);
    }
  }
  EXPECT_THROW(support_rule("none"), Error);
}

// Rm 690 MPa, radius 3 mm, Kt 1.65. Peterson: a = 0.18351 mm, q 0.94236, Kf 1.61253. Neuber: q
// 0.84654, Kf 1.55025 (example 6-6 of Shigley, from memory: 0.84 and 1.55).
TEST(NotchSensitivity, OfDesignCourses) {
  EXPECT_NEAR(peterson_sensitivity(690, 3), 0.94236, 5e-6);
  EXPECT_NEAR(1 + peterson_sensitivity(690, 3) * 0.65, 1.61253, 5e-6);
  EXPECT_NEAR(neuber_sensitivity(690, 3), 0.84654, 1e-5);
  EXPECT_NEAR(1 + neuber_sensitivity(690, 3) * 0.65, 1.55025, 1e-5);
}

// K_R = 1 - 0.22 lg Rz lg(2 Rm / 400) (found) and its non-linear kin, by hand.
TEST(RoughnessFactor, LinearAndNonLinear) {
  const double rz[] = {200, 25, 6.3, 200}, rm[] = {600, 600, 600, 400};
  const double linear[] = {0.758469, 0.853263, 0.916096, 0.847611},
               non_linear[] = {0.859693, 0.918164, 0.954347, 0.914816};
  for (int i = 0; i < 4; ++i) {
    EXPECT_NEAR(roughness_factor(steel(rm[i]), rz[i]), linear[i], 1e-6);
    EXPECT_NEAR(roughness_factor_non_linear(steel(rm[i]), rz[i]), non_linear[i], 1e-6);
  }
}

/// Nodes of quadratic cells round a point: steps of h/2 up to h, on one side of the surface x = 0.
template <class Field>
double gradient_of(double h, const Field &f) {
  std::vector<Vec3> points;
  std::vector<double> values;
  for (int i = 0; i <= 2; ++i)
    for (int j = -2; j <= 2; ++j)
      for (int k = -2; k <= 2; ++k) {
        points.push_back({i * h / 2, j * h / 2, k * h / 2});
        values.push_back(f(points.back()));
      }
  return related_gradient({0, 0, 0}, f({0, 0, 0}), points, values);
}

TEST(RelatedGradient, QuadraticFieldsAreExact) {
  EXPECT_NEAR(gradient_of(1.3,
                          [](const Vec3 &x) {
                            return 200 * (1 - 0.4 * x[0] + 0.05 * x[1] * x[1] - 0.02 * x[0] * x[2]);
                          }),
              0.4, 1e-9);
}

// Plate of thickness t in bending: 2 / t.
TEST(RelatedGradient, PlateInBending) {
  const double t = 4;
  EXPECT_NEAR(gradient_of(2, [&](const Vec3 &x) { return 150 * (1 - 2 * x[0] / t); }), 2 / t, 1e-9);
}

// Hole of radius a under tension (Kirsch): hoop stress 1/2 (2 + a2/r2 + 3 a4/r4) falls by 7/(3 a).
// With cells of a tenth and a fifth of the radius a quadratic fit misses 2 and 7 %, on the side of
// less support.
TEST(RelatedGradient, HoleUnderTension) {
  const double a = 14;
  const auto hoop = [&](const Vec3 &x) {
    const double r = std::hypot(a + x[0], x[1]), c = a * a / (r * r);
    const double cos2 = ((a + x[0]) * (a + x[0]) - x[1] * x[1]) / (r * r);
    return 0.5 * (1 + c) + 0.5 * (1 + 3 * c * c) * cos2;
  };
  EXPECT_NEAR(gradient_of(0.1 * a, hoop) * 3 * a / 7, 1, 0.03);
  EXPECT_NEAR(gradient_of(0.2 * a, hoop) * 3 * a / 7, 1, 0.08);
  EXPECT_LT(gradient_of(0.2 * a, hoop), 7 / (3 * a));
}

// At the edge of a hole in a bent plate the stress falls along the plate and through it: 7/(3 a)
// (Kirsch) and 2/t. The guideline adds them (common practice); the fit's gradient is a vector,
// whose length is their root of squares: less support, on the safe side.
TEST(RelatedGradient, HoleInABentPlateCountsBothWaysAsAVector) {
  const double a = 14, t = 4;
  const double found = gradient_of(0.1 * a, [&](const Vec3 &x) {
    const double c = a * a / ((a + x[0]) * (a + x[0]));
    return (1 + 0.5 * c + 1.5 * c * c) * (1 - 2 * x[1] / t);
  });
  const double along = 7 / (3 * a), through = 2 / t;
  EXPECT_NEAR(7 / (3 * 3.0), 0.77778, 5e-6);
  EXPECT_NEAR(found / std::hypot(along, through), 1, 0.03);
  EXPECT_LT(found, along + through);
}

TEST(RelatedGradient, NothingKnownIsNoSupport) {
  EXPECT_EQ(related_gradient({0, 0, 0}, 100, {{1, 0, 0}}, {50}), 0);
  EXPECT_EQ(related_gradient({0, 0, 0}, 0, {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}, {1, 1, 1}), 0);
}

}  // namespace
}  // namespace felloe
