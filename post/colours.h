// SPDX-License-Identifier: GPL-3.0-or-later
// Colours of stress in pictures and on screens.
#pragma once
#include <array>

namespace felloe {

using Rgb = std::array<double, 3>;  ///< 0 ... 1

/// Colour of a fraction 0 ... 1 of the scale: light where the stress is low.
Rgb scale_colour(double fraction);

/// Values above the scale; no colour of the scale comes near it.
constexpr Rgb beyond_scale{0.0, 0.72, 0.92};
/// Surfaces whose stress may not be judged.
constexpr Rgb not_rated_grey{0.66, 0.67, 0.69};

// Okabe and Ito, Color Universal Design, 2008: distinct for every kind of colour vision. Verdicts
// are also said in words.
constexpr Rgb failing{0.835, 0.369, 0.0}, passing{0.0, 0.45, 0.35}, held_blue{0.0, 0.447, 0.698};

/// A round number with 0 < value <= it, for the upper end of a scale.
double round_scale_end(double value);

}  // namespace felloe
