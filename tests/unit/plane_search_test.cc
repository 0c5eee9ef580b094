// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that the search over planes finds what trying all planes finds, on every processor.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>

#include "mesher/error.h"
#include "post/enclosing_ball.h"
#include "post/plane_kernels.h"
#include "post/sn_curve.h"
#include "tests/unit/hard_histories.h"
#include "tests/unit/histories.h"

namespace felloe {
namespace {

const FatigueConstants steel = limits(260, 150, 0.1);

/// What a plane feels, from the definitions.
struct Felt {
  double amplitude, mean, shear;  ///< of the normal stress; radius of the shear path's circle
  double largest() const { return mean + amplitude; }
};

void frame(const Vec3 &n, Vec3 &u, Vec3 &v) {
  const Vec3 other = std::abs(n[2]) < 0.7 ? Vec3{0, 0, 1} : Vec3{1, 0, 0};
  u = cross(other, n);
  u = scale(1 / norm(u), u);
  v = cross(n, u);
}

Felt felt(const SampledHistory &h, const Vec3 &n, bool with_shear) {
  Vec3 u, v;
  frame(n, u, v);
  double low = 1e300, high = -1e300;
  std::vector<Point<2>> path;
  for (const Stress &s : h.states) {
    const Vec3 t = traction(s, n);
    low = std::min(low, dot(t, n));
    high = std::max(high, dot(t, n));
    path.push_back({dot(t, u), dot(t, v)});
  }
  return {0.5 * (high - low), 0.5 * (high + low), with_shear ? smallest_ball<2>(path).radius() : 0};
}

/// The ellipse's larger half axis from its matrix.
Felt felt(const HarmonicHistory &h, const Vec3 &n, bool) {
  Vec3 u, v;
  frame(n, u, v);
  const Vec3 c = traction(h.cosine, n), s = traction(h.sine, n);
  const double a = dot(c, u), b = dot(s, u), d = dot(c, v), e = dot(s, v);
  const double trace = a * a + b * b + d * d + e * e, determinant = a * e - b * d;
  const double root = std::sqrt(std::max(0.0, trace * trace - 4 * determinant * determinant));
  return {std::hypot(dot(c, n), dot(s, n)), normal_stress(h.mean, n),
          std::sqrt(0.5 * (trace + root))};
}

double findley_k() {
  const double x = 2 * steel.limit_torsion / steel.limit_bending - 1;
  return x / std::sqrt(1 - x * x);
}
double findley(const Felt &f) { return f.shear + findley_k() * f.largest(); }
double limited_findley(const Felt &f) {
  const double counted = std::min(f.mean, 3 * std::max(f.shear, f.amplitude));
  return f.shear + findley_k() * (f.amplitude + counted);
}
double normal_plane(const Felt &f) {
  return fully_reversed_amplitude(f.amplitude, f.mean, steel.mean_stress_sensitivity);
}
double shear(const Felt &f) { return f.shear; }

/// Largest value over planes 1 degree apart; round the best of them twice more, 20 times finer.
template <class History>
double largest_of_all(const History &h, double (*value)(const Felt &), Vec3 *where = nullptr) {
  const bool with_shear = value != normal_plane;
  const double degree = pi / 180;
  struct Tried {
    double value;
    Vec3 n;
  };
  std::vector<Tried> all;
  for (int i = 0; i <= 90; ++i) {
    const double r = std::sin(i * degree), z = std::cos(i * degree);
    const int round = std::max(1, static_cast<int>(std::ceil(360 * r)));
    for (int j = 0; j < round; ++j) {
      const double a = 2 * pi * j / round;
      const Vec3 n{r * std::cos(a), r * std::sin(a), z};
      all.push_back({value(felt(h, n, with_shear)), n});
    }
  }
  std::sort(all.begin(), all.end(),
            [](const Tried &a, const Tried &b) { return a.value > b.value; });
  Tried best = all.front();
  std::vector<Vec3> refined;
  for (const Tried &start : all) {
    // between the planes the value rises by less than 3e-4 of its size
    if (start.value < all.front().value - 1e-3 * std::abs(all.front().value)) break;
    if (refined.size() == 6) break;
    if (std::any_of(refined.begin(), refined.end(),
                    [&](const Vec3 &n) { return std::abs(dot(n, start.n)) > 0.998; }))
      continue;
    refined.push_back(start.n);
    Tried top = start;
    for (const double step : {0.1 * degree, 0.005 * degree}) {
      Vec3 u, v;
      const Vec3 middle = top.n;
      frame(middle, u, v);
      for (int a = -12; a <= 12; ++a)
        for (int b = -12; b <= 12; ++b) {
          Vec3 n = add(middle, add(scale(a * step, u), scale(b * step, v)));
          n = scale(1 / norm(n), n);
          const double trial = value(felt(h, n, with_shear));
          if (trial > top.value) top = {trial, n};
        }
    }
    if (top.value > best.value) best = top;
  }
  if (where) *where = best.n;
  return best.value;
}

HarmonicHistory any_harmonic(AnyHistory &any, int i) {
  HarmonicHistory h = any();
  const double mean_shares[] = {0, 0.5, 1, 2, 4, 8};
  h.mean = mean_shares[i % 6] * h.mean;
  if (i % 5 == 4) h.sine = 0.01 * h.sine;  // nearly proportional: cones of equal planes
  return h;
}

/// States without any order: the worst that a path can be.
SampledHistory any_states(AnyHistory &any, int i) {
  SampledHistory h;
  const HarmonicHistory smooth = any_harmonic(any, i);
  const double noise[] = {0, 10, 80};
  const int n = i % 4 == 0 ? 7 : 75;
  for (int k = 0; k < n; ++k)
    h.states.push_back(smooth.at(2 * pi * k / n) + any.draw(noise[i % 3]));
  return h;
}

/// The load rolls by: 30 positions, each with another direction near it and little far from it.
/// Neighbouring positions make summits of nearly the same height a few degrees apart.
SampledHistory rolling_states(AnyHistory &any) {
  const HarmonicHistory two = any();
  const Stress third = any.draw(30);
  SampledHistory h;
  for (int k = 0; k < 30; ++k) {
    const double angle = 2 * pi * k / 30, near = std::exp(4 * (std::cos(angle) - 1)),
                 beside = std::exp(4 * (std::cos(angle - 0.4) - 1)) * std::sin(angle - 0.3);
    h.states.push_back(two.mean + 2 * near * two.cosine + 2 * beside * two.sine +
                       near * near * third);
  }
  return h;
}

/// The search may find more than planes 0.005 degrees apart show, if its plane has that value.
/// @param less  by which it may find less, as a share
template <class History>
void expect_all_planes_tried(const std::vector<History> &histories, const char *criterion,
                             double (*value)(const Felt &), double uniaxial, double less = 1e-9) {
  const FatigueCriterion &row = fatigue_criterion(criterion);
  for (std::size_t i = 0; i < histories.size(); ++i) {
    const double all = largest_of_all(histories[i], value) / uniaxial;
    const EquivalentStress e = [&] {
      if constexpr (std::is_same_v<History, HarmonicHistory>)
        return row.harmonic(histories[i], steel);
      else
        return row.sampled(histories[i], steel);
    }();
    EXPECT_GT(e.fully_reversed, all * (1 - less)) << criterion << " " << i;
    const double there = value(felt(histories[i], e.plane_normal, true)) / uniaxial;
    EXPECT_NEAR(e.fully_reversed, there, 1e-8 * there) << criterion << " " << i;
  }
}

std::vector<HarmonicHistory> harmonic_histories(int n) {
  AnyHistory any;
  std::vector<HarmonicHistory> all;
  for (int i = 0; i < n; ++i) all.push_back(any_harmonic(any, i));
  return all;
}

std::vector<SampledHistory> sampled_histories(int n) {
  AnyHistory any;
  std::vector<SampledHistory> all;
  for (int i = 0; i < n; ++i) all.push_back(any_states(any, i));
  return all;
}

double findley_bar() { return 0.5 * (findley_k() + std::sqrt(1 + findley_k() * findley_k())); }

TEST(PlaneSearch, FindsFindleysPlaneOfAnyHarmonicHistory) {
  expect_all_planes_tried(harmonic_histories(200), "Findley", findley, findley_bar());
}

TEST(PlaneSearch, FindsTheLimitedFindleysPlaneOfAnyHarmonicHistory) {
  expect_all_planes_tried(harmonic_histories(200), "limited Findley", limited_findley,
                          findley_bar());
}

TEST(PlaneSearch, FindsTheLimitedFindleysPlaneOfAnyStates) {
  expect_all_planes_tried(sampled_histories(24), "limited Findley", limited_findley, findley_bar());
}

TEST(PlaneSearch, FindsTheHighestOfManySummitsAsALoadRollsBy) {
  AnyHistory any;
  std::vector<SampledHistory> all;
  for (int i = 0; i < 48; ++i) all.push_back(rolling_states(any));
  expect_all_planes_tried(all, "limited Findley", limited_findley, findley_bar());
}

/// Turned into another coordinate system: an angle about one axis, then about the next one.
HarmonicHistory turned(const HarmonicHistory &h, int axis, double angle) {
  const int i = axis % 3, j = (axis + 1) % 3;
  std::array<Vec3, 3> r{{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}};
  r[i][i] = r[j][j] = std::cos(angle);
  r[i][j] = -std::sin(angle);
  r[j][i] = std::sin(angle);
  const auto turned_stress = [&](const Stress &s) {
    const auto component = [&](int p, int q) { return dot(r[p], traction(s, r[q])); };
    return Stress{{component(0, 0), component(1, 1), component(2, 2), component(0, 1),
                   component(1, 2), component(2, 0)}};
  };
  return {turned_stress(h.mean), turned_stress(h.cosine), turned_stress(h.sine)};
}

/// As they are, and turned so that the planes of the grids lie elsewhere.
std::vector<HarmonicHistory> with_turned(const std::vector<HarmonicHistory> &histories) {
  std::vector<HarmonicHistory> all = histories;
  for (const double angle : {0.4, 0.9, 1.7})
    for (const HarmonicHistory &h : histories)
      all.push_back(turned(turned(turned(h, 0, angle), 1, 1.3 * angle), 2, 2.1 * angle));
  return all;
}

TEST(PlaneSearch, FindsThePlanesThatAWheelsSurfaceMadeHard) {
  const auto hard = with_turned(hard_for_normal_stress());
  expect_all_planes_tried(hard, "limited Findley", limited_findley, findley_bar(), 1e-4);
  expect_all_planes_tried(hard, "Findley", findley, findley_bar(), 1e-4);
}

TEST(PlaneSearch, FindsTheLargestShearBesideLargeStaticStress) {
  for (const HarmonicHistory &h : with_turned(hard_for_shear())) {
    const double all = largest_of_all(h, shear);
    EXPECT_NEAR(fatigue_criterion("Matake").harmonic(h, steel).amplitude, all, 1e-4 * all);
  }
}

TEST(PlaneSearch, FindsTheNormalStressPlaneOfAnyHarmonicHistory) {
  expect_all_planes_tried(harmonic_histories(200), "normal stress plane", normal_plane, 1, 1e-4);
}

TEST(PlaneSearch, FindsFindleysPlaneOfAnyStates) {
  expect_all_planes_tried(sampled_histories(24), "Findley", findley, findley_bar());
}

double with_walker(const Felt &f) {
  return f.amplitude + f.mean <= 0
             ? 0
             : std::pow(f.amplitude + f.mean, 0.234) * std::pow(f.amplitude, 0.766);
}

TEST(PlaneSearch, FindsTheNormalStressPlaneUnderAnotherMeanStressRule) {
  FatigueConstants c = steel;
  c.walker_exponent = 0.766;
  c.mean_stress = &mean_stress_rule("Walker");
  for (const HarmonicHistory &h : harmonic_histories(100)) {
    const double all = largest_of_all(h, with_walker);
    EXPECT_NEAR(fully_reversed("normal stress plane", h, c), all, 1e-4 * all);
  }
}

TEST(PlaneSearch, FindsTheNormalStressPlaneOfAnyStates) {
  expect_all_planes_tried(sampled_histories(48), "normal stress plane", normal_plane, 1, 1e-4);
}

// The plane itself is only as sure as the shear amplitude is peaked, so the amplitude is compared,
// and that the normal stress reported belongs to the plane.
TEST(PlaneSearch, FindsMatakesPlaneOfAnyHistory) {
  const FatigueCriterion &row = fatigue_criterion("Matake");
  for (const HarmonicHistory &h : harmonic_histories(100)) {
    const EquivalentStress e = row.harmonic(h, steel);
    const double all = largest_of_all(h, shear);
    EXPECT_NEAR(e.amplitude, all, 1e-4 * all);
    EXPECT_NEAR(e.mean, felt(h, e.plane_normal, false).mean, 1e-6);
  }
  for (const SampledHistory &h : sampled_histories(12)) {
    const EquivalentStress e = row.sampled(h, steel);
    const double all = largest_of_all(h, shear);
    EXPECT_NEAR(e.amplitude, all, 1e-4 * all);
    EXPECT_NEAR(e.mean, felt(h, e.plane_normal, false).mean, 1e-6);
  }
}

// Rounding differs between processors, and with it which of two equal planes wins; the value does
// not.
TEST(PlaneKernels, AgreeOnEveryProcessor) {
  NamedPlaneKernels found[3];
  const int n = runnable_plane_kernels(found);
  AnyHistory any;
  std::vector<EightValues> values(6 * 20), scratch(2 * 20);
  for (EightValues &v : values)
    for (double &x : v.of) x = any.draw(100)[0];
  for (const PlaneQuestion q : {PlaneQuestion::normal_stress, PlaneQuestion::shear_and_normal,
                                PlaneQuestion::shear_and_limited_normal, PlaneQuestion::shear})
    for (int i = 1; i < n; ++i) {
      PlaneAnswers one, other;
      const auto expect_equal = [&](int points) {
        for (int p = 0; p < points; ++p)
          EXPECT_NEAR(one.value.of[p], other.value.of[p], 1e-4 * one.value.of[p]) << found[i].name;
      };
      for (const int points : {points_at_once, 3}) {
        found[0].kernels->harmonic({q, 0.2}, values.data(), points, &one);
        found[i].kernels->harmonic({q, 0.2}, values.data(), points, &other);
        expect_equal(points);
      }
      found[0].kernels->sampled({q, 0.2}, values.data(), 20, scratch.data(), one);
      found[i].kernels->sampled({q, 0.2}, values.data(), 20, scratch.data(), other);
      expect_equal(points_at_once);
    }
}

// The largest triangles of the split icosahedron lie in the middle of its faces: edges of 12.5
// degrees, so 12.5 / sqrt 3 = 7.2 degrees, 0.126 rad, from their corners to their middle.
TEST(PlaneGrid, LeavesNoDirectionFurtherThanItSays) {
  const PlaneGrid &grid = plane_grid();
  EXPECT_EQ(grid.n, 181);
  AnyHistory any;
  for (int i = 0; i < 2000; ++i) {
    const Stress s = any.draw(1);
    Vec3 x{s[0], s[1], s[2]};
    x = scale(1 / norm(x), x);
    double nearest = 0;
    for (int k = 0; k < grid.n; ++k) {
      const double *n = grid.normal + 3 * k;
      nearest = std::max(nearest, std::abs(x[0] * n[0] + x[1] * n[1] + x[2] * n[2]));
    }
    EXPECT_LT(std::acos(std::min(1.0, nearest)), 0.13);
  }
}

}  // namespace
}  // namespace felloe
