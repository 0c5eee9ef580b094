// SPDX-License-Identifier: GPL-3.0-or-later
// Writes and reads stored histories.
#include "post/stored_histories.h"

#include <algorithm>
#include <cstdint>
#include <cstring>
#include <type_traits>

#include "mesher/error.h"

namespace felloe {
namespace {

constexpr char mark[] = "felloe histories";  // 16 letters
constexpr std::uint32_t version = 3, byte_order = 0x01020304;
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

void write_sum(Writer &w, const StressSum &sum) {
  w.list(sum.nodes);
  w.list(sum.weights);
}

void read_sum(Reader &r, StressSum &sum) {
  sum.nodes = r.list<int>();
  sum.weights = r.list<Stress>();
  if (sum.nodes.size() != sum.weights.size()) r.damaged();
}

void write_place(Writer &w, const RatedPlace &p) {
  w.text(p.feature);
  w.value(static_cast<int>(p.part));
  w.value(static_cast<int>(p.surface));
  w.list(p.nodes);
  w.value(p.thickness);
  w.size(p.toe_points.size());
  for (const ToePoint &toe : p.toe_points) {
    write_sum(w, toe);
    w.value(toe.toe);
    w.value(toe.across);
  }
  w.size(p.notes.size());
  for (const auto &note : p.notes) w.text(note);
}

RatedPlace read_place(Reader &r) {
  RatedPlace p;
  p.feature = r.text();
  p.part = static_cast<Part>(r.value<int>());
  p.surface = static_cast<Surface>(r.value<int>());
  p.nodes = r.list<int>();
  p.thickness = r.value<double>();
  p.toe_points.resize(r.size(64));
  for (ToePoint &toe : p.toe_points) {
    read_sum(r, toe);
    toe.toe = r.value<Vec3>();
    toe.across = r.value<Vec3>();
  }
  const std::size_t notes = r.size(8);
  for (std::size_t i = 0; i < notes; ++i) p.notes.push_back(r.text());
  return p;
}

void write_places(Writer &w, const std::vector<RatedPlace> &places) {
  w.size(places.size());
  for (const RatedPlace &p : places) write_place(w, p);
}

std::vector<RatedPlace> read_places(Reader &r) {
  std::vector<RatedPlace> places(r.size(8));
  for (RatedPlace &p : places) p = read_place(r);
  return places;
}

void write_all_places(Writer &w, const StoredPlaces &p) {
  w.size(p.rated.size());
  for (const auto &[held, places] : p.rated) {
    w.value(static_cast<int>(held));
    write_places(w, places);
  }
  w.size(p.toes.size());
  for (const auto &[read_out, places] : p.toes) {
    w.text(read_out);
    write_places(w, places);
  }
  w.size(p.gauges.size());
  for (const auto &[key, gauge] : p.gauges) {
    w.text(key);
    write_sum(w, gauge);
    w.value(gauge.position);
  }
}

StoredPlaces read_all_places(Reader &r) {
  StoredPlaces p;
  for (std::size_t n = r.size(12); n > 0; --n) {
    const auto held = static_cast<Held>(r.value<int>());
    p.rated[held] = read_places(r);
  }
  for (std::size_t n = r.size(16); n > 0; --n) {
    const std::string read_out = r.text();
    p.toes[read_out] = read_places(r);
  }
  for (std::size_t n = r.size(48); n > 0; --n) {
    StrainGauge &gauge = p.gauges[r.text()];
    read_sum(r, gauge);
    gauge.position = r.value<Vec3>();
  }
  return p;
}

/// Every list of nodes in them.
template <class Places, class Visit>
void visit_nodes(Places &p, const Visit &visit) {
  const auto of_places = [&](auto &all) {
    for (auto &[key, places] : all)
      for (auto &place : places) {
        visit(place.nodes);
        for (auto &toe : place.toe_points) visit(toe.nodes);
      }
  };
  of_places(p.rated);
  of_places(p.toes);
  for (auto &[key, gauge] : p.gauges) visit(gauge.nodes);
}

void write_all(Writer &w, const StoredHistories &h) {
  w.list(h.mesh.nodes);
  w.list(h.mesh.cells);
  w.list(h.mesh.node_parts);
  w.list(h.mesh.node_points);
  write_all_places(w, h.places);
  w.size(h.states.size());
  for (const StoredState &state : h.states) {
    w.text(state.group);
    w.size(state.stress.size());
    for (const Stress &s : state.stress) {
      std::array<float, 6> single;
      std::copy(s.s.begin(), s.s.end(), single.begin());
      w.value(single);
    }
  }
  w.size(h.figures.size());
  for (const auto &[name, figure] : h.figures) {
    w.text(name);
    w.value(figure);
  }
  w.text(h.case_text);
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
  visit_nodes(h.places, [&](const std::vector<int> &nodes) {
    std::for_each(nodes.begin(), nodes.end(), known);
  });
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
  h.places = read_all_places(r);
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
  h.case_text = r.text();
  r.at_end();
  check_numbers(r, h);
  return h;
}

}  // namespace

std::vector<int> stored_nodes(const Mesh &mesh, const StoredPlaces &places, bool round) {
  std::vector<bool> used(mesh.nodes.size(), false), rated = used;
  visit_nodes(places, [&](const std::vector<int> &nodes) {
    for (const int n : nodes) used[n] = true;
  });
  for (const auto &[held, list] : places.rated)
    for (const RatedPlace &place : list)
      for (const int n : place.nodes) rated[n] = true;
  if (round)
    for (const auto &cell : mesh.cells)
      for (const int n : cell)
        if (rated[n])
          for (const int other : cell)
            if (mesh.node_parts[other] == mesh.node_parts[n]) used[other] = true;
  std::vector<int> all;
  for (std::size_t n = 0; n < used.size(); ++n)
    if (used[n]) all.push_back(static_cast<int>(n));
  return all;
}

StoredHistories stored_skeleton(const Mesh &mesh, const StoredPlaces &places,
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
  h.mesh.node_parts.push_back(Part::weld);
  h.mesh.node_points.push_back({});
  for (const auto &cell : mesh.cells) {
    std::array<int, 27> kept;
    for (int i = 0; i < 27; ++i) kept[i] = number[cell[i]];
    if (std::count(kept.begin(), kept.end(), other) < 27) h.mesh.cells.push_back(kept);
  }
  h.mesh.parts.assign(h.mesh.cells.size(), Part::disc);
  h.places = places;
  h.mesh_nodes = nodes;
  visit_nodes(h.places, [&](std::vector<int> &all) {
    for (int &n : all) n = number[n];
  });
  return h;
}

std::string to_bytes(const StoredHistories &h) {
  Writer all, head;
  std::size_t most = 1 << 20;  // of all but the stresses; what is not filled costs nothing
  for (const StoredState &state : h.states) most += 24 * state.stress.size();
  all.bytes.reserve(most + 200 * h.mesh.nodes.size() +
                    sizeof h.mesh.cells[0] * h.mesh.cells.size());
  all.bytes.append(header_size, '\0');
  write_all(all, h);
  const char *const body = all.bytes.data() + header_size;
  const std::size_t n = all.bytes.size() - header_size;
  head.bytes.append(mark, 16);
  head.value(version);
  head.value(byte_order);
  head.size(n);
  head.value(checksum(body, n));
  all.bytes.replace(0, header_size, head.bytes);
  return std::move(all.bytes);
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
