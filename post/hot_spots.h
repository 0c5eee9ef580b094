// SPDX-License-Identifier: GPL-3.0-or-later
// The worst point of every rated place under a rig test, and the whole-surface fields behind it.
#pragma once
#include <map>
#include <string>
#include <vector>

#include "post/criteria.h"
#include "post/rated_places.h"
#include "post/rating.h"
#include "post/sn_curve.h"
#include "post/surface_state.h"
#include "post/turn_history.h"
#include "post/weld_residual_stress.h"
#include "solver/material.h"

namespace felloe {

/// What turns stress into life, the same for all tests of a run.
struct RatingRules {
  const FatigueCriterion *criterion = nullptr;
  const MeanStressRule *mean_stress = nullptr;  ///< none: FKM
  double survival = 0.9;  ///< asked survival probability of the design life [-]
  std::map<Part, Material> materials;
  double roughness_rz = 0;         ///< of sheet faces [um]
  double sheared_edge_factor = 1;  ///< on the fatigue limit of sheared edges [-]
  std::string vent_edges = "sheared", bolt_edges = "sheared";  ///< rows of edge_finishes()
  std::string burr_side;  ///< "outboard" or "inboard"; else: not known, every side counts as it
  std::string surface = "as delivered";  ///< row of surface_finishes()
  std::string weld_class;
  std::string weld_residual_stress = "high";  ///< row of weld_residual_stresses()
  std::map<Surface, SnCurve> own_curves;      ///< in place of the synthetic ones and the class
  /// The support of the computed stress gradient counts at places of parent metal (FKM linear);
  /// no: it is only said.
  bool notch_support = false;
};

/// The S-N curve that a kind of surface is rated with.
/// @param thickness  of the plate at a weld toe [mm]; 0: not thicker than 25 mm
SnCurve curve_for(const RatingRules &, Surface, Part, EdgeSide = EdgeSide::burr,
                  double thickness = 0);

/// Constants of a part's material for the criteria, with the rule for mean stress.
FatigueConstants constants_of(const RatingRules &, Part);

/// What every node feels and how long it lasts. Nodes of the weld and of other singular corners
/// included, for pictures only. Computed in one sector of the mesh's symmetry and copied round.
struct NodeRatings {
  std::vector<double> amplitude;       ///< largest normal-stress amplitude on any plane [MPa]
  std::vector<double> mean;            ///< mean normal stress on that plane [MPa]
  std::vector<double> fully_reversed;  ///< by the criterion of the rules [MPa]
  std::vector<double>
      life;                ///< design life on the parent-metal curve [cycles]; see rate_by_places()
  bool everywhere = true;  ///< no: at the nodes of rated places alone
  bool gradients = true;   ///< stresses round the places are known
};
NodeRatings node_ratings(const Mesh &, const TurnHistory &, const RatingRules &);

/// What hot_spots() needs of node_ratings() and no more: fully reversed stress of the places'
/// nodes, amplitude and mean of the worst of each place; zero elsewhere, life left empty. Same
/// values.
/// @param gradients  the turn knows the stresses of all cells round the places
NodeRatings place_ratings(const Mesh &, const std::vector<RatedPlace> &, const TurnHistory &,
                          const RatingRules &, bool gradients = false);

/// Fully reversed amplitude of the structural stress at every point of a weld toe [MPa].
std::vector<double> toe_stresses(const RatedPlace &, const TurnHistory &, const RatingRules &);

/// The half of an edge at the burr, and the other; one half, that counts as the burr's, where the
/// burr side is not known and for places that are no edge.
std::vector<std::pair<RatedPlace, EdgeSide>> rated_halves(const RatedPlace &, const Mesh &,
                                                          const RatingRules &);

/// One HotSpot for every place: its point of largest fully reversed equivalent stress, rated
/// against the required cycles. amplitude and mean are those of the normal stress, which a strain
/// gauge can see; the criterion decides the life. A plain face whose largest stress is only the
/// flank of a neighbouring place's hot spot gets none of its own. Not sorted; id is left 0.
std::vector<HotSpot> hot_spots(const WheelLayout &, const Mesh &, const std::vector<RatedPlace> &,
                               const TurnHistory &, const NodeRatings &, const RatingRules &,
                               double required_cycles);

}  // namespace felloe
