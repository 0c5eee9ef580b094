// SPDX-License-Identifier: GPL-3.0-or-later
// What a system installs beside a program, made from the command table.
#pragma once
#include <string>

namespace felloe {

/// The man page felloe(1), in the man macros of roff.
std::string man_page();
/// Completion for bash: a function and its registration. Needs no other file.
std::string bash_completion();

}  // namespace felloe
