// SPDX-License-Identifier: GPL-3.0-or-later
// Pictures for pages: a quarter of the bytes of a PNG file.
#pragma once
#include <string>

namespace felloe {

struct WebpPicture {
  std::string bytes;  ///< of a WebP file (RFC 9649)
  int width = 0, height = 0;
};

/// The picture of a PNG file with losses that the eye does not find. std::runtime_error when it
/// cannot be read.
WebpPicture webp_of_png(const std::string &png);

}  // namespace felloe
