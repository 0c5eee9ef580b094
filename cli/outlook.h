// SPDX-License-Identifier: GPL-3.0-or-later
// How long a run will still take, from the cost model and from what this run has taken so far.
#pragma once

namespace felloe {

struct SolveTask;

struct Outlook {
  /// Measured over predicted seconds of the solves so far: how much slower than the machine of the
  /// cost model this one is, with all that it does beside.
  double pace = 1;
  double growth = 1;  ///< cells of the mesh that is analysed next over those of this one; 1: none
  bool writes_fields = false;  ///< field files and pictures at the end
  double solves = 0;           ///< of this mesh, at pace 1 [s]
  double after_solves = 0;     ///< all that follows on them, at pace 1 [s]

  /// Fills in the two from what the mesh needs and what follows.
  void predict(const SolveTask &, bool matrix_free);
  double seconds_before_solves() const { return pace * (solves + after_solves); }
  double seconds_after_solves() const { return pace * after_solves; }
};

}  // namespace felloe
