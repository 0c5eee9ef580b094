// SPDX-License-Identifier: GPL-3.0-or-later
// Foreign text made safe for markup.
#include "post/html/text.h"

#include <cctype>
#include <cstdint>
#include <cstdio>
#include <vector>

namespace felloe {
namespace {

constexpr std::uint32_t replacement = 0xFFFD;

/// The character at `at`, which moves behind it; ill-formed bytes give the replacement character
/// one by one.
std::uint32_t next_character(const std::string &text, std::size_t &at) {
  const auto byte = [&](std::size_t i) {
    return static_cast<std::uint32_t>(static_cast<unsigned char>(text[i]));
  };
  const std::uint32_t first = byte(at++);
  if (first < 0x80) return first;
  const int more = first >= 0xF0 ? 3 : first >= 0xE0 ? 2 : 1;
  if (first < 0xC2 || first > 0xF4 || at + more > text.size()) return replacement;
  std::uint32_t c = first & (0x3F >> more);
  for (int i = 0; i < more; ++i) {
    if ((byte(at + i) & 0xC0) != 0x80) return replacement;
    c = c << 6 | (byte(at + i) & 0x3F);
  }
  constexpr std::uint32_t least[] = {0, 0x80, 0x800, 0x10000};
  if (c < least[more] || c > 0x10FFFF || (c >= 0xD800 && c <= 0xDFFF)) return replacement;
  at += more;
  return c;
}

void append_utf8(std::uint32_t c, std::string &out) {
  if (c < 0x80) {
    out += char(c);
  } else if (c < 0x800) {
    out += char(0xC0 | c >> 6);
    out += char(0x80 | (c & 0x3F));
  } else if (c < 0x10000) {
    out += char(0xE0 | c >> 12);
    out += char(0x80 | (c >> 6 & 0x3F));
    out += char(0x80 | (c & 0x3F));
  } else {
    out += char(0xF0 | c >> 18);
    out += char(0x80 | (c >> 12 & 0x3F));
    out += char(0x80 | (c >> 6 & 0x3F));
    out += char(0x80 | (c & 0x3F));
  }
}

/// Controls, marks and overrides of the writing direction, line separators, noncharacters.
bool must_be_spelled_out(std::uint32_t c) {
  return c < 0x20 || (c >= 0x7F && c < 0xA0) || c == 0x61C || (c >= 0x200B && c <= 0x200F) ||
         (c >= 0x2028 && c <= 0x202E) || (c >= 0x2060 && c <= 0x206F) || c == 0xFEFF ||
         (c & 0xFFFE) == 0xFFFE || (c >= 0xFDD0 && c <= 0xFDEF);
}

}  // namespace

std::string plain_text(const std::string &text) {
  std::string safe;
  for (std::size_t at = 0; at < text.size();) {
    const std::uint32_t c = next_character(text, at);
    if (c == '\n' || c == '\r' || c == '\t')
      safe += ' ';
    else if (must_be_spelled_out(c)) {
      char spelled[16];
      std::snprintf(spelled, sizeof spelled, "[U+%04X]", static_cast<unsigned>(c));
      safe += spelled;
    } else
      append_utf8(c, safe);
  }
  return safe;
}

std::string html_text(const std::string &text) {
  std::string safe;
  for (const char c : plain_text(text))
    if (c == '&')
      safe += "&amp;";
    else if (c == '<')
      safe += "&lt;";
    else if (c == '>')
      safe += "&gt;";
    else if (c == '"')
      safe += "&quot;";
    else if (c == '\'')
      safe += "&#39;";
    else
      safe += c;
  return safe;
}

std::string shortened(const std::string &text, std::size_t most) {
  std::vector<std::uint32_t> all;
  for (std::size_t at = 0; at < text.size();) all.push_back(next_character(text, at));
  std::string out;
  const bool cut = all.size() > most;
  for (std::size_t i = 0; i < (cut ? most - 1 : all.size()); ++i) append_utf8(all[i], out);
  return cut ? out + "\u2026" : out;
}

std::string html_id(const std::string &text) {
  std::string id;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte < 0x80 && std::isalnum(byte))
      id += static_cast<char>(std::tolower(byte));
    else if (!id.empty() && id.back() != '-')
      id += '-';
  }
  while (!id.empty() && id.back() == '-') id.pop_back();
  return id;
}

}  // namespace felloe
