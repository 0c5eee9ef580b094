// SPDX-License-Identifier: GPL-3.0-or-later
// Set-up, iteration, checks and stresses.
//
// With the orthogonal projection p onto the admissible displacements (supports, adapter, ties) the
// equation is p K (u0 + x) = p f with x = p x; u0 carries given displacements and the interference.
// Nothing but K as an operator is needed, and every vector keeps the shape of the mesh.
#include "solver/matrix_free_model.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <new>
#include <utility>

#include "mesher/error.h"
#include "solver/detail/conjugate_gradients.h"
#include "solver/detail/parallel.h"
#include "solver/detail/rigid_motions.h"
#include "solver/detail/solution_checks.h"
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

detail::Lame lame_of(Part part, const std::map<Part, Material> &materials) {
  const auto found = materials.find(part);
  if (found == materials.end())
    throw Error(
        "materials: the mesh has a part for which no material is given; give one for disc, rim and "
        "weld");
  const Material &m = found->second;
  if (!(m.youngs_modulus > 0) || !(m.poissons_ratio > -1 && m.poissons_ratio < 0.5))
    throw Error("materials: Young's modulus " + std::to_string(m.youngs_modulus) +
                " MPa, Poisson's ratio " + std::to_string(m.poissons_ratio) +
                ": needs E > 0 and -1 < nu < 0.5");
  return detail::lame(m);
}

}  // namespace

struct MatrixFreeModel::Impl {
  Mesh mesh;
  NodalFrame frame;
  MatrixFreeSettings settings;
  std::vector<detail::Lame> of_cells;
  std::vector<detail::Axes> axes;
  detail::CellColumns columns;
  std::unique_ptr<detail::CellOperator<double>> k;
  std::unique_ptr<detail::CellOperator<float>> k_single;
  MatrixFreeFigures figures;
  double extent = 0;

  struct Sides {
    std::vector<double> displacement, load, internal;  ///< u, f, K u in nodal components
  };
  void to_places(const std::vector<double> &nodal, double *places) const;
  void to_nodal(const double *places, std::vector<double> &nodal) const;
  double residual(const detail::ConstraintMap &, const Sides &, const LoadCase &) const;
  Solution solve(const detail::ConstraintMap &, const detail::Admissible &, detail::TwoLevel &,
                 const std::vector<double> &node_stiffness, const LoadCase &);
};

MatrixFreeModel::MatrixFreeModel(const Mesh &mesh, const std::map<Part, Material> &materials,
                                 NodalFrame frame, const MatrixFreeSettings &settings)
    : impl_(std::make_unique<Impl>()) {
  if (mesh.cells.empty()) throw Error("mesh: no cells: there is nothing to solve");
  Stopwatch watch;
  Impl &impl = *impl_;
  impl.mesh = mesh;
  impl.frame = frame;
  impl.settings = settings;
  std::map<Part, detail::Lame> of_parts;
  for (const Part part : mesh.parts)
    if (!of_parts.count(part)) of_parts[part] = lame_of(part, materials);
  for (const Part part : mesh.parts) impl.of_cells.push_back(of_parts[part]);
  for (const Vec3 &x : mesh.nodes) impl.extent = std::max(impl.extent, norm(x));
  impl.axes = detail::node_axes(mesh, frame);
  impl.columns = detail::cell_columns(mesh);
  const int n = settings.n_threads > 0 ? settings.n_threads : detail::n_threads();
  impl.k = std::make_unique<detail::CellOperator<double>>(mesh, impl.columns, impl.of_cells, n);
  impl.figures.dofs = 3 * static_cast<long>(mesh.nodes.size());
  impl.figures.setup_seconds = watch.lap();
}

MatrixFreeModel::~MatrixFreeModel() = default;
MatrixFreeModel::MatrixFreeModel(MatrixFreeModel &&) noexcept = default;
MatrixFreeModel &MatrixFreeModel::operator=(MatrixFreeModel &&) noexcept = default;

const MatrixFreeFigures &MatrixFreeModel::figures() const { return impl_->figures; }

