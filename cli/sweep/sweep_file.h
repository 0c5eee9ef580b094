// SPDX-License-Identifier: GPL-3.0-or-later
// What a sweep file says: a base case, the keys that vary, and how designs are chosen.
#pragma once
#include <limits>
#include <string>
#include <utility>
#include <vector>

#include "cli/sweep/store.h"
#include "cli/sweep/swept_key.h"

namespace felloe {

enum class PlanKind { full_grid, list, latin_hypercube, sobol, random };

/// A weighted sum of swept numbers that must lie within bounds.
struct Requirement {
  std::vector<std::pair<std::size_t, double>> sum;  ///< place among the keys, factor
  double at_least = -std::numeric_limits<double>::infinity();
  double at_most = std::numeric_limits<double>::infinity();
};

struct SweepFile {
  std::string title, case_path, text;
  Case base;
  PlanKind kind = PlanKind::full_grid;
  int designs = 0, seed = 1;
  std::vector<std::vector<Value>> list;  ///< values of explicit designs, in the order of the keys
  Depth first = Depth::wheel;
  bool screened = false;
  double screen_utilisation = 0;
  int workers = 0;
  bool shared_disk = false;
  std::vector<SweptKey> keys;
  std::vector<Requirement> requirements;
};

/// Reads a sweep file and its base case. Throws Error that lists every mistake of the file, one a
/// line, as read_case() does.
SweepFile read_sweep(const std::string &path);
/// The same for a text; `path` stands for the file in messages and for the base case's folder.
SweepFile read_sweep_text(const std::string &text, const std::string &path);

struct SweepPlan {
  SweepHead head;
  std::vector<PlannedDesign> designs;
  long left_out = 0;  ///< designs that break a requirement
};

/// The designs of a sweep. Throws Error when none is left or none can exist.
SweepPlan plan_of(const SweepFile &, const std::string &path);

}  // namespace felloe
