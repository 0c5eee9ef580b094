// SPDX-License-Identifier: GPL-3.0-or-later
// The only file that speaks with Gmsh: double-size mesh, then split into quads.
#include "mesher/planar_fill.h"

#include <gmsh.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace felloe {
namespace {

/// Triangles (fourth corner -1) and quads of the double-size mesh; the first nodes are the coarse
/// nodes of the loops.
struct CoarseCells {
  std::vector<Vec2> nodes;
  std::vector<std::array<int, 4>> cells;
};

/// Gmsh has one global state: it is opened once, silent, and closed with the program.
class Gmsh {
 public:
  static Gmsh &instance() {
    static Gmsh gmsh;
    return gmsh;
  }
  CoarseCells mesh(const std::vector<std::vector<Vec2>> &loops, const FillTrial &trial);

 private:
  Gmsh() {
    gmsh::initialize();
    const std::pair<const char *, double> options[] = {
        {"General.Terminal", 0},        {"General.AbortOnError", 0},
        {"General.NumThreads", 1},      {"Mesh.MeshSizeExtendFromBoundary", 1},
        {"Mesh.MeshSizeFromPoints", 1}, {"Mesh.MeshSizeFromCurvature", 0},
        {"Mesh.RecombineAll", 0},       {"Mesh.SubdivisionAlgorithm", 0},
        {"Mesh.Smoothing", 5},          {"Geometry.AutoCoherence", 0},
        {"Mesh.RandomFactor", 1e-9}};
    for (const auto &[name, value] : options) gmsh::option::setNumber(name, value);
  }
  ~Gmsh() { gmsh::finalize(); }
  Gmsh(const Gmsh &) = delete;
  Gmsh &operator=(const Gmsh &) = delete;

  void add_region(const std::vector<std::vector<Vec2>> &loops);
  static CoarseCells read_cells(std::size_t n_points);
};

/// Each boundary edge becomes a line of its own with one element.
void Gmsh::add_region(const std::vector<std::vector<Vec2>> &loops) {
  int point = 0, line = 0;
  std::vector<int> loop_tags;
  for (const auto &loop : loops) {
    const int n = static_cast<int>(loop.size()), first = point + 1;
    for (int i = 0; i < n; ++i) {
      const Vec2 &p = loop[i], &a = loop[(i + n - 1) % n], &b = loop[(i + 1) % n];
      const double size =
          0.5 * (std::hypot(p[0] - a[0], p[1] - a[1]) + std::hypot(b[0] - p[0], b[1] - p[1]));
      gmsh::model::geo::addPoint(p[0], p[1], 0, size, ++point);
    }
    std::vector<int> lines;
    for (int i = 0; i < n; ++i) {
      gmsh::model::geo::addLine(first + i, first + (i + 1) % n, ++line);
      lines.push_back(line);
    }
    loop_tags.push_back(
        gmsh::model::geo::addCurveLoop(lines, static_cast<int>(loop_tags.size()) + 1));
  }
  gmsh::model::geo::addPlaneSurface(loop_tags, 1);
  gmsh::model::geo::synchronize();
  for (int i = 1; i <= line; ++i) gmsh::model::mesh::setTransfiniteCurve(i, 2);
  gmsh::model::mesh::setRecombine(2, 1);
}

CoarseCells Gmsh::read_cells(std::size_t n_points) {
  CoarseCells result;
  std::map<std::size_t, int> index;
  std::vector<std::size_t> tags;
  std::vector<double> coordinates, parameters;
  const auto take = [&] {
    for (std::size_t i = 0; i < tags.size(); ++i)
      if (index.emplace(tags[i], static_cast<int>(result.nodes.size())).second)
        result.nodes.push_back({coordinates[3 * i], coordinates[3 * i + 1]});
  };
  for (std::size_t p = 1; p <= n_points; ++p) {
    gmsh::model::mesh::getNodes(tags, coordinates, parameters, 0, static_cast<int>(p));
    take();
  }
  if (result.nodes.size() != n_points) return {};
  gmsh::model::mesh::getNodes(tags, coordinates, parameters, 2, 1);
  take();
  for (const int corners : {3, 4}) {
    std::vector<std::size_t> cells, cell_nodes;
    gmsh::model::mesh::getElementsByType(corners - 1, cells, cell_nodes);  // types 2 and 3
    for (std::size_t c = 0; c < cells.size(); ++c) {
      std::array<int, 4> cell = {-1, -1, -1, -1};
      for (int v = 0; v < corners; ++v) {
        const auto found = index.find(cell_nodes[corners * c + v]);
        if (found == index.end()) return {};
        cell[v] = found->second;
      }
      result.cells.push_back(cell);
    }
  }
  return result;
}

CoarseCells Gmsh::mesh(const std::vector<std::vector<Vec2>> &loops, const FillTrial &trial) {
  std::size_t n_points = 0;
  for (const auto &loop : loops) n_points += loop.size();
  CoarseCells result;
  try {
    gmsh::clear();
    gmsh::option::setNumber("Mesh.Algorithm", trial.algorithm);
    gmsh::option::setNumber("Mesh.RecombinationAlgorithm", trial.blossom ? 1 : 0);
    add_region(loops);
    gmsh::model::mesh::generate(2);
    result = read_cells(n_points);
  } catch (...) {  // Gmsh throws std::string; the caller has other trials
    result = {};
  }
  gmsh::clear();
  return result;
}

/// Splits cells at the midpoints of their edges. Midpoints on the loops are the prescribed nodes.
class Splitter {
 public:
  explicit Splitter(const std::vector<std::vector<Vec2>> &loops) {
    for (const auto &loop : loops) {
      const int first = static_cast<int>(mesh_.nodes.size()), n = static_cast<int>(loop.size());
      mesh_.nodes.insert(mesh_.nodes.end(), loop.begin(), loop.end());
      const int coarse = static_cast<int>(fine_of_coarse_.size());
      for (int i = 0; i < n; i += 2) fine_of_coarse_.push_back(first + i);
      for (int i = 0; i < n / 2; ++i)
        middle_[std::minmax(coarse + i, coarse + (i + 1) % (n / 2))] = first + 2 * i + 1;
    }
    n_prescribed_middles_ = middle_.size();
  }

