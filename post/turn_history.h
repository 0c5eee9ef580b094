// SPDX-License-Identifier: GPL-3.0-or-later
// Puts unit solutions together to what every node feels during one turn under a rig test.
#pragma once
#include <functional>
#include <string>
#include <vector>

#include "mesher/mesh.h"
#include "post/stress_history.h"
#include "solver/elastic_model.h"

namespace felloe {

/// Displacement over one turn: mean + cosine cos phi + sine sin phi [mm].
struct HarmonicMotion {
  Vec3 mean{}, cosine{}, sine{};
};

/// One turn under one rig test, node by node. Exactly one of the two functions is set: a constant
/// moment that turns gives one harmonic, a rolling load gives a sequence of states.
/// The displacements come with them where the solutions hold them.
struct TurnHistory {
  std::string test;
  std::function<HarmonicHistory(int node)> harmonic;
  std::function<SampledHistory(int node)> sampled;
  std::function<HarmonicMotion(int node)> harmonic_motion;
  std::function<Vec3(int node, int state)> sampled_motion;  ///< [mm]
  int n_states = 0;                                         ///< of a rolling load
};

/// Mean state plus moment x (cos phi, sin phi, 0): sigma = mean + scale (cosine cos phi + sine sin
/// phi).
/// @param steady  solutions that act all the time (clamp, press fit)
/// @param cosine, sine  solutions of the unit moments about x and y
/// @param factor  moment over unit moment [-]
/// @param before  steady too, but from before the weld was laid (press fit): their stress counts,
///                their displacement does not, since the welded shape is the one that moves
/// The solutions must outlive the history.
TurnHistory bending_turn(const std::string &test, std::vector<const Solution *> steady,
                         const Solution &cosine, const Solution &sine, double factor,
                         const std::vector<const Solution *> &before = {});

/// Steady state plus a load that rolls round the rim. `base` holds the load at positions inside one
/// sector of the mesh's symmetry, evenly spaced from angle 0; every other position of the turn is
/// one of these turned by whole sectors: the stress at a node is then the turned stress of the node
/// that lies as many sectors before it.
/// States in the order of the load's angle, base.size() x symmetry of them.
/// The mesh and the solutions must outlive the history.
TurnHistory rolling_turn(const std::string &test, const Mesh &,
                         std::vector<const Solution *> steady, std::vector<const Solution *> base,
                         double factor, const std::vector<const Solution *> &before = {});

/// Node reached from each node by a turn of `sectors` sectors backwards: power of the inverse of
/// mesh.turned, [sector][node].
std::vector<std::vector<int>> backward_turns(const Mesh &);
/// Of every node the smallest index among the nodes that it becomes when the mesh turns by sectors.
std::vector<int> first_images(const Mesh &);

}  // namespace felloe
