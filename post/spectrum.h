// SPDX-License-Identifier: GPL-3.0-or-later
// Damage of a service spectrum: history of every rated point, rainflow, Miner.
#pragma once
#include <string>
#include <vector>

#include "post/hot_spots.h"
#include "post/miner.h"

namespace felloe {

/// A block of equal turns.
struct SpectrumBlock {
  std::string name;
  double turns = 0;
  TurnHistory turn;  ///< `sampled` set; any number of states
};

/// The most damaged point of a rated place.
struct SpectrumDamage {
  std::string feature, curve, side;
  std::string block;  ///< that does most of it
  Vec3 position{};
  double damage = 0;       ///< of one pass of the spectrum at the rules' survival
  double block_share = 0;  ///< of that damage [-]
  double largest_range = 0, largest_mean = 0;  ///< of the largest cycle [MPa]
};

/// Cycles of a spectrum that repeats itself: every block's turn counted as closed, once less than
/// it is turned, and the blocks' turns one after the other as one closed history, which holds the
/// cycles between blocks. Exact for the repeated sequence.
/// @param turns    value at every state of one turn, block by block
/// @param repeats  turns of each block
/// @param block_of when not null, gets the block of each cycle; -1: between blocks
std::vector<CountedCycle> spectrum_cycles(const std::vector<std::vector<double>> &turns,
                                          const std::vector<double> &repeats,
                                          std::vector<int> *block_of = nullptr);

/// Damage of every place, most damaged first. On the sheet the normal stress of a point's critical
/// planes is counted: the planes that the criterion of normal stress finds in each block; mean
/// stress by FKM. Weld toes: structural stress across the toe. Below a knee without failure the
/// line goes on with slope 2 k - 1 (BelowKnee::flat_branch). Points with less than 0.8 of their
/// place's largest stress in every block are left out.
std::vector<SpectrumDamage> spectrum_damage(const WheelLayout &, const Mesh &,
                                            const std::vector<RatedPlace> &,
                                            const std::vector<SpectrumBlock> &,
                                            const RatingRules &);

}  // namespace felloe
