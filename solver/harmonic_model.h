// SPDX-License-Identifier: GPL-3.0-or-later
// Linear elasticity of a body of revolution in Fourier harmonics of the section.
#pragma once
#include <array>
#include <functional>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "mesher/mesh.h"
#include "solver/material.h"

namespace felloe {

/// Amplitudes (U, V, W): u_r = U cos n theta, u_theta = V sin n theta, u_z = W cos n theta.
/// For n = 0 V is the torsion amplitude (its own, uncoupled problem).
using HarmonicVector = std::array<double, 3>;

/// Amplitudes of the stress: rr, tt, zz, zr with cos n theta; rt, tz with sin n theta [MPa]
/// (n = 0: rt, tz are the torsion stresses).
struct HarmonicStress {
  double rr = 0, tt = 0, zz = 0, rt = 0, tz = 0, zr = 0;
};

using HarmonicTraction = std::function<HarmonicVector(const Vec2 &rz, const Vec2 &normal)>;
using HarmonicBodyForce = std::function<HarmonicVector(const Vec2 &rz)>;

struct HarmonicSupport {
  std::string place;  ///< name of an edge or point of the section
  std::array<bool, 3> held{true, true, true};
  std::function<HarmonicVector(const Vec2 &rz)> value;  ///< empty: zero; the same for every load
};

struct HarmonicLoad {
  std::string name;
  int n = 0;  ///< harmonic
  std::vector<std::pair<std::string, HarmonicTraction>> tractions;
  HarmonicBodyForce body_force;
  std::vector<std::pair<std::string, HarmonicVector>> ring_forces;  ///< [N/mm] at named points
  /// Radial interference of the press fit [mm], n = 0 only and alone in its load: it acts before
  /// the weld is laid, so the weld takes no part (mesher/unwelded.h).
  double interference = 0;
  /// Adapter load: n = 0 axial force [N] and axial moment [N mm]; n = 1: lateral force along
  /// theta = 0 [N] and the moment that tilts (W ~ r cos theta) [N mm].
  double adapter_force = 0, adapter_moment = 0;
};

struct HarmonicSupports {
  std::vector<HarmonicSupport> held;
  std::string adapter_edge;  ///< follows the rigid motions of harmonic 0 or 1; n >= 2: held
  bool adapter_held = false;
  bool press_fit_tied = true;
};

struct HarmonicSolution {
  std::string name;
  int n = 0;
  std::vector<HarmonicVector> displacement;  ///< of each section node [mm]
  std::vector<HarmonicStress> stress;        ///< of each section node, averaged in its part [MPa]
  /// n = 0: axial motion [mm] and twist [rad]; n = 1: shift along theta = 0 [mm] and tilt [rad].
  double adapter_motion = 0, adapter_rotation = 0;
  double residual = 0;       ///< of the linear system, relative, in the energy norm
  double balance_error = 0;  ///< |applied + reaction| relative, force and moment of n = 0 and 1
  double strain_energy = 0;  ///< [N mm]
};

/// The section assembled harmonic by harmonic, each solved directly. Nodes on the axis (r = 0) obey
/// what a smooth field demands there.
class HarmonicModel {
 public:
  HarmonicModel(const SectionMesh &, const std::map<Part, Material> &);
  ~HarmonicModel();
  /// Solves all loads; those of the same harmonic share one factorisation.
  /// Throws Error as ElasticModel::solve does.
  std::vector<HarmonicSolution> solve(const HarmonicSupports &,
                                      const std::vector<HarmonicLoad> &) const;
  /// Stiffness matrix of one harmonic without supports, dense, unknown = 3 node + component.
  /// For tests of rank and rigid motions on small meshes.
  std::vector<double> dense_stiffness(int n) const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace felloe
