// SPDX-License-Identifier: GPL-3.0-or-later
// Compliance of the adapter, checked and inverted.
#include "solver/adapter_stiffness.h"

#include <cassert>
#include <cmath>
#include <sstream>

#include "mesher/error.h"

namespace felloe {
namespace {

constexpr double symmetry_limit = 1e-8;

const char *direction(int i) {
  constexpr const char *names[] = {"x", "y", "z", "about x", "about y", "about z"};
  return names[i];
}

/// Scales a symmetric matrix by 1 / sqrt of its diagonal on both sides and checks it.
Matrix6 scaled(const Matrix6 &c, const std::array<double, 6> &s) {
  Matrix6 unit;
  for (int i = 0; i < 6; ++i)
    for (int j = 0; j < 6; ++j) unit[i][j] = s[i] * c[i][j] * s[j];
  for (int i = 0; i < 6; ++i)
    for (int j = 0; j < i; ++j) {
      const double error = std::abs(unit[i][j] - unit[j][i]);
      if (!(error <= symmetry_limit)) {
        std::ostringstream text;
        text << "stiffness at the hub adapter: compliance " << direction(i) << " under a load "
             << direction(j) << " differs from its mirror image by " << error
             << " of the diagonal: must not exceed " << symmetry_limit << "; check the mesh";
        throw Error(text.str());
      }
      unit[i][j] = unit[j][i] = 0.5 * (unit[i][j] + unit[j][i]);
    }
  return unit;
}

/// Inverse of a symmetric positive definite matrix by Gauss-Jordan elimination.
Matrix6 inverse(Matrix6 a) {
  for (int p = 0; p < 6; ++p) {
    if (!(a[p][p] > 1e-14))
      throw Error(
          "stiffness at the hub adapter: the compliance is not positive definite: check "
          "that the supports hold the body");
    const double pivot = 1 / a[p][p];
    a[p][p] = 1;
    for (int j = 0; j < 6; ++j) a[p][j] *= pivot;
    for (int i = 0; i < 6; ++i) {
      if (i == p) continue;
      const double factor = a[i][p];
      a[i][p] = 0;
      for (int j = 0; j < 6; ++j) a[i][j] -= factor * a[p][j];
    }
  }
  return a;
}

double per_degree(double compliance) { return 1e-3 * pi / 180 / compliance; }

}  // namespace

double AdapterStiffness::tilt_Nm_per_deg() const { return per_degree(compliance[3][3]); }
double AdapterStiffness::torsion_Nm_per_deg() const { return per_degree(compliance[5][5]); }
double AdapterStiffness::axial_N_per_mm() const { return 1 / compliance[2][2]; }
double AdapterStiffness::radial_N_per_mm() const { return 1 / compliance[0][0]; }

std::vector<LoadCase> adapter_loads(double force, double moment) {
  std::vector<LoadCase> loads(6);
  for (int i = 0; i < 3; ++i) {
    const std::string axis(1, "xyz"[i]);
    loads[i].name = "force on the hub along " + axis;
    loads[i].kind = "adapter force";
    loads[i].adapter.force[i] = force;
    loads[3 + i].name = "moment on the hub about " + axis;
    loads[3 + i].kind = i < 2 ? "cornering moment" : "adapter force";
    loads[3 + i].adapter.moment[i] = moment;
  }
  return loads;
}

AdapterStiffness adapter_stiffness(const std::vector<std::array<double, 6>> &motions, double force,
                                   double moment) {
  assert(motions.size() == 6);
  AdapterStiffness a;
  std::array<double, 6> s;
  for (int j = 0; j < 6; ++j) {
    const double load = j < 3 ? force : moment;
    for (int i = 0; i < 6; ++i) a.compliance[i][j] = motions[j][i] / load;
    if (!(a.compliance[j][j] > 0))
      throw Error(std::string("stiffness at the hub adapter: no motion ") + direction(j) +
                  " under a load in that direction: needs a free adapter");
    s[j] = 1 / std::sqrt(a.compliance[j][j]);
  }
  const Matrix6 unit = scaled(a.compliance, s), inverted = inverse(unit);
  for (int i = 0; i < 6; ++i)
    for (int j = 0; j < 6; ++j) {
      a.compliance[i][j] = unit[i][j] / (s[i] * s[j]);
      a.stiffness[i][j] = 0.5 * (inverted[i][j] + inverted[j][i]) * (s[i] * s[j]);
    }
  return a;
}

AdapterStiffness adapter_stiffness(const ElasticModel &model, const Supports &supports) {
  constexpr double force = 1e4, moment = 1e6;
  std::vector<std::array<double, 6>> motions;
  for (const Solution &s : model.solve(supports, adapter_loads(force, moment)))
    motions.push_back(s.adapter_motion);
  return adapter_stiffness(motions, force, moment);
}

}  // namespace felloe
