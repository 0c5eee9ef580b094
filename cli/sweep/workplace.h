// SPDX-License-Identifier: GPL-3.0-or-later
// Which process works on a design, and whether it still lives.
#pragma once
#include <cstdint>
#include <string>

namespace felloe {

/// A process, told apart from every other one, also from a later one with the same number.
struct Workplace {
  std::string host;         ///< name of the machine
  std::string boot;         ///< of the machine's kernel since its last start
  std::string pid_names;    ///< name space in which `pid` counts: containers have their own
  std::int64_t pid = 0;     ///< process number
  std::int64_t start = 0;   ///< its start [clock ticks since boot]
  std::int64_t parent = 0;  ///< process that watches it and judges its end; 0: none
  std::int64_t parent_start = 0;
  std::int64_t processor = -1;  ///< it is bound to; < 0: to none
};

/// This process.
Workplace this_workplace();
/// A child of this process; start stays 0 when there is no such process.
Workplace workplace_of_child(std::int64_t pid);

/// Seconds since 1970.
double now_seconds();

/// Silence after which a process that can't be looked at counts as gone [s].
constexpr double silence_limit = 600;

/// True when nobody looks after the work of a process any more: it has ended, and so has the one
/// that watches it (unless that is `me`), or neither can be seen from here and the last report is
/// older than `silence_limit`. A host that was started anew holds no old process.
bool has_ended(const Workplace &, double last_seen, const Workplace &me);

}  // namespace felloe
