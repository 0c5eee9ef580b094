// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/field_files.h"

#include <memory>

#include "cli/surface_files.h"
#include "mesher/error.h"
#include "post/field_output.h"
#include "solver/processes.h"

namespace felloe {
namespace {

PointField displacement_field(const Solution &s) {
  PointField field{field_names::displacement, 3, {}};
  for (const Vec3 &u : s.displacement) field.values.insert(field.values.end(), u.begin(), u.end());
  return field;
}

PointField stress_field(const Solution &s) {
  PointField field{field_names::stress, 6, {}};
  for (const Stress &stress : s.stress)
    for (int i = 0; i < 6; ++i) field.values.push_back(stress[i]);
  return field;
}

/// Those of the first process on all.
std::vector<PointField> of_first(const std::vector<PointField> &fields) {
  std::vector<PointField> all = fields;
  all.resize(static_cast<std::size_t>(Processes::of_first(static_cast<double>(fields.size()))));
  for (PointField &f : all) {
    f.name = Processes::of_first(f.name);
    f.components = static_cast<int>(Processes::of_first(f.components));
    f.values = Processes::of_first(f.values);
  }
  return all;
}

std::string volume_file(std::size_t number, const std::string &name) {
  return std::to_string(number) + "_" + file_stem(name);
}

/// Writes and collects the pieces of a run.
class PieceFiles {
 public:
  PieceFiles(const Mesh &mesh, const std::string &folder, const std::string &shown)
      : mesh_(mesh),
        folder_(folder),
        shown_(shown),
        cells_(cells_of_piece(mesh, Processes::number(), Processes::count())) {}

  void add(const std::string &name, const std::vector<PointField> &fields) {
    const std::string stem = volume_file(files_.size() + 1, name), file = stem + ".pvtu";
    named([&] { write_vtu(path(piece(stem, Processes::number())), mesh_, fields, {}, cells_); });
    files_.push_back({static_cast<double>(files_.size()), file, name});
    if (!Processes::first()) return;
    std::vector<std::string> pieces;
    for (int p = 0; p < Processes::count(); ++p) pieces.push_back(piece(stem, p));
    named([&] { write_pvtu(path(file), pieces, fields); });
  }
  void collect() const {
    named([&] { write_pvd(path("wheel.pvd"), files_); });
  }

 private:
  static std::string piece(const std::string &stem, int number) {
    return stem + "_piece" + std::to_string(number + 1) + ".vtu";
  }
  std::string path(const std::string &file) const { return folder_ + "/" + file; }
  template <class F>
  void named(F &&write) const {
    try {
      write();
    } catch (const Error &e) {
      std::string what = e.what();
      for (auto at = what.find(folder_); at != std::string::npos; at = what.find(folder_))
        what.replace(at, folder_.size(), shown_);
      throw Error(what);
    }
  }

  const Mesh &mesh_;
  const std::string folder_, shown_;
  std::vector<int> cells_;
  std::vector<CollectionFile> files_;
};

/// Calls visit(name, function that returns the fields) for every file of the volume.
template <class Visit>
void visit_volumes(const Analysis &a, const Visit &visit) {
  for (const TestFields &t : a.fields) visit(t.test, [&] { return rating_fields(a, t); });
  for (const Solution &s : a.shown)
    visit(s.load_case, [&s] {
      return std::vector<PointField>{displacement_field(s), stress_field(s)};
    });
}

}  // namespace

std::string file_stem(const std::string &name) {
  std::string stem;
  for (const char c : name) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
                       c == '.' || c == '-';
    if (plain)
      stem += c;
    else if (!stem.empty() && stem.back() != '_')
      stem += '_';
  }
  while (!stem.empty() && stem.back() == '_') stem.pop_back();
  return stem.empty() ? "unnamed" : stem;
}

Jobs field_jobs(const Analysis &a, const std::string &folder) {
  Jobs jobs;
  if (Processes::count() == 1) {
    const auto volume = std::make_shared<const VolumeFiles>(a.mesh);
    std::vector<CollectionFile> files;
    visit_volumes(a, [&](const std::string &name, const auto &fields) {
      const std::string file = volume_file(files.size() + 1, name) + ".vtu";
      files.push_back({static_cast<double>(files.size()), file, name});
      jobs.push_back([=] { volume->write(folder + "/" + file, fields()); });
    });
    jobs.push_back([=] { write_pvd(folder + "/wheel.pvd", files); });
  }
  for (auto &job : surface_jobs(a, folder)) jobs.push_back(std::move(job));
  return jobs;
}

void write_pieces(const Analysis &a, const std::string &folder, const std::string &shown) {
  PieceFiles files(a.mesh, folder, shown);
  // What there is, only the first process knows: a name, then its fields; no name at the end.
  const auto write = [&](const std::string &name, const std::vector<PointField> &fields) {
    const std::string shared_name = Processes::of_first(name);
    if (shared_name.empty()) return false;
    const std::vector<PointField> shared = of_first(fields);
    Processes::together([&] { files.add(shared_name, shared); });
    return true;
  };
  if (Processes::first()) {
    visit_volumes(a, [&](const std::string &name, const auto &fields) { write(name, fields()); });
    write("", {});
  } else {
    while (write("", {})) {
    }
  }
  Processes::together([&] {
    if (Processes::first()) files.collect();
  });
}

}  // namespace felloe
