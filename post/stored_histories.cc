// SPDX-License-Identifier: GPL-3.0-or-later
// Writes and reads stored histories.
#include "post/stored_histories.h"

#include <algorithm>
#include <cstdint>
#include <cstring>
#include <set>
#include <type_traits>

#include "mesher/error.h"

namespace felloe {
namespace {

constexpr char mark[] = "felloe histories";  // 16 letters
constexpr std::uint32_t version = 1, byte_order = 0x01020304;
constexpr std::size_t header_size = 16 + 4 + 4 + 8 + 8;

/// FNV-1a over words of 8 bytes: finds damage, no protection against intent.
std::uint64_t checksum(const char *bytes, std::size_t n) {
  std::uint64_t hash = 14695981039346656037u;
  for (std::size_t i = 0; i < n; i += 8) {
    std::uint64_t word = 0;
    std::memcpy(&word, bytes + i, std::min<std::size_t>(8, n - i));
    hash = (hash ^ word) * 1099511628211u;
  }
  return hash;
}

class Writer {
 public:
  template <class T>
  void value(const T &v) {
    static_assert(std::is_trivially_copyable_v<T>);
    bytes.append(reinterpret_cast<const char *>(&v), sizeof v);
  }
  void size(std::size_t n) { value(static_cast<std::uint64_t>(n)); }
  void text(const std::string &t) {
    size(t.size());
    bytes += t;
  }
  template <class T>
  void list(const std::vector<T> &all) {
    size(all.size());
    for (const T &v : all) value(v);
  }
  std::string bytes;
};

class Reader {
 public:
  Reader(const char *begin, std::size_t n, const std::string &file)
      : at_(begin), end_(begin + n), file_(file) {}
  template <class T>
  T value() {
    T v;
    need(sizeof v);
    std::memcpy(static_cast<void *>(&v), at_, sizeof v);
    at_ += sizeof v;
    return v;
  }
  /// A count of things of at least `each` bytes, so that a damaged one asks for no more than there
  /// is.
  std::size_t size(std::size_t each) {
    const auto n = value<std::uint64_t>();
    if (n > static_cast<std::uint64_t>(end_ - at_) / each) damaged();
    return static_cast<std::size_t>(n);
  }
  std::string text() {
    const std::size_t n = size(1);
    std::string t(at_, n);
    at_ += n;
    return t;
  }
  template <class T>
  std::vector<T> list() {
    std::vector<T> all(size(sizeof(T)));
    for (T &v : all) v = value<T>();
    return all;
  }
  void at_end() const {
    if (at_ != end_) damaged();
  }
  [[noreturn]] void damaged() const {
    throw Error(file_ + ": stored histories are damaged; run the case again");
  }

