// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that no damage to a case file does anything else than a readable Error: thousands of
// random changes, read, laid out and drawn.
#include <algorithm>
#include <random>

#include "cli/case_file.h"
#include "mesher/error.h"
#include "mesher/layout.h"
#include "post/section_drawing.h"
#include "tests/cli/program.h"

namespace felloe::test {
namespace {

/// One random change: a byte, a doubled or a lost stretch, another digit, or a number or
/// word replaced.
std::string damaged(std::string text, std::mt19937 &random) {
  static const std::vector<std::string> pieces = {
      "0",   "-1", "1e300", "nan", "\"\"", "[]",  "{}",      "true", "[[",  "]",
      "= 5", "\n", "\"",    "#",   "1e-9", "inf", "[wheel]", "99",   "0x7", "1979-05-27"};
  const auto any = [&](std::size_t n) {
    return std::uniform_int_distribution<std::size_t>(0, n - 1)(random);
  };
  const std::size_t at = any(text.size()), length = std::min(1 + any(30), text.size() - at);
  switch (any(6)) {
    case 0:
      text[at] = char(any(256));
      break;
    case 1:
      text.insert(at, text.substr(at, length));
      break;
    case 2:
      text.erase(at, length);
      break;
    case 3:
      text.insert(at, pieces[any(pieces.size())]);
      break;
    case 4: {
      const auto digit = text.find_first_of("0123456789", at);
      if (digit != std::string::npos) text[digit] = char('0' + any(10));
      break;
    }
    default: {
      const auto equals = text.find("= ", at);
      if (equals == std::string::npos) break;
      const auto end = text.find_first_of(",}\n", equals);
      text.replace(equals + 2, std::min(end, text.size()) - equals - 2, pieces[any(pieces.size())]);
    }
  }
  return text;
}

TEST(DamagedCase, GivesAnErrorOrADrawing) {
  std::mt19937 random(20240229);  // the same changes on every run
  int accepted = 0, refused = 0;
  for (int i = 0; i < 3000; ++i) {
    std::string text = test_wheel();
    for (int k = 0; k <= i % 3; ++k) text = damaged(text, random);
    try {
      const Case c = read_case_text(text, "damaged.toml");
      EXPECT_NE(section_drawing(layout(c.wheel)).find("</svg>"), std::string::npos);
      ++accepted;
    } catch (const Error &e) {
      EXPECT_GT(std::string(e.what()).size(), 10u);
      ++refused;
    } catch (const std::exception &e) {
      ADD_FAILURE() << e.what() << "\n" << text;
    }
  }
  // both happen often, or the changes are not what they should be
  EXPECT_GT(accepted, 100);
  EXPECT_GT(refused, 1000);
}

}  // namespace
}  // namespace felloe::test
