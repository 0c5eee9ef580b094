// SPDX-License-Identifier: GPL-3.0-or-later
// The view of the surface: what it writes into the page, and the ends of its scales.
#include "post/surface_view.h"

#include <gtest/gtest.h>

#include <limits>
#include <stdexcept>

#include "tests/support/markup.h"
#include "tests/support/simple_wheel.h"

namespace felloe {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

SurfaceLoad load_on(const std::vector<double> &values, const std::string &name) {
  SurfaceLoad load{name, "2310 N m", {}, {}};
  load.quantities.push_back({"stress amplitude", "MPa", &values, 0, 200, false, false, ""});
  load.spots.push_back({1, {60, 0, 5}, name, {{name, name}}});
  return load;
}

TEST(SurfaceView, ForeignNamesNeitherActNorHide) {
  const Mesh mesh = test::ring(12);
  const std::vector<double> values(mesh.nodes.size(), 100);
  const HtmlFragment view =
      surface_view(mesh, {load_on(values, "</script><b a=\"'\">&\u202E\xff")});
  if (!surface_view_built()) GTEST_SKIP() << "built without node and npm";
  HtmlPage page{"page", "", {}, {}};
  page.add(view);
  EXPECT_NO_THROW(test::Markup(html_page(page)));  // well-formed: nothing has left its element
  EXPECT_EQ(view.markup.find("<b a="), std::string::npos);
  EXPECT_EQ(view.markup.find("\u202E"), std::string::npos);
  EXPECT_NE(
      view.markup.find("\\u003c/script\\u003e\\u003cb a=\\\"'\\\"\\u003e\\u0026[U+202E]\uFFFD"),
      std::string::npos);
}

TEST(SurfaceView, ScriptNamesItsLicence) {
  const Mesh mesh = test::ring(12);
  const std::vector<double> values(mesh.nodes.size(), 100);
  const HtmlFragment view = surface_view(mesh, {load_on(values, "cornering")});
  if (!surface_view_built()) {
    EXPECT_TRUE(view.scripts.empty());
    EXPECT_NE(view.markup.find("built without"), std::string::npos);
    return;
  }
  ASSERT_EQ(view.scripts.size(), 1u);
  EXPECT_NE(view.scripts[0].find("GPL-3.0-or-later"), std::string::npos);
  EXPECT_NE(view.markup.find("pictures in this report"), std::string::npos);  // without scripts
}

TEST(SurfaceView, ValuesMustFitTheMesh) {
  if (!surface_view_built()) GTEST_SKIP() << "built without node and npm";
  const std::vector<double> few(3, 100);
  EXPECT_THROW(surface_view(test::ring(12), {load_on(few, "cornering")}), std::logic_error);
}

TEST(SurfaceView, ScaleEndsAtARoundNumberAboveAlmostAll) {
  std::vector<double> values(2000, 130);
  values[7] = 900;  // one in two thousand
  values[8] = unknown;
  EXPECT_EQ(scale_end(values), 140);
  EXPECT_EQ(scale_end({0, 0}), 1);
  EXPECT_EQ(scale_end({unknown}), 1);
}

TEST(SurfaceView, LivesSpanWholeDecades) {
  EXPECT_EQ(life_scale({3.2e4, 5e6, infinity, unknown}), std::make_pair(1e4, 1e8));
  EXPECT_EQ(life_scale({7e7}), std::make_pair(1e7, 1e9));
  EXPECT_EQ(life_scale({infinity}).second, 100 * life_scale({infinity}).first);
}

}  // namespace
}  // namespace felloe
