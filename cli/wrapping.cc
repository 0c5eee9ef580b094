// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/wrapping.h"

#include <algorithm>
#include <sstream>

namespace felloe {

std::string wrapped(const std::string &text, std::size_t indent, std::size_t width) {
  std::string out, line;
  for (std::size_t at = 0; at < text.size();) {
    const auto end = std::min(text.find(' ', at), text.size());
    const std::string word = text.substr(at, end - at);
    if (!line.empty() && indent + line.size() + 1 + word.size() > width) {
      out += std::string(indent, ' ') + line + "\n";
      line.clear();
    }
    line += (line.empty() ? "" : " ") + word;
    at = end + 1;
  }
  return line.empty() ? out : out + std::string(indent, ' ') + line + "\n";
}

std::string hanging(const std::string &head, const std::string &text, std::size_t indent,
                    std::size_t width) {
  const std::string body = wrapped(text, indent, width);
  if (head.size() + 2 > indent || body.empty()) return head + "\n" + body;
  return head + body.substr(head.size());
}

std::string wrapped_paragraphs(const std::string &text, std::size_t width) {
  std::string out, paragraph;
  const auto end_paragraph = [&] {
    out += wrapped(paragraph, 0, width);
    paragraph.clear();
  };
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    if (line.empty() || line.compare(0, 2, "  ") == 0) {
      end_paragraph();
      out += line + "\n";
    } else {
      paragraph += (paragraph.empty() ? "" : " ") + line;
    }
  }
  end_paragraph();
  return out;
}

}  // namespace felloe
