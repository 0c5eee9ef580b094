// SPDX-License-Identifier: GPL-3.0-or-later
// Linear elasticity in 3D: assembled once, solved for many loads and supports.
#pragma once
#include <array>
#include <functional>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "mesher/mesh.h"
#include "solver/load_case.h"
#include "solver/material.h"
#include "solver/stress.h"

namespace felloe {

/// Frame of nodal unknowns and support components: Cartesian (x, y, z), or cylindrical
/// (r, theta, z) at every node. Wheels use cylindrical: sectors then have equal matrices and
/// radial ties are plain.
enum class NodalFrame { cartesian, cylindrical };

/// Components of a named surface or line held at zero, or at `value` when that is given
/// (displacement in the wheel frame [mm] as a function of position).
struct Support {
  std::string place;  ///< name of a surface or of a line
  std::array<bool, 3> held{true, true, true};
  std::function<Vec3(const Vec3 &)> value{};
};

struct Supports {
  std::vector<Support> held;
  std::string adapter_surface;  ///< follows six rigid motions ("" : no adapter)
  bool adapter_held = false;    ///< true: the six motions are zero
  bool press_fit_tied = true;   ///< pairs of the mesh tied in radial direction
  std::vector<int> lifted{};    ///< disc nodes of pairs that are apart: these are not tied
};

/// One solved load.
struct Solution {
  std::string load_case;
  std::vector<Vec3> displacement;          ///< of each node, wheel frame [mm]
  std::vector<Stress> stress;              ///< of each node, averaged within the node's part [MPa]
  std::array<double, 6> adapter_motion{};  ///< translation of the origin [mm], rotation [rad]
  Resultant applied, reaction;
  /// |applied + reaction| over the sum of the sizes of all nodal forces, force or moment, the
  /// larger
  double balance_error = 0;
  double residual = 0;       ///< relative residual of the linear system
  double strain_energy = 0;  ///< [N mm]
  /// Radial force of the disc on the rim at each press-fit pair of the mesh, from the axis
  /// outwards: negative where the tie pulls [N]. Empty when the pairs are not tied.
  std::vector<double> press_fit_force;
};

/// What one load does at a few nodes, wheel frame.
struct NodeResponses {
  std::vector<Vec3> displacement;   ///< [mm]
  std::vector<Vec3> support_force;  ///< of the held components, on the body [N]
};

struct SolveFigures {
  long dofs = 0;
  double assembly_seconds = 0, factor_seconds = 0, solve_seconds = 0, recovery_seconds = 0;
  double factor_entries = 0;
  int sectors = 1;  ///< of the latest solve: 1, or the equal sectors that one factor stood for
  bool mirrored = false;  ///< of the latest solve: half a sector stood for both halves
};

/// How a model with equal sectors is solved. All give the same result to rounding.
enum class SolvePath {
  automatic,  ///< by half sectors where mesh and supports are mirrored, else by sectors, else whole
  sectors,    ///< by sectors where mesh and supports repeat themselves, else whole
  whole       ///< always the whole matrix: the reference
};

/// Small displacements, quadratic hexahedra, geometry through the mesh's exact push-forward.
class ElasticModel {
 public:
  /// Materials of every part that occurs in the mesh.
  ElasticModel(const Mesh &, const std::map<Part, Material> &, NodalFrame = NodalFrame::cartesian,
               SolvePath = SolvePath::automatic);
  ~ElasticModel();
  ElasticModel(ElasticModel &&) noexcept;
  ElasticModel &operator=(ElasticModel &&) noexcept;

  /// One factorisation, all loads as right-hand sides. Every solution is checked: relative residual
  /// and balance of forces and moments below 1e-6, strain energy not negative.
  /// Throws Error naming the load and the figure when a check fails, or when the supports leave a
  /// rigid motion free.
  std::vector<Solution> solve(const Supports &, const std::vector<LoadCase> &) const;

  /// From now on solve() computes stresses only where the entry of a node is true; zero elsewhere.
  void stresses_only_at(std::vector<bool> nodes);

  /// The same for many loads of which only some nodes are wanted, without stresses: a batch of
  /// loads at a time, so that memory does not grow with their number. Nodes as given, one entry a
  /// load. Throws Error as solve(); balance is not checked.
  std::vector<NodeResponses> solve_at(const Supports &, const std::vector<LoadCase> &,
                                      const std::vector<int> &nodes) const;

  /// From now on solve() keeps its latest factor, for solve_more().
  void keep_factor();
  /// As solve_at(), under the supports of the latest solve() and with its factor.
  std::vector<NodeResponses> solve_more(const std::vector<LoadCase> &,
                                        const std::vector<int> &nodes) const;

  /// The body's stiffness condensed on a few components, number 3 node + axis in the nodal frame,
  /// that the supports leave free: forces that move one of them by 1 mm and hold the others, dense,
  /// n x n, column by column [N/mm]. The supports need not hold the body, as long as the components
  /// do. Costs one elimination, whatever the number; by sectors when supports and components are
  /// the same in each. Throws Error when a component is not free or a motion stays free.
  std::vector<double> condensed(const Supports &, const std::vector<long> &components) const;
  NodalFrame frame() const;

  const SolveFigures &figures() const;  ///< of the construction and the latest solve
  double mass() const;                  ///< [kg]

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace felloe
