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
#include <cassert>
#include <cmath>
#include <new>
#include <utility>

#include "mesher/error.h"
#include "solver/detail/assembly.h"
#include "solver/detail/body.h"
#include "solver/detail/load_sides.h"
#include "solver/detail/memory.h"
#include "solver/detail/parallel.h"
#include "solver/detail/rigid_motions.h"
#include "solver/detail/solution_checks.h"
#include "solver/detail/sparse_cholesky.h"
#include "solver/detail/stopwatch.h"
#include "solver/detail/stress_recovery.h"

namespace felloe {

struct ElasticModel::Impl {
  Mesh mesh;
  NodalFrame frame;
  std::vector<detail::Axes> axes;
  std::vector<detail::Lame> of_cells;
  std::vector<bool> joined;  ///< of each node: belongs to a cell
  std::unique_ptr<detail::HexGeometry> geometry_when_needed;
  std::vector<std::unique_ptr<detail::Body>> bodies;  ///< the first one and what supports asked for
  int next_body = 0;                                  ///< kind that was not tried yet
  SolveFigures figures;
  double mass = 0;
  std::vector<double> node_stiffness;  ///< see detail::node_diagonals()
  double extent = 0;                   ///< largest distance of a node from the origin [mm]
  std::vector<bool> stress_wanted;     ///< of each node; empty: all

  SolvePath path;

  struct Factored {  ///< one set of supports
    detail::ConstraintMap map;
    const detail::Body *body = nullptr;
    std::unique_ptr<detail::FactoredBody> factor;
  };
  bool keeps_factor = false;
  std::unique_ptr<Factored> kept;

  Impl(const Mesh &m, NodalFrame f, SolvePath p)
      : mesh(m), frame(f), axes(detail::node_axes(m, f)), joined(m.nodes.size()), path(p) {}

  const detail::HexGeometry &geometry() {
    if (!geometry_when_needed) geometry_when_needed = std::make_unique<detail::HexGeometry>(mesh);
    return *geometry_when_needed;
  }

