// SPDX-License-Identifier: GPL-3.0-or-later
// The worker processes of one sweep, and the parent that watches them.
#pragma once
#include <functional>
#include <string>

#include "cli/sweep/store.h"

namespace felloe {

struct Crew {
  int workers = 0;  ///< processes at a time; 0: one for each processor
  /// What the new process does: it must become a program of its own (exec), since an open store
  /// may not be used on both sides of a fork. The value is its exit code where that fails.
  /// Standard output and error go to the parent, which keeps the last words.
  std::function<int()> worker;
  /// Called about twice a second, and once at the end.
  std::function<void(const Counts &)> watch;
};

/// Starts the workers, each bound to one processor, starts new ones for those that die, and
/// returns when every design is finished. A worker that dies of itself twice on the same design
/// fails that design; one that was killed from outside leaves it to the next.
/// SIGINT, SIGTERM and SIGHUP end the workers; their designs go back to the queue. Returns the
/// signal, 0: none. Throws Error when a worker can't go on (exit code 2: the store can't be
/// written), or when workers end before they take a design.
int run_crew(Store &, const Crew &);

}  // namespace felloe
