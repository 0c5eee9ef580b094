// SPDX-License-Identifier: GPL-3.0-or-later
// Chooses the plane kernels that the processor can run, and spreads planes over the half sphere.
#include "post/plane_kernels.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <utility>
#include <vector>

#include "mesher/vec3.h"

namespace felloe {

extern const PlaneKernels plane_kernels_plain;
#ifdef __x86_64__
extern const PlaneKernels plane_kernels_avx512, plane_kernels_avx2;
#endif

namespace {

/// The icosahedron, every edge split in n, on the unit sphere.
class SplitIcosahedron {
 public:
  explicit SplitIcosahedron(int n) : n_(n) {
    const double g = 0.5 * (1 + std::sqrt(5.0));
    for (const double one : {-1.0, 1.0})
      for (const double golden : {-g, g})
        for (int axis = 0; axis < 3; ++axis) {
          Vec3 x{};
          x[(axis + 1) % 3] = one;
          x[(axis + 2) % 3] = golden;
          corners_.push_back(x);
        }
    for (int a = 0; a < 12; ++a)
      for (int b = a + 1; b < 12; ++b)
        for (int c = b + 1; c < 12; ++c)
          if (joined(a, b) && joined(b, c) && joined(c, a)) split({a, b, c});
  }
  const std::vector<Vec3> &points() const { return points_; }
  const std::vector<std::vector<int>> &neighbours() const { return neighbours_; }

 private:
  bool joined(int a, int b) const {
    return std::abs(norm(subtract(corners_[a], corners_[b])) - 2) < 0.1;
  }

  /// The point and its opposite are one plane.
  int place(const Vec3 &x) {
    const Vec3 n = scale(1 / norm(x), x);
    for (std::size_t i = 0; i < points_.size(); ++i)
      if (std::abs(dot(points_[i], n)) > 1 - 1e-6) return static_cast<int>(i);
    points_.push_back(n);
    neighbours_.emplace_back();
    return static_cast<int>(points_.size()) - 1;
  }

  void join(int a, int b) {
    for (const auto &[from, to] : {std::pair(a, b), std::pair(b, a)}) {
      auto &list = neighbours_[from];
      if (std::find(list.begin(), list.end(), to) == list.end()) list.push_back(to);
    }
  }

  void split(const std::array<int, 3> &face) {
    const auto at = [&](int i, int j) {
      const double u = double(i) / n_, v = double(j) / n_;
      return place(add(add(scale(1 - u - v, corners_[face[0]]), scale(u, corners_[face[1]])),
                       scale(v, corners_[face[2]])));
    };
    for (int i = 0; i < n_; ++i)
      for (int j = 0; i + j < n_; ++j) {
        const int a = at(i, j), b = at(i + 1, j), c = at(i, j + 1);
        join(a, b);
        join(b, c);
        join(c, a);
      }
  }

  int n_;
  std::vector<Vec3> corners_, points_;
  std::vector<std::vector<int>> neighbours_;
};

struct Grid {
  std::vector<double> normals;
  std::vector<int> neighbours;
  PlaneGrid grid;

  explicit Grid(int divisions) {
    constexpr int most_neighbours = 6;
    const SplitIcosahedron sphere(divisions);
    for (const Vec3 &x : sphere.points()) normals.insert(normals.end(), x.begin(), x.end());
    for (const auto &list : sphere.neighbours())
      for (std::size_t i = 0; i < most_neighbours; ++i)
        neighbours.push_back(list[i < list.size() ? i : 0]);
    grid = {static_cast<int>(sphere.points().size()), normals.data(), neighbours.data()};
  }
};

}  // namespace

const PlaneGrid &plane_grid() {
  static const Grid grid(6);
  return grid.grid;
}

const PlaneGrid &quick_plane_grid() {
  static const Grid grid(8);
  return grid.grid;
}

const PlaneGrid &fine_plane_grid() {
  static const Grid grid(12);
  return grid.grid;
}

int runnable_plane_kernels(NamedPlaneKernels (&found)[3]) {
  int n = 0;
  found[n++] = {"plain", &plane_kernels_plain};
#ifdef __x86_64__
  __builtin_cpu_init();
  if (__builtin_cpu_supports("avx2") && __builtin_cpu_supports("fma"))
    found[n++] = {"AVX2", &plane_kernels_avx2};
  if (__builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512dq") &&
      __builtin_cpu_supports("avx512vl") && __builtin_cpu_supports("avx512bw"))
    found[n++] = {"AVX-512", &plane_kernels_avx512};
#endif
  return n;
}

const PlaneKernels &plane_kernels() {
  static const PlaneKernels *const best = [] {
    NamedPlaneKernels found[3];
    return found[runnable_plane_kernels(found) - 1].kernels;
  }();
  return *best;
}

}  // namespace felloe
