// SPDX-License-Identifier: GPL-3.0-or-later
// Pictures of a rated wheel, drawn on machines with and without a screen.
#include "post/pictures.h"

#include <fmt/format.h>
#include <malloc.h>
#include <vtkSMPTools.h>

#include <cstdio>
#include <cstdlib>
#include <memory>
#include <stdexcept>

#include "post/detail/picture_views.h"
#include "post/display.h"
#include "post/whole_file.h"

namespace felloe {
namespace {

constexpr double seconds_allowed = 180;
constexpr std::size_t most_close_ups = 5;

std::string with_figures(const Marker &m) {
  return m.figure.empty() ? m.place : m.place + ", " + m.figure;
}

/// All pictures of a set, in the order of drawing.
std::vector<Picture> planned(const PictureSet &set) {
  std::vector<Picture> plan;
  const auto add = [&](const std::string &view, const std::string &alt) {
    plan.push_back({set.folder + "/" + set.prefix + view + ".png", view, alt});
  };
  const std::string wheel = set.title + " under " + set.load + ": ";
  const std::string worst =
      set.markers.empty() ? "" : "; worst place: " + with_figures(set.markers.front());
  add("front", wheel + set.scale.quantity + " seen from outboard" + worst);
  add("back", wheel + set.scale.quantity + " seen from inboard" + worst);
  if (!set.markers.empty())
    add("section", wheel + set.scale.quantity + " in the section through the worst place" + worst);
  for (std::size_t i = 0; i < std::min(set.markers.size(), most_close_ups); ++i)
    add(fmt::format("closeup_{}", i + 1), wheel + set.scale.quantity + " round place " +
                                              std::to_string(set.markers[i].number) + ", " +
                                              with_figures(set.markers[i]));
  if (set.deformed.displacement != nullptr)
    add("deformed",
        wheel + "deformed shape, magnified, with the outline without load, " + set.deformed.state);
  if (!set.sketch.empty())
    add("load", wheel + "where the load acts; held: " + set.sketch.held_label);
  return plan;
}

std::string drawn_picture(detail::Canvas &canvas, const detail::PictureContent &content,
                          const Picture &picture) {
  const std::string &view = picture.view, &alt = picture.alt;
  if (view == "front")
    return overview_picture(canvas, content, detail::front_direction, "outboard", alt);
  if (view == "back")
    return overview_picture(canvas, content, detail::back_direction, "inboard", alt);
  if (view == "section") return section_picture(canvas, content, alt);
  if (view == "deformed") return deformed_picture(canvas, content, alt);
  if (view == "load") return load_picture(canvas, content, alt);
  return close_up_picture(canvas, content, static_cast<std::size_t>(view.back() - '1'), alt);
}

/// Runs in the child process.
void draw_set(const Mesh &mesh, const PictureSet &set, const std::vector<Picture> &plan) {
  vtkSMPTools::SetBackend("Sequential");  // threads of the parent are not here
  // Frame buffers of 30 MB come and go with every picture: keep the memory instead of having it
  // cleared by the kernel each time, which took a third of the time.
  mallopt(M_MMAP_THRESHOLD, 32 << 20);
  mallopt(M_TRIM_THRESHOLD, 1 << 30);
  const detail::PictureContent content(mesh, set);
  detail::Canvas canvas;
  for (const Picture &picture : plan) {
    const std::string bytes = drawn_picture(canvas, content, picture);
    if (!bytes.empty()) write_whole_file(picture.file, bytes);
  }
}

/// What was drawn; nothing is left of a set that was not drawn to its end.
std::vector<Picture> kept(const std::vector<Picture> &plan, bool drawn) {
  std::vector<Picture> some;
  for (const Picture &picture : plan)
    if (!drawn)
      std::remove(picture.file.c_str());
    else if (std::FILE *written = std::fopen(picture.file.c_str(), "rb")) {
      std::fclose(written);
      some.push_back(picture);
    }
  return some;
}

void check(const Mesh &mesh, const PictureSet &set) {
  const std::size_t n = mesh.nodes.size();
  if (set.values == nullptr || set.values->size() != n ||
      (set.rated != nullptr && set.rated->size() != n) ||
      (set.deformed.displacement != nullptr && set.deformed.displacement->size() != n))
    throw std::logic_error("pictures: the values do not fit the mesh");
}

}  // namespace

std::vector<PictureResult> render_picture_sets(const Mesh &mesh,
                                               const std::vector<PictureSet> &sets,
                                               const std::function<void()> &meanwhile) {
  std::vector<std::vector<Picture>> plans;
  for (const PictureSet &set : sets) {
    check(mesh, set);
    make_folder(set.folder);
    plans.push_back(planned(set));
    for (const Picture &p : plans.back()) std::remove(p.file.c_str());  // of an earlier run
  }
  const char *const users_display = std::getenv("DISPLAY");
  const bool on_users = users_display != nullptr && *users_display != '\0';
  std::unique_ptr<PrivateDisplay> private_display;
  if (!on_users) private_display = std::make_unique<PrivateDisplay>();
  const auto start = [&](std::size_t i) -> std::unique_ptr<ChildProcess> {
    const std::string display = private_display ? private_display->name() : users_display;
    if (display.empty()) return nullptr;
    return std::make_unique<ChildProcess>(
        display, [&, i] { draw_set(mesh, sets[i], plans[i]); }, seconds_allowed);
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
    results[i].pictures = kept(plans[i], skipped.empty());
  }
  return results;
}

}  // namespace felloe
