// SPDX-License-Identifier: GPL-3.0-or-later
// Assembly, reduction, one factorisation, all loads, checks, stresses.
//
// Find u with u = given on the held components and, for every admissible v,
//
//   integral of eps(v) : sigma(u) dV = integral of v . b dV + integral of v . t dA
//   sigma = lambda tr(eps) I + 2 mu eps
//
// on quadratic hexahedra of 27 nodes. They bend without locking in one layer of a thin disc, and
// their nodes lie on the exact geometry. Unknown = 3 node + component in the node's own axes.
// Supports, adapter and ties are linear maps u = C q + g; what remains is
//
//   C^T K C q = C^T (f - K g)
//
// solved by sparse Cholesky: thin bodies have small separators, so a direct factor is cheap and
// every further load costs one pair of triangular solves, whatever the thickness of the disc.
#include "solver/elastic_model.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <new>
#include <utility>

#include "mesher/error.h"
#include "solver/detail/assembly.h"
#include "solver/detail/constraint_map.h"
#include "solver/detail/parallel.h"
#include "solver/detail/rigid_motions.h"
#include "solver/detail/solution_checks.h"
#include "solver/detail/sparse_cholesky.h"
#include "solver/detail/stress_recovery.h"

namespace felloe {
namespace {

class Stopwatch {
 public:
  double lap() {
    const auto now = std::chrono::steady_clock::now();
    return std::chrono::duration<double>(now - std::exchange(last_, now)).count();
  }

 private:
  std::chrono::steady_clock::time_point last_ = std::chrono::steady_clock::now();
};

const char *part_name(Part part) {
  return part == Part::disc ? "disc" : part == Part::rim ? "rim" : "weld";
}

const Material &material_of(Part part, const std::map<Part, Material> &materials) {
  const auto found = materials.find(part);
  if (found == materials.end())
    throw Error(std::string("materials: ") + part_name(part) +
                ": the mesh has this part and no material is given for it; give one");
  const Material &m = found->second;
  if (!(m.youngs_modulus > 0) || !(m.poissons_ratio > -1 && m.poissons_ratio < 0.5))
    throw Error(std::string("materials: ") + part_name(part) + ": Young's modulus " +
                std::to_string(m.youngs_modulus) + " MPa, Poisson's ratio " +
                std::to_string(m.poissons_ratio) + ": needs E > 0 and -1 < nu < 0.5");
  return m;
}

/// A residual above this asks for a step of iterative refinement. Thin bodies end near 1e-9: there
/// the product K q itself cannot be rounded any better.
constexpr double refine_above = 1e-8;

/// |b - A x| / |b| of each column, rows divided by the root of their diagonal so that forces and
/// moments weigh alike; the differences replace b.
std::vector<double> relative_residuals(const detail::SymmetricMatrix &a,
                                       const std::vector<double> &x, std::vector<double> &b,
                                       int n_columns) {
  const long n = a.size();
  const auto size = [&](int k) {
    double sum = 0;
    for (long i = 0; i < n; ++i) sum += b[k * n + i] * b[k * n + i] / a.value[a.column_start[i]];
    return std::sqrt(sum);
  };
  const std::vector<double> ax = detail::multiply(a, x, n_columns);
  std::vector<double> residuals;
  for (int k = 0; k < n_columns; ++k) {
    const double whole = size(k);
    for (long i = k * n; i < (k + 1) * n; ++i) b[i] -= ax[i];
    residuals.push_back(whole > 0 ? size(k) / whole : size(k));
  }
  return residuals;
}

}  // namespace

struct ElasticModel::Impl {
  Mesh mesh;
  NodalFrame frame;
  std::vector<detail::Axes> axes;
  std::vector<detail::Lame> of_cells;
  std::vector<bool> joined;  ///< of each node: belongs to a cell
  detail::HexGeometry geometry;
  detail::BlockMatrix stiffness;
  SolveFigures figures;
  double mass = 0;

  Impl(const Mesh &m, NodalFrame f)
      : mesh(m), frame(f), axes(detail::node_axes(m, f)), joined(m.nodes.size()), geometry(m) {}

