// SPDX-License-Identifier: GPL-3.0-or-later
// Builders of the wheel loads on 3D meshes, each rescaled to its exact resultant: the scale factor
// comes from the same quadrature that later makes the nodal forces.
#include <cmath>
#include <string>

#include "mesher/error.h"
#include "solver/detail/tyre_side.h"
#include "solver/load_kinds.h"

namespace felloe {
namespace {

Vec3 force_of(const Mesh &mesh, const std::string &surface_name, const Traction &traction) {
  LoadCase one;
  one.tractions = {{surface_name, traction}};
  return resultant(mesh, nodal_forces(mesh, one)).force;
}

/// Axial traction on the part of a flange that faces the other one, in proportion to the projected
/// area; sign: +1 outboard flange, pushed outboard.
std::pair<std::string, Traction> axial_push(const Mesh &mesh, const std::string &flange, int sign,
                                            double push) {
  const auto traction = [sign](double factor) -> Traction {
    return [sign, factor](const Vec3 &, const Vec3 &n) {
      return Vec3{0, 0, sign * factor * std::max(0., -sign * n[2])};
    };
  };
  const double unit = sign * force_of(mesh, flange, traction(1))[2];
  if (!(unit > 0))
    throw Error("inflation: surface '" + flange +
                "' has no face towards the tyre: the bead cannot push on it");
  return {flange, traction(push / unit)};
}

}  // namespace

LoadCase bolt_clamp(const WheelLayout &layout, const Mesh &mesh, double preload) {
  LoadCase load;
  load.name = load.kind = "bolt clamp";
  for (std::size_t k = 1; k <= layout.bolts.size(); ++k) {
    const std::string seat = "bolt seat " + std::to_string(k);
    const double area = -force_of(mesh, seat, [](const Vec3 &, const Vec3 &) {
      return Vec3{0, 0, -1};
    })[2];
    if (!(area > 0)) throw Error("bolt clamp: surface '" + seat + "' has no area");
    const Vec3 t{0, 0, -preload / area};
    load.tractions.push_back({seat, [t](const Vec3 &, const Vec3 &) { return t; }});
  }
  return load;
}

LoadCase press_fit(double radial_interference) {
  LoadCase load;
  load.name = load.kind = "press fit";
  load.interference = radial_interference;
  return load;
}

LoadCase inflation(const WheelLayout &, const Mesh &mesh, double pressure,
                   double tyre_outer_radius) {
  LoadCase load;
  load.name = load.kind = "inflation";
  const detail::AxialSpan span = detail::span_between_beads(mesh);
  const Traction on_rim = [span, pressure](const Vec3 &x, const Vec3 &n) {
    return span.contains(x[2]) ? scale(-pressure, n) : Vec3{};
  };
  for (const std::string &name : detail::tyre_side_names(mesh.surfaces))
    load.tractions.push_back({name, on_rim});
  if (tyre_outer_radius == 0) return load;

  const double push =
      detail::bead_push(pressure, tyre_outer_radius, detail::flange_load_radius(mesh));
  // Seat ends of unequal radius leave an axial rest of the pressure; the beads share it.
  const double rest = resultant(mesh, nodal_forces(mesh, load)).force[2];
  load.tractions.push_back(axial_push(mesh, "flange outboard", 1, push - rest / 2));
  load.tractions.push_back(axial_push(mesh, "flange inboard", -1, push + rest / 2));
  return load;
}

LoadCase radial_load(const WheelLayout &, const Mesh &mesh, double load, double half_angle,
                     double direction) {
  if (!(half_angle > 0 && half_angle <= 90))
    throw Error("radial load: half angle " + std::to_string(half_angle) +
                " deg: needs 0 < half angle <= 90");
  const double phi0 = half_angle * pi / 180;
  const Vec3 along{std::cos(direction), std::sin(direction), 0},
      across{-std::sin(direction), std::cos(direction), 0};
  // Radially inwards, c1 + c2 sin phi times the cosine arc.
  const auto arc = [=](double c1, double c2) -> Traction {
    return [=](const Vec3 &x, const Vec3 &) -> Vec3 {
      const double r = std::hypot(x[0], x[1]);
      const double phi = std::atan2(dot(x, across), dot(x, along));
      if (std::abs(phi) >= phi0) return {};
      const double p = std::cos(pi * phi / (2 * phi0)) * (c1 + c2 * std::sin(phi));
      return {-p * x[0] / r, -p * x[1] / r, 0};
    };
  };
  LoadCase result;
  result.name = result.kind = "radial load";
  for (const char *seat : {"bead seat outboard", "bead seat inboard"}) {
    const Vec3 even = force_of(mesh, seat, arc(1, 0)), odd = force_of(mesh, seat, arc(0, 1));
    // Towards the axis: -load / 2 along the direction, nothing across it.
    const double a = dot(even, along), b = dot(odd, along), c = dot(even, across),
                 d = dot(odd, across), det = a * d - b * c;
    if (!(std::abs(det) > 1e-12 * a * a))
      throw Error("radial load: surface '" + std::string(seat) + "' has no faces within " +
                  std::to_string(half_angle) + " deg of the load: refine the mesh");
    const double c1 = -load / 2 * d / det, c2 = load / 2 * c / det;
    result.tractions.push_back({seat, arc(c1, c2)});
  }
  return result;
}

LoadCase adapter_moment(double moment, double angle) {
  LoadCase load;
  load.name = load.kind = "cornering moment";
  load.adapter.moment = {moment * std::cos(angle), moment * std::sin(angle), 0};
  return load;
}

LoadCase adapter_force(const Vec3 &force) {
  LoadCase load;
  load.name = load.kind = "adapter force";
  load.adapter.force = force;
  return load;
}

}  // namespace felloe
