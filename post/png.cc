// SPDX-License-Identifier: GPL-3.0-or-later
#include "post/png.h"

#include <libdeflate.h>

#include <cstdint>

#include "post/detail/deflate.h"

namespace felloe {
namespace {

std::string big_endian(std::uint32_t v) {
  return {char(v >> 24), char(v >> 16), char(v >> 8), char(v)};
}

std::string chunk(const std::string &type, const std::string &data) {
  const std::string body = type + data;
  return big_endian(static_cast<std::uint32_t>(data.size())) + body +
         big_endian(libdeflate_crc32(0, body.data(), body.size()));
}

/// Every row as its difference to the one above: filter type 2. Flat ground becomes zeros, shades
/// small numbers; trying all five filters costs more than it saves.
std::string filtered(const Image &image) {
  const std::size_t row = 3 * std::size_t(image.width);
  std::string out((row + 1) * image.height, '\2');
  for (int y = 0; y < image.height; ++y) {
    const std::uint8_t *now = &image.rgb[row * y], *above = now - row;
    char *to = &out[(row + 1) * y + 1];
    for (std::size_t i = 0; i < row; ++i) to[i] = char(y > 0 ? now[i] - above[i] : now[i]);
  }
  return out;
}

}  // namespace

std::string png(const Image &image, const std::map<std::string, std::string> &texts) {
  constexpr int level = 4;
  const std::string eight_bits_rgb{8, 2, 0, 0, 0};
  std::string out = "\x89PNG\r\n\x1a\n";
  out += chunk("IHDR", big_endian(image.width) + big_endian(image.height) + eight_bits_rgb);
  for (const auto &[key, words] : texts) out += chunk("tEXt", key + '\0' + words);
  const std::string rows = filtered(image);
  out += chunk("IDAT", detail::zlib_stream(rows.data(), rows.size(), level));
  return out + chunk("IEND", "");
}

}  // namespace felloe
