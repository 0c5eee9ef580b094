// SPDX-License-Identifier: GPL-3.0-or-later
// Pictures of a page: small, and hardly any pixel away from the PNG file they come from.
#include "post/webp.h"

#include <gtest/gtest.h>
#include <webp/decode.h>

#include <cmath>
#include <stdexcept>

#include "post/png.h"

namespace felloe {
namespace {

/// Shades as of a curved surface under light, from yellow to violet, on white.
Image shaded_disc(int size) {
  Image image;
  image.width = image.height = size;
  image.rgb.assign(3 * std::size_t(size) * size, 255);
  for (int y = 0; y < size; ++y)
    for (int x = 0; x < size; ++x) {
      const double r = std::hypot(x - size / 2.0, y - size / 2.0) / (size / 2.0);
      if (r > 1) continue;
      std::uint8_t *pixel = &image.rgb[3 * (std::size_t(y) * size + x)];
      pixel[0] = std::uint8_t(250 - 120 * r);
      pixel[1] = std::uint8_t(230 * (1 - r));
      pixel[2] = std::uint8_t(110 + 60 * std::sin(4 * r));
    }
  return image;
}

TEST(Webp, IsTheSamePictureInAThirdOfTheBytes) {
  const Image image = shaded_disc(400);
  const std::string file = png(image, {});
  const WebpPicture webp = webp_of_png(file);
  EXPECT_EQ(webp.width, 400);
  EXPECT_EQ(webp.height, 400);
  EXPECT_LT(webp.bytes.size(), file.size() / 3);
  int width = 0, height = 0;
  std::uint8_t *rgb = WebPDecodeRGB(reinterpret_cast<const std::uint8_t *>(webp.bytes.data()),
                                    webp.bytes.size(), &width, &height);
  ASSERT_NE(rgb, nullptr);
  ASSERT_EQ(width, 400);
  ASSERT_EQ(height, 400);
  double squares = 0;
  for (std::size_t i = 0; i < image.rgb.size(); ++i)
    squares += std::pow(double(rgb[i]) - image.rgb[i], 2);
  WebPFree(rgb);
  // 40 dB of signal to noise, which is called visually without loss: 255 / 10^(40 / 20).
  EXPECT_LT(std::sqrt(squares / double(image.rgb.size())), 2.55);
}

TEST(Webp, RefusesWhatIsNoPicture) {
  const std::string file = png(shaded_disc(40), {});
  EXPECT_THROW(webp_of_png("no picture"), std::runtime_error);
  EXPECT_THROW(webp_of_png(""), std::runtime_error);
  EXPECT_THROW(webp_of_png(file.substr(0, file.size() / 2)), std::runtime_error);
}

}  // namespace
}  // namespace felloe
