// SPDX-License-Identifier: GPL-3.0-or-later
// Proves the plane section of the weld joint against a handbook's stress concentration and by its
// own convergence.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "mesher/error.h"
#include "mesher/outline_mesh.h"
#include "post/weld_notch.h"
#include "solver/harmonic_model.h"

namespace felloe {
namespace {

constexpr double far = 1e5;  // of the axis: plane strain

/// Largest stress along the edge "notch" of a quarter of a strip [MPa], pulled by 1 MPa.
double pulled(const Vec2 &start, const std::vector<OutlineEdge> &outline) {
  const SectionMesh mesh = outline_mesh(start, outline, Part::disc);
  Material steel;
  steel.youngs_modulus = 206000;
  steel.poissons_ratio = 0.3;
  HarmonicSupports supports;
  supports.held = {{"middle", {false, true, true}, {}}, {"axis", {true, true, false}, {}}};
  HarmonicLoad load;
  load.tractions = {{"end", [](const Vec2 &, const Vec2 &n) -> HarmonicVector {
                       return {n[0], 0, n[1]};
                     }}};
  const HarmonicSolution s =
      HarmonicModel(mesh, {{Part::disc, steel}}).solve(supports, {load}).front();
  EXPECT_LT(s.residual, 1e-8);
  EXPECT_LT(s.balance_error, 1e-8);
  double most = 0;
  for (const int n : edge_node_set(mesh, "notch")) {
    const HarmonicStress &t = s.stress[n];  // one principal stress vanishes
    most = std::max(most, t.rr + t.zz);
  }
  return most;
}

// A strip with a central hole of a fifth of its width: K on the net section is 2 + (1 - d/w)^3
// (Heywood's fit of Howland's solution; Pilkey, Peterson's Stress Concentration Factors; from
// memory) = 2.512, on the whole section 3.14. The fit is within 1 %.
TEST(OutlineMesh, HasTheStressConcentrationOfAHoleInAStrip) {
  const double rho = 1, half = 5, length = 20, fine = rho * pi / 96;
  const auto at = [&](double across, double along) { return Vec2{far + across, along}; };
  const std::vector<OutlineEdge> quarter = {
      {at(half, 0), fine, 0.8, {}, false, "middle"},
      {at(half, length), 0.8, 0.8, {}, false, ""},
      {at(0, length), 0.8, 0.8, {}, false, "end"},
      {at(0, rho), 0.8, fine, {}, false, "axis"},
      {at(rho, 0), fine, fine, at(0, 0), true, "notch"},
  };
  const double wanted = (2 + std::pow(0.8, 3)) / 0.8;
  EXPECT_NEAR(pulled(at(rho, 0), quarter), wanted, 0.01 * wanted);
}

const WeldJoint joint{4, 3.5, 5, 1};

double largest(const WeldNotches &n, JointStress of) {
  double most = 0;
  for (const NotchPoint &p : n.toe) most = std::max(most, p.factor[static_cast<int>(of)]);
  return most;
}

// Two meshes agree to 2 %; the finer one, which wheels take, is within 1 % of one twice as fine
// again (computed once: 1.4951 and 1.5822).
TEST(WeldNotch, ConvergesAndIsInEquilibrium) {
  const WeldNotches coarse = weld_notches(joint, 1), fine = weld_notches(joint, 2);
  for (const WeldNotches *n : {&coarse, &fine}) {
    EXPECT_LT(n->residual, 1e-7);
    EXPECT_LT(n->balance_error, 1e-7);
  }
  for (const JointStress of : {JointStress::rim_membrane, JointStress::rim_bending}) {
    EXPECT_NEAR(largest(coarse, of), largest(fine, of), 0.02 * largest(fine, of));
    EXPECT_GT(largest(fine, of), 1.2);  // a notch
  }
  EXPECT_NEAR(largest(fine, JointStress::rim_membrane), 1.4951, 0.01 * 1.4951);
  EXPECT_NEAR(largest(fine, JointStress::rim_bending), 1.5822, 0.01 * 1.5822);
}

// Twice the joint with twice the radius is the same joint, on another mesh: the 2 % of the coarse
// one.
TEST(WeldNotch, DependsOnTheShapeAlone) {
  const WeldNotches one = weld_notches(joint, 1), two = weld_notches({8, 7, 10, 2}, 1);
  for (int k = 0; k < n_joint_stresses; ++k) {
    const auto of = static_cast<JointStress>(k);
    EXPECT_NEAR(largest(one, of), largest(two, of), 0.02 * std::abs(largest(one, of)));
  }
  EXPECT_GT(largest(weld_notches({4, 3.5, 5, 0.05}, 1), JointStress::rim_bending),
            2 * largest(one, JointStress::rim_bending));  // sharper
}

TEST(WeldNotch, RefusesARadiusThatDoesNotFit) {
  try {
    weld_notches({4, 2.5, 5, 1});
    FAIL() << "no error";
  } catch (const Error &e) {
    const std::string text = e.what();
    EXPECT_NE(text.find("a rim of 2.5 mm"), std::string::npos) << text;
    EXPECT_NE(text.find("thin sheet takes 0.05 mm"), std::string::npos) << text;
  }
}

}  // namespace
}  // namespace felloe
