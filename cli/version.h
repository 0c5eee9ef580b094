// SPDX-License-Identifier: GPL-3.0-or-later
// The program's version.
#pragma once

namespace felloe {

/// Number of the project and, where it was built from a git checkout, the commit: "0.1.0
/// (1a2b3c4)". Its source is written by scripts/version.cmake at every build.
extern const char *const version;
/// Day of that commit, "2026-11-27"; where there is no commit, of the build.
extern const char *const version_date;

}  // namespace felloe
