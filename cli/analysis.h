// SPDX-License-Identifier: GPL-3.0-or-later
// From a case to everything that a run reports: mesh, unit solutions, rated hot spots.
#pragma once
#include <string>
#include <vector>

#include "cli/case.h"
#include "cli/progress.h"
#include "mesher/layout.h"
#include "mesher/mesh.h"
#include "post/gauges.h"
#include "post/hot_spots.h"
#include "post/pictures.h"
#include "post/results.h"
#include "post/stored_histories.h"
#include "post/surface_quads.h"
#include "post/turn_fields.h"
#include "solver/any_model.h"

namespace felloe {

/// Fields over the whole mesh under one rig test.
struct TestFields {
  std::string test;
  NodeRatings nodes;
  Held held = Held::plate;
  std::vector<double> utilisation{};  ///< of the nodes [%]; empty: not rated, or restored
  std::vector<ValueLine> toes{};      ///< utilisation along weld toes [%]
  // for files only:
  std::vector<Vec3> displacement{};  ///< in one state of the turn [mm]
  std::string state{};               ///< which one
  TurnFields turn{};                 ///< at `Analysis::surface`
};

/// Files need more than figures: shapes and turns.
enum class Purpose { figures, files };

struct Analysis {
  WheelLayout layout;
  Mesh mesh;
  std::vector<Solution> shown;     ///< load cases that go to the field files, scaled as reported
  std::vector<TestFields> fields;  ///< one a rig test
  SurfaceQuads surface;            ///< coarse, for the turns
  Results results;
  std::map<Held, std::vector<RatedPlace>> places;  ///< see places_of()
  StoredHistories histories;                       ///< of a welded wheel, for rating again
  bool restored = false;  ///< from those: stresses at the nodes of rated places alone
  bool gradients = true;  ///< of a restored one: stresses of all nodes round them too
  std::map<std::string, StrainGauge> gauges;  ///< found or restored, see read_gauges()
};

/// Solves and rates a welded wheel under its rig tests, or a plain disc under its plate loads.
/// Throws Error when the case cannot be meshed or a solve fails its checks.
Analysis analyse(const Case &, Progress &, Purpose = Purpose::figures);

/// The two constructions; analyse() chooses.
Analysis analyse_wheel(const Case &, Progress &, Purpose);
Analysis analyse_plate(const Case &, Progress &);

/// Shared first steps: layout, mesh with its checks, and the mesh's figures in the results.
Analysis meshed(const Case &, Progress &);
/// Shared: figures of solved load cases into the results.
/// @param iterated  the model that has just solved them, where it may be the matrix-free one
void report_load_cases(Analysis &, const std::vector<LoadCase> &, const std::vector<Solution> &,
                       double seconds, const AnyModel *iterated = nullptr);

}  // namespace felloe
