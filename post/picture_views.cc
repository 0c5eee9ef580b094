// SPDX-License-Identifier: GPL-3.0-or-later
// Overviews and close-ups of a rated wheel.
#include "post/detail/picture_views.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "post/colours.h"
#include "post/detail/picture_frame.h"

namespace felloe::detail {
namespace {

/// Fewer triangles a face on large meshes, but never fewer than leave every node a corner: hot
/// spots lie at nodes, and must not hide behind a chord.
int divisions_of(std::size_t n_faces) {
  return std::clamp(static_cast<int>(std::sqrt(1.5e5 / double(n_faces + 1))), 2, 4);
}

/// All but 0.1 % of the values stay below; 1 when everything is zero.
double upper_end(std::vector<double> values) {
  if (values.empty()) return 1;
  const auto place = values.begin() + static_cast<long>(0.999 * double(values.size() - 1));
  std::nth_element(values.begin(), place, values.end());
  return *place > 0 ? round_scale_end(*place) : 1;
}

double largest_radius(const Skin &skin) {
  double radius = 0;
  for (const Vec3 &x : skin.points) radius = std::max(radius, std::hypot(x[0], x[1]));
  return radius;
}

/// Triangles of the judged faces, or of the others.
std::vector<std::array<int, 3>> triangles_where(const Skin &skin, int divisions,
                                                const std::vector<bool> &judged, bool wanted) {
  std::vector<std::array<int, 3>> some;
  const std::size_t a_face = 2 * static_cast<std::size_t>(divisions) * divisions;
  for (std::size_t t = 0; t < skin.triangles.size(); ++t)
    if (judged[t / a_face] == wanted) some.push_back(skin.triangles[t]);
  return some;
}

void draw_surface(Canvas &canvas, const PictureContent &content, const Skin &skin, int divisions,
                  const std::vector<bool> &judged) {
  const auto coloured = triangles_where(skin, divisions, judged, true),
             grey = triangles_where(skin, divisions, judged, false);
  canvas.coloured({skin.points, coloured, skin.values, skin.normals}, content.colour_maximum);
  canvas.plain({skin.points, grey, skin.values, skin.normals}, not_rated_grey);
  canvas.lines(skin.sharp_edges, 1.2, ink);
  constexpr double ribbon = 5;
  for (const ValueLine &line : content.set.lines)
    canvas.coloured_line(line.points, line.values, content.colour_maximum, ribbon);
}

std::vector<Shown> shown_markers(const PictureContent &content, const Projection &projection) {
  std::vector<Shown> shown;
  for (const SurfacePoint &p : content.marked)
    shown.push_back(
        {projection.pixel(p.position),
         projection.inside(p.position) && in_sight(content.skin, p, projection.towards_eye)});
  return shown;
}

void draw_scale(Overlay &overlay, const PictureContent &content) {
  draw_colour_scale(overlay, content.set.scale, content.colour_maximum,
                    {content.largest_judged, content.largest_grey, content.set.why_grey});
}

/// The direction from which the surroundings of the marker are seen best, preferring that of its
/// surface; {0, 0, 0} when it is hidden from everywhere tried.
Vec3 best_direction(const Skin &skin, const SurfacePoint &marker) {
  Vec3 normal{};  // mean over the faces that meet at the marker
  for (const Vec3 &n : marker.normals) normal = add(normal, n);
  const Vec3 front = front_direction, back = back_direction;
  if (norm(normal) > 0) normal = scale(1 / norm(normal), normal);
  Vec3 best{};
  double best_score = -2;
  for (const Vec3 &base : {front, back, normal, add(normal, scale(1 / norm(front), front)),
                           add(normal, scale(1 / norm(back), back))}) {
    if (norm(base) < 1e-6) continue;
    const Vec3 direction = scale(1 / norm(base), base);
    // Along the axis one sees most of the neighbourhood; from the side the rim is in the way.
    const double score = dot(direction, normal) + 0.8 * std::abs(direction[2]);
    if (score > best_score && in_sight(skin, marker, direction)) {
      best = direction;
      best_score = score;
    }
  }
  return best;
}

/// Number of the marker whose place a point of the skin belongs to; 0: none.
int number_at(const PictureContent &content, std::size_t point) {
  if (content.set.marker_of_node.empty()) return 0;
  const std::size_t a_face = content.skin.points.size() / content.faces.size();
  return content.set.marker_of_node[face_nodes(content.mesh, content.faces[point / a_face])[4]];
}

/// The worst place where it is seen; else its name alone, and the worst that is seen beside it.
void name_worst(const PictureContent &content, Canvas &canvas, std::vector<Shown> shown) {
  Overlay &overlay = canvas.overlay();
  const Projection &projection = canvas.projection();
  std::string where_else;
  if (!shown.front().visible) {
    const bool from_front = dot(projection.towards_eye, front_direction) > 0;
    const Vec3 other = from_front ? back_direction : front_direction;
    const bool there =
        in_sight(content.skin, content.marked.front(), scale(1 / norm(other), other));
    where_else = !there       ? "on a side that neither view shows"
                 : from_front ? "not seen from here, but from inboard"
                              : "not seen from here, but from outboard";
    if (const auto largest =
            largest_in_sight(content.skin, content.judged, projection.towards_eye,
                             [&](const Vec3 &x) { return projection.inside(x); })) {
      const Pixel at = projection.pixel(content.skin.points[*largest]);
      const double value = content.skin.values[*largest];
      const int number = number_at(content, *largest);
      draw_worst_in_sight(
          overlay, at,
          fmt::format("worst in this view: {:.0f} {}{}", value, content.set.scale.unit,
                      number > 0 ? fmt::format(", place {}", number) : ""),
          value > content.colour_maximum ? failing : ink, shown);
      shown.push_back({at, true});
    }
  }
  draw_callout(overlay, content.set.markers, shown, where_else);
}

double angle_of(const Vec3 &x) { return std::atan2(x[1], x[0]); }

}  // namespace

PictureContent::PictureContent(const Mesh &m, const PictureSet &s)
    : mesh(m), set(s), faces(boundary_faces(m)), divisions(divisions_of(faces.size())) {
  std::vector<double> to_judge;
  for (const CellFace &face : faces) {
    const auto nodes = face_nodes(mesh, face);
    const bool rated = set.rated == nullptr || (*set.rated)[nodes[4]];
    judged.push_back(rated);
    for (const int n : nodes) {
      const double value = (*set.values)[n];
      const bool counts = set.rated == nullptr || (*set.rated)[n];
      if (!rated) largest_grey = std::max(largest_grey, value);
      if (rated && counts) {
        largest_judged = std::max(largest_judged, value);
        to_judge.push_back(value);
      }
    }
  }
  for (const ValueLine &line : set.lines)
    for (const double value : line.values) largest_judged = std::max(largest_judged, value);
  colour_maximum = set.scale.maximum > 0 ? set.scale.maximum : upper_end(std::move(to_judge));
  skin = felloe::skin(mesh, faces, *set.values, divisions, fold);
  for (const Marker &m : set.markers) marked.push_back(surface_point(skin, m.position));
}

std::string overview_picture(Canvas &canvas, const PictureContent &content, const Vec3 &towards_eye,
                             const std::string &seen_from, const std::string &description) {
  canvas.start(fitted(content.skin.points, towards_eye, {0, 1, 0}, 0.9));
  draw_surface(canvas, content, content.skin, content.divisions, content.judged);
  auto shown = shown_markers(content, canvas.projection());
  Overlay &overlay = canvas.overlay();
  draw_headings(overlay, content.set, content.set.scale.quantity + ", seen from " + seen_from);
  draw_verdict(overlay, content.set.verdict);
  draw_scale(overlay, content);
  const std::size_t n = draw_list(overlay, content.set.markers, shown);
  draw_markers(overlay, content.set.markers, shown, 1, n);
  if (!content.set.markers.empty()) name_worst(content, canvas, shown);
  const double pixels_per_mm = canvas.projection().pixels_per_mm;
  draw_scale_bar(overlay, pixels_per_mm);
  return canvas.png(file_texts(description, pixels_per_mm, content.colour_maximum));
}

std::string close_up_picture(Canvas &canvas, const PictureContent &content, std::size_t marker,
                             const std::string &description) {
  const Marker &m = content.set.markers[marker];
  const Vec3 direction = best_direction(content.skin, content.marked[marker]);
  if (norm(direction) == 0) return "";
  const double theta = angle_of(m.position);
  const Vec3 outwards{std::cos(theta), std::sin(theta), 0};
  const bool outwards_up = std::abs(dot(direction, outwards)) < 0.95;
  const Projection projection =
      close_up(m.position, direction, outwards_up ? outwards : Vec3{0, 0, 1},
               0.22 * largest_radius(content.skin));
  canvas.start(projection);
  // Only what is in the picture, but finely.
  std::vector<CellFace> faces;
  std::vector<bool> judged;
  for (std::size_t f = 0; f < content.faces.size(); ++f) {
    bool within = false;
    for (const int n : face_nodes(content.mesh, content.faces[f]))
      within = within || projection.inside(content.mesh.nodes[n]);
    if (!within) continue;
    faces.push_back(content.faces[f]);
    judged.push_back(content.judged[f]);
  }
  const int divisions = 4;
  draw_surface(canvas, content, skin(content.mesh, faces, *content.set.values, divisions, fold),
               divisions, judged);
  const auto shown = shown_markers(content, projection);
  Overlay &overlay = canvas.overlay();
  draw_headings(
      overlay, content.set,
      fmt::format("{}, round place {}, seen from {}, {} is up", content.set.scale.quantity,
                  m.number, direction[2] >= 0 ? "outboard" : "inboard",
                  outwards_up ? "outwards" : "outboard"));
  draw_verdict(overlay, content.set.verdict);
  draw_scale(overlay, content);
  draw_facts(overlay, m);
  draw_markers(overlay, content.set.markers, shown, 0, shown.size());
  draw_scale_bar(overlay, projection.pixels_per_mm);
  return canvas.png(file_texts(description, projection.pixels_per_mm, content.colour_maximum));
}

}  // namespace felloe::detail
