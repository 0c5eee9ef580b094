// SPDX-License-Identifier: GPL-3.0-or-later
// Where it breaks: the pictures of the run, that of the worst place first.
#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "post/html/text.h"
#include "post/plot/frame.h"
#include "post/report/sections.h"
#include "post/report/words.h"
#include "post/worst_first.h"

namespace felloe {
namespace {

std::string view_words(const std::string &view) {
  if (view == "closeup") return "Close-up of the worst place";
  const char *const ranks[] = {"second", "third", "fourth", "fifth"};
  for (std::size_t i = 0; i < std::size(ranks); ++i)
    if (view == fmt::format("closeup_{}", i + 2))
      return fmt::format("Close-up of the {} worst place", ranks[i]);
  if (view == "front") return "From outboard";
  if (view == "back") return "From inboard";
  if (view == "section") return "Half section through the worst place";
  if (view == "load") return "Where the load acts and what is held";
  if (view == "deformed") return "Deformed shape, magnified";
  std::string words = view;
  std::replace(words.begin(), words.end(), '_', ' ');
  if (!words.empty())
    words[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(words[0])));
  return words;
}

std::string alternative(const ReportInput &in, const ReportPicture &p) {
  for (const PictureFile &f : in.results.pictures)
    if (f.test == p.test && (f.view == p.view || (p.view == "closeup" && f.view == "closeup_1")))
      return f.alt + ".";
  std::string text = view_words(p.view) + ", coloured by stress";
  if (!p.test.empty()) text += ", rig test " + p.test;
  if (const HotSpot *h = worst_of(in.results.hot_spots, p.test))
    text += fmt::format(". Worst place: {}, amplitude {:.0f} MPa", h->feature, h->amplitude);
  return text + ".";
}

std::string figure(const ReportInput &in, const ReportPicture &p, const char *style) {
  std::string caption = view_words(p.view);
  if (!p.test.empty())
    caption = (in.results.tests.empty() ? "" : series_key(test_index(in.results, p.test)) + " ") +
              name_markup(p.test) + ": " + html_text(caption);
  return fmt::format("<figure{}>{}<figcaption>{}</figcaption></figure>\n", style,
                     embedded_image(p.bytes, p.type, alternative(in, p), p.width, p.height),
                     caption);
}

}  // namespace

std::string place_section(const ReportInput &in) {
  if (in.pictures.empty())
    return in.pictures_note.empty() ? ""
                                    : "<p class=\"note\">" + html_text(in.pictures_note) + "</p>\n";
  std::string out = figure(in, in.pictures.front(), " class=\"lead\"");
  if (!in.pictures_note.empty())
    out += "<p class=\"note\">" + html_text(in.pictures_note) + "</p>\n";
  if (in.pictures.size() < 2) return out;
  out += "<div class=\"pictures\">\n";
  for (std::size_t i = 1; i < in.pictures.size(); ++i) out += figure(in, in.pictures[i], "");
  return out + "</div>\n";
}

}  // namespace felloe
