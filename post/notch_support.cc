// SPDX-License-Identifier: GPL-3.0-or-later
// Support rules, notch sensitivities, and the gradient from computed values.
#include "post/notch_support.h"

#include <algorithm>
#include <cmath>

#include "mesher/error.h"
#include "post/fkm.h"
#include "solver/nearest_name.h"

namespace felloe {
namespace {

double siebel_stieler(const Material &m, double gradient) {
  return 1 + std::sqrt(gradient) * std::pow(10, -(0.33 + m.yield_strength / 712));
}

constexpr int most_terms = 9;

/// Solves the normal equations in place by elimination with pivots; false where they are singular.
bool solve(double (&a)[most_terms][most_terms + 1], int n) {
  double largest = 0;
  for (int i = 0; i < n; ++i) largest = std::max(largest, std::abs(a[i][i]));
  for (int i = 0; i < n; ++i) {
    int pivot = i;
    for (int r = i + 1; r < n; ++r)
      if (std::abs(a[r][i]) > std::abs(a[pivot][i])) pivot = r;
    if (std::abs(a[pivot][i]) <= 1e-11 * largest) return false;
    std::swap_ranges(a[i], a[i] + n + 1, a[pivot]);
    for (int r = 0; r < n; ++r) {
      if (r == i) continue;
      const double f = a[r][i] / a[i][i];
      for (int c = i; c <= n; ++c) a[r][c] -= f * a[i][c];
    }
  }
  for (int i = 0; i < n; ++i) a[i][n] /= a[i][i];
  return true;
}

/// Gradient of the fit with n terms, in units of 1 / size; false where the points do not fix it.
bool fitted(const Vec3 &at, double value, const std::vector<Vec3> &points,
            const std::vector<double> &values, double size, int n, Vec3 &gradient) {
  double a[most_terms][most_terms + 1] = {};
  for (std::size_t i = 0; i < points.size(); ++i) {
    const Vec3 d = scale(1 / size, subtract(points[i], at));
    const double squared = dot(d, d);
    if (squared < 1e-12) continue;
    const double weight = 1 / squared;
    const double term[most_terms] = {d[0],        d[1],        d[2],
                                     d[0] * d[0], d[1] * d[1], d[2] * d[2],
                                     d[0] * d[1], d[1] * d[2], d[2] * d[0]};
    for (int r = 0; r < n; ++r) {
      for (int c = 0; c < n; ++c) a[r][c] += weight * term[r] * term[c];
      a[r][n] += weight * term[r] * (values[i] - value);
    }
  }
  if (!solve(a, n)) return false;
  gradient = {a[0][n], a[1][n], a[2][n]};
  return true;
}

}  // namespace

const std::vector<SupportRule> &support_rules() {
  static const std::vector<SupportRule> rows = {
      {"FKM linear", "three powers of the gradient, exponent by tensile strength",
       notch_support_factor, "FKM guideline", "constants found second-hand, verify"},
      {"Siebel-Stieler", "1 + root(G) 10^-(0.33 + Re / 712), steel", siebel_stieler, "DIN 743-2",
       "from memory, verify"},
  };
  return rows;
}

const SupportRule &support_rule(const std::string &name) {
  std::vector<std::string> names;
  for (const auto &row : support_rules()) {
    if (row.name == name) return row;
    names.push_back(row.name);
  }
  throw Error(unknown_name("support rule", name, names));
}

double support_of_stressed_area(const Material &m, double area, double gradient) {
  const bool steel = m.family == MaterialFamily::steel;
  const double exponent = steel ? 30 : m.family == MaterialFamily::wrought_aluminium ? 20 : 10;
  const double statistical = std::pow(500 / area, 1 / exponent), root = std::sqrt(gradient);
  const double strength = m.tensile_strength / (steel ? 680 : 270);
  const double mechanical =
      (5 + root) / (5 * statistical + strength * std::sqrt((7.5 + root) / (1 + 0.2 * root)));
  return statistical * std::max(1.0, mechanical);
}

double peterson_sensitivity(double tensile_strength, double radius) {
  return 1 / (1 + 0.0254 * std::pow(2070 / tensile_strength, 1.8) / radius);
}

double neuber_sensitivity(double tensile_strength, double radius) {
  const double ksi = tensile_strength / 6.9, inch = 25.4;  // as rounded there: 690 MPa are 100 ksi
  const double root = 0.246 - 3.08e-3 * ksi + 1.51e-5 * ksi * ksi - 2.67e-8 * ksi * ksi * ksi;
  return 1 / (1 + root * std::sqrt(inch / radius));
}

double roughness_factor_non_linear(const Material &m, double rz) {
  if (rz <= 1) return 1;
  return std::pow(1 - 0.27 * std::log10(rz) * std::log10(2 * m.tensile_strength / 400), 0.43);
}

double related_gradient(const Vec3 &at, double value, const std::vector<Vec3> &points,
                        const std::vector<double> &values) {
  if (!(value > 0) || points.size() < 3) return 0;
  double size = 0;
  for (const Vec3 &p : points) size = std::max(size, norm(subtract(p, at)));
  if (size == 0) return 0;
  Vec3 gradient{};
  const bool quadratic = points.size() >= 12;
  if (!(quadratic && fitted(at, value, points, values, size, 9, gradient)) &&
      !fitted(at, value, points, values, size, 3, gradient))
    return 0;
  return norm(gradient) / size / value;
}

}  // namespace felloe
