// SPDX-License-Identifier: GPL-3.0-or-later
// Whole text files, read and written with every failure reported.
#pragma once
#include <string>

namespace felloe {

/// The file's bytes. Throws Error naming the file and the reason when it can't be read.
std::string read_text_file(const std::string &path);

/// Writes and closes the file and checks both. Throws Error naming the file and the reason and
/// leaves no partial file behind.
void write_text_file(const std::string &path, const std::string &text);

/// As write_text_file, but the text is written beside the target and renamed into place.
void write_whole_file(const std::string &path, const std::string &text);

}  // namespace felloe
