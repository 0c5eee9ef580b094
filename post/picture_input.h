// SPDX-License-Identifier: GPL-3.0-or-later
// Reads back the pictures that a run has drawn.
#pragma once
#include <array>
#include <map>
#include <string>
#include <vector>

namespace felloe {

struct StoredPicture {
  int width = 0, height = 0;
  std::vector<std::array<int, 3>> pixels;  ///< row by row, the lowest first
  /// "Description", "pixels per mm", "scale bar mm", "colour maximum"
  std::map<std::string, std::string> texts;

  const std::array<int, 3> &at(int x, int y) const {
    return pixels[static_cast<std::size_t>(y) * width + x];
  }
};

/// Error when the file is missing or no PNG.
StoredPicture read_picture(const std::string &path);

}  // namespace felloe
