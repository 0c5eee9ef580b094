// SPDX-License-Identifier: GPL-3.0-or-later
// Proves what a virtual strain gauge reads in known strain fields of a flat plate.
#include "post/gauges.h"

#include <gtest/gtest.h>

#include <cmath>

#include "mesher/error.h"
#include "mesher/layout.h"
#include "mesher/wheel_mesh.h"

namespace felloe {
namespace {

const double E = 210000, nu = 0.3;
constexpr double degree = pi / 180;

Material steel() {
  Material m;
  m.youngs_modulus = E;
  m.poissons_ratio = nu;
  return m;
}

struct Plate {
  WheelLayout layout;
  Mesh mesh;
  Plate() {
    Wheel w;
    w.construction = Construction::disc_only;
    w.disc.bore_diameter = 80;
    MeridianPoint end;
    end.r = 170;
    end.z = 0;
    w.disc.meridian = {end};
    w.disc.thickness = {{0, 4}};
    layout = felloe::layout(w);
    mesh = wheel_mesh(layout, mesh_size(0.5));
  }
  /// Stress of every node by its place.
  template <class Field>
  std::vector<Stress> stresses(const Field &field) const {
    std::vector<Stress> all;
    for (const Vec3 &x : mesh.nodes) all.push_back(field(x));
    return all;
  }
  StrainGauge gauge(double r, double theta, double direction, double length, double eta = 1) const {
    GaugePlace p;
    p.s = lengths_at_radius(layout.disc, r, eta).front();
    p.theta = theta * degree;
    p.direction = direction * degree;
    p.grid_length = length;
    p.eta = eta;
    return strain_gauge(mesh, layout.disc, p, steel());
  }
};

const Plate &plate() {
  static const Plate p;
  return p;
}

// A bar in tension S along x: strain S/E ((1 + nu) cos^2 - nu), the angle from x to the grid.
TEST(Gauge, UniaxialFieldFollowsMohrsCircle) {
  const auto stress = plate().stresses([](const Vec3 &) { return Stress{{150, 0, 0, 0, 0, 0}}; });
  for (const double theta : {0., 33., 120., 250.})
    for (const double direction : {0., 30., 45., 90.}) {
      const double c = std::cos((theta + direction) * degree);
      EXPECT_NEAR(plate().gauge(101, theta, direction, 0).of(stress),
                  150 / E * ((1 + nu) * c * c - nu), 1e-9)
          << theta << " " << direction;
    }
}

// Equal tension S in the plane: strain S (1 - nu) / E in every direction, everywhere.
TEST(Gauge, EquibiaxialFieldHasNoDirection) {
  const auto stress = plate().stresses([](const Vec3 &) { return Stress{{150, 150, 0, 0, 0, 0}}; });
  for (const double direction : {0., 20., 90.})
    for (const double eta : {-1., 1.})
      EXPECT_NEAR(plate().gauge(77.3, 11, direction, 6, eta).of(stress), 150 * (1 - nu) / E, 1e-12);
}

// Radial grid in a hoop-free field linear in r: the average is the value at the middle; 1e-7 for
// the interpolation of r in the chart.
TEST(Gauge, AverageOfALinearFieldIsItsMiddleValue) {
  const auto stress = plate().stresses([](const Vec3 &x) {
    return Stress{{2 * x[0] + 0.5 * x[1], 0, 0, 0, 0, 0}};
  });
  const StrainGauge point = plate().gauge(110, 0, 0, 0), grid = plate().gauge(110, 0, 0, 10);
  EXPECT_NEAR(point.of(stress), 220 / E, 1e-7 * 220 / E);
  EXPECT_NEAR(grid.of(stress), point.of(stress), 1e-7 * 220 / E);
}

// Field S r^2: the average over r0 -+ L/2 is S (r0^2 + L^2 / 12); the second term is a tenth of a
// percent, the quadratic between nodes that lie unevenly in r is true to 1e-4.
TEST(Gauge, LongGridsAverageCurvedFields) {
  const auto stress = plate().stresses([](const Vec3 &x) {
    return Stress{{0.01 * x[0] * x[0], 0, 0, 0, 0, 0}};
  });
  EXPECT_NEAR(plate().gauge(110, 0, 0, 12).of(stress) * E, 0.01 * (110 * 110 + 12), 0.012);
}

TEST(Gauge, TurningStressGivesMeanAndAmplitude) {
  TurnHistory turn;
  turn.test = "turning";
  turn.harmonic = [](int) {
    return HarmonicHistory{{{50, 0, 0, 0, 0, 0}}, {{30, 0, 0, 0, 0, 0}}, {{40, 0, 0, 0, 0, 0}}};
  };
  const GaugeReading r = reading(plate().gauge(100, 0, 0, 3), turn);
  EXPECT_NEAR(r.mean, 1e6 * 50 / E, 1e-6);
  EXPECT_NEAR(r.amplitude, 1e6 * 50 / E, 1e-6);
  EXPECT_NEAR(r.trace.at(0), 1e6 * 80 / E, 1e-6);
  turn.sampled = [h = turn.harmonic](int node) { return sampled(h(node), 360); };
  turn.harmonic = nullptr;
  const GaugeReading s = reading(plate().gauge(100, 0, 0, 3), turn);
  EXPECT_EQ(s.trace.size(), 360u);
  EXPECT_NEAR(s.amplitude, r.amplitude, 1e-4 * r.amplitude);
}

TEST(Gauge, RefusesPlacesOffTheSheet) {
  EXPECT_THROW(plate().gauge(169, 0, 0, 6), Error);  // reaches over the edge
  EXPECT_NO_THROW(plate().gauge(169, 0, 90, 6));     // runs along it
  EXPECT_TRUE(lengths_at_radius(plate().layout.disc, 500, 1).empty());
}

}  // namespace
}  // namespace felloe
