// SPDX-License-Identifier: GPL-3.0-or-later
#include "post/webp.h"

#include <png.h>
#include <webp/encode.h>

#include <cstdint>
#include <stdexcept>
#include <vector>

namespace felloe {
namespace {

struct Pixels {
  int width = 0, height = 0;
  std::vector<std::uint8_t> rgb;
};

Pixels decoded(const std::string &png) {
  png_image image{};
  image.version = PNG_IMAGE_VERSION;
  if (png_image_begin_read_from_memory(&image, png.data(), png.size()) == 0)
    throw std::runtime_error(std::string("not a PNG picture: ") + image.message);
  image.format = PNG_FORMAT_RGB;
  const png_color white{255, 255, 255};  // where it is transparent
  Pixels out{int(image.width), int(image.height), std::vector<std::uint8_t>(PNG_IMAGE_SIZE(image))};
  if (png_image_finish_read(&image, &white, out.rgb.data(), 0, nullptr) == 0)
    throw std::runtime_error(std::string("a damaged PNG picture: ") + image.message);
  return out;
}

}  // namespace

WebpPicture webp_of_png(const std::string &png) {
  constexpr float quality = 90;  // small writing stays crisp
  constexpr int effort = 0;      // more takes twice the time for a few percent of the bytes
  const Pixels pixels = decoded(png);
  WebPConfig config;
  WebPPicture picture;
  WebPMemoryWriter out;
  if (!WebPConfigPreset(&config, WEBP_PRESET_DEFAULT, quality) || !WebPPictureInit(&picture))
    throw std::runtime_error("libwebp is of another version than its headers");
  config.method = effort;
  picture.width = pixels.width;
  picture.height = pixels.height;
  picture.writer = WebPMemoryWrite;
  picture.custom_ptr = &out;
  WebPMemoryWriterInit(&out);
  const bool made = WebPPictureImportRGB(&picture, pixels.rgb.data(), 3 * pixels.width) &&
                    WebPEncode(&config, &picture);
  WebpPicture result{made ? std::string(reinterpret_cast<const char *>(out.mem), out.size) : "",
                     pixels.width, pixels.height};
  WebPPictureFree(&picture);
  WebPMemoryWriterClear(&out);
  if (!made) throw std::runtime_error("a picture could not be compressed");
  return result;
}

}  // namespace felloe