  PlanarQuads split(const CoarseCells &coarse) {
    for (std::size_t i = fine_of_coarse_.size(); i < coarse.nodes.size(); ++i)
      fine_of_coarse_.push_back(add(coarse.nodes[i]));
    std::map<std::pair<int, int>, int> uses;
    for (auto cell : coarse.cells) {
      const int n = cell[3] < 0 ? 3 : 4;
      double area = 0;
      Vec2 centre{};
      for (int v = 0; v < n; ++v) {
        const Vec2 &p = coarse.nodes[cell[v]], &q = coarse.nodes[cell[(v + 1) % n]];
        area += p[0] * q[1] - p[1] * q[0];
        for (int d = 0; d < 2; ++d) centre[d] += p[d] / n;
      }
      if (area < 0) std::reverse(cell.begin(), cell.begin() + n);
      const int c = add(centre);
      std::array<int, 4> mid{};
      for (int v = 0; v < n; ++v) {
        const std::pair<int, int> edge = std::minmax(cell[v], cell[(v + 1) % n]);
        ++uses[edge];
        mid[v] = middle(edge, coarse);
      }
      for (int v = 0; v < n; ++v)
        mesh_.quads.push_back({fine_of_coarse_[cell[v]], mid[v], c, mid[(v + n - 1) % n]});
    }
    return boundary_is_exact(uses) ? mesh_ : PlanarQuads{};
  }

 private:
  int add(const Vec2 &p) {
    mesh_.nodes.push_back(p);
    return static_cast<int>(mesh_.nodes.size()) - 1;
  }
  int middle(const std::pair<int, int> &edge, const CoarseCells &coarse) {
    const auto found = middle_.find(edge);
    if (found != middle_.end()) return found->second;
    const Vec2 &p = coarse.nodes[edge.first], &q = coarse.nodes[edge.second];
    return middle_[edge] = add({0.5 * (p[0] + q[0]), 0.5 * (p[1] + q[1])});
  }
  /// Prescribed edges belong to one cell, all others to two.
  bool boundary_is_exact(const std::map<std::pair<int, int>, int> &uses) const {
    std::size_t single = 0;
    for (const auto &[edge, n] : uses) {
      const bool prescribed = middle_.at(edge) < n_boundary();
      if (n != (prescribed ? 1 : 2)) return false;
      single += prescribed;
    }
    return single == n_prescribed_middles_;
  }
  int n_boundary() const { return 2 * static_cast<int>(n_prescribed_middles_); }

  PlanarQuads mesh_;
  std::vector<int> fine_of_coarse_;
  std::map<std::pair<int, int>, int> middle_;
  std::size_t n_prescribed_middles_ = 0;
};

}  // namespace

std::vector<FillTrial> fill_trials() {
  return {{6, false}, {6, true}, {5, false}, {5, true}, {11, false}, {11, true}};
}

PlanarQuads planar_fill(const std::vector<std::vector<Vec2>> &loops, const FillTrial &trial) {
  std::vector<std::vector<Vec2>> coarse_loops;
  for (const auto &loop : loops) {
    coarse_loops.emplace_back();
    for (std::size_t i = 0; i < loop.size(); i += 2) coarse_loops.back().push_back(loop[i]);
    if (loop.size() % 2 != 0 || coarse_loops.back().size() < 3) return {};
  }
  const CoarseCells coarse = Gmsh::instance().mesh(coarse_loops, trial);
  if (coarse.cells.empty()) return {};
  return Splitter(loops).split(coarse);
}

}  // namespace felloe
