// SPDX-License-Identifier: GPL-3.0-or-later
// Which pictures there are of a rated wheel, and what is written under each.
#include "post/pictures.h"

#include <fmt/format.h>

#include <atomic>
#include <deque>
#include <mutex>
#include <optional>
#include <stdexcept>

#include "post/detail/picture_views.h"
#include "post/whole_file.h"
#include "solver/parallel.h"

namespace felloe {
namespace {

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

/// The surface of a set, made when the first of its pictures is drawn.
class Content {
 public:
  Content(const Mesh &mesh, const PictureSet &set) : mesh_(mesh), set_(set) {}
  const detail::PictureContent &get() {
    std::call_once(once_, [this] { content_.emplace(mesh_, set_); });
    return *content_;
  }

 private:
  const Mesh &mesh_;
  const PictureSet &set_;
  std::once_flag once_;
  std::optional<detail::PictureContent> content_;
};

/// Whether the worst place is seen in an overview of it.
bool shows_worst(const detail::PictureContent &content, const std::string &view) {
  if ((view != "front" && view != "back") || content.marked.empty()) return false;
  const Vec3 direction = view == "front" ? detail::front_direction : detail::back_direction;
  return in_sight(content.skin, content.marked.front(), scale(1 / norm(direction), direction));
}

/// A picture to draw, and whether there was anything to be seen.
struct Task {
  Content &content;
  Picture &picture;
  bool drawn = false;
};

void draw(detail::Canvas &canvas, Task &task) {
  const std::string bytes = drawn_picture(canvas, task.content.get(), task.picture);
  task.drawn = !bytes.empty();
  if (!task.drawn) return;
  write_whole_file(task.picture.file, bytes);
  task.picture.shows_worst = shows_worst(task.content.get(), task.picture.view);
}

/// Whoever has time takes the next job or picture. One thread more than processors: those that wait
/// for the disk leave theirs to others.
void work_off(const Jobs &jobs, std::vector<Task> &tasks) {
  std::atomic<std::size_t> next{0};
  in_parallel(n_threads() + 1, [&](int) {
    std::optional<detail::Canvas> canvas;
    const std::size_t n = jobs.size() + tasks.size();
    for (std::size_t k = next++; k < n; k = next++) {
      if (k < jobs.size()) {
        jobs[k]();
      } else {
        if (!canvas) canvas.emplace();
        draw(*canvas, tasks[k - jobs.size()]);
      }
    }
  });
}

void check(const Mesh &mesh, const PictureSet &set) {
  const std::size_t n = mesh.nodes.size();
  if (set.values == nullptr || set.values->size() != n ||
      (set.rated != nullptr && set.rated->size() != n) ||
      (set.deformed.displacement != nullptr && set.deformed.displacement->size() != n))
    throw std::logic_error("pictures: the values do not fit the mesh");
}

}  // namespace

std::vector<std::vector<Picture>> draw_picture_sets(const Mesh &mesh,
                                                    const std::vector<PictureSet> &sets,
                                                    const Jobs &besides) {
  std::vector<std::vector<Picture>> plans;
  for (const PictureSet &set : sets) {
    check(mesh, set);
    make_folder(set.folder);
    plans.push_back(planned(set));
  }
  std::deque<Content> contents;
  for (const PictureSet &set : sets) contents.emplace_back(mesh, set);
  std::vector<Task> tasks;  // in turns of all sets, so that their surfaces are made side by side
  std::size_t longest = 0;
  for (const auto &plan : plans) longest = std::max(longest, plan.size());
  for (std::size_t p = 0; p < longest; ++p)
    for (std::size_t i = 0; i < sets.size(); ++i)
      if (p < plans[i].size()) tasks.push_back({contents[i], plans[i][p]});
  work_off(besides, tasks);
  std::vector<std::vector<Picture>> drawn(sets.size());
  for (std::size_t i = 0; i < sets.size(); ++i)
    for (const Task &task : tasks)
      if (&task.content == &contents[i] && task.drawn) drawn[i].push_back(task.picture);
  return drawn;
}

}  // namespace felloe
