// SPDX-License-Identifier: GPL-3.0-or-later
// Which designs of a sweep are good, and why others failed.
#pragma once
#include <cstddef>
#include <string>
#include <vector>

#include "cli/sweep/store.h"

namespace felloe {

using Designs = std::vector<StoredDesign>;

/// Places of the designs that are computed to the depth that the sweep ends with.
std::vector<std::size_t> computed(const SweepHead &, const Designs &);

/// The lightest designs that pass every rig test, lightest first; where nothing is rated the
/// lightest of all.
std::vector<std::size_t> lightest(const SweepHead &, const Designs &, std::size_t at_most);

/// Designs that no other one beats: none is as light, lives as long and is as stiff, and better in
/// one of the three (tilt stiffness). Ordered by mass.
std::vector<std::size_t> pareto_front(const SweepHead &, const Designs &);

struct FailureReason {
  std::string example;  ///< what one of the designs says
  long count = 0, design = 0;
};
/// Reasons that differ only in their numbers are one; most frequent first.
std::vector<FailureReason> failure_reasons(const Designs &);

bool anything_rated(const Designs &);

/// The cautions of every report, and what a sweep's figures leave out.
std::vector<std::string> sweep_cautions(const Designs &);

}  // namespace felloe
