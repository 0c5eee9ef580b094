// SPDX-License-Identifier: GPL-3.0-or-later
// Reads a whole text file.
#pragma once
#include <string>

namespace felloe {

/// The file's bytes. Throws Error naming the file and the reason when it can't be read.
std::string read_text_file(const std::string &path);

}  // namespace felloe
