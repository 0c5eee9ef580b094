// SPDX-License-Identifier: GPL-3.0-or-later
// Pictures: which there are, what their colours mean, and that the scale bar fits.
#include "post/pictures.h"

#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <set>
#include <stdexcept>

#include "mesher/error.h"
#include "post/colours.h"
#include "post/picture_input.h"
#include "tests/support/scratch_folder.h"
#include "tests/support/simple_wheel.h"

namespace felloe {
namespace {

std::vector<Marker> markers() {
  return {{1,
           {120 * std::cos(0.6), 120 * std::sin(0.6), test::bowl(120) + 2},
           "first",
           "180 MPa",
           {"amplitude 180 MPa", "design life 1e5 of 2e5 cycles"},
           Verdict::fail},
          {2,
           {75 * std::cos(-1.9), 75 * std::sin(-1.9), test::bowl(75) - 2},
           "second",
           "130 MPa",
           {},
           Verdict::pass}};
}

/// A toy wheel under a load, everything that can be drawn.
struct Toy {
  Mesh mesh = test::toy_wheel();
  std::vector<double> values = test::two_peaks(mesh);
  std::vector<Vec3> displacement;
  std::vector<bool> rated;
  PictureSet set;

  explicit Toy(const std::string &folder) {
    for (const Vec3 &x : mesh.nodes) {
      displacement.push_back({0, 0, 1e-3 * x[1]});
      rated.push_back(std::hypot(x[0], x[1]) > 50);
    }
    set.values = &values;
    set.markers = markers();
    set.title = "Toy wheel";
    set.load = "a load";
    set.verdict = Verdict::fail;
    set.folder = folder;
    set.prefix = "toy_";
  }
};

std::vector<Picture> draw(const std::string &folder) {
  Toy toy(folder);
  toy.set.deformed = {&toy.displacement, "under the load", 0};
  toy.set.sketch.held = {"nothing of that name"};
  toy.set.sketch.held_label = "hub";
  toy.set.sketch.arrows = {{{-200, 0}, {1, 0}, "1000 N"}};
  return draw_picture_sets(toy.mesh, {toy.set}).front();
}

/// Pixels of the scene (not of the column beside it) with this colour.
int count_in_scene(const StoredPicture &picture, const Rgb &colour) {
  int n = 0;
  for (int y = 53; y < 787; ++y)
    for (int x = 0; x < 877; ++x) {
      const auto &p = picture.at(x, y);
      bool same = true;
      for (int c = 0; c < 3; ++c) same = same && std::abs(p[c] - 255 * colour[c]) < 1.5;
      n += same;
    }
  return n;
}

TEST(Pictures, AreDrawnAndListed) {
  const test::ScratchFolder folder;
  const std::vector<Picture> drawn = draw(folder.file("pictures"));
  std::vector<std::string> views;
  for (const Picture &picture : drawn) {
    views.push_back(picture.view);
    EXPECT_EQ(picture.file, folder.file("pictures") + "/toy_" + picture.view + ".png");
    EXPECT_NE(picture.alt.find("Toy wheel under a load: "), std::string::npos) << picture.alt;
    const StoredPicture stored = read_picture(picture.file);
    EXPECT_EQ(stored.width, 1200);
    EXPECT_EQ(stored.height, 900);
    EXPECT_EQ(stored.texts.at("Description"), picture.alt);
    const std::set<std::array<int, 3>> colours(stored.pixels.begin(), stored.pixels.end());
    // A blank page has 1, text alone a few dozen, the sketch has no shades.
    EXPECT_GT(colours.size(), picture.view == "load" ? 100U : 1000U) << picture.file;
  }
  EXPECT_EQ(views, (std::vector<std::string>{"front", "back", "section", "closeup_1", "closeup_2",
                                             "deformed", "load"}));
  EXPECT_EQ(test::n_files(folder.file("pictures")), 7);
}

TEST(Pictures, AFileInPlaceOfTheFolderIsAnError) {
  const test::ScratchFolder folder;
  std::ofstream(folder.file("pictures")) << "in the way";
  EXPECT_THROW(draw(folder.file("pictures")), Error);
}

TEST(Pictures, APictureThatCannotBeWrittenIsAnError) {
  const test::ScratchFolder folder;
  std::filesystem::create_directories(folder.file("toy_front.png/inside"));
  EXPECT_THROW(draw(folder.path()), Error);
}

TEST(Pictures, OfARunShareOneScaleAndMarkWhatLiesBeyondIt) {
  const test::ScratchFolder folder;
  Toy low(folder.path()), high(folder.path());
  low.set.prefix = "low_";
  for (double &v : low.values) v *= 0.5;  // up to 90
  high.set.prefix = "high_";
  for (Toy *toy : {&low, &high}) toy->set.markers.resize(1);
  low.set.scale.maximum = high.set.scale.maximum = 120;
  const auto drawn = draw_picture_sets(low.mesh, {low.set, high.set});
  for (const std::vector<Picture> &of_set : drawn)
    for (const Picture &p : of_set)
      EXPECT_EQ(read_picture(p.file).texts.at("colour maximum"), "120") << p.file;
  // The section is not shaded: its colours are those of the scale.
  EXPECT_EQ(count_in_scene(read_picture(folder.file("low_section.png")), beyond_scale), 0);
  EXPECT_GT(count_in_scene(read_picture(folder.file("high_section.png")), beyond_scale), 500);
}

TEST(Pictures, AreGreyWhereStressMayNotBeJudged) {
  const test::ScratchFolder folder;
  Toy all(folder.path()), some(folder.path());
  all.set.prefix = "all_";
  some.set.prefix = "some_";
  for (Toy *toy : {&all, &some}) toy->set.markers.resize(1);
  some.set.rated = &some.rated;  // not within 50 mm of the axis
  some.set.why_grey = "hub";
  for (std::size_t n = 0; n < some.rated.size(); ++n)
    if (!some.rated[n]) some.values[n] = 1e4;  // as a singular place: must not set the scale
  draw_picture_sets(all.mesh, {all.set, some.set});
  EXPECT_EQ(count_in_scene(read_picture(folder.file("all_section.png")), not_rated_grey), 0);
  const StoredPicture grey = read_picture(folder.file("some_section.png"));
  EXPECT_GT(count_in_scene(grey, not_rated_grey), 500);
  EXPECT_EQ(grey.texts.at("colour maximum"),
            read_picture(folder.file("all_section.png")).texts.at("colour maximum"));
}

// A weld toe has a value of its own: its line shows that, not what the surface beside it has.
TEST(Pictures, ShowValuesAlongLines) {
  const test::ScratchFolder folder;
  Toy without(folder.path()), with(folder.path());
  without.set.prefix = "without_";
  with.set.prefix = "with_";
  for (Toy *toy : {&without, &with}) {
    toy->set.markers.clear();
    toy->set.scale.maximum = 200;  // nothing on the surface reaches it
  }
  ValueLine ring;
  for (int i = 0; i <= 60; ++i) {
    const double angle = i * pi / 30;
    ring.points.push_back({100 * std::cos(angle), 100 * std::sin(angle), test::bowl(100) + 2});
    ring.values.push_back(i < 30 ? 250 : 100);
  }
  with.set.lines = {ring};
  draw_picture_sets(with.mesh, {without.set, with.set});
  const auto cyan = [&](const char *name) {
    return count_in_scene(read_picture(folder.file(name)), beyond_scale);
  };
  EXPECT_EQ(cyan("without_front.png"), 0);
  // half of 2 pi 100 mm at some 2 pixels a mm, 4 pixels wide
  EXPECT_GT(cyan("with_front.png"), 800);
  EXPECT_EQ(cyan("with_back.png"), 0);  // behind the disc
}

// The section of a ring of r 40 ... 60 mm stands 20 mm high in the picture.
TEST(Pictures, ScaleBarFitsTheGeometry) {
  const test::ScratchFolder folder;
  const Mesh mesh = test::ring();
  const std::vector<double> values(mesh.nodes.size(), 10.0);
  PictureSet set;
  set.values = &values;
  set.markers = {{1, {50, 0, 5}, "face", "", {}, Verdict::pass}};
  set.folder = folder.path();
  ASSERT_FALSE(draw_picture_sets(mesh, {set}).front().empty());
  const StoredPicture picture = read_picture(folder.file("section.png"));
  const auto dark = [&](int x, int y) { return picture.at(x, y)[0] < 128; };
  int bar = 0, lowest = 900, highest = 0;
  for (int x = 34; dark(x, 29); --x) ++bar;
  for (int x = 35; dark(x, 29); ++x) ++bar;
  for (int y = 56; y < 784; ++y)
    if (picture.at(439, y) != std::array<int, 3>{255, 255, 255}) {
      lowest = std::min(lowest, y);
      highest = std::max(highest, y);
    }
  const double pixels_per_mm = (highest - lowest) / 20.0;  // half the outline at both ends
  const double bar_mm = std::stod(picture.texts.at("scale bar mm"));
  // The bar ends in the middle of its end strokes, which are 9/4 pixels wide.
  EXPECT_NEAR((bar - 2.25) / bar_mm, pixels_per_mm, 0.02 * pixels_per_mm);
}

}  // namespace
}  // namespace felloe
