// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/field_files.h"

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

/// Writes and collects the files of a run.
class FieldFiles {
 public:
  FieldFiles(const Mesh &mesh, const std::string &folder, const std::string &shown)
      : mesh_(mesh), folder_(folder), shown_(shown) {
    if (Processes::count() > 1)
      cells_ = cells_of_piece(mesh, Processes::number(), Processes::count());
  }

  void add(const std::string &name, const std::vector<PointField> &fields) {
    const std::string stem = std::to_string(files_.size() + 1) + "_" + file_stem(name);
    const bool alone = Processes::count() == 1;
    const std::string file = stem + (alone ? ".vtu" : ".pvtu");
    named([&] {
      if (alone)
        write_vtu(path(file), mesh_, fields);
      else
        write_vtu(path(piece(stem, Processes::number())), mesh_, fields, {}, cells_);
    });
    files_.push_back({static_cast<double>(files_.size()), file, name});
    if (alone || !Processes::first()) return;
    std::vector<std::string> pieces;
    for (int p = 0; p < Processes::count(); ++p) pieces.push_back(piece(stem, p));
    named([&] { write_pvtu(path(file), pieces, fields); });
  }
  void collect() const {
    named([&] { write_pvd(path("wheel.pvd"), files_); });
  }
  void surfaces(const Analysis &a) const {
    named([&] { write_surfaces(a, folder_); });
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

void write_fields(const Analysis &a, const std::string &folder, const std::string &shown) {
  FieldFiles files(a.mesh, folder, shown);
  // What there is, only the first process knows: a name, then its fields; no name at the end.
  const auto write = [&](const std::string &name, const std::vector<PointField> &fields) {
    const std::string shared_name = Processes::of_first(name);
    if (shared_name.empty()) return false;
    const std::vector<PointField> shared = of_first(fields);
    Processes::together([&] { files.add(shared_name, shared); });
    return true;
  };
  if (Processes::first()) {
    for (const TestFields &t : a.fields) write(t.test, rating_fields(a, t));
    for (const Solution &s : a.shown) write(s.load_case, {displacement_field(s), stress_field(s)});
    write("", {});
  } else {
    while (write("", {})) {
    }
  }
  Processes::together([&] {
    if (!Processes::first()) return;
    files.collect();
    files.surfaces(a);
  });
}

}  // namespace felloe
