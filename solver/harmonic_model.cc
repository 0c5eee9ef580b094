// SPDX-License-Identifier: GPL-3.0-or-later
// Linear elasticity of a body of revolution in Fourier harmonics of the section.
//
// Displacement u_r = U cos n theta, u_theta = V sin n theta, u_z = W cos n theta. The energy of the
// harmonics separates; each gives one plane problem for (U, V, W) on the section:
//
//   integral of strain(U, V, W) . D strain(v) r dr dz x factor = work of the loads,
//
// factor 2 pi for n = 0, else pi, so that nodal forces are resultants in N. 9-node quads, 3 x 3
// Gauss points. The stiffness is a polynomial in n whose integrals are computed once; harmonics
// whose unknowns are related alike are factored and solved eight at a time, one in each SIMD lane.
// Formulation: Zienkiewicz and Taylor, The Finite Element Method, semi-analytical processes (from
// memory). Tests: harmonic_patch_test, harmonic_cylinder_test, harmonic_plate_test.
#include "solver/harmonic_model.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "mesher/error.h"
#include "mesher/unwelded.h"
#include "solver/detail/harmonic_element.h"
#include "solver/detail/harmonic_stress.h"
#include "solver/detail/harmonic_system.h"

namespace felloe {

namespace {

/// A section with what every harmonic needs of it.
struct Body {
  detail::HarmonicSection section;
  detail::HarmonicStresses stresses;
  std::vector<PressFitPair> joined;  ///< pairs that stand for one node, see pressed()

  Body(const SectionMesh &mesh, const std::map<Part, Material> &materials,
       const std::vector<PressFitPair> &pairs)
      : section(mesh, materials), stresses(mesh, materials), joined(pairs) {}
  void solve(const HarmonicSupports &, const std::vector<HarmonicLoad> &,
             const std::vector<std::size_t> &chosen, std::vector<HarmonicSolution> &) const;

 private:
  detail::HarmonicTask task(int n, const HarmonicSupports &, const std::vector<HarmonicLoad> &,
                            const std::vector<std::size_t> &of_n) const;
  template <class T>
  void solve_together(const std::vector<const detail::HarmonicTask *> &,
                      const std::vector<HarmonicLoad> &, std::vector<HarmonicSolution> &) const;
};

}  // namespace

struct HarmonicModel::Impl {
  std::map<Part, Material> materials;
  Body body;
  const SectionMesh &mesh() const { return body.section.mesh; }

