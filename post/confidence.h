// SPDX-License-Identifier: GPL-3.0-or-later
// Words by which the tables of tests, curves, materials and classes say how sure a value is.
#pragma once
#include <string>

namespace felloe {

/// That nobody has checked the value in its source: "from memory", "second-hand", "own value",
/// "common practice, no source", "inferred", "verify".
bool low_confidence(const std::string &);

}  // namespace felloe
