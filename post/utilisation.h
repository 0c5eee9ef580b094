// SPDX-License-Identifier: GPL-3.0-or-later
// Share of the allowed stress, and life, over the whole wheel, each place by its own curve.
#pragma once
#include <vector>

#include "post/hot_spots.h"
#include "post/pictures.h"

namespace felloe {

/// Share of the allowed stress at every node [%], each by the curve of its place: edges of holes by
/// that of their finish and side, all else by parent metal. Over 100 fails. At the hot spots it is
/// their utilisation().
/// @param spots  of this test; where the gradient's support counts, their places have its share
std::vector<double> utilisation_of_nodes(const Mesh &, const std::vector<RatedPlace> &,
                                         const NodeRatings &, const RatingRules &,
                                         const std::vector<HotSpot> &spots, double required_cycles);

/// Design lives of the nodes by the curves of their places, in place of those by parent metal: at
/// the hot spots they are theirs.
void rate_by_places(const Mesh &, const std::vector<RatedPlace> &, const RatingRules &,
                    const std::vector<HotSpot> &spots, double required_cycles, NodeRatings &);

/// Share of the allowed stress along weld toes, whose structural stress meets the curve of the
/// weld: one closed line a toe, all round the wheel.
std::vector<ValueLine> utilisation_of_toes(const Mesh &, const std::vector<RatedPlace> &,
                                           const TurnHistory &, const RatingRules &,
                                           double required_cycles);

}  // namespace felloe
