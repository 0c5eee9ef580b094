// SPDX-License-Identifier: GPL-3.0-or-later
// One self-contained page: everything inside one file, nothing loaded from anywhere.
#include "post/html/page.h"

#include <fmt/format.h>

#include <stdexcept>

#include "post/html/digest.h"
#include "post/html/style.h"
#include "post/html/text.h"

namespace felloe {
namespace {

/// " 'sha256-...'" of every piece; " 'none'" without any.
std::string allowed(const std::vector<std::string> &pieces) {
  std::string list;
  for (const std::string &piece : pieces) list += " 'sha256-" + sha256_base64(piece) + "'";
  return list.empty() ? " 'none'" : list;
}

std::string elements(const char *name, const std::vector<std::string> &pieces) {
  std::string out;
  for (const std::string &piece : pieces) {
    if (piece.find(std::string("</") + name) != std::string::npos)
      throw std::invalid_argument(fmt::format("an inline {} holds its own end tag", name));
    out += fmt::format("<{0}>{1}</{0}>\n", name, piece);
  }
  return out;
}

}  // namespace

void HtmlPage::add(const HtmlFragment &f) {
  body += f.markup;
  styles.insert(styles.end(), f.styles.begin(), f.styles.end());
  scripts.insert(scripts.end(), f.scripts.begin(), f.scripts.end());
}

std::string html_page(const HtmlPage &page) {
  std::vector<std::string> styles = {house_style()};
  styles.insert(styles.end(), page.styles.begin(), page.styles.end());
  return "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n" +
         fmt::format(
             "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; img-src "
             "data:; style-src{}; script-src{}; base-uri 'none'; form-action 'none'\"/>\n",
             allowed(styles), allowed(page.scripts)) +
         "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n"
         "<meta name=\"referrer\" content=\"no-referrer\"/>\n" +
         fmt::format("<title>{}</title>\n", html_text(page.title)) + elements("style", styles) +
         "</head>\n<body>\n" + page.body + elements("script", page.scripts) + "</body>\n</html>\n";
}

std::string drawing_box(const std::string &drawing, const std::string &name) {
  // A box that scrolls must be reachable by the keyboard, and then needs a name.
  return fmt::format(
      "<div class=\"drawing-box\" tabindex=\"0\" role=\"region\" aria-label=\"{}\">{}</div>",
      html_text(name), drawing);
}

std::string embedded_image(const std::string &bytes, const std::string &type,
                           const std::string &alt, int width, int height) {
  return fmt::format("<img alt=\"{}\" width=\"{}\" height=\"{}\" src=\"data:{};base64,{}\"/>",
                     html_text(alt), width, height, type, base64(bytes));
}

}  // namespace felloe
