// SPDX-License-Identifier: GPL-3.0-or-later
// A key of the case file that a sweep varies.
#pragma once
#include <string>
#include <vector>

#include "cli/case_keys.h"

namespace felloe {

enum class Apply { replace, add, multiply };

struct SweptKey {
  std::string name;  ///< "disc.meridian[2].bend_radius_mm"; [*]: every row of the list
  std::string unit;
  const Section *section = nullptr;
  const Key *key = nullptr;
  int row = 0;  ///< of a repeated section, from 0; -1: every row
  Apply apply = Apply::replace;
  std::vector<Value> values;  ///< to choose from; empty: a range
  double from = 0, to = 0;
  double mean = 0, deviation = 0;  ///< normally distributed; deviation 0: not
  int steps = 0;                   ///< values of a range in a full grid
  bool whole() const { return key->domain.type == KeyType::whole_number; }
};

/// Finds the key that `name` means in the case. Returns why it can't be varied, with the nearest
/// key that can; empty: found.
std::string find_key(const std::string &name, const Case &base, SweptKey &found);

/// What a value of the sweep may be: the key's own range, or any number where it is added or
/// multiplied.
Domain swept_domain(const SweptKey &);

/// Why the values can't be added to or multiplied with what stands in the base case; empty: they
/// can.
std::string no_change_of(const SweptKey &, const Case &base);

/// Puts the value into the case.
void apply_value(Case &, const SweptKey &, const Value &);

/// The values of a full grid.
std::vector<Value> grid_values(const SweptKey &);
/// The value at a share 0 <= u < 1 of the range, or that share of the list. Ranges give numbers
/// rounded to a millionth of their length, whole-number keys whole numbers.
Value value_at(const SweptKey &, double u);

}  // namespace felloe
