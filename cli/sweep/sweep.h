// SPDX-License-Identifier: GPL-3.0-or-later
// The command that computes many designs and keeps them.
#pragma once
#include <string>

namespace felloe {

struct SweepOptions {
  std::string source;  ///< a sweep file, or the folder of a sweep
  std::string output;  ///< folder to make for a sweep file; file for --design
  int workers = -1;    ///< < 0: as in the sweep file, 0: one a processor
  bool json = false, quiet = false;
  bool retry = false;    ///< failed designs again
  bool plan = false;     ///< plan the designs, compute nothing
  bool table = false;    ///< print the table, compute nothing
  bool scatter = false;  ///< print how likely rig tests are passed, compute nothing
  long best = 0;         ///< print so many of the lightest, compute nothing
  long design = 0;       ///< print or write this design's case, compute nothing
  bool worker = false;   ///< be one of the worker processes of the folder
};

/// Plans, computes or reads a sweep. Returns the exit code: 0 a design passes every rig test (or
/// none is asked), 1 none does. Throws Error for everything that the user can repair. Ends the
/// program by the signal that stopped it.
int sweep(const SweepOptions &, const std::string &version);

}  // namespace felloe
