// SPDX-License-Identifier: GPL-3.0-or-later
// What each command does.
#pragma once
#include "cli/options.h"

namespace felloe {

/// Runs the chosen command and returns the exit code.
int run_command(const Options &);

}  // namespace felloe
