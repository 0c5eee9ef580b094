// SPDX-License-Identifier: GPL-3.0-or-later
// The wheel loads on the section, as Fourier amplitudes.
#include "solver/harmonic_loads.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "mesher/error.h"
#include "solver/detail/harmonic_constraints.h"
#include "solver/detail/harmonic_element.h"
#include "solver/detail/tyre_side.h"

namespace felloe {
namespace {

HarmonicLoad named(const std::string &name, int n) {
  HarmonicLoad load;
  load.name = name;
  load.n = n;
  return load;
}

/// As on the 3D mesh: axial traction on the part of the flange that faces the other one.
std::pair<std::string, HarmonicTraction> axial_push(const SectionMesh &mesh,
                                                    const std::string &flange, int sign,
                                                    double push) {
  const auto traction = [sign](double factor) -> HarmonicTraction {
    return [sign, factor](const Vec2 &, const Vec2 &n) {
      return HarmonicVector{0, 0, sign * factor * std::max(0., -sign * n[1])};
    };
  };
  HarmonicLoad one;
  one.tractions = {{flange, traction(1)}};
  const double unit = sign * section_resultant(mesh, one).force;
  if (!(unit > 0))
    throw Error("inflation: edge '" + flange +
                "' has no face towards the tyre: the bead cannot push on it");
  return {flange, traction(push / unit)};
}

}  // namespace

HarmonicResultant section_resultant(const SectionMesh &mesh, const HarmonicLoad &load) {
  HarmonicResultant sum;
  if (load.n > 1) return sum;
  const std::vector<double> forces = detail::nodal_forces(mesh, load);
  for (std::size_t i = 0; i < forces.size(); ++i) {
    const Vec2 &rz = mesh.nodes[i / 3];
    sum.force += forces[i] * detail::rigid_motion(load.n, 0, rz)[i % 3];
    sum.moment += forces[i] * detail::rigid_motion(load.n, 1, rz)[i % 3];
  }
  return sum;
}

HarmonicLoad section_press_fit(double radial_interference) {
  HarmonicLoad load = named("press fit", 0);
  load.interference = radial_interference;
  return load;
}

HarmonicLoad section_inflation(const SectionMesh &mesh, double pressure, double tyre_outer_radius) {
  HarmonicLoad load = named("inflation", 0);
  const detail::AxialSpan span = detail::span_between_beads(mesh);
  const HarmonicTraction on_rim = [span, pressure](const Vec2 &rz, const Vec2 &n) {
    return span.contains(rz[1]) ? HarmonicVector{-pressure * n[0], 0, -pressure * n[1]}
                                : HarmonicVector{};
  };
  for (const std::string &name : detail::tyre_side_names(mesh.edges))
    load.tractions.push_back({name, on_rim});
  if (tyre_outer_radius == 0) return load;
  const double push =
      detail::bead_push(pressure, tyre_outer_radius, detail::flange_load_radius(mesh));
  const double rest = section_resultant(mesh, load).force;
  load.tractions.push_back(axial_push(mesh, "flange outboard", 1, push - rest / 2));
  load.tractions.push_back(axial_push(mesh, "flange inboard", -1, push + rest / 2));
  return load;
}

HarmonicLoad section_adapter_moment(double moment) {
  HarmonicLoad load = named("cornering moment", 1);
  load.adapter_moment = moment;
  return load;
}

HarmonicLoad section_axial_force(double force) {
  HarmonicLoad load = named("adapter force axial", 0);
  load.adapter_force = force;
  return load;
}

HarmonicLoad section_lateral_force(double force) {
  HarmonicLoad load = named("adapter force lateral", 1);
  load.adapter_force = force;
  return load;
}

double arc_integral(int n, double half_angle) {
  if (!(half_angle > 0 && half_angle <= 90))
    throw Error("radial load: half angle " + std::to_string(half_angle) +
                " deg: needs 0 < half angle <= 90");
  const double phi0 = half_angle * pi / 180, k = pi / (2 * phi0);
  if (std::abs(k - n) < 1e-9) return phi0;
  return 2 * k * std::cos(n * phi0) / (k * k - double(n) * n);
}

std::vector<HarmonicLoad> section_radial_load(const SectionMesh &mesh, double load,
                                              double half_angle, int n_last) {
  std::vector<HarmonicLoad> loads;
  for (int n = 0; n <= n_last; ++n)
    loads.push_back(named("radial load, harmonic " + std::to_string(n), n));
  for (const char *seat : {"bead seat outboard", "bead seat inboard"}) {
    double area = 0;  // per radian
    for (const CellFace &face : edge(mesh, seat))
      for (const detail::EdgePoint &p : detail::edge_points(mesh, face)) area += p.weight * p.rz[0];
    const double crest = load / 2 / (arc_integral(1, half_angle) * area);
    for (int n = 0; n <= n_last; ++n) {
      const double amplitude = crest * arc_integral(n, half_angle) / detail::theta_factor(n);
      loads[n].tractions.push_back({seat, [amplitude](const Vec2 &, const Vec2 &) {
                                      return HarmonicVector{-amplitude, 0, 0};
                                    }});
    }
  }
  return loads;
}

}  // namespace felloe
