// SPDX-License-Identifier: GPL-3.0-or-later
// A figure that is a sum over nodal stresses (a strain, a structural stress), and its one turn.
#pragma once
#include <vector>

#include "post/turn_history.h"
#include "solver/stress.h"

namespace felloe {

/// value = sum weight_i . stress_i, products of the six components each.
struct StressSum {
  std::vector<int> nodes;
  std::vector<Stress> weights;

  void add(int node, const Stress &weight);  ///< to what the node has already
  double of(const std::vector<Stress> &nodal) const;
};

/// Sum of the products of the six components.
double product(const Stress &weight, const Stress &stress);

/// The weight of `factor` times the normal stress along the unit vector d.
Stress weight_of_normal_stress(const Vec3 &d, double factor);

/// A figure over one turn: mean + cosine cos phi + sine sin phi, or a sequence of states.
struct FigureTurn {
  bool harmonic = true;
  double steady = 0, cosine = 0, sine = 0;
  std::vector<double> states;

  double mean() const;       ///< half the sum of largest and smallest
  double amplitude() const;  ///< half their difference
};
FigureTurn figure_turn(const StressSum &, const TurnHistory &);

}  // namespace felloe
