// SPDX-License-Identifier: GPL-3.0-or-later
// One self-contained page: everything inside one file, nothing loaded from anywhere.
#pragma once
#include <string>
#include <vector>

namespace felloe {

/// A piece of a page with what it needs in the head and at the end of the body.
struct HtmlFragment {
  std::string markup;                ///< well-formed as XML too: <br/>, quoted attributes
  std::vector<std::string> styles;   ///< style sheets
  std::vector<std::string> scripts;  ///< classic scripts, run in order once the page is read
};

struct HtmlPage {
  std::string title;                         ///< plain text
  std::string body;                          ///< markup inside <body>
  std::vector<std::string> styles, scripts;  ///< beside the house style

  void add(const HtmlFragment &);  ///< its markup at the end of the body
};

/// The whole file, UTF-8, in the house style. A Content-Security-Policy allows nothing but images
/// in data: URIs and exactly the styles and scripts given here, by their SHA-256; style attributes
/// and event attributes are therefore refused by the browser: use classes, SVG's presentation
/// attributes and addEventListener. Data may stand in <script type="application/json"> within the
/// markup. Throws std::invalid_argument when a style or script holds its own end tag.
std::string html_page(const HtmlPage &);

/// A drawing too broad for a phone, in a box that scrolls there. `name` is plain text.
std::string drawing_box(const std::string &drawing, const std::string &name);

/// <img> with the picture in a data: URI. `type` is the media type, for example "image/png"; `alt`
/// is plain text. Width and height in pixels keep the place free while the page is laid out.
std::string embedded_image(const std::string &bytes, const std::string &type,
                           const std::string &alt, int width, int height);

}  // namespace felloe