void MatrixFreeModel::Impl::to_places(const std::vector<double> &nodal, double *places) const {
  for (int p = 0; p < columns.n_places(); ++p) {
    const int n = columns.node[p];
    const Vec3 v = detail::from(axes[n], {nodal[3 * n], nodal[3 * n + 1], nodal[3 * n + 2]});
    std::copy(v.begin(), v.end(), places + 3L * p);
  }
}

void MatrixFreeModel::Impl::to_nodal(const double *places, std::vector<double> &nodal) const {
  nodal.resize(3 * mesh.nodes.size());
  for (int p = 0; p < columns.n_places(); ++p) {
    const int n = columns.node[p];
    const Vec3 v = detail::along(axes[n], {places[3L * p], places[3L * p + 1], places[3L * p + 2]});
    std::copy(v.begin(), v.end(), nodal.begin() + 3L * n);
  }
}

/// |C^T (f - K u)|, moments over the body's size so that they weigh like forces.
double MatrixFreeModel::Impl::residual(const detail::ConstraintMap &map, const Sides &s,
                                       const LoadCase &load) const {
  std::vector<double> rest = s.load;
  for (std::size_t i = 0; i < rest.size(); ++i) rest[i] -= s.internal[i];
  std::vector<double> r = reduced(map, rest);
  if (map.n_motions)
    for (int i = 0; i < 3; ++i) {
      r[map.n_masters + i] += load.adapter.force[i];
      r[map.n_masters + 3 + i] = (r[map.n_masters + 3 + i] + load.adapter.moment[i]) / extent;
    }
  double sum = 0;
  for (const double v : r) sum += v * v;
  return std::sqrt(sum);
}

Solution MatrixFreeModel::Impl::solve(const detail::ConstraintMap &map,
                                      const detail::Admissible &admissible,
                                      detail::TwoLevel &preconditioner,
                                      const std::vector<double> &node_stiffness,
                                      const LoadCase &load) {
  Sides s;
  s.load.assign(3 * mesh.nodes.size(), 0.0);
  {
    const std::vector<Vec3> forces = nodal_forces(mesh, load);
    for (std::size_t n = 0; n < forces.size(); ++n) {
      const Vec3 f = detail::along(axes[n], forces[n]);
      std::copy(f.begin(), f.end(), s.load.begin() + 3 * n);
    }
  }
  s.displacement = detail::offsets(map, load.interference);
  const bool any =
      std::any_of(s.displacement.begin(), s.displacement.end(), [](double v) { return v != 0; });
  detail::AlignedVector<double> u(k->vector_size()), b(k->vector_size());
  s.internal.assign(s.load.size(), 0.0);
  if (any) {
    to_places(s.displacement, u.data());
    k->multiply(u.data(), b.data());
    to_nodal(b.data(), s.internal);
  }
  const double size = residual(map, s, load);
  std::vector<double> rest = s.load;
  for (std::size_t i = 0; i < rest.size(); ++i) rest[i] -= s.internal[i];
  to_places(rest, b.data());
  rest = {};
  const auto &[force, moment] = load.adapter;
  admissible.project(b.data());
  admissible.add_adapter_load({force[0], force[1], force[2], moment[0], moment[1], moment[2]},
                              b.data());
  const detail::Iteration iteration = detail::solve_by_conjugate_gradients(
      *k, admissible, preconditioner, k_single->vector_size(), b.data(), u.data(),
      settings.tolerance, settings.most_iterations);
  figures.iterations.push_back(iteration.count);
  if (!(iteration.residual <= settings.tolerance))
    throw Error("load case '" + load.name + "': residual " + std::to_string(iteration.residual) +
                " after " + std::to_string(iteration.count) +
                " iterations: must fall below the tolerance; check whether every part is held");

  Solution solution;
  solution.load_case = load.name;
  solution.adapter_motion = admissible.motion(u.data());
  // b is free again: K u.
  std::vector<double> correction;
  to_nodal(u.data(), correction);
  for (std::size_t i = 0; i < correction.size(); ++i) s.displacement[i] += correction[i];
  correction = {};
  to_places(s.displacement, u.data());
  k->multiply(u.data(), b.data());
  to_nodal(b.data(), s.internal);
  const double left = residual(map, s, load);
  solution.residual = size > 0 ? left / size : left;
  const detail::SolvedLoad solved{std::move(s.displacement), std::move(s.load),
                                  std::move(s.internal)};
  fill_balance(mesh, axes, map, node_stiffness, load, solved, solution);
  check(map, load, solved, solution);
  solution.displacement.assign(mesh.nodes.size(), {});
  for (int p = 0; p < columns.n_places(); ++p)
    solution.displacement[columns.node[p]] = {u[3L * p], u[3L * p + 1], u[3L * p + 2]};
  return solution;
}

