// SPDX-License-Identifier: GPL-3.0-or-later
#include "post/surface_view.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include "post/detail/view_bundle.h"
#include "post/html/digest.h"
#include "post/html/text.h"
#include "post/surface_piece.h"

namespace felloe {
namespace {

using Json = nlohmann::ordered_json;

/// About 85 bytes a point in the page for two tests: 1.5 MB, which beside pictures and script keeps
/// a report below 8 MB.
constexpr std::size_t most_points = 18000;

/// Raw bytes of the numbers, little endian as on every machine felloe is built for.
template <class Number>
std::string packed(const std::vector<Number> &numbers) {
  return base64({reinterpret_cast<const char *>(numbers.data()), sizeof(Number) * numbers.size()});
}

template <class Number>
void append(std::vector<Number> &out, const Vec3 &v, double factor = 1) {
  for (const double x : v) out.push_back(static_cast<Number>(factor * x));
}

std::string positions(const Mesh &mesh, const SurfacePiece &piece) {
  std::vector<float> all;
  for (const int node : piece.nodes) append(all, mesh.nodes[node]);
  return packed(all);
}

std::string normals(const SurfacePiece &piece) {
  std::vector<std::int8_t> all;
  for (const Vec3 &n : piece.normals) append(all, n, 127);
  return packed(all);
}

std::string triangles(const SurfacePiece &piece) {
  std::vector<std::uint32_t> all;
  for (const auto &t : piece.triangles) all.insert(all.end(), t.begin(), t.end());
  return packed(all);
}

std::string edges(const SurfacePiece &piece) {
  std::vector<float> all;
  for (const auto &edge : piece.sharp_edges)
    for (const Vec3 &end : edge) append(all, end);
  return packed(all);
}

Json quantity_json(const SurfaceQuantity &q, const SurfacePiece &piece) {
  std::vector<float> values;
  for (const int node : piece.nodes) values.push_back(static_cast<float>((*q.values)[node]));
  return {{"name", plain_text(q.name)},
          {"unit", plain_text(q.unit)},
          {"low", q.low},
          {"high", q.high},
          {"logarithmic", q.logarithmic},
          {"small_is_bad", q.small_is_bad},
          {"remark", plain_text(q.remark)},
          {"values", packed(values)}};
}

Json spot_json(const SurfaceSpot &s) {
  Json rows = Json::array();
  for (const auto &[name, value] : s.rows)
    rows.push_back(Json::array({plain_text(name), plain_text(value)}));
  return {{"number", s.number},
          {"position", {s.position[0], s.position[1], s.position[2]}},
          {"label", plain_text(s.label)},
          {"rows", rows}};
}

/// 1 for each triangle that is grey.
std::string grey(const SurfaceLoad &load, const SurfacePiece &piece) {
  std::vector<std::uint8_t> all;
  for (const int node : piece.middles) all.push_back(!load.rated.empty() && load.rated[node] == 0);
  return packed(all);
}

Json load_json(const SurfaceLoad &load, const SurfacePiece &piece) {
  Json quantities = Json::array(), spots = Json::array();
  for (const auto &q : load.quantities) quantities.push_back(quantity_json(q, piece));
  for (const auto &s : load.spots) spots.push_back(spot_json(s));
  return {{"name", plain_text(load.name)},
          {"load", plain_text(load.load)},
          {"quantities", quantities},
          {"grey", grey(load, piece)},
          {"why_grey", plain_text(load.why_grey)},
          {"hot_spots", spots}};
}

// The colours of the pictures, from the low to the high end, and of what lies beyond.
const Json colours{"#fcfdbf", "#fec287", "#fb8861", "#e65164",
                   "#b63679", "#822681", "#51127c", "#1d1147"};
constexpr const char *beyond = "#00b8eb";

/// The next round number that is not below the value > 0, as in the pictures.
double round_scale_end(double value) {
  const double power = std::pow(10.0, std::floor(std::log10(value)));
  for (const double factor : {1.0, 1.2, 1.4, 1.6, 1.8, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0})
    if (factor * power >= value * (1 - 1e-9)) return factor * power;
  return 10 * power;
}

/// Fit to stand inside <script type="application/json"> in HTML and XML: no markup characters.
std::string inside_script(const Json &json) {
  std::string text;
  for (const char c : json.dump(-1, ' ', false, Json::error_handler_t::replace)) {
    if (c == '<')
      text += "\\u003c";
    else if (c == '>')
      text += "\\u003e";
    else if (c == '&')
      text += "\\u0026";
    else
      text += c;
  }
  return text;
}

std::vector<int> nodes_at(const Mesh &mesh, const std::vector<SurfaceLoad> &loads) {
  std::vector<int> found;
  for (const auto &load : loads)
    for (const auto &spot : load.spots)
      for (std::size_t n = 0; n < mesh.nodes.size(); ++n)
        if (norm(subtract(mesh.nodes[n], spot.position)) < 1e-6) found.push_back(int(n));
  return found;
}

std::string markup(const std::string &sentence, const std::string &data) {
  std::string out =
      "<div class=\"surface-view\" id=\"surface-view\">\n<p class=\"surface-view-sentence\">" +
      html_text(sentence) + "</p>\n</div>\n";
  if (!data.empty())
    out += "<script type=\"application/json\" id=\"surface-view-data\">" + data + "</script>\n";
  return out;
}

}  // namespace

bool surface_view_built() { return detail::view_script[0] != '\0'; }

HtmlFragment surface_view(const Mesh &mesh, const std::vector<SurfaceLoad> &loads) {
  if (!surface_view_built())
    return {markup("This program was built without node and npm, and so without the view of the "
                   "wheel that turns. The pictures in this report show the same surface.",
                   ""),
            {},
            {}};
  if (loads.empty()) return {};
  std::vector<const std::vector<double> *> fields;
  for (const auto &load : loads) {
    for (const auto &q : load.quantities) fields.push_back(q.values);
    if (!load.rated.empty()) fields.push_back(&load.rated);
  }
  for (const auto *field : fields)
    if (field == nullptr || field->size() != mesh.nodes.size())
      throw std::logic_error("surface view: the values do not fit the mesh");
  const SurfacePiece piece = surface_piece(mesh, fields, nodes_at(mesh, loads), most_points);
  Json list = Json::array();
  for (const auto &load : loads) list.push_back(load_json(load, piece));
  const Json data = {{"sectors", piece.sectors},  {"positions", positions(mesh, piece)},
                     {"normals", normals(piece)}, {"triangles", triangles(piece)},
                     {"edges", edges(piece)},     {"colours", colours},
                     {"beyond", beyond},          {"loads", list}};
  return {markup("A view of the wheel that turns stands here in a browser that runs "
                 "scripts. The pictures in this report show the same surface.",
                 inside_script(data)),
          {detail::view_style},
          {detail::view_script}};
}

double scale_end(std::vector<double> values) {
  values.erase(std::remove_if(values.begin(), values.end(), [](double v) { return std::isnan(v); }),
               values.end());
  if (values.empty()) return 1;
  const auto place = values.begin() + static_cast<long>(0.999 * double(values.size() - 1));
  std::nth_element(values.begin(), place, values.end());
  return *place > 0 ? round_scale_end(*place) : 1;
}

std::pair<double, double> life_scale(const std::vector<double> &lives) {
  double shortest = 1e12;
  for (const double life : lives)
    if (life > 0) shortest = std::min(shortest, life);  // false for not-a-number
  const double low = std::pow(10, std::floor(std::log10(shortest)));
  return {low, std::max(100 * low, 1e8)};
}

}  // namespace felloe
