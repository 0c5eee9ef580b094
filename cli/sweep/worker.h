// SPDX-License-Identifier: GPL-3.0-or-later
// One process that takes designs from a store until none is left.
#pragma once
#include <functional>
#include <string>

#include "cli/sweep/store.h"

namespace felloe {

/// Figures of one design; throws Error when it can't be computed.
using Evaluate = std::function<DesignFigures(const Case &, Depth)>;

/// Takes, evaluates and stores designs until nothing is queued and nobody works on one any more; a
/// design that another process leaves unfinished is taken over. A design that can't be computed
/// is failed with the reason. Returns how many this process ended. Throws Error when the store
/// can't be written.
long work(Store &, const Evaluate &, const std::string &version);

/// The evaluation of the program: one DesignEvaluator a depth, made when it is first needed.
Evaluate design_evaluation();

}  // namespace felloe
