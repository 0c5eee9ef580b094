// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/detail/load_images.h"

#include <algorithm>
#include <cmath>

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

/// A load, and the size of its part on each wedge and of all.
struct SizedLoad {
  const SparseVector &load;
  std::vector<std::size_t> begins;
  std::vector<double> size;
  double whole = 0;

  SizedLoad(const SparseVector &l, long n, int n_wedges)
      : load(l), begins(part_begins(l, n, n_wedges)) {
    double sum = 0;
    for (int w = 0; w < n_wedges; ++w) {
      double square = 0;
      for (std::size_t e = begins[w]; e < begins[w + 1]; ++e) square += l.value[e] * l.value[e];
      size.push_back(std::sqrt(square));
      sum += square;
    }
    whole = std::sqrt(sum);
  }
};

double square_of_difference(const SizedLoad &a, int wedge_a, const SizedLoad &b, int wedge_b,
                            long n) {
  double sum = 0;
  const auto add = [&](double x) { sum += x * x; };
  std::size_t i = a.begins[wedge_a], j = b.begins[wedge_b];
  const std::size_t end_i = a.begins[wedge_a + 1], end_j = b.begins[wedge_b + 1];
  const long shift = n * (wedge_b - wedge_a);
  while (i < end_i || j < end_j) {
    const bool only_a = j == end_j || (i < end_i && a.load.at[i] + shift < b.load.at[j]);
    const bool only_b = i == end_i || (j < end_j && b.load.at[j] < a.load.at[i] + shift);
    if (only_a)
      add(a.load.value[i++]);
    else if (only_b)
      add(b.load.value[j++]);
    else
      add(a.load.value[i++] - b.load.value[j++]);
  }
  return sum;
}

}  // namespace

std::vector<LoadImage> no_images(int n_loads, int n_wedges) {
  std::vector<LoadImage> images(n_loads);
  for (int l = 0; l < n_loads; ++l) images[l] = {l, motions(n_wedges).front()};
  return images;
}

std::vector<LoadImage> load_images(const std::vector<SparseVector> &loads, long n, int n_wedges) {
  const int n_loads = static_cast<int>(loads.size());
  const auto all_motions = motions(n_wedges);
  std::vector<SizedLoad> sized;
  for (const SparseVector &load : loads) sized.emplace_back(load, n, n_wedges);
  const auto is_image = [&](int l, int o, const std::vector<int> &motion) {
    const SizedLoad &load = sized[l], &original = sized[o];
    const double limit = equal * original.whole;
    for (int w = 0; w < n_wedges; ++w)
      if (!(std::abs(load.size[w] - original.size[motion[w]]) <= limit)) return false;
    double sum = 0;
    for (int w = 0; w < n_wedges && sum <= limit * limit; ++w)
      sum += square_of_difference(load, w, original, motion[w], n);
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
