// SPDX-License-Identifier: GPL-3.0-or-later
// Writing a file so that it appears whole or not at all.
#pragma once
#include <string>

namespace felloe {

/// Writes the bytes to a file beside `path` and renames it, so that a reader never sees half a
/// file; an old file of that name is replaced only on success. Devices and pipes (/dev/stdout) are
/// written directly. Error with the system's reason when that fails (no space, no permission).
void write_whole_file(const std::string &path, const std::string &bytes);

/// Creates the folder and its parents where they are missing; Error with the reason.
void make_folder(const std::string &folder);

}  // namespace felloe
