// SPDX-License-Identifier: GPL-3.0-or-later
// Pictures as PNG files.
#pragma once
#include <map>
#include <string>

#include "post/raster.h"

namespace felloe {

/// The bytes of a PNG file (ISO/IEC 15948), `texts` in it by their keys.
std::string png(const Image &, const std::map<std::string, std::string> &texts);

}  // namespace felloe
