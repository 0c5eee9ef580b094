// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/detail/elimination_order.h"

#include <algorithm>
#include <array>
#include <list>
#include <mutex>
#include <new>
#include <numeric>
#include <optional>
#include <utility>

#include "solver/detail/block_matrix.h"
#include "solver/detail/cholmod_view.h"

namespace felloe::detail {
namespace {

/// All that the order depends on.
struct Topology {
  std::vector<std::array<int, 27>> cells;
  std::vector<int> leader;  ///< of each node: the one it is tied to, or itself
  std::vector<int> border;

  bool operator==(const Topology &other) const {
    return cells == other.cells && leader == other.leader && border == other.border;
  }
};

Topology topology(const Mesh &mesh, const std::vector<int> &border) {
  Topology t{mesh.cells, std::vector<int>(mesh.nodes.size()), border};
  std::iota(t.leader.begin(), t.leader.end(), 0);
  for (const PressFitPair &pair : mesh.press_fit) t.leader[pair.disc_node] = pair.rim_node;
  return t;
}

/// A sweep works on one wheel with the disc pressed in and welded: two topologies. A few more do no
/// harm.
class KnownOrders {
 public:
  std::optional<std::vector<long>> find(const Topology &topology) {
    const std::lock_guard<std::mutex> lock(mutex_);
    const auto at = std::find_if(entries_.begin(), entries_.end(),
                                 [&](const auto &e) { return e.first == topology; });
    if (at == entries_.end()) return std::nullopt;
    entries_.splice(entries_.begin(), entries_, at);  // used last: to the front
    return at->second;
  }
  void keep(Topology topology, std::vector<long> position) {
    const std::lock_guard<std::mutex> lock(mutex_);
    entries_.emplace_front(std::move(topology), std::move(position));
    if (entries_.size() > most) entries_.pop_back();
  }

 private:
  static constexpr std::size_t most = 6;
  std::mutex mutex_;
  std::list<std::pair<Topology, std::vector<long>>> entries_;
};

std::vector<long> dissected(const Mesh &mesh, const Topology &topology) {
  const BlockMatrix nodes = pattern(mesh);
  SymmetricMatrix joined;
  joined.column_start = nodes.column_start;
  joined.row.assign(nodes.row.begin(), nodes.row.end());
  cholmod_common common;
  cholmod_l_start(&common);
  common.print = 0;
  const std::vector<long> order = interior_order(
      joined, {topology.border.begin(), topology.border.end()}, topology.leader, common);
  cholmod_l_finish(&common);
  if (order.empty()) throw std::bad_alloc();
  std::vector<long> position(mesh.nodes.size(), 0);
  for (std::size_t k = 0; k < order.size(); ++k) position[order[k]] = static_cast<long>(k);
  return position;
}

}  // namespace

std::vector<long> elimination_order(const Mesh &mesh, const std::vector<int> &border) {
  static KnownOrders known;
  Topology key = topology(mesh, border);
  if (auto position = known.find(key)) return *position;
  std::vector<long> position = dissected(mesh, key);
  known.keep(std::move(key), position);
  return position;
}

}  // namespace felloe::detail
