// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/any_model.h"

#include <utility>

namespace felloe {
namespace {

std::variant<ElasticModel, MatrixFreeModel> made(bool matrix_free, const Mesh &mesh,
                                                 const std::map<Part, Material> &materials,
                                                 NodalFrame frame) {
  MatrixFreeSettings settings;
  settings.tolerance = AnyModel::tolerance;
  if (matrix_free) return MatrixFreeModel(mesh, materials, frame, settings);
  return ElasticModel(mesh, materials, frame);
}

}  // namespace

AnyModel::AnyModel(bool matrix_free, const Mesh &mesh, const std::map<Part, Material> &materials,
                   NodalFrame frame)
    : model_(made(matrix_free, mesh, materials, frame)) {}

std::vector<Solution> AnyModel::solve(const Supports &supports,
                                      const std::vector<LoadCase> &loads) const {
  return std::visit([&](const auto &model) { return model.solve(supports, loads); }, model_);
}

void AnyModel::stresses_only_at(std::vector<bool> nodes) {
  if (auto *model = std::get_if<ElasticModel>(&model_)) model->stresses_only_at(std::move(nodes));
}

long AnyModel::dofs() const {
  return std::visit([](const auto &model) { return model.figures().dofs; }, model_);
}

int AnyModel::iterations(std::size_t load) const {
  const auto *model = std::get_if<MatrixFreeModel>(&model_);
  return model && load < model->figures().iterations.size() ? model->figures().iterations[load] : 0;
}

std::string AnyModel::path() const {
  const ElasticModel *model = direct();
  if (!model) return "matrix free";
  const SolveFigures &f = model->figures();
  return f.mirrored ? "direct, half sectors" : f.sectors > 1 ? "direct, sectors" : "direct, whole";
}

}  // namespace felloe
