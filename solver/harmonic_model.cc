// SPDX-License-Identifier: GPL-3.0-or-later
// Linear elasticity of a body of revolution in Fourier harmonics of the section.
//
// Displacement u_r = U cos n theta, u_theta = V sin n theta, u_z = W cos n theta. The energy of the
// harmonics separates; each gives one plane problem for (U, V, W) on the section:
//
//   integral of strain(U, V, W) . D strain(v) r dr dz x factor = work of the loads,
//
// factor 2 pi for n = 0, else pi, so that nodal forces are resultants in N. 9-node quads, 3 x 3
// Gauss points, one sparse Cholesky factor a harmonic for all its loads.
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

struct HarmonicModel::Impl {
  SectionMesh mesh;
  std::map<Part, Material> materials;
  std::vector<PressFitPair> joined;  ///< pairs that stand for one node, see pressed()

  std::string place(const HarmonicLoad &load) const {
    return "harmonic load '" + load.name + "' (n = " + std::to_string(load.n) + ")";
  }
  void check(const HarmonicLoad &) const;
  bool torsion_acts(const HarmonicSupports &, const std::vector<HarmonicLoad> &,
                    const std::vector<std::vector<double>> &forces) const;
  void solve_harmonic(int n, const HarmonicSupports &, const std::vector<HarmonicLoad> &,
                      const std::vector<std::size_t> &candidates,
                      std::vector<HarmonicSolution> &) const;
  bool welded() const {
    return std::find(mesh.parts.begin(), mesh.parts.end(), Part::weld) != mesh.parts.end();
  }
  HarmonicSolution pressed(const HarmonicSupports &, const HarmonicLoad &) const;
};

HarmonicModel::HarmonicModel(const SectionMesh &mesh, const std::map<Part, Material> &materials)
    : impl_(new Impl{mesh, materials, {}}) {
  for (const Part part : mesh.parts)
    if (!materials.count(part))
      throw Error("section mesh: a part has no material: give one for disc, rim and weld");
  for (const auto &[part, material] : materials)
    if (!(material.youngs_modulus > 0) || !(material.poissons_ratio > -1) ||
        !(material.poissons_ratio < 0.5))
      throw Error("material '" + material.name + "': Young's modulus " +
                  std::to_string(material.youngs_modulus) + " MPa, Poisson's ratio " +
                  std::to_string(material.poissons_ratio) + ": needs E > 0 and -1 < nu < 0.5");
  for (int c = 0; c < int(mesh.cells.size()); ++c) detail::section_points(mesh, c, 3);
}

HarmonicModel::~HarmonicModel() = default;

void HarmonicModel::Impl::check(const HarmonicLoad &load) const {
  if (load.n < 0) throw Error(place(load) + ": harmonic below 0; accepted: 0, 1, 2, ...");
  if (load.interference != 0 && load.n != 0)
    throw Error(place(load) + ": interference is a load of harmonic 0 only");
  if (load.interference != 0 && mesh.press_fit.empty())
    throw Error(place(load) + ": interference given, but the section has no press-fit pairs");
  if ((load.adapter_force != 0 || load.adapter_moment != 0) && load.n > 1)
    throw Error(place(load) + ": the adapter moves in harmonics 0 and 1 only");
}