  detail::ConstraintMap constraints(const Supports &) const;
  void make_next_body();
  const detail::Body &body_for(const Supports &);
  std::vector<detail::LoadSides> sides(const detail::ConstraintMap &,
                                       const std::vector<LoadCase> &) const;
  Solution solution(const detail::ConstraintMap &, const LoadCase &,
                    const detail::SolvedLoad &) const;
  NodeResponses responses(const detail::ConstraintMap &, const detail::SolvedLoad &,
                          const std::vector<int> &nodes) const;
  std::vector<NodeResponses> in_batches(const detail::FactoredBody &, const detail::ConstraintMap &,
                                        const detail::Body &, const std::vector<LoadCase> &,
                                        const std::vector<int> &nodes) const;
};

ElasticModel::ElasticModel(const Mesh &mesh, const std::map<Part, Material> &materials,
                           NodalFrame frame, SolvePath path) {
  if (mesh.cells.empty()) throw Error("mesh: no cells: there is nothing to solve");
  detail::Stopwatch watch;
  std::map<Part, detail::Lame> of_parts;
  for (const Part part : mesh.parts)
    if (!of_parts.count(part)) of_parts[part] = detail::lame(part, materials);
  impl_ = std::make_unique<Impl>(mesh, frame, path);
  for (const Part part : mesh.parts) impl_->of_cells.push_back(of_parts[part]);
  for (const auto &nodes : mesh.cells)
    for (const int n : nodes) impl_->joined[n] = true;
  for (const Vec3 &x : mesh.nodes) impl_->extent = std::max(impl_->extent, norm(x));
  impl_->make_next_body();
  const detail::Body &body = *impl_->bodies.front();
  impl_->node_stiffness = body.node_stiffness();
  for (const auto &[part, volume] : body.part_volumes())
    impl_->mass += volume * materials.at(part).density;
  impl_->figures.dofs = 3 * static_cast<long>(mesh.nodes.size());
  impl_->figures.assembly_seconds = watch.lap();
}

ElasticModel::~ElasticModel() = default;
ElasticModel::ElasticModel(ElasticModel &&) noexcept = default;
ElasticModel &ElasticModel::operator=(ElasticModel &&) noexcept = default;

const SolveFigures &ElasticModel::figures() const { return impl_->figures; }
double ElasticModel::mass() const { return impl_->mass; }
void ElasticModel::stresses_only_at(std::vector<bool> nodes) {
  impl_->stress_wanted = std::move(nodes);
}
NodalFrame ElasticModel::frame() const { return impl_->frame; }

detail::ConstraintMap ElasticModel::Impl::constraints(const Supports &supports) const {
  const detail::ConstraintMap map = detail::constraint_map(mesh, frame, axes, supports, joined);
  const std::string free_motions = detail::free_rigid_motions(mesh, axes, map);
  if (!free_motions.empty())
    throw Error("supports: free rigid motions: " + free_motions +
                ": the body would fly off; hold components that prevent them");
  if (map.n_reduced() == 0) throw Error("supports: every node is held: nothing is left to solve");
  return map;
}

/// Half sectors, sectors, the whole: the cheapest one that the mesh allows comes first.
void ElasticModel::Impl::make_next_body() {
  const detail::BodyInput input{mesh, axes, of_cells, frame};
  std::unique_ptr<detail::Body> body;
  while (!body) switch (next_body++) {
      case 0:
        if (path == SolvePath::automatic) body = detail::wedge_body(input);
        break;
      case 1:
        if (path != SolvePath::whole) body = detail::sector_body(input);
        break;
      default:
        body = detail::whole_body(input, geometry());
    }
  bodies.push_back(std::move(body));
}

const detail::Body &ElasticModel::Impl::body_for(const Supports &supports) {
  const auto suits = [&](const auto &body) { return body->suits(mesh, supports); };
  auto body = std::find_if(bodies.begin(), bodies.end(), suits);
  while (body == bodies.end()) {
    make_next_body();
    body = suits(bodies.back()) ? bodies.end() - 1 : bodies.end();
  }
  figures.sectors = (*body)->n_sectors();
  figures.mirrored = (*body)->is_mirrored();
  return **body;
}

std::vector<detail::LoadSides> ElasticModel::Impl::sides(const detail::ConstraintMap &map,
                                                         const std::vector<LoadCase> &loads) const {
  std::vector<detail::LoadSides> all(loads.size());
  detail::parallel_for(0, static_cast<int>(loads.size()),
                       [&](int l) { all[l] = sides_at_rest(mesh, axes, map, loads[l]); });
  return all;
}

Solution ElasticModel::Impl::solution(const detail::ConstraintMap &map, const LoadCase &load,
                                      const detail::SolvedLoad &solved) const {
  Solution s;
  s.load_case = load.name;
  s.residual = solved.residual;
  s.adapter_motion = solved.motion;
  fill_balance(mesh, axes, map, node_stiffness, load, solved, s);
  check(map, node_stiffness, load, solved, s);
  fill_press_fit(mesh, map, solved, s);
  const std::vector<double> &u = solved.displacement;
  s.displacement.reserve(mesh.nodes.size());
  for (std::size_t n = 0; n < mesh.nodes.size(); ++n)
    s.displacement.push_back(detail::from(axes[n], {u[3 * n], u[3 * n + 1], u[3 * n + 2]}));
  return s;
}

namespace {

/// Failures of the factor as Errors.
template <class F>
void in_words(const detail::ConstraintMap &map, F &&work) {
  try {
    work();
  } catch (const detail::NotPositiveDefinite &) {
    throw Error(
        "supports: the stiffness matrix is singular: the supports leave a rigid motion of some "
        "part free; hold that part, or tie or weld it to one that is held");
  } catch (const detail::NeedsMoreMemory &e) {
    throw Error("solver: the factor of " + std::to_string(map.n_reduced()) + " unknowns needs " +
                std::to_string(e.needed_gb).substr(0, 5) + " GB of memory and " +
                std::to_string(e.free_gb).substr(0, 5) +
                " GB are free; use a coarser mesh or a machine with more memory");
  } catch (const std::bad_alloc &) {
    throw Error("solver: " + std::to_string(map.n_reduced()) +
                " unknowns: the factor does not fit into memory; use a coarser mesh");
  }
}

}  // namespace

std::vector<Solution> ElasticModel::solve(const Supports &supports,
                                          const std::vector<LoadCase> &loads) const {
  Impl &impl = *impl_;
  if (loads.empty()) return {};
  detail::Stopwatch watch;
  impl.kept.reset();
  auto now = std::make_unique<Impl::Factored>();
  now->map = impl.constraints(supports);
  const detail::ConstraintMap &map = now->map;
  std::vector<Solution> solutions(loads.size());
  in_words(map, [&] {
    const detail::Body &body = impl.body_for(supports);
    now->body = &body;
    const auto sides = impl.sides(map, loads);
    impl.figures.solve_seconds = watch.lap();
    now->factor = body.factored(supports, map);
    impl.figures.factor_seconds = watch.lap();
    solve_sides(*now->factor, map, body, loads, sides, impl.extent,
                [&](int l, const detail::SolvedLoad &solved) {
                  solutions[l] = impl.solution(map, loads[l], solved);
                });
    impl.figures.factor_entries = now->factor->entries();
    impl.figures.factor_seconds += now->factor->late_factor_seconds();
    impl.figures.solve_seconds += watch.lap() - now->factor->late_factor_seconds();
    if (!impl.keeps_factor) now->factor.reset();
  });
  std::vector<const std::vector<Vec3> *> displacements;
  for (const Solution &s : solutions) displacements.push_back(&s.displacement);
  auto stresses = nodal_stresses(impl.mesh, impl.of_cells, displacements, impl.stress_wanted);
  for (std::size_t l = 0; l < loads.size(); ++l) solutions[l].stress = std::move(stresses[l]);
  impl.figures.recovery_seconds = watch.lap();
  if (impl.keeps_factor) impl.kept = std::move(now);
  return solutions;
}

void ElasticModel::keep_factor() { impl_->keeps_factor = true; }

NodeResponses ElasticModel::Impl::responses(const detail::ConstraintMap &map,
                                            const detail::SolvedLoad &s,
                                            const std::vector<int> &nodes) const {
  NodeResponses r;
  for (const int n : nodes) {
    Vec3 displacement, force{};
    for (int i = 0; i < 3; ++i) {
      const long u = 3L * n + i;
      displacement[i] = s.displacement[u];
      if (map.unknown[u] == detail::ConstraintMap::held) force[i] = s.internal[u] - s.load[u];
    }
    r.displacement.push_back(detail::from(axes[n], displacement));
    r.support_force.push_back(detail::from(axes[n], force));
  }
  return r;
}

std::vector<NodeResponses> ElasticModel::Impl::in_batches(const detail::FactoredBody &factor,
                                                          const detail::ConstraintMap &map,
                                                          const detail::Body &body,
                                                          const std::vector<LoadCase> &loads,
                                                          const std::vector<int> &nodes) const {
  constexpr std::size_t batch = 64;
  std::vector<NodeResponses> all(loads.size());
  for (std::size_t first = 0; first < loads.size(); first += batch) {
    const auto begin = loads.begin() + first;
    const std::vector<LoadCase> some(begin, begin + std::min(batch, loads.size() - first));
    solve_sides(factor, map, body, some, sides(map, some), extent,
                [&](int l, const detail::SolvedLoad &solved) {
                  if (!(solved.residual <= 1e-6))
                    throw Error("load case '" + some[l].name +
                                "': relative residual = " + std::to_string(solved.residual) +
                                ": must not exceed 1e-6; check the mesh");
                  all[first + l] = responses(map, solved, nodes);
                });
  }
  return all;
}

std::vector<NodeResponses> ElasticModel::solve_at(const Supports &supports,
                                                  const std::vector<LoadCase> &loads,
                                                  const std::vector<int> &nodes) const {
  Impl &impl = *impl_;
  if (loads.empty()) return {};
  std::vector<NodeResponses> all;
  detail::Stopwatch watch;
  const detail::ConstraintMap map = impl.constraints(supports);
  in_words(map, [&] {
    const detail::Body &body = impl.body_for(supports);
    const auto factor = body.factored(supports, map);
    impl.figures.factor_seconds = watch.lap();
    all = impl.in_batches(*factor, map, body, loads, nodes);
    impl.figures.solve_seconds = watch.lap() - factor->late_factor_seconds();
    impl.figures.factor_seconds += factor->late_factor_seconds();
    impl.figures.factor_entries = factor->entries();
  });
  return all;
}

std::vector<NodeResponses> ElasticModel::solve_more(const std::vector<LoadCase> &loads,
                                                    const std::vector<int> &nodes) const {
  assert(impl_->kept && "keep_factor() comes before solve()");
  const auto &[map, body, factor] = *impl_->kept;
  return impl_->in_batches(*factor, map, *body, loads, nodes);
}

std::vector<double> ElasticModel::condensed(const Supports &supports,
                                            const std::vector<long> &components) const {
  Impl &impl = *impl_;
  const detail::ConstraintMap map =
      detail::constraint_map(impl.mesh, impl.frame, impl.axes, supports, impl.joined);
  for (const long u : components)
    if (map.unknown[u] < 0)
      throw Error("supports: node " + std::to_string(u / 3) +
                  ": a component that the body is to be condensed on is held, or on the adapter; "
                  "take it out of one of the two");
  std::vector<double> matrix;
  if (components.empty()) return matrix;
  in_words(map, [&] {
    for (std::size_t b = 0; matrix.empty(); ++b) {
      if (b == impl.bodies.size()) impl.make_next_body();
      const detail::Body &body = *impl.bodies[b];
      if (!body.suits(impl.mesh, supports)) continue;
      matrix = body.condensed(supports, map, components);
      impl.figures.sectors = body.n_sectors();
      impl.figures.mirrored = body.is_mirrored();
    }
  });
  return matrix;
}

}  // namespace felloe
