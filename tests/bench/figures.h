// SPDX-License-Identifier: GPL-3.0-or-later
// Measured figures, printed as a table or as one JSON object.
#pragma once
#include <cmath>
#include <string>
#include <vector>

#include "tests/bench/machine.h"

namespace felloe::bench {

struct Figure {
  std::string key;
  double value = NAN;   ///< NaN: not measured
  std::string unit;     ///< "x" for a ratio
  std::string against;  ///< what it was measured on, and against what
};

/// Prints one line a figure as they come in.
void print_heading(const Machine &);
void print_line(const Figure &);

/// One object: the figures by key, null for what is not measured; notes and machine beside them.
std::string json_object(const Machine &, const std::vector<Figure> &);

}  // namespace felloe::bench
