// SPDX-License-Identifier: GPL-3.0-or-later
// The (r, z) section: structured strips for disc and rim, the fillet between them.
#include <algorithm>
#include <cmath>
#include <string>

#include "mesher/stations.h"
#include "mesher/weld_section.h"
#include "mesher/wheel_mesh.h"

namespace felloe {
namespace {

/// Nodes and cells of a sheet's section. Node (i, l): half station i, half layer l.
struct Strip {
  int base = 0, n_levels = 0;
  int node(int i, int l) const { return base + i * n_levels + l; }
};

class Builder {
 public:
  Builder(const WheelLayout &w, const MeshSize &size) : w_(w), size_(size) {}

  SectionMesh build() {
    const bool welded = w_.wheel.construction == Construction::welded_disc;
    const DiscStations disc = disc_stations(w_, size_);
    const int layers = disc_layer_count(w_, size_);
    const Strip d = add_strip(w_.disc, disc.s, layers, Part::disc, -1);
    name_disc(disc, layers, d, welded);
    if (welded) add_rim_and_weld(disc, layers, d);
    return mesh_;
  }

 private:
  /// `shared_root`: node that stands for the strip's (root, 0) node, or -1.
  Strip add_strip(const Sheet &sheet, const std::vector<double> &s, int layers, Part part,
                  int shared_root, int root = -1) {
    Strip strip{static_cast<int>(mesh_.nodes.size()), 2 * layers + 1};
    const int n = static_cast<int>(s.size()) - 1;
    for (int i = 0; i <= 2 * n; ++i)
      for (int l = 0; l < strip.n_levels; ++l) {
        const double at = i % 2 ? 0.5 * (s[i / 2] + s[i / 2 + 1]) : s[i / 2];
        add_node(sheet.section_point(at, -1 + 1.0 * l / layers), part, {at, -1 + 1.0 * l / layers});
      }
    for (int i = 0; i < n; ++i)
      for (int l = 0; l < layers; ++l) {
        mesh_.cells.emplace_back();
        mesh_.parts.push_back(part);
        for (int q = 0; q < 9; ++q) {
          const int a = 2 * i + q % 3, b = 2 * l + q / 3;
          mesh_.cells.back()[q] =
              shared_root >= 0 && a == 2 * root && b == 0 ? shared_root : strip.node(a, b);
        }
      }
    return strip;
  }

  int add_node(const Vec2 &rz, Part part, const SheetPoint &point) {
    mesh_.nodes.push_back(rz);
    mesh_.node_parts.push_back(part);
    mesh_.node_points.push_back(point);
    return static_cast<int>(mesh_.nodes.size()) - 1;
  }

  void name_disc(const DiscStations &disc, int layers, const Strip &d, bool welded) {
    const int n = static_cast<int>(disc.s.size()) - 1;
    for (int l = 0; l < layers; ++l) {
      mesh_.edges["bore"].push_back({l, 0});
      if (!welded) mesh_.edges["outer edge"].push_back({(n - 1) * layers + l, 1});
    }
    for (int i = 0; i < n; ++i) {
      const CellFace in{i * layers, 2}, out{i * layers + layers - 1, 3};
      mesh_.edges["disc inboard side"].push_back(in);
      mesh_.edges["disc outboard side"].push_back(out);
      if (disc.s[i + 1] < w_.hub_face_s + 1e-6) mesh_.edges["hub face"].push_back(in);
      if (i >= disc.flange0) mesh_.edges["flange overlap disc"].push_back(out);
    }
    for (int i = 0; i <= n; ++i)
      if (w_.hub_face_s > 0 && std::abs(disc.s[i] - w_.hub_face_s) < 1e-6)
        mesh_.points["hub face border"] = d.node(2 * i, 0);
    if (!welded) mesh_.points["outer edge mid-line"] = d.node(2 * n, layers);
  }

  void add_rim_and_weld(const DiscStations &disc, int layers, const Strip &d) {
    const int end = 2 * (static_cast<int>(disc.s.size()) - 1);
    const std::vector<double> flange_s(disc.s.begin() + disc.flange0, disc.s.end());
    const RimStations rim = rim_stations(w_, size_, flange_s, layers);
    const int rim_layers = std::max(1, size_.rim_layers), root = d.node(end, 2 * layers);
    const int first_rim = static_cast<int>(mesh_.cells.size());
    // the rim's own root node would be unused: it is dropped below
    const Strip r = add_strip(w_.rim, rim.s, rim_layers, Part::rim, root, rim.root);
    name_rim(rim, rim_layers, first_rim);
    for (int i = 0; i < 2 * (rim.root - rim.overlap0); ++i)
      mesh_.press_fit.push_back(
          {d.node(2 * disc.flange0 + i, 2 * layers), r.node(2 * rim.overlap0 + i, 0)});

    const WeldSection weld = weld_section(w_, layers);
    std::vector<int> at;
    for (const auto &x : weld.nodes)
      at.push_back(x.layer >= 0     ? d.node(end, x.layer)
                   : x.station >= 0 ? r.node(2 * rim.root + x.station, 0)
                                    : add_node(x.rz, Part::weld, {}));
    const int first_weld = static_cast<int>(mesh_.cells.size());
    for (const auto &cell : weld.cells) {
      mesh_.cells.emplace_back();
      mesh_.parts.push_back(Part::weld);
      for (int q = 0; q < 9; ++q) mesh_.cells.back()[q] = at[cell[q]];
    }
    for (const auto &f : weld.face)
      mesh_.edges["weld face"].push_back({first_weld + f.cell, f.face});
    mesh_.points["weld root"] = root;
    mesh_.points["weld toe disc"] = at[weld.toe_disc];
    mesh_.points["weld toe rim"] = at[weld.toe_rim];
    drop_node(r.node(2 * rim.root, 0));
  }

  void name_rim(const RimStations &rim, int layers, int first) {
    const int n = static_cast<int>(rim.s.size()) - 1;
    for (int i = 0; i < n; ++i) {
      const CellFace in{first + i * layers, 2}, out{first + i * layers + layers - 1, 3};
      mesh_.edges["rim tyre side"].push_back(out);
      if (i < rim.root || i >= rim.toe) mesh_.edges["rim inner side"].push_back(in);
      if (i >= rim.overlap0 && i < rim.root) mesh_.edges["flange overlap rim"].push_back(in);
      const std::string name = rim_surface_at(w_, 0.5 * (rim.s[i] + rim.s[i + 1]));
      if (!name.empty()) mesh_.edges[name].push_back(out);
    }
  }

  void drop_node(int gone) {
    const auto closed = [&](int &k) { k -= k > gone; };
    for (auto &cell : mesh_.cells)
      for (int &k : cell) closed(k);
    for (auto &p : mesh_.press_fit) closed(p.disc_node), closed(p.rim_node);
    for (auto &p : mesh_.points) closed(p.second);
    mesh_.nodes.erase(mesh_.nodes.begin() + gone);
    mesh_.node_parts.erase(mesh_.node_parts.begin() + gone);
    mesh_.node_points.erase(mesh_.node_points.begin() + gone);
  }

  const WheelLayout &w_;
  const MeshSize &size_;
  SectionMesh mesh_;
};

}  // namespace

SectionMesh section_mesh(const WheelLayout &layout, const MeshSize &size) {
  return Builder(layout, size).build();
}

}  // namespace felloe
