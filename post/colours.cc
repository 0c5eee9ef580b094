// SPDX-License-Identifier: GPL-3.0-or-later
// Colours of stress in pictures and on screens.
#include "post/colours.h"

#include <algorithm>
#include <cmath>

namespace felloe {

double round_scale_end(double value) {
  const double power = std::pow(10.0, std::floor(std::log10(value)));
  for (const double factor : {1.0, 1.2, 1.4, 1.6, 1.8, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0})
    if (factor * power >= value * (1 - 1e-9)) return factor * power;
  return 10 * power;
}

// Eight of nine points of the map "magma" (S. van der Walt, N. Smith, 2015, CC0), light end first:
// perceptually uniform, safe for the colour-blind, readable in grey. Light where stress is low, so
// that the shading shows the shape of the wheel; its black end is left out.
Rgb scale_colour(double fraction) {
  constexpr std::array<unsigned, 8> points{0xfcfdbf, 0xfec287, 0xfb8861, 0xe65164,
                                           0xb63679, 0x822681, 0x51127c, 0x1d1147};
  const double place = 7 * std::clamp(fraction, 0.0, 1.0);
  const int below = std::min(6, static_cast<int>(place));
  const auto channel = [](unsigned colour, int c) {
    return (colour >> (16 - 8 * c) & 0xff) / 255.0;
  };
  Rgb colour;
  for (int c = 0; c < 3; ++c) {
    const double low = channel(points[below], c), high = channel(points[below + 1], c);
    colour[c] = low + (place - below) * (high - low);
  }
  return colour;
}

}  // namespace felloe
