// SPDX-License-Identifier: GPL-3.0-or-later
// Set-up, iteration, checks and stresses.
//
// With the orthogonal projection p onto the admissible displacements (supports, adapter, ties) the
// equation is p K (u0 + x) = p f with x = p x; u0 carries given displacements and the interference.
// Nothing but K as an operator is needed, and every vector keeps the shape of the mesh.
//
// Places: the components of this process and its ghosts, wheel frame, see CellColumns. Nodal: all
// components of the mesh, in nodal frames, the same on every process.
#include "solver/matrix_free_model.h"

#include <algorithm>
#include <cmath>
#include <new>
#include <utility>

#include "mesher/error.h"
#include "solver/detail/conjugate_gradients.h"
#include "solver/detail/memory.h"
#include "solver/detail/parallel.h"
#include "solver/detail/rigid_motions.h"
#include "solver/detail/solution_checks.h"
#include "solver/detail/stopwatch.h"
#include "solver/detail/stress_recovery.h"

namespace felloe {
struct MatrixFreeModel::Impl {
  Mesh mesh;
  NodalFrame frame;
  MatrixFreeSettings settings;
  std::vector<detail::Lame> of_cells;
  std::shared_ptr<const detail::CellColumns> whole, own;  ///< the same for a single process
  int first_share = 0;
  detail::NodeExchange exchange;
  std::unique_ptr<detail::CellOperator<double>> k;
  std::unique_ptr<detail::CellOperator<float>> k_single;
  MatrixFreeFigures figures;
  double extent = 0;