 private:
  void need(std::size_t n) const {
    if (static_cast<std::size_t>(end_ - at_) < n) damaged();
  }
  const char *at_, *end_;
  const std::string &file_;
};

void write_place(Writer &w, const RatedPlace &p) {
  w.text(p.feature);
  w.value(static_cast<int>(p.part));
  w.value(static_cast<int>(p.surface));
  w.list(p.nodes);
  w.list(p.toe_points);
  w.size(p.notes.size());
  for (const auto &note : p.notes) w.text(note);
}

RatedPlace read_place(Reader &r) {
  RatedPlace p;
  p.feature = r.text();
  p.part = static_cast<Part>(r.value<int>());
  p.surface = static_cast<Surface>(r.value<int>());
  p.nodes = r.list<int>();
  p.toe_points = r.list<ToePoint>();
  const std::size_t notes = r.size(8);
  for (std::size_t i = 0; i < notes; ++i) p.notes.push_back(r.text());
  return p;
}

void write_all(Writer &w, const StoredHistories &h) {
  w.list(h.mesh.nodes);
  w.list(h.mesh.cells);
  w.list(h.mesh.node_parts);
  w.list(h.mesh.node_points);
  w.size(h.places.size());
  for (const auto &[held, places] : h.places) {
    w.value(static_cast<int>(held));
    w.size(places.size());
    for (const RatedPlace &p : places) write_place(w, p);
  }
  w.size(h.states.size());
  for (const StoredState &state : h.states) {
    w.text(state.group);
    w.size(state.stress.size());
    for (const Stress &s : state.stress)
      for (const double c : s.s) w.value(static_cast<float>(c));
  }
  w.size(h.figures.size());
  for (const auto &[name, figure] : h.figures) {
    w.text(name);
    w.value(figure);
  }
}

void check_numbers(const Reader &r, const StoredHistories &h) {
  const int n = static_cast<int>(h.mesh.nodes.size());
  const auto known = [&](int node) {
    if (node < 0 || node >= n) r.damaged();
  };
  if (h.mesh.node_parts.size() != h.mesh.nodes.size() ||
      h.mesh.node_points.size() != h.mesh.nodes.size())
    r.damaged();
  for (const auto &cell : h.mesh.cells) std::for_each(cell.begin(), cell.end(), known);
  for (const auto &[held, places] : h.places)
    for (const RatedPlace &p : places) {
      std::for_each(p.nodes.begin(), p.nodes.end(), known);
      for (const ToePoint &toe : p.toe_points) known(toe.near_node), known(toe.far_node);
    }
  for (const StoredState &state : h.states)
    if (state.stress.size() != h.mesh.nodes.size()) r.damaged();
}

StoredHistories read_all(Reader &r) {
  StoredHistories h;
  h.mesh.nodes = r.list<Vec3>();
  h.mesh.cells = r.list<std::array<int, 27>>();
  h.mesh.parts.assign(h.mesh.cells.size(), Part::disc);
  h.mesh.node_parts = r.list<Part>();
  h.mesh.node_points = r.list<SheetPoint>();
  const std::size_t ways = r.size(12);
  for (std::size_t i = 0; i < ways; ++i) {
    const auto held = static_cast<Held>(r.value<int>());
    const std::size_t n = r.size(8);
    for (std::size_t k = 0; k < n; ++k) h.places[held].push_back(read_place(r));
  }
  const std::size_t n_states = r.size(16);
  for (std::size_t i = 0; i < n_states; ++i) {
    StoredState state;
    state.group = r.text();
    state.stress.resize(r.size(24));
    for (Stress &s : state.stress)
      for (double &c : s.s) c = r.value<float>();
    h.states.push_back(std::move(state));
  }
  const std::size_t n_figures = r.size(16);
  for (std::size_t i = 0; i < n_figures; ++i) {
    const std::string name = r.text();
    h.figures[name] = r.value<double>();
  }
  r.at_end();
  check_numbers(r, h);
  return h;
}

}  // namespace

std::vector<int> stored_nodes(const std::map<Held, std::vector<RatedPlace>> &all) {
  std::set<int> used;
  for (const auto &[held, places] : all)
    for (const RatedPlace &p : places) {
      used.insert(p.nodes.begin(), p.nodes.end());
      for (const ToePoint &toe : p.toe_points) used.insert({toe.near_node, toe.far_node});
    }
  return {used.begin(), used.end()};
}

StoredHistories stored_skeleton(const Mesh &mesh,
                                const std::map<Held, std::vector<RatedPlace>> &places,
                                const std::vector<int> &nodes) {
  StoredHistories h;
  const int other = static_cast<int>(nodes.size());
  std::vector<int> number(mesh.nodes.size(), other);
  for (int i = 0; i < other; ++i) {
    number[nodes[i]] = i;
    h.mesh.nodes.push_back(mesh.nodes[nodes[i]]);
    h.mesh.node_parts.push_back(mesh.node_parts[nodes[i]]);
    h.mesh.node_points.push_back(mesh.node_points[nodes[i]]);
  }
  h.mesh.nodes.push_back({});
  h.mesh.node_parts.push_back(Part::disc);
  h.mesh.node_points.push_back({});
  for (const auto &cell : mesh.cells) {
    std::array<int, 27> kept;
    for (int i = 0; i < 27; ++i) kept[i] = number[cell[i]];
    if (std::count(kept.begin(), kept.end(), other) < 27) h.mesh.cells.push_back(kept);
  }
  h.mesh.parts.assign(h.mesh.cells.size(), Part::disc);
  h.places = places;
  for (auto &[held, list] : h.places)
    for (RatedPlace &p : list) {
      for (int &n : p.nodes) n = number[n];
      for (ToePoint &toe : p.toe_points)
        toe.near_node = number[toe.near_node], toe.far_node = number[toe.far_node];
    }
  return h;
}

std::string to_bytes(const StoredHistories &h) {
  Writer body, head;
  write_all(body, h);
  head.bytes.append(mark, 16);
  head.value(version);
  head.value(byte_order);
  head.size(body.bytes.size());
  head.value(checksum(body.bytes.data(), body.bytes.size()));
  return head.bytes + body.bytes;
}

StoredHistories from_bytes(const std::string &bytes, const std::string &file) {
  if (bytes.size() < header_size || bytes.compare(0, 16, mark, 16) != 0)
    throw Error(file + ": holds no stored histories; run the case again");
  Reader head(bytes.data() + 16, header_size - 16, file);
  if (head.value<std::uint32_t>() != version || head.value<std::uint32_t>() != byte_order)
    throw Error(file +
                ": written by another version of felloe or on another kind of machine; run "
                "the case again");
  const auto length = head.value<std::uint64_t>(), sum = head.value<std::uint64_t>();
  const char *body = bytes.data() + header_size;
  const std::size_t n = bytes.size() - header_size;
  Reader reader(body, n, file);
  if (length != n || checksum(body, n) != sum) reader.damaged();
  return read_all(reader);
}

}  // namespace felloe
