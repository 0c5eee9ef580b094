// SPDX-License-Identifier: GPL-3.0-or-later
// Text in lines that fit.
#pragma once
#include <string>

namespace felloe {

/// Words joined into lines of at most `width` characters, each indented.
std::string wrapped(const std::string &text, std::size_t indent, std::size_t width);
/// The same with `head` before the first line, which fills its indent or stands on a line of its
/// own where it does not fit into it.
std::string hanging(const std::string &head, const std::string &text, std::size_t indent,
                    std::size_t width);
/// Paragraphs, parted by empty lines, wrapped one by one; lines that begin with two spaces stay.
std::string wrapped_paragraphs(const std::string &text, std::size_t width);

}  // namespace felloe