  std::vector<double> right_hand_side(const detail::ConstraintMap &, const LoadCase &,
                                      std::vector<double> &f, std::vector<double> &g) const;
  std::vector<double> solved(const detail::SymmetricMatrix &, const std::vector<int> &group,
                             const std::vector<double> &right_hand_sides, int n_loads,
                             std::vector<double> &residuals);
  Solution solution(const detail::ConstraintMap &, const LoadCase &, const double *q,
                    const std::vector<double> &f, const std::vector<double> &g,
                    double residual) const;
};

ElasticModel::ElasticModel(const Mesh &mesh, const std::map<Part, Material> &materials,
                           NodalFrame frame) {
  if (mesh.cells.empty()) throw Error("mesh: no cells: there is nothing to solve");
  Stopwatch watch;
  std::map<Part, detail::Lame> of_parts;
  for (const Part part : mesh.parts)
    if (!of_parts.count(part)) of_parts[part] = detail::lame(material_of(part, materials));
  impl_ = std::make_unique<Impl>(mesh, frame);
  for (const Part part : mesh.parts) impl_->of_cells.push_back(of_parts[part]);
  for (const auto &nodes : mesh.cells)
    for (const int n : nodes) impl_->joined[n] = true;
  std::vector<double> volumes;
  impl_->stiffness =
      detail::stiffness(impl_->mesh, impl_->geometry, impl_->of_cells, impl_->axes, frame, volumes);
  for (std::size_t c = 0; c < volumes.size(); ++c)
    impl_->mass += volumes[c] * materials.at(mesh.parts[c]).density;
  impl_->figures.dofs = 3 * static_cast<long>(mesh.nodes.size());
  impl_->figures.assembly_seconds = watch.lap();
}

ElasticModel::~ElasticModel() = default;
ElasticModel::ElasticModel(ElasticModel &&) noexcept = default;
ElasticModel &ElasticModel::operator=(ElasticModel &&) noexcept = default;

const SolveFigures &ElasticModel::figures() const { return impl_->figures; }
double ElasticModel::mass() const { return impl_->mass; }

/// C^T (f - K g) and the adapter's force and moment; f and g are returned too.
std::vector<double> ElasticModel::Impl::right_hand_side(const detail::ConstraintMap &map,
                                                        const LoadCase &load,
                                                        std::vector<double> &f,
                                                        std::vector<double> &g) const {
  const std::vector<Vec3> forces = nodal_forces(mesh, load);
  f.resize(3 * forces.size());
  for (std::size_t n = 0; n < forces.size(); ++n) {
    const Vec3 components = detail::along(axes[n], forces[n]);
    std::copy(components.begin(), components.end(), f.begin() + 3 * n);
  }
  g = detail::offsets(map, load.interference);
  std::vector<double> free_part = f;
  if (std::any_of(g.begin(), g.end(), [](double v) { return v != 0; })) {
    const std::vector<double> kg = multiply(stiffness, g);
    for (std::size_t i = 0; i < f.size(); ++i) free_part[i] -= kg[i];
  }
  std::vector<double> r = reduced(map, free_part);
  if (map.n_motions)
    for (int i = 0; i < 3; ++i) {
      r[map.n_masters + i] += load.adapter.force[i];
      r[map.n_masters + 3 + i] += load.adapter.moment[i];
    }
  return r;
}

/// Factorises and solves; the factor lives no longer than this function.
std::vector<double> ElasticModel::Impl::solved(const detail::SymmetricMatrix &matrix,
                                               const std::vector<int> &group,
                                               const std::vector<double> &right_hand_sides,
                                               int n_loads, std::vector<double> &residuals) {
  Stopwatch watch;
  try {
    const detail::SparseCholesky factor(matrix, group);
    figures.factor_entries = factor.entries();
    figures.factor_seconds += watch.lap();
    std::vector<double> q = factor.solve(right_hand_sides, n_loads);
    std::vector<double> rest = right_hand_sides;
    residuals = relative_residuals(matrix, q, rest, n_loads);
    if (*std::max_element(residuals.begin(), residuals.end()) > refine_above) {
      const std::vector<double> correction = factor.solve(rest, n_loads);
      for (std::size_t i = 0; i < q.size(); ++i) q[i] += correction[i];
      rest = right_hand_sides;
      residuals = relative_residuals(matrix, q, rest, n_loads);
    }
    figures.solve_seconds += watch.lap();
    return q;
  } catch (const detail::NotPositiveDefinite &) {
    throw Error(
        "supports: the stiffness matrix is singular: the supports leave a rigid motion of some "
        "part free; hold that part, or tie or weld it to one that is held");
  } catch (const std::bad_alloc &) {
    throw Error("solver: " + std::to_string(matrix.size()) +
                " unknowns: the factor does not fit into memory; use a coarser mesh");
  }
}

Solution ElasticModel::Impl::solution(const detail::ConstraintMap &map, const LoadCase &load,
                                      const double *q, const std::vector<double> &f,
                                      const std::vector<double> &g, double residual) const {
  Solution s;
  s.load_case = load.name;
  s.residual = residual;
  for (int m = 0; m < map.n_motions; ++m) s.adapter_motion[m] = q[map.n_masters + m];
  detail::SolvedLoad solved{expanded(map, q, g), f, {}};
  solved.internal = multiply(stiffness, solved.displacement);
  fill_balance(mesh, axes, map, load, solved, s);
  check(map, load, solved, s);
  const std::vector<double> &u = solved.displacement;
  s.displacement.resize(mesh.nodes.size());
  for (std::size_t n = 0; n < mesh.nodes.size(); ++n)
    s.displacement[n] = detail::from(axes[n], {u[3 * n], u[3 * n + 1], u[3 * n + 2]});
  return s;
}

std::vector<Solution> ElasticModel::solve(const Supports &supports,
                                          const std::vector<LoadCase> &loads) const {
  Impl &impl = *impl_;
  if (loads.empty()) return {};
  const int n_loads = static_cast<int>(loads.size());
  Stopwatch watch;
  const detail::ConstraintMap map =
      detail::constraint_map(impl.mesh, impl.frame, impl.axes, supports, impl.joined);
  const std::string free_motions = detail::free_rigid_motions(impl.mesh, impl.axes, map);
  if (!free_motions.empty())
    throw Error("supports: free rigid motions: " + free_motions +
                ": the body would fly off; hold components that prevent them");
  if (map.n_reduced() == 0) throw Error("supports: every node is held: nothing is left to solve");

  std::vector<std::vector<double>> f(n_loads), g(n_loads);
  std::vector<double> right_hand_sides;
  for (int l = 0; l < n_loads; ++l) {
    const auto r = impl.right_hand_side(map, loads[l], f[l], g[l]);
    right_hand_sides.insert(right_hand_sides.end(), r.begin(), r.end());
  }
  impl.figures.solve_seconds = watch.lap();
  std::vector<double> residuals, q;
  {
    const detail::SymmetricMatrix matrix = reduced(map, impl.stiffness);
    impl.figures.factor_seconds = watch.lap();
    q = impl.solved(matrix, map.group, right_hand_sides, n_loads, residuals);
  }
  watch.lap();

  std::vector<Solution> solutions(n_loads);
  std::vector<const std::vector<Vec3> *> displacements;
  detail::parallel_for(0, n_loads, [&](int l) {
    solutions[l] =
        impl.solution(map, loads[l], q.data() + 1L * l * map.n_reduced(), f[l], g[l], residuals[l]);
  });
  impl.figures.solve_seconds += watch.lap();
  for (const Solution &s : solutions) displacements.push_back(&s.displacement);
  auto stresses = nodal_stresses(impl.mesh, impl.geometry, impl.of_cells, displacements);
  for (int l = 0; l < n_loads; ++l) solutions[l].stress = std::move(stresses[l]);
  impl.figures.recovery_seconds = watch.lap();
  return solutions;
}

}  // namespace felloe
