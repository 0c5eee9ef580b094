// SPDX-License-Identifier: GPL-3.0-or-later
// One face for the direct and the matrix-free solver.
#pragma once
#include <map>
#include <memory>
#include <string>
#include <variant>
#include <vector>

#include "solver/elastic_model.h"
#include "solver/matrix_free_model.h"

namespace felloe {

/// What both models can do: solve for loads under supports.
class AnyModel {
 public:
  /// Of the iteration. Leaves 1e-7 of the stress at hot spots of a wheel, and less than 1e-8
  /// between one process and several.
  static constexpr double tolerance = 1e-10;

  AnyModel(bool matrix_free, const Mesh &, const std::map<Part, Material> &,
           NodalFrame = NodalFrame::cartesian);

  /// See ElasticModel::solve() and MatrixFreeModel::solve().
  std::vector<Solution> solve(const Supports &, const std::vector<LoadCase> &) const;

  /// See ElasticModel::stresses_only_at(); the matrix-free solver gives all stresses.
  void stresses_only_at(std::vector<bool> nodes);

  long dofs() const;
  int iterations(std::size_t load) const;  ///< of the latest solve; 0: direct
  /// How the latest solve went: "direct, half sectors", "direct, sectors", "direct, whole" or
  /// "matrix free".
  std::string path() const;
  /// For what the direct solver alone can do; null: matrix free.
  const ElasticModel *direct() const { return std::get_if<ElasticModel>(&model_); }

 private:
  std::variant<ElasticModel, MatrixFreeModel> model_;
};

}  // namespace felloe