  void check(const HarmonicLoad &) const;
  bool welded() const {
    return std::find(mesh().parts.begin(), mesh().parts.end(), Part::weld) != mesh().parts.end();
  }
  HarmonicSolution pressed(const HarmonicSupports &, const HarmonicLoad &) const;
};

namespace {

const SectionMesh &checked(const SectionMesh &mesh, const std::map<Part, Material> &materials) {
  for (const Part part : mesh.parts)
    if (!materials.count(part))
      throw Error("section mesh: a part has no material: give one for disc, rim and weld");
  for (const auto &[part, material] : materials)
    if (!(material.youngs_modulus > 0) || !(material.poissons_ratio > -1) ||
        !(material.poissons_ratio < 0.5))
      throw Error("material '" + material.name + "': Young's modulus " +
                  std::to_string(material.youngs_modulus) + " MPa, Poisson's ratio " +
                  std::to_string(material.poissons_ratio) + ": needs E > 0 and -1 < nu < 0.5");
  return mesh;
}

}  // namespace

HarmonicModel::HarmonicModel(const SectionMesh &mesh, const std::map<Part, Material> &materials)
    : impl_(new Impl{materials, {checked(mesh, materials), materials, {}}}) {}

HarmonicModel::~HarmonicModel() = default;

void HarmonicModel::Impl::check(const HarmonicLoad &load) const {
  if (load.n < 0)
    throw Error(detail::place_of(load) + ": harmonic below 0; accepted: 0, 1, 2, ...");
  if (load.interference != 0 && load.n != 0)
    throw Error(detail::place_of(load) + ": interference is a load of harmonic 0 only");
  if (load.interference != 0 && mesh().press_fit.empty())
    throw Error(detail::place_of(load) +
                ": interference given, but the section has no press-fit pairs");
  if ((load.adapter_force != 0 || load.adapter_moment != 0) && load.n > 1)
    throw Error(detail::place_of(load) + ": the adapter moves in harmonics 0 and 1 only");
}

namespace {

/// Whether anything twists the body, n = 0.
bool torsion_acts(const SectionMesh &mesh, const HarmonicSupports &supports,
                  const std::vector<detail::HarmonicForces> &loads) {
  for (const auto &[load, forces] : loads) {
    if (load->adapter_moment != 0) return true;
    for (std::size_t i = 1; i < forces.size(); i += 3)
      if (forces[i] != 0) return true;
  }
  for (const HarmonicSupport &support : supports.held) {
    if (!support.value || !support.held[1]) continue;
    const auto point = mesh.points.find(support.place);
    const std::vector<int> nodes = point != mesh.points.end() ? std::vector<int>{point->second}
                                                              : edge_node_set(mesh, support.place);
    for (const int node : nodes)
      if (support.value(mesh.nodes[node])[1] != 0) return true;
  }
  return false;
}

/// Twist is its own problem for n = 0. Where nothing loads it, it needs no support: it is left out,
/// unless the adapter is held, which makes harmonic 0 like the others.
detail::HarmonicTask Body::task(int n, const HarmonicSupports &supports,
                                const std::vector<HarmonicLoad> &loads,
                                const std::vector<std::size_t> &of_n) const {
  detail::HarmonicTask task;
  task.n = n;
  for (const std::size_t i : of_n)
    task.loads.push_back({&loads[i], in_context(detail::place_of(loads[i]), [&] {
                            return detail::nodal_forces(section.mesh, loads[i]);
                          })});
  in_context(detail::place_of(loads[of_n.front()]), [&] {
    const bool unloaded = n == 0 && !torsion_acts(section.mesh, supports, task.loads);
    task.constraints = std::make_unique<detail::HarmonicConstraints>(
        section.mesh, supports, n, n == 0 && (!unloaded || supports.adapter_held), joined);
    if (unloaded && supports.adapter_held && task.constraints->free_rigid_motion())
      task.constraints =
          std::make_unique<detail::HarmonicConstraints>(section.mesh, supports, n, false, joined);
    task.constraints->check_no_rigid_motion_left();
  });
  return task;
}

template <class T>
void Body::solve_together(const std::vector<const detail::HarmonicTask *> &tasks,
                          const std::vector<HarmonicLoad> &loads,
                          std::vector<HarmonicSolution> &solutions) const {
  std::unique_ptr<detail::HarmonicSystem<T>> system;
  try {
    system = std::make_unique<detail::HarmonicSystem<T>>(section, tasks);
  } catch (const Error &) {
    if (tasks.size() > 1) {  // one by one, so that the message names the harmonic
      for (const detail::HarmonicTask *task : tasks)
        solve_together<double>({task}, loads, solutions);
      return;
    }
    in_context(detail::place_of(*tasks.front()->loads.front().load), [] { throw; });
  }
  auto solved = system->solve();
  for (std::size_t l = 0; l < tasks.size(); ++l)
    for (std::size_t k = 0; k < solved[l].size(); ++k) {
      HarmonicSolution &s = solved[l][k];
      s.stress = stresses.at_nodes(s.n, s.displacement);
      solutions[tasks[l]->loads[k].load - loads.data()] = std::move(s);
    }
}

void Body::solve(const HarmonicSupports &supports, const std::vector<HarmonicLoad> &loads,
                 const std::vector<std::size_t> &chosen,
                 std::vector<HarmonicSolution> &solutions) const {
  std::map<int, std::vector<std::size_t>> by_harmonic;
  for (const std::size_t i : chosen) by_harmonic[loads[i].n].push_back(i);
  std::vector<detail::HarmonicTask> tasks;
  for (const auto &[n, of_n] : by_harmonic) tasks.push_back(task(n, supports, loads, of_n));
  std::vector<bool> done(tasks.size(), false);
  for (std::size_t i = 0; i < tasks.size(); ++i) {
    if (done[i]) continue;
    std::vector<const detail::HarmonicTask *> together;
    for (std::size_t k = i; k < tasks.size() && together.size() < detail::n_lanes_of_factor; ++k)
      if (!done[k] && (k == i || detail::alike(*tasks[i].constraints, *tasks[k].constraints,
                                               3 * section.mesh.nodes.size()))) {
        together.push_back(&tasks[k]);
        done[k] = true;
      }
    if (together.size() > 1)
      solve_together<detail::Lanes>(together, loads, solutions);
    else
      solve_together<double>(together, loads, solutions);
  }
}

}  // namespace

/// Interference of a welded wheel: disc and rim are pressed together first, the weld is laid on
/// stress-free. So the weld is taken out; disc and rim keep the same axial place at its root.
HarmonicSolution HarmonicModel::Impl::pressed(const HarmonicSupports &supports,
                                              const HarmonicLoad &load) const {
  if (!load.tractions.empty() || load.body_force || !load.ring_forces.empty() ||
      load.adapter_force != 0 || load.adapter_moment != 0)
    throw Error(detail::place_of(load) +
                ": interference together with other loads: it acts before the weld is laid; give "
                "the others as a load of their own");
  const UnweldedSection before = unwelded(mesh());
  std::vector<HarmonicSolution> solutions(1);
  Body(before.mesh, materials, before.split).solve(supports, {load}, {0}, solutions);
  HarmonicSolution solution = solutions.front();
  const HarmonicVector at_root = before.split.empty()
                                     ? HarmonicVector{}
                                     : solution.displacement[before.split.front().disc_node];
  std::vector<HarmonicVector> displacement;
  std::vector<HarmonicStress> stress;
  for (const int node : before.node) {  // the weld itself goes along with its root
    displacement.push_back(node >= 0 ? solution.displacement[node] : at_root);
    stress.push_back(node >= 0 ? solution.stress[node] : HarmonicStress{});
  }
  solution.displacement = displacement;
  solution.stress = stress;
  return solution;
}

std::vector<HarmonicSolution> HarmonicModel::solve(const HarmonicSupports &supports,
                                                   const std::vector<HarmonicLoad> &loads) const {
  for (const HarmonicLoad &load : loads) {
    impl_->check(load);
    if ((load.adapter_force != 0 || load.adapter_moment != 0) &&
        (supports.adapter_edge.empty() || supports.adapter_held))
      throw Error(detail::place_of(load) + ": adapter load, but no edge follows a free adapter");
    if (load.interference != 0 && !supports.press_fit_tied)
      throw Error(detail::place_of(load) + ": interference given, but the press fit is not tied");
  }
  std::vector<HarmonicSolution> solutions(loads.size());
  std::vector<std::size_t> welded;  // loads of the welded body
  for (std::size_t i = 0; i < loads.size(); ++i) {
    if (loads[i].interference != 0 && impl_->welded()) {
      solutions[i] = impl_->pressed(supports, loads[i]);
      continue;
    }
    welded.push_back(i);
  }
  impl_->body.solve(supports, loads, welded, solutions);
  return solutions;
}

std::vector<double> HarmonicModel::dense_stiffness(int n) const {
  const SectionMesh &mesh = impl_->mesh();
  const std::size_t size = 3 * mesh.nodes.size();
  std::vector<double> dense(size * size, 0.);
  for (std::size_t c = 0; c < mesh.cells.size(); ++c) {
    const detail::CellMatrix k = detail::cell_matrix(impl_->body.section.cells[c], n);
    const auto &nodes = mesh.cells[c];
    for (int i = 0; i < detail::n_local; ++i)
      for (int j = 0; j < detail::n_local; ++j)
        dense[size * (3 * nodes[i / 3] + i % 3) + 3 * nodes[j / 3] + j % 3] +=
            k[detail::n_local * i + j];
  }
  return dense;
}

}  // namespace felloe