  void divide();
  void to_places(const std::vector<double> &nodal, double *places) const;
  std::vector<double> to_nodal(const double *places) const;
  std::vector<double> internal(const std::vector<double> &displacement) const;
  std::vector<double> nodal_load(const LoadCase &) const;
  std::vector<double> given(const detail::ConstraintMap &, const LoadCase &) const;
  double residual(const detail::ConstraintMap &, const std::vector<double> &load,
                  const std::vector<double> &internal, const LoadCase &) const;
  Solution solve(const detail::ConstraintMap &, const detail::Admissible &, detail::TwoLevel &,
                 const std::vector<double> &node_stiffness, const LoadCase &);
  std::vector<Solution> solve(const detail::ConstraintMap &, const std::vector<LoadCase> &);
};

/// Shares, the columns of this process, and its operator.
void MatrixFreeModel::Impl::divide() {
  figures.processes = settings.all_processes ? detail::n_processes() : 1;
  const int at_hand = figures.processes > 1 ? 1 : detail::n_threads();
  const long most = std::max(1L, static_cast<long>(mesh.cells.size()) / figures.processes);
  figures.threads =
      static_cast<int>(std::min<long>(settings.n_threads > 0 ? settings.n_threads : at_hand, most));
  whole = own = std::make_shared<const detail::CellColumns>(
      detail::cell_columns(mesh, figures.processes * figures.threads));
  if (figures.processes > 1) {
    first_share = detail::this_process() * figures.threads;
    own = std::make_shared<const detail::CellColumns>(
        detail::portion(*whole, first_share, first_share + figures.threads));
    exchange = detail::NodeExchange(*whole, *own, first_share);
  }
  exchange.together(
      [&] { k = std::make_unique<detail::CellOperator<double>>(mesh, *own, of_cells, exchange); });
}

MatrixFreeModel::MatrixFreeModel(const Mesh &mesh, const std::map<Part, Material> &materials,
                                 NodalFrame frame, const MatrixFreeSettings &settings)
    : impl_(std::make_unique<Impl>()) {
  if (mesh.cells.empty()) throw Error("mesh: no cells: there is nothing to solve");
  detail::Stopwatch watch;
  Impl &impl = *impl_;
  impl.mesh = mesh;
  impl.frame = frame;
  impl.settings = settings;
  std::map<Part, detail::Lame> of_parts;
  for (const Part part : mesh.parts)
    if (!of_parts.count(part)) of_parts[part] = detail::lame(part, materials);
  for (const Part part : mesh.parts) impl.of_cells.push_back(of_parts[part]);
  for (const Vec3 &x : mesh.nodes) impl.extent = std::max(impl.extent, norm(x));
  impl.divide();
  impl.figures.dofs = 3 * static_cast<long>(mesh.nodes.size());
  impl.figures.setup_seconds = watch.lap();
}

MatrixFreeModel::~MatrixFreeModel() = default;
MatrixFreeModel::MatrixFreeModel(MatrixFreeModel &&) noexcept = default;
MatrixFreeModel &MatrixFreeModel::operator=(MatrixFreeModel &&) noexcept = default;

const MatrixFreeFigures &MatrixFreeModel::figures() const { return impl_->figures; }

void MatrixFreeModel::Impl::to_places(const std::vector<double> &nodal, double *places) const {
  for (int p = 0; p < own->n_places(); ++p) {
    const int n = own->node[p];
    const Vec3 v = detail::from(detail::axes_at(mesh.nodes[n], frame),
                                {nodal[3 * n], nodal[3 * n + 1], nodal[3 * n + 2]});
    std::copy(v.begin(), v.end(), places + 3L * p);
  }
}

std::vector<double> MatrixFreeModel::Impl::to_nodal(const double *places) const {
  std::vector<double> nodal(3 * mesh.nodes.size(), 0.0);
  for (int p = 0; p < own->n_owned_places(); ++p) {
    const int n = own->node[p];
    const Vec3 v = detail::along(detail::axes_at(mesh.nodes[n], frame),
                                 {places[3L * p], places[3L * p + 1], places[3L * p + 2]});
    std::copy(v.begin(), v.end(), nodal.begin() + 3L * n);
  }
  exchange.sum(nodal.data(), nodal.size());
  return nodal;
}

/// K u.
std::vector<double> MatrixFreeModel::Impl::internal(const std::vector<double> &displacement) const {
  detail::AlignedVector<double> u(k->vector_size()), f(k->vector_size());
  to_places(displacement, u.data());
  k->multiply(u.data(), f.data());
  u = {};
  return to_nodal(f.data());
}

std::vector<double> MatrixFreeModel::Impl::nodal_load(const LoadCase &load) const {
  const std::vector<Vec3> forces = nodal_forces(mesh, load);
  std::vector<double> nodal(3 * forces.size());
  for (std::size_t n = 0; n < forces.size(); ++n) {
    const Vec3 f = detail::along(detail::axes_at(mesh.nodes[n], frame), forces[n]);
    std::copy(f.begin(), f.end(), nodal.begin() + 3 * n);
  }
  return nodal;
}

/// What supports, interference and held motions prescribe.
std::vector<double> MatrixFreeModel::Impl::given(const detail::ConstraintMap &map,
                                                 const LoadCase &load) const {
  std::vector<double> u = detail::offsets(map, load.interference);
  for (const auto &[node, motion] : load.held_motion) {
    const Vec3 components = detail::along(detail::axes_at(mesh.nodes[node], frame), motion);
    for (int i = 0; i < 3; ++i)
      if (map.unknown[3L * node + i] == detail::ConstraintMap::held)
        u[3L * node + i] += components[i];
  }
  return u;
}

/// Of f - K u, see detail::reduced_residual().
double MatrixFreeModel::Impl::residual(const detail::ConstraintMap &map,
                                       const std::vector<double> &load,
                                       const std::vector<double> &internal,
                                       const LoadCase &load_case) const {
  const std::vector<double> nothing(internal.empty() ? load.size() : 0, 0.0);
  return detail::reduced_residual(map, load, internal.empty() ? nothing : internal, load_case,
                                  extent);
}

Solution MatrixFreeModel::Impl::solve(const detail::ConstraintMap &map,
                                      const detail::Admissible &admissible,
                                      detail::TwoLevel &preconditioner,
                                      const std::vector<double> &node_stiffness,
                                      const LoadCase &load) {
  Solution solution;
  solution.load_case = load.name;
  std::vector<double> displacement;
  double size = 0;
  {
    detail::AlignedVector<double> u(k->vector_size()), b(k->vector_size());
    {
      std::vector<double> rest = nodal_load(load), start;
      const std::vector<double> prescribed = given(map, load);
      if (std::any_of(prescribed.begin(), prescribed.end(), [](double v) { return v != 0; }))
        start = internal(prescribed);
      size = residual(map, rest, start, load);
      for (std::size_t i = 0; i < start.size(); ++i) rest[i] -= start[i];
      to_places(rest, b.data());
    }
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
    solution.adapter_motion = admissible.motion(u.data());
    displacement = to_nodal(u.data());
  }
  {
    const std::vector<double> prescribed = given(map, load);
    for (std::size_t i = 0; i < prescribed.size(); ++i) displacement[i] += prescribed[i];
  }
  detail::SolvedLoad solved{std::move(displacement), nodal_load(load), {}, {}, 0};
  solved.internal = internal(solved.displacement);
  const double left = residual(map, solved.load, solved.internal, load);
  solution.residual = size > 0 ? left / size : left;
  {
    const std::vector<detail::Axes> axes = detail::node_axes(mesh, frame);
    fill_balance(mesh, axes, map, node_stiffness, load, solved, solution);
  }
  check(map, node_stiffness, load, solved, solution);
  fill_press_fit(mesh, map, solved, solution);
  solution.displacement.resize(mesh.nodes.size());
  const std::vector<double> &u = solved.displacement;
  for (std::size_t n = 0; n < mesh.nodes.size(); ++n)
    solution.displacement[n] =
        detail::from(detail::axes_at(mesh.nodes[n], frame), {u[3 * n], u[3 * n + 1], u[3 * n + 2]});
  return solution;
}

/// Preconditioner and iterations; stresses are still missing.
std::vector<Solution> MatrixFreeModel::Impl::solve(const detail::ConstraintMap &map,
                                                   const std::vector<LoadCase> &loads) {
  detail::Stopwatch watch;
  std::unique_ptr<detail::Admissible> admissible, of_whole;
  {
    const std::vector<detail::Axes> axes = detail::node_axes(mesh, frame);
    admissible = std::make_unique<detail::Admissible>(*own, axes, map, exchange);
    if (whole != own) of_whole = std::make_unique<detail::Admissible>(*whole, axes, map);
  }
  // The factor is the peak of memory: what it does not need comes after it.
  k_single.reset();
  detail::CoarseSpace coarse(mesh, *whole, *own, first_share, *k, of_cells,
                             of_whole ? *of_whole : *admissible);
  of_whole.reset();
  detail::return_free_memory();
  const detail::ColumnBlocks blocks(*k, *own, *admissible);
  k_single = std::make_unique<detail::CellOperator<float>>(mesh, *own, of_cells, exchange);
  detail::TwoLevel preconditioner(*k_single, blocks, coarse, *admissible,
                                  {settings.smoother_degree, settings.smoother_range});
  figures.coarse_unknowns = coarse.n_unknowns();
  figures.coarse_entries = coarse.entries();
  figures.factor_seconds = watch.lap();
  std::vector<double> node_stiffness(mesh.nodes.size(), 0.0);
  for (int p = 0; p < own->n_owned_places(); ++p)
    node_stiffness[own->node[p]] = blocks.stiffness(p);
  exchange.sum(node_stiffness.data(), node_stiffness.size());
  std::vector<Solution> solutions;
  for (const LoadCase &load : loads)
    solutions.push_back(solve(map, *admissible, preconditioner, node_stiffness, load));
  figures.solve_seconds = watch.lap();
  return solutions;
}

std::vector<Solution> MatrixFreeModel::solve(const Supports &supports,
                                             const std::vector<LoadCase> &loads) const {
  Impl &impl = *impl_;
  if (loads.empty()) return {};
  detail::Stopwatch watch;
  detail::ConstraintMap map;
  {
    std::vector<bool> joined(impl.mesh.nodes.size());
    for (std::size_t n = 0; n < joined.size(); ++n) joined[n] = impl.whole->place[n] >= 0;
    const std::vector<detail::Axes> axes = detail::node_axes(impl.mesh, impl.frame);
    map = detail::constraint_map(impl.mesh, impl.frame, axes, supports, joined);
    const std::string free_motions = detail::free_rigid_motions(impl.mesh, axes, map);
    if (!free_motions.empty())
      throw Error("supports: free rigid motions: " + free_motions +
                  ": the body would fly off; hold components that prevent them");
  }
  if (map.n_reduced() == 0) throw Error("supports: every node is held: nothing is left to solve");
  const double map_seconds = watch.lap();

  impl.figures.iterations.clear();
  std::vector<Solution> solutions;
  try {
    solutions = impl.solve(map, loads);
  } catch (const detail::NotPositiveDefinite &) {
    throw Error(
        "supports: the stiffness is singular: the supports leave a rigid motion of some part free; "
        "hold that part, or tie or weld it to one that is held");
  } catch (const std::bad_alloc &) {
    throw Error("solver: " + std::to_string(impl.figures.dofs) +
                " unknowns do not fit into memory; use a coarser mesh");
  }
  impl.figures.factor_seconds += map_seconds;
  map = {};
  impl.k_single.reset();
  detail::return_free_memory();
  watch.lap();
  std::vector<const std::vector<Vec3> *> displacements;
  for (const Solution &s : solutions) displacements.push_back(&s.displacement);
  auto stresses = nodal_stresses(impl.mesh, impl.of_cells, displacements);
  for (std::size_t l = 0; l < loads.size(); ++l) solutions[l].stress = std::move(stresses[l]);
  impl.figures.recovery_seconds = watch.lap();
  return solutions;
}

}  // namespace felloe
