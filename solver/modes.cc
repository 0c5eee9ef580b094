// SPDX-License-Identifier: GPL-3.0-or-later
// Stiffness and mass reduced by supports and ties, shifted, factored once.
//
// Numbers are in N, mm, kg: 1 N = 1000 kg mm/s2, so omega^2 [1/s2] = 1000 lambda [N/mm/kg].
#include "solver/modes.h"

#include <algorithm>
#include <cmath>
#include <new>
#include <numeric>
#include <optional>
#include <sstream>

#include "mesher/error.h"
#include "solver/detail/assembly.h"
#include "solver/detail/constraint_map.h"
#include "solver/detail/mass_matrix.h"
#include "solver/detail/rigid_motions.h"
#include "solver/detail/shift_invert.h"

namespace felloe {
namespace {

/// Of elastic modes; and of rigid motions, whose value need only be told from the shift: there the
/// stiffness is nothing but rounding.
constexpr double residual_limit = 1e-6, rigid_residual_limit = 1e-3;
/// Values below this share of the shift belong to rigid motions.
constexpr double rigid_share = 0.01;

const Material &usable_material(Part part, const std::map<Part, Material> &materials) {
  const char *name = part == Part::disc ? "disc" : part == Part::rim ? "rim" : "weld";
  const auto found = materials.find(part);
  if (found == materials.end())
    throw Error(std::string("materials: ") + name +
                ": the mesh has this part and no material is given for it; give one");
  const Material &m = found->second;
  if (!(m.youngs_modulus > 0 && m.poissons_ratio > -1 && m.poissons_ratio < 0.5 && m.density > 0)) {
    std::ostringstream text;
    text << "materials: " << name << ": Young's modulus " << m.youngs_modulus
         << " MPa, Poisson's ratio " << m.poissons_ratio << ", density " << m.density
         << " kg/mm3: needs E > 0, -1 < nu < 0.5 and a density over 0";
    throw Error(text.str());
  }
  return m;
}

/// Stiffness and mass of the body without supports.
struct FreeBody {
  std::vector<detail::Axes> axes;
  std::vector<bool> joined;  ///< of each node: belongs to a cell
  detail::BlockMatrix stiffness, mass;
  double rigid_scale = 0;  ///< shift that lets a free body be factored [N/mm/kg]

  FreeBody(const Mesh &, const std::map<Part, Material> &, NodalFrame);
};

/// The shift of a free body stays below its lowest elastic value and far above rounding. The scale
/// is that of the bending of a plate with the body's size L and volume V,
///   lambda ~ E / rho (t / L^2)^2 with t = V / L^2,
/// but never under what the stiffest node leaves of a double's digits.
FreeBody::FreeBody(const Mesh &mesh, const std::map<Part, Material> &materials, NodalFrame frame)
    : axes(detail::node_axes(mesh, frame)), joined(mesh.nodes.size()) {
  std::vector<detail::Lame> lame;
  std::vector<double> density, volumes;
  double speed2 = 0;  // E / rho, the largest
  for (const Part part : mesh.parts) {
    const Material &m = usable_material(part, materials);
    lame.push_back(detail::lame(m));
    density.push_back(m.density);
    speed2 = std::max(speed2, m.youngs_modulus / m.density);
  }
  for (const auto &nodes : mesh.cells)
    for (const int n : nodes) joined[n] = true;
  const detail::HexGeometry geometry(mesh);
  stiffness = detail::stiffness(mesh, geometry, lame, axes, frame, volumes);
  mass = detail::mass_matrix(mesh, geometry, density, axes);

  double volume = 0, stiffest = 0;
  for (const double v : volumes) volume += v;
  Vec3 low = mesh.nodes.front(), high = low;
  for (const Vec3 &x : mesh.nodes)
    for (int i = 0; i < 3; ++i) {
      low[i] = std::min(low[i], x[i]);
      high[i] = std::max(high[i], x[i]);
    }
  const double size = norm(subtract(high, low));
  const auto k = node_diagonals(stiffness), m = node_diagonals(mass);
  for (std::size_t n = 0; n < k.size(); ++n)
    if (joined[n]) stiffest = std::max(stiffest, k[n] / m[n]);
  const double bending = volume / (size * size * size * size);
  rigid_scale = std::max(speed2 * bending * bending, 1e-11 * stiffest);
}

/// The reduced matrices with the first shift that has a factor.
struct Factored {
  double shift = 0;
  detail::SymmetricMatrix shifted, mass;
  std::optional<detail::SparseCholesky> factor;

