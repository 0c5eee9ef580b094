// SPDX-License-Identifier: GPL-3.0-or-later
// Colours, used only on a terminal, and its width.
#pragma once
#include <cstdio>
#include <string>

namespace felloe {

enum class Ink { plain, bold, red, green, yellow };

/// True when the stream is a terminal that takes colours: NO_COLOR unset or empty (no-color.org),
/// TERM not "dumb".
bool takes_colours(std::FILE *stream);
/// True when lines on the stream can be renewed: a terminal, TERM set and not "dumb".
bool is_terminal(std::FILE *stream);
/// The text in that ink where the stream takes colours, else unchanged.
std::string inked(const std::string &text, Ink, std::FILE *stream);
/// Characters in a line of text for that stream: as many as the terminal has, between 40 and 110;
/// 98 where it is no terminal.
std::size_t text_width(std::FILE *stream);
/// "felloe: " for stderr.
std::string error_prefix();

}  // namespace felloe
