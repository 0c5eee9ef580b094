// SPDX-License-Identifier: GPL-3.0-or-later
// Pictures of a rated wheel, drawn on machines with and without a screen.
#include "post/pictures.h"

#include <vtkSMPTools.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <memory>
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

/// What was drawn; nothing is left of a set that was not drawn to its end.
std::vector<std::string> kept_files(const std::vector<std::string> &files, bool drawn) {
  std::vector<std::string> kept;
  for (const std::string &file : files)
    if (!drawn)
      std::remove(file.c_str());
    else if (std::FILE *written = std::fopen(file.c_str(), "rb")) {
      std::fclose(written);
      kept.push_back(file);
    }
  return kept;
}

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

/// Runs in the child process.
void draw_set(const Mesh &mesh, const PictureSet &set, const std::vector<std::string> &files) {
  const auto faces = boundary_faces(mesh);
  const Skin surface = skin(mesh, faces, *set.values, divisions_of(faces.size()), 35 * pi / 180);
  const double asked = set.text.colour_maximum;
  const double maximum = asked > 0 ? asked : upper_end(surface.values);
  const double largest =
      surface.values.empty() ? 0 : *std::max_element(surface.values.begin(), surface.values.end());
  draw_all(mesh, *set.values, {surface, set.markers, set.text, maximum, largest}, files);
}

}  // namespace

PictureResult render_pictures(const Mesh &mesh, const std::vector<double> &values,
                              const std::vector<Marker> &markers, const PictureText &text,
                              const std::string &folder) {
  return render_picture_sets(mesh, {{&values, markers, text, folder}}).front();
}

std::vector<PictureResult> render_picture_sets(const Mesh &mesh,
                                               const std::vector<PictureSet> &sets,
                                               const std::function<void()> &meanwhile) {
  std::vector<std::vector<std::string>> files;
  for (const PictureSet &set : sets) {
    if (set.values->size() != mesh.nodes.size())
      throw std::logic_error("pictures: the values do not fit the mesh");
    make_folder(set.folder);
    files.push_back(file_names(set.folder, !set.markers.empty()));
    for (const std::string &file : files.back()) std::remove(file.c_str());  // of an earlier run
  }
  const char *const users_display = std::getenv("DISPLAY");
  const bool on_users = users_display != nullptr && *users_display != '\0';
  std::unique_ptr<PrivateDisplay> private_display;
  if (!on_users) private_display = std::make_unique<PrivateDisplay>();
  const auto start = [&](std::size_t i) -> std::unique_ptr<ChildProcess> {
    const std::string display = private_display ? private_display->name() : users_display;
    if (display.empty()) return nullptr;
    return std::make_unique<ChildProcess>(
        display, [&, i] { draw_set(mesh, sets[i], files[i]); }, seconds_allowed);
  };
  std::vector<std::unique_ptr<ChildProcess>> drawing;
  for (std::size_t i = 0; i < sets.size(); ++i) drawing.push_back(start(i));
  if (meanwhile) meanwhile();

  std::vector<PictureResult> results(sets.size());
  for (std::size_t i = 0; i < sets.size(); ++i) {
    std::string &skipped = results[i].skipped;
    skipped = drawing[i] ? drawing[i]->wait() : private_display->reason();
    if (on_users && !skipped.empty()) {  // once more on a display of our own
      if (!private_display) private_display = std::make_unique<PrivateDisplay>();
      drawing[i] = start(i);
      skipped = drawing[i] ? drawing[i]->wait() : private_display->reason();
    }
    results[i].files = kept_files(files[i], skipped.empty());
  }
  return results;
}

}  // namespace felloe
