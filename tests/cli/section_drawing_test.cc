// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that the drawing is well-formed, carries every dimension, and that no two texts meet.
#include "post/section_drawing.h"

#include <cmath>
#include <regex>

#include "cli/case_file.h"
#include "tests/cli/program.h"

namespace felloe::test {
namespace {

WheelLayout reference() { return layout(read_case_text(test_wheel(), "w.toml").wheel); }

/// A disc with many thickness stations close together, the worst for the labels.
WheelLayout crowded() {
  Wheel w = read_case_text(test_wheel(), "w.toml").wheel;
  w.disc.thickness.clear();
  for (int i = 0; i < 30; ++i) w.disc.thickness.push_back({100.0 + 0.5 * i, 3.8 + 0.01 * (i % 2)});
  w.disc.thickness.push_back({140, 3.8});
  return layout(w);
}

WheelLayout flat() {
  Wheel w;
  w.construction = Construction::disc_only;
  w.disc.bore_diameter = 60;
  w.disc.meridian = {{180, 0, 0, false}};
  w.disc.thickness = {{0, 4}};
  return layout(w);
}

struct Box {
  double x0, y0, x1, y1;
  std::string text;
};

/// Boxes of all texts, from the letters' number: 12 px letters are less than 7.3 px wide on average
/// and 12 px high with their descenders (DejaVu Sans, measured).
std::vector<Box> text_boxes(const std::string &svg) {
  static const std::regex text(
      "<text class=\"(\\w+)\" x=\"([-0-9.]+)\" y=\"([-0-9.]+)\" text-anchor=\"(\\w+)\""
      "( transform=\"rotate\\(90)?[^>]*>([^<]*)</text>");
  std::vector<Box> boxes;
  for (std::sregex_iterator i(svg.begin(), svg.end(), text), end; i != end; ++i) {
    const auto &m = *i;
    const double size = m[1] == "title" ? 16 : 12, width = 0.6 * size * double(m[6].length());
    const double x = std::stod(m[2]), y = std::stod(m[3]);
    if (m[5].matched)
      boxes.push_back({x - 0.2 * size, y, x + 0.8 * size, y + width, m[6]});
    else {
      const double x0 = m[4] == "end" ? x - width : m[4] == "middle" ? x - 0.5 * width : x;
      boxes.push_back({x0, y - 0.8 * size, x0 + width, y + 0.2 * size, m[6]});
    }
  }
  return boxes;
}

TEST(SectionDrawing, NoTwoTextsMeetAndAllLieOnThePage) {
  for (const WheelLayout &w : {reference(), crowded(), flat()}) {
    const std::string svg = section_drawing(w);
    std::smatch page;
    ASSERT_TRUE(std::regex_search(svg, page, std::regex("viewBox=\"0 0 ([0-9.]+) ([0-9.]+)\"")));
    const auto boxes = text_boxes(svg);
    EXPECT_GT(boxes.size(), 6u);
    for (std::size_t i = 0; i < boxes.size(); ++i) {
      const Box &a = boxes[i];
      EXPECT_GE(a.x0, 0) << a.text;
      EXPECT_GE(a.y0, 0) << a.text;
      EXPECT_LE(a.x1, std::stod(page[1])) << a.text;
      EXPECT_LE(a.y1, std::stod(page[2])) << a.text;
      for (std::size_t j = i + 1; j < boxes.size(); ++j) {
        const Box &b = boxes[j];
        EXPECT_FALSE(a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1)
            << a.text << " | " << b.text;
      }
    }
  }
}

TEST(SectionDrawing, CarriesEveryDimensionOfTheCase) {
  const std::string svg = section_drawing(reference());
  for (const std::string text :
       {"bore \xC3\x98 57<", "hub face \xC3\x98 142<", "bolt circle \xC3\x98 112<",
        "vent circle \xC3\x98 272<", "5 bolt holes \xC3\x98 14 mm, seat \xC3\x98 16.5, cone 60",
        "10 vent holes \xC3\x98 28 mm", "nave bend R 12 mm", "crown bend R 14 mm",
        "flange bend R 12 mm", "disc sheet 3.8 mm", "rim sheet 2.5 mm", "leg 3.8 mm", "inset 40 mm",
        "rim seat \xC3\x98 380.2<", "between the flanges 152.4 mm"})
    EXPECT_NE(svg.find(text), std::string::npos) << text;
}

// Expected: 415.2 = 380.2 + 2 x 17.5, seat diameter plus two flange heights of contour J.
TEST(SectionDrawing, DerivesTheDiameterOverTheFlanges) {
  EXPECT_NE(section_drawing(reference()).find("over the flanges \xC3\x98 415.2<"),
            std::string::npos);
}

TEST(SectionDrawing, EveryElementIsClosed) {
  const std::string svg = section_drawing(crowded());
  std::vector<std::string> open;
  for (auto at = svg.find('<'); at != std::string::npos; at = svg.find('<', at + 1)) {
    const auto end = svg.find('>', at);
    ASSERT_NE(end, std::string::npos);
    const std::string tag =
        svg.substr(at + 1, end - at - 1);  // "text class=...", "/text", "line .../"
    if (tag[0] == '?' || tag.back() == '/') continue;
    if (tag[0] != '/') {
      open.push_back(tag.substr(0, tag.find_first_of(" \n")));
      continue;
    }
    ASSERT_FALSE(open.empty());
    EXPECT_EQ(open.back(), tag.substr(1));
    open.pop_back();
  }
  EXPECT_TRUE(open.empty());
}

}  // namespace
}  // namespace felloe::test
