// SPDX-License-Identifier: GPL-3.0-or-later
// Memory that a part of a run needed.
#pragma once

namespace felloe {

/// From its construction on. The system keeps one peak of the whole process only: what stays below
/// an earlier one can't be told.
class PeakMemory {
 public:
  PeakMemory();
  /// Largest growth of this process [bytes]; 0 where it can't be told (or not on Linux).
  double growth() const;

 private:
  double at_start_, peak_before_;
};

}  // namespace felloe
