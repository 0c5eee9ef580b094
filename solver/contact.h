// SPDX-License-Identifier: GPL-3.0-or-later
// The hub face pressed on a rigid adapter by bolts: it may lift off, bolts gain and lose force.
#pragma once
#include <array>
#include <functional>
#include <limits>
#include <memory>
#include <string>
#include <vector>

#include "mesher/mesh.h"
#include "solver/elastic_model.h"
#include "solver/load_case.h"
#include "solver/load_kinds.h"

namespace felloe {

/// What the face does in its plane. Without friction only normal forces act, and the supports must
/// keep the body from moving in the plane. Sticking: a node follows the adapter in the plane until
/// it lifts off; from then on it slides. Sound while the clamp carries the shear; a coefficient of
/// friction (HubContact) limits what a sticking node carries.
enum class FaceFriction { none, sticking };

/// An elastic bolt from a seat surface to the adapter, parallel to the axis. The adapter lies on
/// the side that the face looks to. Its force spreads evenly over the seat and never pushes.
struct ContactBolt {
  std::string seat;      ///< surface name
  double preload = 0;    ///< [N]
  double stiffness = 0;  ///< [N/mm], see bolt_stiffness()
};

struct HubContact {
  std::string face = "hub face";  ///< flat, perpendicular to the axis
  /// Line of the mesh with the nodes of the face that may touch; empty: all of them. Cost grows
  /// with the cube of their number, and a thin disc touches round its bolts only. What the others
  /// do: smallest_gap_elsewhere(). The line must stand in the mesh that the ElasticModel was made
  /// from.
  std::string touching_nodes;
  /// Line with further nodes of the face, none of touching_nodes: they may touch as well and never
  /// stick. Far from the bolts, where nodes lift off at once, that makes no difference and a third
  /// of the unknowns. Empty: none. Needs touching_nodes.
  std::string sliding_nodes;
  FaceFriction friction = FaceFriction::sticking;
  /// Of Coulomb: a sticking node slips where more than this times its pressing force would act
  /// across. It rubs, too, when it comes back after lifting off. Nodes that lift off already while
  /// the clamp of a face that sticks without limit is tightened slide freely. > 0.
  double friction_coefficient = std::numeric_limits<double>::infinity();
  /// Which motions of the adapter are free: shifts x, y, z, turns about x, y, z.
  std::array<bool, 6> adapter_free{true, true, true, true, true, true};
  /// Distance of face and adapter along the axis before loading [mm]; empty: 0.
  std::function<double(const Vec3 &)> initial_gap{};
  std::vector<ContactBolt> bolts;
};

/// A state of the face. Node lists follow ContactModel::nodes().
struct ContactState {
  std::vector<double> factors;             ///< of the model's loads
  std::vector<double> pressure;            ///< nodal force over tributary area, >= 0 [MPa]
  std::vector<double> gap;                 ///< >= 0 [mm]
  std::vector<bool> closed;                ///< pressed, or touching without pressure
  std::vector<bool> sticks;                ///< follows the adapter in the plane, or rubs on it
  std::vector<bool> slips;                 ///< rubs and slips, from the state that went before
  std::vector<Vec3> slip;                  ///< of the face on the adapter, from stress-free [mm]
  std::vector<Vec3> face_force;            ///< of the adapter on the face [N]
  std::vector<Vec3> face_motion;           ///< displacement [mm]
  std::vector<double> bolt_force;          ///< [N]
  std::vector<double> bolt_elongation;     ///< seat against adapter, from the stress-free state
  std::array<double, 6> adapter_motion{};  ///< translation of the origin [mm], rotation [rad]
  double open_share = 0;                   ///< of the area of the face
  double complementarity_error = 0;        ///< of p >= 0, g >= 0, p g = 0, relative
  double friction_error = 0;               ///< of Coulomb's law, over the largest nodal force
  int steps = 0;                           ///< contact sets tried
};

/// Condenses the body once on the nodes of the face and on the bolts (ElasticModel::condensed());
/// each state is then a small dense problem. The body needs no other support than the face itself.
///
/// Contact acts at the nodes. Forces and pressures belong together through the tributary areas
/// integral N dA of the quadratic shape functions, all positive on faces of nine nodes: an even
/// pressure gives exactly its nodal forces.
class ContactModel {
 public:
  /// @param supports  of the body apart from the face; no adapter surface
  /// @param loads     act on body and adapter; states combine them with factors
  /// Throws Error when the face is not perpendicular to the axis, a seat has no area, or a solve
  /// fails. Mesh and model must outlive this object.
  ContactModel(const Mesh &mesh, const ElasticModel &model, const Supports &supports,
               const HubContact &contact, const std::vector<LoadCase> &loads);
  ~ContactModel();
  ContactModel(ContactModel &&) noexcept;