  Factored(const detail::ConstraintMap &map, FreeBody body, bool can_move)
      : mass(reduced(map, body.mass)) {
    for (int attempt = can_move ? 1 : 0; attempt < 4; ++attempt) {
      const double next = attempt == 0 ? 0 : body.rigid_scale * std::pow(100, attempt - 1);
      for (std::size_t e = 0; e < body.stiffness.block.size(); ++e)
        for (int i = 0; i < 9; ++i)
          body.stiffness.block[e][i] += (next - shift) * body.mass.block[e][i];
      shift = next;
      shifted = reduced(map, body.stiffness);
      try {
        factor.emplace(shifted, map.group);
        return;
      } catch (const detail::NotPositiveDefinite &) {
      }
    }
    throw Error(
        "natural frequencies: no shifted stiffness matrix is positive definite; check "
        "the mesh and the materials");
  }
};

/// M times the three shifts of the whole body, reduced.
std::array<std::vector<double>, 3> shaken_mass(const detail::ConstraintMap &map,
                                               const FreeBody &body) {
  std::array<std::vector<double>, 3> sides;
  for (int i = 0; i < 3; ++i) {
    std::vector<double> shift(map.unknown.size());
    for (std::size_t u = 0; u < shift.size(); ++u) shift[u] = body.axes[u / 3][u % 3][i];
    sides[i] = reduced(map, multiply(body.mass, shift));
  }
  return sides;
}

Mode mode(const detail::ConstraintMap &map, const std::vector<detail::Axes> &axes,
          const double *q) {
  Mode m;
  std::vector<double> u;
  expand(map, q, u);
  double largest = 0, sign = 1;
  for (std::size_t n = 0; n < axes.size(); ++n) {
    m.shape.push_back(detail::from(axes[n], {u[3 * n], u[3 * n + 1], u[3 * n + 2]}));
    largest = std::max(largest, norm(m.shape.back()));
  }
  // Of several equally large displacements rounding chooses; the sign is that of the first.
  for (const Vec3 &v : m.shape)
    if (norm(v) > 0.999 * largest) {
      for (int i = 2; i >= 0; --i)
        if (std::abs(v[i]) > 0.3 * largest) sign = v[i] < 0 ? -1 : 1;
      break;
    }
  for (Vec3 &v : m.shape) v = scale(sign / largest, v);
  return m;
}

}  // namespace

std::vector<Mode> natural_modes(const Mesh &mesh, const std::map<Part, Material> &materials,
                                const Supports &supports, int count, NodalFrame frame) {
  if (mesh.cells.empty()) throw Error("mesh: no cells: nothing can vibrate");
  FreeBody body(mesh, materials, frame);
  const detail::ConstraintMap map =
      detail::constraint_map(mesh, frame, body.axes, supports, body.joined);
  if (count < 1 || count >= map.n_reduced())
    throw Error("natural frequencies: " + std::to_string(count) + " modes of " +
                std::to_string(map.n_reduced()) +
                " unknowns: needs at least one mode and more unknowns than modes");
  const auto shaken = shaken_mass(map, body);
  const std::vector<detail::Axes> axes = body.axes;
  const bool can_move = !detail::free_rigid_motions(mesh, axes, map).empty();
  detail::Eigenpairs pairs;
  double shift = 0;
  try {
    const Factored f(map, std::move(body), can_move);
    shift = f.shift;
    pairs = detail::smallest_eigenpairs({f.shifted, f.mass, f.shift, *f.factor}, count);
  } catch (const std::bad_alloc &) {
    throw Error("natural frequencies: " + std::to_string(map.n_reduced()) +
                " unknowns: the factor does not fit into memory; use a coarser mesh");
  }
  std::vector<Mode> modes;
  for (int e = 0; e < count; ++e) {
    const double *q = &pairs.vector[static_cast<std::size_t>(e) * map.n_reduced()];
    Mode m = mode(map, axes, q);
    const double lambda = pairs.value[e];
    const bool rigid = lambda < rigid_share * shift;
    if (!rigid) m.frequency = std::sqrt(1000 * lambda) / (2 * pi);
    m.residual = pairs.residual[e];
    for (int i = 0; i < 3; ++i) {
      const double part = std::inner_product(q, q + map.n_reduced(), shaken[i].begin(), 0.0);
      m.effective_mass[i] = part * part;
    }
    const double limit = rigid ? rigid_residual_limit : residual_limit;
    if (!(m.residual <= limit)) {
      std::ostringstream text;
      text << "natural frequencies: mode " << e + 1 << " at " << m.frequency
           << " Hz: relative residual " << m.residual << ": must not exceed " << limit
           << "; check the mesh";
      throw Error(text.str());
    }
    modes.push_back(std::move(m));
  }
  return modes;
}

}  // namespace felloe