/// Twist is its own problem for n = 0: left out when nothing loads it, so that it needs no support.
bool HarmonicModel::Impl::torsion_acts(const HarmonicSupports &supports,
                                       const std::vector<HarmonicLoad> &loads,
                                       const std::vector<std::vector<double>> &forces) const {
  for (const HarmonicLoad &load : loads)
    if (load.n == 0 && load.adapter_moment != 0) return true;
  for (const auto &f : forces)
    for (std::size_t i = 1; i < f.size(); i += 3)
      if (f[i] != 0) return true;
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

void HarmonicModel::Impl::solve_harmonic(int n, const HarmonicSupports &supports,
                                         const std::vector<HarmonicLoad> &loads,
                                         const std::vector<std::size_t> &candidates,
                                         std::vector<HarmonicSolution> &solutions) const {
  std::vector<std::size_t> chosen;
  std::vector<std::vector<double>> forces;
  for (const std::size_t i : candidates) {
    if (loads[i].n != n) continue;
    chosen.push_back(i);
    forces.push_back(
        in_context(place(loads[i]), [&] { return detail::nodal_forces(mesh, loads[i]); }));
  }
  const bool torsion = n == 0 && torsion_acts(supports, loads, forces);
  const detail::HarmonicSystem system = in_context(place(loads[chosen.front()]), [&] {
    return detail::HarmonicSystem(mesh, materials, supports, n, torsion, joined);
  });
  for (std::size_t k = 0; k < chosen.size(); ++k) {
    const HarmonicLoad &load = loads[chosen[k]];
    in_context(place(load), [&] { solutions[chosen[k]] = system.solve(load, forces[k]); });
    HarmonicSolution &solution = solutions[chosen[k]];
    solution.stress = detail::nodal_stress(mesh, materials, n, solution.displacement);
  }
}

/// Interference of a welded wheel: disc and rim are pressed together first, the weld is laid on
/// stress-free. So the weld is taken out; disc and rim keep the same axial place at its root.
HarmonicSolution HarmonicModel::Impl::pressed(const HarmonicSupports &supports,
                                              const HarmonicLoad &load) const {
  if (!load.tractions.empty() || load.body_force || !load.ring_forces.empty() ||
      load.adapter_force != 0 || load.adapter_moment != 0)
    throw Error(place(load) +
                ": interference together with other loads: it acts before the weld is laid; give "
                "the others as a load of their own");
  const UnweldedSection before = unwelded(mesh);
  std::vector<HarmonicSolution> solutions(1);
  Impl{before.mesh, materials, before.split}.solve_harmonic(0, supports, {load}, {0}, solutions);
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
  std::vector<int> harmonics;
  for (const HarmonicLoad &load : loads) {
    impl_->check(load);
    if ((load.adapter_force != 0 || load.adapter_moment != 0) &&
        (supports.adapter_edge.empty() || supports.adapter_held))
      throw Error(impl_->place(load) + ": adapter load, but no edge follows a free adapter");
    if (load.interference != 0 && !supports.press_fit_tied)
      throw Error(impl_->place(load) + ": interference given, but the press fit is not tied");
  }
  std::vector<HarmonicSolution> solutions(loads.size());
  std::vector<std::size_t> welded;  // loads of the welded body
  for (std::size_t i = 0; i < loads.size(); ++i) {
    if (loads[i].interference != 0 && impl_->welded()) {
      solutions[i] = impl_->pressed(supports, loads[i]);
      continue;
    }
    welded.push_back(i);
    if (std::find(harmonics.begin(), harmonics.end(), loads[i].n) == harmonics.end())
      harmonics.push_back(loads[i].n);
  }
  for (const int n : harmonics) impl_->solve_harmonic(n, supports, loads, welded, solutions);
  return solutions;
}

std::vector<double> HarmonicModel::dense_stiffness(int n) const {
  const std::size_t size = 3 * impl_->mesh.nodes.size();
  std::vector<double> dense(size * size, 0.);
  const auto cells = detail::cell_matrices(impl_->mesh, impl_->materials, n);
  for (std::size_t c = 0; c < cells.size(); ++c) {
    const auto &nodes = impl_->mesh.cells[c];
    for (int i = 0; i < detail::n_local; ++i)
      for (int j = 0; j < detail::n_local; ++j)
        dense[size * (3 * nodes[i / 3] + i % 3) + 3 * nodes[j / 3] + j % 3] +=
            cells[c][detail::n_local * i + j];
  }
  return dense;
}

}  // namespace felloe
