// SPDX-License-Identifier: GPL-3.0-or-later
// Proves the drawing into memory: areas, neighbours without gaps, what is nearer, colours between
// corners, and that a PNG reads back.
#include "post/raster.h"

#include <gtest/gtest.h>

#include <fstream>

#include "post/picture_input.h"
#include "post/png.h"
#include "tests/support/scratch_folder.h"

namespace felloe {
namespace {

const std::vector<Rgb8> red{{255, 0, 0}}, blue{{0, 0, 255}};

Rgb8 at(const Image &image, int x, int y_from_below) {
  const std::size_t i = 3 * (std::size_t(image.height - 1 - y_from_below) * image.width + x);
  return {image.rgb[i], image.rgb[i + 1], image.rgb[i + 2]};
}

RasterPoint point(float x, float y, float depth = 0, float value = 0) {
  return {x, y, depth, value, 1};
}

TEST(Raster, FillsHalfOfARectangleFromEveryCorner) {
  for (int turn = 0; turn < 3; ++turn) {
    Raster raster(20, 10);
    const RasterPoint p[] = {point(0, 0), point(20, 0), point(0, 10)};
    raster.triangle(p[turn], p[(turn + 1) % 3], p[(turn + 2) % 3], red);
    const Image image = raster.finished();
    double missing = 0;  // of white's green
    for (std::size_t i = 1; i < image.rgb.size(); i += 3) missing += 1 - image.rgb[i] / 255.0;
    EXPECT_NEAR(missing, 100, 4);  // pixels; a quarter of one for each of the 15 on the slope
    EXPECT_EQ(at(image, 1, 1), red[0]);
    EXPECT_EQ(at(image, 18, 8), (Rgb8{255, 255, 255}));
  }
}

TEST(Raster, NeighboursLeaveNoGapAndShareNoPixel) {
  Raster raster(30, 30);
  // a fan round a point that is no corner of a pixel; the second layer must win nowhere
  const RasterPoint middle = point(13.3f, 15.7f);
  const RasterPoint ring[] = {point(2, 3), point(27, 1), point(29, 20), point(15, 28),
                              point(1, 22)};
  for (int i = 0; i < 5; ++i) raster.triangle(middle, ring[i], ring[(i + 1) % 5], red);
  const Image image = raster.finished();
  for (int y = 8; y < 20; ++y)
    for (int x = 6; x < 24; ++x) EXPECT_EQ(at(image, x, y), red[0]) << x << " " << y;
}

TEST(Raster, TheNearerTriangleHidesTheOtherInBothOrders) {
  for (const bool near_first : {true, false}) {
    Raster raster(8, 8);
    for (const bool near : {near_first, !near_first}) {
      const float depth = near ? 2 : 1;
      raster.triangle(point(0, 0, depth), point(16, 0, depth), point(0, 16, depth),
                      near ? red : blue);
    }
    EXPECT_EQ(at(raster.finished(), 3, 3), red[0]);
  }
}

TEST(Raster, ValuesAndLightChangeLinearly) {
  std::vector<Rgb8> greys;
  for (int i = 0; i < 256; ++i)
    greys.push_back({std::uint8_t(i), std::uint8_t(i), std::uint8_t(i)});
  Raster raster(100, 10);
  // value = x / 100, light = 1 below to 0.5 above
  RasterPoint a = point(0, 0, 0, 0), b = point(100, 0, 0, 1), c = point(100, 10, 0, 1),
              d = point(0, 10, 0, 0);
  c.light = d.light = 0.5f;
  raster.triangle(a, b, c, greys);
  raster.triangle(a, c, d, greys);
  const Image image = raster.finished();
  for (const int x : {10, 50, 90})
    for (const int y : {1, 8})
      EXPECT_NEAR(at(image, x, y)[0], 256 * (x + 0.5) / 100 * (1 - (y + 0.5) / 20), 1.5);
}

TEST(Raster, TrianglesStayInTheSceneAndPolygonsDoNot) {
  Raster raster(10, 10);
  raster.set_scene(0, 5, 10, 5);
  raster.triangle(point(-50, -50), point(60, -50), point(0, 90), red);
  EXPECT_EQ(at(raster.finished(), 5, 4), (Rgb8{255, 255, 255}));
  EXPECT_EQ(at(raster.finished(), 5, 5), red[0]);
  raster.polygon({{0, 0}, {10, 0}, {10, 10}, {0, 10}}, blue[0]);
  EXPECT_EQ(at(raster.finished(), 5, 4), blue[0]);
  EXPECT_EQ(at(raster.finished(), 5, 5), blue[0]);
}

TEST(Png, ReadsBackWithItsTexts) {
  const test::ScratchFolder folder;
  Image image{7, 5, {}};
  for (int i = 0; i < 3 * 7 * 5; ++i) image.rgb.push_back(std::uint8_t(37 * i));
  std::ofstream(folder.file("a.png"), std::ios::binary) << png(image, {{"Description", "what"}});
  const StoredPicture read = read_picture(folder.file("a.png"));
  ASSERT_EQ(read.width, 7);
  ASSERT_EQ(read.height, 5);
  EXPECT_EQ(read.texts.at("Description"), "what");
  for (int y = 0; y < 5; ++y)
    for (int x = 0; x < 7; ++x) {
      const Rgb8 wanted = at(image, x, y);
      for (int c = 0; c < 3; ++c) EXPECT_EQ(read.at(x, y)[c], wanted[c]);
    }
}

}  // namespace
}  // namespace felloe
