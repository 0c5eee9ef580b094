// SPDX-License-Identifier: GPL-3.0-or-later
// Lines of cells by number, and the swing along each.
#include "post/stress_smoothing.h"

#include <algorithm>
#include <tuple>

namespace felloe {
namespace {

constexpr double tolerance = 1e-6;  // [mm]

/// Half of a cell's row: corner, middle, corner; once for every cell that has it.
struct Row {
  int middle, low, high, cell;
  auto key() const { return std::tie(middle, low, high); }
};

std::vector<Row> rows_of(const Mesh &mesh) {
  std::vector<Row> rows;
  for (int c = 0; c < static_cast<int>(mesh.cells.size()); ++c) {
    if (mesh.parts[c] == Part::weld) continue;
    const auto &n = mesh.cells[c];
    for (int level = 0; level < 27; level += 9)
      for (int i = 0; i < 3; ++i)
        for (const auto &[first, step] : {std::make_pair(3 * i, 1), std::make_pair(i, 3)}) {
          const int a = n[level + first], b = n[level + first + 2 * step];
          rows.push_back({n[level + first + step], std::min(a, b), std::max(a, b), c});
        }
  }
  std::sort(rows.begin(), rows.end(), [](const Row &a, const Row &b) {
    return std::tie(a.middle, a.low, a.high, a.cell) < std::tie(b.middle, b.low, b.high, b.cell);
  });
  return rows;
}

/// Rows as lines, with the cells round each, and the lines that end at a node.
class LineGraph {
 public:
  explicit LineGraph(const Mesh &mesh) : mesh_(mesh), rows_(rows_of(mesh)) {
    for (std::size_t i = 0; i < rows_.size(); ++i)
      if (i == 0 || rows_[i].key() != rows_[i - 1].key()) begin_.push_back(static_cast<int>(i));
    begin_.push_back(static_cast<int>(rows_.size()));
    first_.assign(mesh.nodes.size() + 1, 0);
    for (int l = 0; l < count(); ++l)
      for (const int n : {row(l).low, row(l).high}) ++first_[n + 1];
    for (std::size_t n = 0; n < mesh.nodes.size(); ++n) first_[n + 1] += first_[n];
    ending_.resize(first_.back());
    std::vector<int> at(first_.begin(), first_.end() - 1);
    for (int l = 0; l < count(); ++l)
      for (const int n : {row(l).low, row(l).high}) ending_[at[n]++] = l;
  }

  int count() const { return static_cast<int>(begin_.size()) - 1; }
  const Row &row(int line) const { return rows_[begin_[line]]; }

  /// The line that goes on beyond a node: of the same part, in other cells, the only one; or -1.
  int beyond(int line, int node) const {
    int found = -1;
    for (int e = first_[node]; e < first_[node + 1]; ++e) {
      const int other = ending_[e];
      if (other == line || mesh_.parts[row(other).cell] != mesh_.parts[row(line).cell] ||
          share_a_cell(line, other))
        continue;
      if (found >= 0) return -1;
      found = other;
    }
    return found;
  }

 private:
  bool share_a_cell(int a, int b) const {
    for (int i = begin_[a]; i < begin_[a + 1]; ++i)
      for (int j = begin_[b]; j < begin_[b + 1]; ++j)
        if (rows_[i].cell == rows_[j].cell) return true;
    return false;
  }

  const Mesh &mesh_;
  std::vector<Row> rows_;
  std::vector<int> begin_;           // of each line among the rows
  std::vector<int> first_, ending_;  // lines that end at each node
};

/// Where stress is singular next door, or read at a fixed distance from such a place.
std::vector<bool> kept_nodes(const WheelLayout &w, const Mesh &mesh) {
  std::vector<bool> kept(mesh.nodes.size(), false);
  for (std::size_t c = 0; c < mesh.cells.size(); ++c)
    if (mesh.parts[c] == Part::weld)
      for (const int n : mesh.cells[c]) kept[n] = true;
  const bool welded = w.wheel.construction == Construction::welded_disc;
  const double end = w.disc.length(), disc_t = w.disc.thickness().at(end);
  const double hub = w.hub_face_s > 0 ? w.hub_face_s + 0.5 * w.disc.thickness().at(0) : -1;
  const double rim_t = welded ? w.rim.thickness().at(w.rim_weld_toe_s) : 0;
  for (std::size_t n = 0; n < kept.size(); ++n) {
    const SheetPoint &p = mesh.node_points[n];
    if (mesh.node_parts[n] == Part::disc)
      kept[n] = kept[n] || (p.eta < -tolerance && p.s < hub + tolerance) ||
                (welded && p.s > end - disc_t - tolerance);
    else if (mesh.node_parts[n] == Part::rim && p.eta < -tolerance)
      kept[n] = kept[n] ||
                (p.s > w.rim_overlap_s0 - tolerance && p.s < w.rim_weld_toe_s + rim_t + tolerance);
  }
  return kept;
}

}  // namespace

StressSmoothing::StressSmoothing(const WheelLayout &layout, const Mesh &mesh)
    : kept_(kept_nodes(layout, mesh)) {
  const LineGraph graph(mesh);
  const auto length = [&](const Row &r) {
    return norm(subtract(mesh.nodes[r.high], mesh.nodes[r.low]));
  };
  for (int l = 0; l < graph.count(); ++l) {
    const Row &here = graph.row(l);
    const int before = graph.beyond(l, here.low), behind = graph.beyond(l, here.high);
    if (before < 0 || behind < 0) continue;
    const Row &a = graph.row(before), &b = graph.row(behind);
    Line line;
    line.nodes = {a.middle, here.low, here.middle, here.high, b.middle};
    if (std::any_of(line.nodes.begin(), line.nodes.end(), [&](int n) { return kept_[n]; }))
      continue;
    const double h = length(here), back = 0.5 * (length(a) + h), ahead = 0.5 * (length(b) + h);
    // h^2 / 8 times the second derivative from three values at uneven distances
    const double scale = 0.25 * h * h / (back + ahead);
    line.curvature = {scale / back, -scale / back - scale / ahead, scale / ahead};
    lines_.push_back(line);
  }
}

void StressSmoothing::apply(std::vector<Stress> &stress) const {
  const std::vector<Stress> given = stress;
  for (const Line &l : lines_) {
    const auto &n = l.nodes;
    for (int i = 0; i < 6; ++i) {
      const double bent = 0.5 * (given[n[1]][i] + given[n[3]][i]) - given[n[2]][i];
      const double swing = bent - l.curvature[0] * given[n[0]][i] -
                           l.curvature[1] * given[n[2]][i] - l.curvature[2] * given[n[4]][i];
      stress[n[2]][i] += 0.5 * swing;
      stress[n[1]][i] -= 0.25 * swing;  // the line on the other side brings as much
      stress[n[3]][i] -= 0.25 * swing;
    }
  }
}

void StressSmoothing::widen(std::vector<bool> &wanted) const {
  const std::vector<bool> asked = wanted;
  for (const Line &l : lines_)
    if (asked[l.nodes[1]] || asked[l.nodes[2]] || asked[l.nodes[3]])
      for (const int n : l.nodes) wanted[n] = true;
}

}  // namespace felloe
