// SPDX-License-Identifier: GPL-3.0-or-later
// Pictures of a rated wheel, drawn on machines with and without a screen.
#include "post/pictures.h"

#include <vtkSMPTools.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <stdexcept>

#include "post/detail/picture_frame.h"
#include "post/detail/picture_views.h"
#include "post/display.h"
#include "post/whole_file.h"

namespace felloe {
namespace {

constexpr double seconds_allowed = 180;

/// Fewer triangles a face on large meshes: about a million in all.
int divisions_of(std::size_t n_faces) {
  return std::clamp(static_cast<int>(std::sqrt(5e5 / double(n_faces + 1))), 1, 4);
}

/// All but 0.1 % of the values stay below; 1 when everything is zero.
double upper_end(std::vector<double> values) {
  if (values.empty()) return 1;
  const auto place = values.begin() + static_cast<long>(0.999 * double(values.size() - 1));
  std::nth_element(values.begin(), place, values.end());
  return *place > 0 ? detail::round_scale_end(*place) : 1;
}

double angle_of(const Vec3 &x) { return std::atan2(x[1], x[0]); }

std::vector<std::string> file_names(const std::string &folder, bool with_marker) {
  std::vector<std::string> files{folder + "/front.png", folder + "/back.png"};
  if (with_marker)
    for (const char *name : {"/closeup.png", "/section.png"}) files.push_back(folder + name);
  return files;
}

double largest_radius(const Skin &skin) {
  double radius = 0;
  for (const Vec3 &x : skin.points) radius = std::max(radius, std::hypot(x[0], x[1]));
  return radius;
}

/// Runs in the child process.
void draw_all(const Mesh &mesh, const std::vector<double> &values,
              const detail::PictureContent &content, const std::vector<std::string> &files) {
  vtkSMPTools::SetBackend("Sequential");  // threads of the parent are not here
  const Skin &skin = content.skin;
  const Vec3 up{0, 1, 0};
  write_whole_file(files[0], detail::wheel_picture(
                                 content, detail::fitted(skin.points, detail::front_direction, up),
                                 "seen from outboard"));
  write_whole_file(files[1], detail::wheel_picture(
                                 content, detail::fitted(skin.points, detail::back_direction, up),
                                 "seen from inboard"));
  if (content.markers.empty()) return;
  const Vec3 worst = content.markers.front().position;
  const Vec3 direction = detail::best_direction(skin, worst);
  const Vec3 outwards{std::cos(angle_of(worst)), std::sin(angle_of(worst)), 0};
  if (norm(direction) > 0)
    write_whole_file(
        files[2],
        detail::wheel_picture(
            content,
            detail::close_up(worst, direction,
                             std::abs(dot(direction, outwards)) < 0.95 ? outwards : Vec3{0, 0, 1},
                             0.3 * largest_radius(skin)),
            std::string("close to the worst hot spot, seen from ") +
                (direction[2] >= 0 ? "outboard" : "inboard")));
  const double theta = angle_of(worst);
  write_whole_file(
      files[3], detail::section_picture(content, section_cut(mesh, values, skin, theta, 3), theta));
}

}  // namespace

PictureResult render_pictures(const Mesh &mesh, const std::vector<double> &values,
                              const std::vector<Marker> &markers, const PictureText &text,
                              const std::string &folder) {
  if (values.size() != mesh.nodes.size())
    throw std::logic_error("pictures: the values do not fit the mesh");
  make_folder(folder);
  const auto faces = boundary_faces(mesh);
  const Skin surface = skin(mesh, faces, values, divisions_of(faces.size()), 35 * pi / 180);
  const double maximum = text.colour_maximum > 0 ? text.colour_maximum : upper_end(surface.values);
  const double largest =
      surface.values.empty() ? 0 : *std::max_element(surface.values.begin(), surface.values.end());
  const detail::PictureContent content{surface, markers, text, maximum, largest};
  const auto files = file_names(folder, !markers.empty());
  const auto draw = [&] { draw_all(mesh, values, content, files); };
  for (const std::string &file : files) std::remove(file.c_str());  // of an earlier run

  PictureResult result;
  const char *users_display = std::getenv("DISPLAY");
  bool drawn = false;
  if (users_display != nullptr && *users_display != '\0')
    drawn = in_child_process(users_display, draw, seconds_allowed).empty();
  if (!drawn) {
    const PrivateDisplay display;
    result.skipped = display.name().empty()
                         ? display.reason()
                         : in_child_process(display.name(), draw, seconds_allowed);
  }
  for (const std::string &file : files)
    if (!result.skipped.empty())
      std::remove(file.c_str());
    else if (std::FILE *written = std::fopen(file.c_str(), "rb")) {
      std::fclose(written);
      result.files.push_back(file);
    }
  return result;
}

}  // namespace felloe
