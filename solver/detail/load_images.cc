// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/detail/load_images.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "solver/detail/parallel.h"

namespace felloe::detail {
namespace {

constexpr double equal = 1e-12;

/// All motions of the ring into itself, the one that leaves everything where it is first.
std::vector<std::vector<int>> motions(int n_wedges) {
  std::vector<std::vector<int>> all;
  for (const bool mirrored : {false, true})
    for (int by = 0; by < n_wedges; by += 2) {
      std::vector<int> to(n_wedges);
      for (int w = 0; w < n_wedges; ++w)
        to[w] = ((mirrored ? 1 - w : w) + by + n_wedges) % n_wedges;
      all.push_back(std::move(to));
    }
  return all;
}

double square_of_difference(const double *a, const double *b, long n) {
  double sum = 0;
  for (long i = 0; i < n; ++i) sum += (a[i] - b[i]) * (a[i] - b[i]);
  return sum;
}

}  // namespace

std::vector<LoadImage> no_images(int n_loads, int n_wedges) {
  std::vector<LoadImage> images(n_loads);
  for (int l = 0; l < n_loads; ++l) images[l] = {l, motions(n_wedges).front()};
  return images;
}

std::vector<LoadImage> load_images(const std::vector<const double *> &loads, long n, int n_wedges) {
  const int n_loads = static_cast<int>(loads.size());
  const auto all_motions = motions(n_wedges);
  std::vector<std::vector<double>> size(n_loads, std::vector<double>(n_wedges));  // of each wedge
  std::vector<double> whole(n_loads);
  parallel_for(0, n_loads, [&](int l) {
    for (int w = 0; w < n_wedges; ++w)
      size[l][w] = std::sqrt(
          std::inner_product(loads[l] + n * w, loads[l] + n * (w + 1), loads[l] + n * w, 0.0));
    whole[l] = std::sqrt(std::inner_product(size[l].begin(), size[l].end(), size[l].begin(), 0.0));
  });
  const auto is_image = [&](int l, int o, const std::vector<int> &motion) {
    const double limit = equal * whole[o];
    for (int w = 0; w < n_wedges; ++w)
      if (!(std::abs(size[l][w] - size[o][motion[w]]) <= limit)) return false;
    double sum = 0;
    for (int w = 0; w < n_wedges && sum <= limit * limit; ++w)
      if (size[l][w] > 0)
        sum += square_of_difference(loads[l] + n * w, loads[o] + n * motion[w], n);
    return sum <= limit * limit;
  };
  std::vector<LoadImage> images = no_images(n_loads, n_wedges);
  std::vector<int> originals;
  for (int l = 0; l < n_loads; ++l) {
    for (std::size_t k = 0; k < originals.size() && images[l].original == l; ++k)
      for (const std::vector<int> &motion : all_motions)
        if (is_image(l, originals[k], motion)) {
          images[l] = {originals[k], motion};
          break;
        }
    if (images[l].original == l) originals.push_back(l);
  }
  return images;
}

}  // namespace felloe::detail
