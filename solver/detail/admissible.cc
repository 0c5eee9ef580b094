// SPDX-License-Identifier: GPL-3.0-or-later
// Held components vanish, tied ones are averaged, the adapter's follow its motions.
#include "solver/detail/admissible.h"

#include <algorithm>
#include <map>

#include "solver/detail/dense.h"

namespace felloe::detail {
namespace {

template <class T>
double component(const Direction &d, const T *u) {
  return d.axis[0] * u[d.at] + d.axis[1] * u[d.at + 1] + d.axis[2] * u[d.at + 2];
}

template <class T>
void add_component(const Direction &d, double value, T *u) {
  for (int i = 0; i < 3; ++i) u[d.at + i] += static_cast<T>(value * d.axis[i]);
}

}  // namespace

Admissible::Admissible(const CellColumns &columns, const std::vector<Axes> &axes,
                       const ConstraintMap &map, const NodeExchange &exchange)
    : exchange_(exchange), has_adapter_(!map.adapter_components.empty()) {
  const long n_owned = 3L * columns.n_owned_places();
  const auto direction = [&](long u) -> Direction {
    return {3L * columns.place[u / 3], axes[u / 3][u % 3]};
  };
  std::vector<int> n_of_master(map.n_masters, 0);
  for (std::size_t u = 0; u < map.unknown.size(); ++u) {
    if (map.unknown[u] >= 0) ++n_of_master[map.unknown[u]];
    if (columns.place[u / 3] < 0) continue;
    if (map.unknown[u] == ConstraintMap::held) held_.push_back(direction(u));
  }
  std::map<int, std::vector<Direction>> tied;
  for (std::size_t u = 0; u < map.unknown.size(); ++u)
    if (map.unknown[u] >= 0 && n_of_master[map.unknown[u]] > 1 && columns.place[u / 3] >= 0)
      if (const Direction d = direction(u); d.at < n_owned) tied[map.unknown[u]].push_back(d);
  for (auto &[master, members] : tied) ties_.push_back(std::move(members));

  std::array<double, 36> gram{};
  for (const auto &row : map.adapter_rows)
    for (int i = 0; i < 6; ++i)
      for (int j = 0; j < 6; ++j) gram[6 * i + j] += row[i] * row[j];
  for (const bool owned : {true, false}) {
    for (std::size_t k = 0; k < map.adapter_components.size(); ++k) {
      if (columns.place[map.adapter_components[k] / 3] < 0) continue;
      const Direction d = direction(map.adapter_components[k]);
      if ((d.at < n_owned) != owned) continue;
      adapter_.push_back(d);
      rows_.push_back(map.adapter_rows[k]);
    }
    if (owned) n_owned_ = adapter_.size();
  }
  if (!has_adapter_) return;
  invert(gram.data(), 6);
  for (int i = 0; i < 6; ++i)
    for (int j = 0; j < 6; ++j) inverse_[i][j] = gram[6 * i + j];
}

/// The motions whose rigid displacement is nearest to f.
template <class T>
std::array<double, 6> Admissible::moments(const T *f) const {
  std::array<double, 6> sum{}, motion{};
  for (std::size_t k = 0; k < n_owned_; ++k) {
    const double value = component(adapter_[k], f);
    for (int m = 0; m < 6; ++m) sum[m] += rows_[k][m] * value;
  }
  exchange_.sum(sum.data(), sum.size());
  for (int i = 0; i < 6; ++i)
    for (int j = 0; j < 6; ++j) motion[i] += inverse_[i][j] * sum[j];
  return motion;
}

template <class T>
void Admissible::project(T *u) const {
  for (const Direction &d : held_) add_component(d, -component(d, u), u);
  for (const auto &tie : ties_) {
    double mean = 0;
    for (const Direction &d : tie) mean += component(d, u) / static_cast<double>(tie.size());
    for (const Direction &d : tie) add_component(d, mean - component(d, u), u);
  }
  if (!has_adapter_) return;
  const std::array<double, 6> motion = moments(u);
  for (std::size_t k = 0; k < n_owned_; ++k) {
    double value = 0;
    for (int m = 0; m < 6; ++m) value += rows_[k][m] * motion[m];
    add_component(adapter_[k], value - component(adapter_[k], u), u);
  }
}

template void Admissible::project(double *) const;
template void Admissible::project(float *) const;

std::array<double, 6> Admissible::motion(const double *u) const {
  return !has_adapter_ ? std::array<double, 6>{} : moments(u);
}

void Admissible::add_adapter_load(const std::array<double, 6> &load, double *f) const {
  if (!has_adapter_) return;
  std::array<double, 6> weights{};
  for (int i = 0; i < 6; ++i)
    for (int j = 0; j < 6; ++j) weights[i] += inverse_[i][j] * load[j];
  for (std::size_t k = 0; k < n_owned_; ++k) {
    double value = 0;
    for (int m = 0; m < 6; ++m) value += rows_[k][m] * weights[m];
    add_component(adapter_[k], value, f);
  }
}

}  // namespace felloe::detail
