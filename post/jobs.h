// SPDX-License-Identifier: GPL-3.0-or-later
// Work in pieces that may be done in any order and at the same time.
#pragma once
#include <functional>
#include <vector>

namespace felloe {

using Jobs = std::vector<std::function<void()>>;

}  // namespace felloe