std::vector<Solution> MatrixFreeModel::solve(const Supports &supports,
                                             const std::vector<LoadCase> &loads) const {
  Impl &impl = *impl_;
  if (loads.empty()) return {};
  Stopwatch watch;
  std::vector<bool> joined(impl.mesh.nodes.size());
  for (std::size_t n = 0; n < joined.size(); ++n) joined[n] = impl.columns.place[n] >= 0;
  const detail::ConstraintMap map =
      detail::constraint_map(impl.mesh, impl.frame, impl.axes, supports, joined);
  const std::string free_motions = detail::free_rigid_motions(impl.mesh, impl.axes, map);
  if (!free_motions.empty())
    throw Error("supports: free rigid motions: " + free_motions +
                ": the body would fly off; hold components that prevent them");
  if (map.n_reduced() == 0) throw Error("supports: every node is held: nothing is left to solve");

  impl.figures.iterations.clear();
  std::vector<Solution> solutions;
  try {
    const detail::Admissible admissible(impl.columns, impl.axes, map);
    // The factor is the peak of memory: what it does not need comes after it.
    impl.k_single.reset();
    const detail::CoarseSpace coarse(impl.mesh, impl.columns, *impl.k, impl.of_cells, admissible);
    const detail::ColumnBlocks blocks(*impl.k, impl.columns, admissible);
    impl.k_single = std::make_unique<detail::CellOperator<float>>(
        impl.mesh, impl.columns, impl.of_cells, impl.k->n_shares());
    detail::TwoLevel preconditioner(*impl.k_single, blocks, coarse, admissible,
                                    {impl.settings.smoother_degree, impl.settings.smoother_range});
    impl.figures.coarse_unknowns = coarse.n_unknowns();
    impl.figures.coarse_entries = coarse.entries();
    impl.figures.factor_seconds = watch.lap();
    std::vector<double> node_stiffness(impl.mesh.nodes.size(), 0.0);
    for (int p = 0; p < impl.columns.n_places(); ++p)
      node_stiffness[impl.columns.node[p]] = blocks.stiffness(p);
    for (const LoadCase &load : loads)
      solutions.push_back(impl.solve(map, admissible, preconditioner, node_stiffness, load));
    impl.figures.solve_seconds = watch.lap();
  } catch (const detail::NotPositiveDefinite &) {
    throw Error(
        "supports: the stiffness is singular: the supports leave a rigid motion of some part free; "
        "hold that part, or tie or weld it to one that is held");
  } catch (const std::bad_alloc &) {
    throw Error("solver: " + std::to_string(impl.figures.dofs) +
                " unknowns do not fit into memory; use a coarser mesh");
  }
  const detail::HexGeometry geometry(impl.mesh);
  std::vector<const std::vector<Vec3> *> displacements;
  for (const Solution &s : solutions) displacements.push_back(&s.displacement);
  auto stresses = nodal_stresses(impl.mesh, geometry, impl.of_cells, displacements);
  for (std::size_t l = 0; l < loads.size(); ++l) solutions[l].stress = std::move(stresses[l]);
  impl.figures.recovery_seconds = watch.lap();
  return solutions;
}

}  // namespace felloe