  /// Every bolt at its preload, whatever it takes: tightening. No factors: no loads.
  /// @param start  state whose contact set the search starts from; null: all closed
  ContactState clamped(const std::vector<double> &factors = {},
                       const ContactState *start = nullptr) const;
  /// Bolts elastic about their state in `before`; loads replace those of `before`. Nodes that do
  /// not stick there do not stick here either.
  ///
  /// With Coulomb friction the state depends on the way to it: from `start`, or else `before`, one
  /// step of growing load; slip counts from there. Throws Error when friction does not carry the
  /// load, or the laws of contact, friction and balance are missed by more than 1e-6.
  ContactState loaded(const ContactState &before, const std::vector<double> &factors,
                      const ContactState *start = nullptr) const;

  /// What the loads change when every node and bolt keeps its side: linear in the factors, bolts
  /// elastic. With `before` added it is the state that superposition makes of the loads.
  ContactState change(const ContactState &before, const std::vector<double> &factors) const;

  /// The state as a load of the plain body under supports(): loads, bolt forces, and the face moved
  /// as found. Its solution has the stresses everywhere.
  LoadCase load_case(const ContactState &, const std::string &name) const;
  const Supports &supports() const;  ///< the given ones and the held face

  /// Least gap of the face's nodes that are not in nodes() [mm], from the solution of the state's
  /// load_case(): below zero they would have touched. Without such nodes: infinite.
  double smallest_gap_elsewhere(const ContactState &, const Solution &) const;

  const std::vector<int> &nodes() const;     ///< that may touch, ascending
  const std::vector<double> &areas() const;  ///< tributary area of each [mm2]
  double face_area() const;                  ///< with the nodes that are not in nodes() [mm2]
  /// Position in nodes() that a turn by one sector leads to; empty without repetition.
  const std::vector<int> &turned() const;
  int n_sectors() const;
  const HubContact &contact() const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

/// States of a load that turns.
struct SteppedSector {
  std::vector<ContactState> states;  ///< at even angles inside one sector, from 0
  /// Times the sector was stepped, and what the last time changed of the forces on the face, as a
  /// share of what the load changes. 1 and 0 without a coefficient of friction.
  int passes = 1;
  double unsettled = 0;
};

/// Each state starts from the one before. With Coulomb friction that is a path: the sector is
/// stepped again, going on from its end turned back by one sector, until the forces on the face
/// repeat within 1 % or the load has gone round three times: slip then settles or goes on in
/// every turn.
/// @param factors  of the model's loads at an angle, by its number; a turn by one sector must turn
///                 the load likewise
/// @param first    start of the first angle
SteppedSector step_sector(const ContactModel &, const ContactState &clamped,
                          const ContactState &first,
                          const std::function<std::vector<double>(int number)> &factors,
                          int n_angles);

/// States at even angles inside one sector, from 0; the rest of the turn repeats them.
struct ContactTurn {
  std::vector<double> angles;        ///< [rad]
  std::vector<ContactState> states;  ///< one an angle
  double open_share = 0;             ///< of the face's area, open at some angle of the turn
  double smallest_bolt_force = 0, largest_bolt_force = 0;  ///< of any bolt, over the turn [N]
  /// The same nodes are closed, stick and do not slip, at all angles and every bolt stays taut:
  /// states then are sums of unit solutions.
  bool superposition_exact = true;
};

/// Steps a load that turns.
/// @param factors    of the model's loads at an angle [rad]; a turn of the angle by one sector must
///                   turn the load likewise
/// @param positions  least number of angles in the whole turn
ContactTurn contact_turn(const ContactModel &, const ContactState &clamped,
                         const std::function<std::vector<double>(double angle)> &factors,
                         int positions);

/// Axial stiffness of a bolt [N/mm] with thread over the whole clamped length, screwed into a
/// tapped hole: 1/c = (0.4 d / A_N + L / A_3 + 0.5 d / A_3 + 0.33 d / A_N) / E with the nominal and
/// the core section. Source: VDI 2230 (from memory, verify).
double bolt_stiffness(const BoltThread &, double clamped_length, double youngs_modulus = 205000);

}  // namespace felloe
