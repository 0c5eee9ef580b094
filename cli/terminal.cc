// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/terminal.h"

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <cstring>

namespace felloe {

bool takes_colours(std::FILE *stream) {
  const char *no_color = std::getenv("NO_COLOR");
  return !(no_color && *no_color) && is_terminal(stream);
}

bool is_terminal(std::FILE *stream) {
  const char *term = std::getenv("TERM");
  return term && std::strcmp(term, "dumb") != 0 && ::isatty(::fileno(stream)) == 1;
}

std::string inked(const std::string &text, Ink ink, std::FILE *stream) {
  if (ink == Ink::plain || !takes_colours(stream)) return text;
  const char *code = ink == Ink::bold    ? "1"
                     : ink == Ink::red   ? "31"
                     : ink == Ink::green ? "32"
                                         : "33";
  return std::string("\033[") + code + "m" + text + "\033[0m";
}

std::size_t text_width(std::FILE *stream) {
  winsize size = {};
  if (::isatty(::fileno(stream)) != 1 || ::ioctl(::fileno(stream), TIOCGWINSZ, &size) != 0 ||
      size.ws_col == 0)
    return 98;
  return std::clamp<std::size_t>(size.ws_col, 40, 110);
}

std::string error_prefix() { return inked("felloe:", Ink::red, stderr) + " "; }

}  // namespace felloe
