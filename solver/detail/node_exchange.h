// SPDX-License-Identifier: GPL-3.0-or-later
// What the processes of a run must tell each other about vectors on the nodes.
#pragma once
#include <exception>
#include <memory>
#include <vector>

#include "mesher/error.h"
#include "solver/detail/cell_columns.h"

namespace felloe::detail {

/// The process itself is well, another one is not.
class FailedElsewhere : public Error {
 public:
  FailedElsewhere() : Error("processes: another process of the run failed: its message says why") {}
};

/// Vectors lie in memory as owned components, then ghosts (those of other processes' columns that
/// own cells touch), both in the order of the portion's places. All calls are collective: every
/// process of the run makes them in the same order.
class NodeExchange {
 public:
  NodeExchange() = default;  ///< one process by itself: nothing to tell
  /// `own` is the portion first_share ... of the whole.
  NodeExchange(const CellColumns &whole, const CellColumns &own, int first_share);

  bool alone() const { return !impl_; }

  /// Ghosts take the values of their owners.
  template <class T>
  void fill_ghosts(T *u) const;
  /// Owners receive what stands in their ghosts; the ghosts are zero afterwards.
  template <class T>
  void add_ghosts(T *f) const;

  /// Sums over all processes, in place.
  void sum(double *values, std::size_t n) const;
  double sum(double value) const {
    sum(&value, 1);
    return value;
  }
  /// Calls body; when it fails on one process, all fail: they would wait for each other.
  template <class F>
  void together(F &&body) const {
    std::exception_ptr failure;
    try {
      body();
    } catch (...) {
      failure = std::current_exception();
    }
    const bool others = sum(failure ? 1.0 : 0.0) > 0;
    if (failure) std::rethrow_exception(failure);
    if (others) throw FailedElsewhere();
  }

 private:
  struct Impl;
  std::shared_ptr<const Impl> impl_;
};

/// Processes that share the work, and the number of this one: 1 and 0 without MPI.
int n_processes();
int this_process();

}  // namespace felloe::detail
