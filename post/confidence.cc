// SPDX-License-Identifier: GPL-3.0-or-later
#include "post/confidence.h"

namespace felloe {

bool low_confidence(const std::string &text) {
  for (const char *mark : {"memory", "second-hand", "own value", "no source", "inferred", "verify"})
    if (text.find(mark) != std::string::npos) return true;
  return false;
}

}  // namespace felloe
