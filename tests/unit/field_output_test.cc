// SPDX-License-Identifier: GPL-3.0-or-later
// Meshes and fields survive the way through a file; failures are Errors.
#include "post/field_output.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <limits>
#include <map>

#include "mesher/error.h"
#include "post/field_input.h"
#include "tests/support/scratch_folder.h"
#include "tests/support/simple_wheel.h"

namespace felloe {
namespace {

PointField field(const Mesh &mesh, const std::string &name, int components) {
  PointField f{name, components, {}};
  for (std::size_t i = 0; i < mesh.nodes.size() * components; ++i)
    f.values.push_back(0.1 * i + 1 / 3.);
  return f;
}

std::vector<double> in_single_precision(std::vector<double> values) {
  for (double &v : values) v = static_cast<float>(v);
  return values;
}

TEST(VtuFile, NodesCellsAndPartsComeBackBitForBitFieldsInSinglePrecision) {
  const test::ScratchFolder folder;
  const Mesh mesh = test::toy_wheel();
  const std::vector<PointField> fields{field(mesh, field_names::displacement, 3),
                                       field(mesh, field_names::stress, 6),
                                       field(mesh, field_names::stress_amplitude, 1)};
  const CellField jacobian{"scaled Jacobian", 1, std::vector<double>(mesh.cells.size(), 0.7)};
  write_vtu(folder.file("a.vtu"), mesh, fields, {jacobian});
  const StoredFields stored = read_vtu(folder.file("a.vtu"));
  EXPECT_EQ(stored.mesh.nodes, mesh.nodes);
  EXPECT_EQ(stored.mesh.cells, mesh.cells);
  EXPECT_EQ(stored.mesh.parts, mesh.parts);
  for (const PointField &f : fields) {
    EXPECT_EQ(point_field(stored, f.name).components, f.components) << f.name;
    EXPECT_EQ(point_field(stored, f.name).values, in_single_precision(f.values)) << f.name;
  }
  ASSERT_EQ(stored.cell_fields.size(), 1U);
  EXPECT_EQ(stored.cell_fields[0].values, in_single_precision(jacobian.values));
  EXPECT_EQ(test::n_files(folder.path()), 1);
}

// A viewer that is asked for nothing shows the first field of one component, not plain white, and
// deforms by the first vector.
TEST(VtuFile, SaysWhatViewersShowFirst) {
  const test::ScratchFolder folder;
  const Mesh mesh = test::ring();
  const std::vector<PointField> fields{
      field(mesh, field_names::displacement, 3), field(mesh, field_names::stress, 6),
      field(mesh, field_names::von_mises, 1), field(mesh, field_names::life, 1)};
  write_vtu(folder.file("a.vtu"), mesh, fields);
  write_pvtu(folder.file("a.pvtu"), {"a.vtu"}, fields);
  for (const char *file : {"a.vtu", "a.pvtu"}) {
    const StoredFields stored = read_vtu(folder.file(file));
    EXPECT_EQ(stored.coloured_by, field_names::von_mises) << file;
    EXPECT_EQ(stored.moved_by, field_names::displacement) << file;
  }
}

// The second file takes the mesh as it was compressed for the first.
TEST(VtuFile, FilesOfOneMeshAreAsIfWrittenAlone) {
  const test::ScratchFolder folder;
  const Mesh mesh = test::toy_wheel();
  const PointField first = field(mesh, field_names::displacement, 3),
                   second = field(mesh, field_names::stress, 6);
  const CellField jacobian{"scaled Jacobian", 1, std::vector<double>(mesh.cells.size(), 0.7)};
  const VolumeFiles files(mesh);
  files.write(folder.file("1.vtu"), {first}, {jacobian});
  files.write(folder.file("2.vtu"), {second});
  const StoredFields stored = read_vtu(folder.file("2.vtu"));
  EXPECT_EQ(stored.mesh.nodes, mesh.nodes);
  EXPECT_EQ(stored.mesh.cells, mesh.cells);
  EXPECT_EQ(stored.mesh.parts, mesh.parts);
  ASSERT_EQ(stored.point_fields.size(), 1U);
  EXPECT_EQ(stored.point_fields[0].values, in_single_precision(second.values));
  EXPECT_TRUE(stored.cell_fields.empty());
}

// The node order is right only when VTK's own shape functions find the volume of the body,
// pi (60^2 - 40^2) 5 mm3 but for the arcs: a parabola through three points of an arc of half angle
// h encloses, with the centre, sin h cos h + 4/3 sin h (1 - cos h) instead of h (triangle and
// parabolic segment, Archimedes).
TEST(VtuFile, CellsHaveTheVolumeOfTheMesh) {
  const test::ScratchFolder folder;
  write_vtu(folder.file("a.vtu"), test::ring(12), {});
  const double h = pi / 12;
  const double ratio = std::sin(h) * (std::cos(h) + 4. / 3 * (1 - std::cos(h))) / h;
  EXPECT_NEAR(viewer_volume(folder.file("a.vtu")) / (pi * 2000 * 5), ratio, 1e-12);
}

TEST(VtuFile, IsSmallerThanItsNumbers) {
  const test::ScratchFolder folder;
  const Mesh mesh = test::toy_wheel();
  write_vtu(folder.file("a.vtu"), mesh,
            {{"life [cycles]", 1, std::vector<double>(mesh.nodes.size(), 1e6)}});
  const std::size_t raw = (8 * 3 + 4) * mesh.nodes.size() + 4 * 27 * mesh.cells.size();
  EXPECT_LT(test::file_text(folder.file("a.vtu")).size(), raw * 3 / 4);
}

TEST(VtuFile, InfiniteLifeIsALargeFiniteNumber) {
  const test::ScratchFolder folder;
  const Mesh mesh = test::ring();
  PointField life{field_names::life, 1, std::vector<double>(mesh.nodes.size(), 1e5)};
  life.values[7] = std::numeric_limits<double>::infinity();
  life.values[9] = 3e15;  // no longer than an infinite one
  write_vtu(folder.file("a.vtu"), mesh, {life});
  const StoredFields stored = read_vtu(folder.file("a.vtu"));
  EXPECT_EQ(point_field(stored, field_names::life).values[7], float(infinite_life_in_fields));
  EXPECT_EQ(point_field(stored, field_names::life).values[8], 1e5);
  EXPECT_EQ(point_field(stored, field_names::life).values[9], float(infinite_life_in_fields));
}

// meshio shares no code with VTK; the script knows the formulas of these fields.
TEST(VtuFile, AReaderOfAnotherFamilyFindsTheSameValues) {
  const test::ScratchFolder folder;
  const Mesh mesh = test::toy_wheel();
  std::vector<PointField> fields{{field_names::displacement, 3, {}},
                                 {field_names::stress, 6, {}},
                                 {field_names::stress_amplitude, 1, {}}};
  for (const auto &[x, y, z] : mesh.nodes) {
    for (const double u : {1e-3 * x, -2e-3 * y, 3e-3 * z}) fields[0].values.push_back(u);
    for (const double s : {x, y, z, x + y, y - z, 2 * x}) fields[1].values.push_back(s);
    fields[2].values.push_back(std::hypot(x, y));
  }
  write_vtu(folder.file("a.vtu"), mesh, fields);
  const std::string command = "/usr/bin/python3 " FELLOE_TEST_FILES "/read_by_meshio.py " +
                              folder.file("a.vtu") + " " + std::to_string(mesh.cells.size());
  EXPECT_EQ(std::system(command.c_str()), 0) << "is the package python3-meshio installed?";
}

TEST(PvtuFile, PiecesAreTheMeshAgain) {
  const test::ScratchFolder folder;
  const Mesh mesh = test::toy_wheel();
  const std::vector<PointField> fields{field(mesh, field_names::displacement, 3)};
  std::vector<std::string> names;
  std::vector<int> all;
  for (int p = 0; p < 3; ++p) {
    const std::vector<int> cells = cells_of_piece(mesh, p, 3);
    all.insert(all.end(), cells.begin(), cells.end());
    names.push_back("piece" + std::to_string(p) + ".vtu");
    write_vtu(folder.file(names.back()), mesh, fields, {}, cells);
  }
  std::sort(all.begin(), all.end());
  ASSERT_EQ(all.size(), mesh.cells.size());  // each cell in one piece
  for (std::size_t c = 0; c < all.size(); ++c) EXPECT_EQ(all[c], static_cast<int>(c));
  write_pvtu(folder.file("a.pvtu"), names, fields);
  const StoredFields stored = read_vtu(folder.file("a.pvtu"));
  EXPECT_EQ(stored.mesh.cells.size(), mesh.cells.size());
  EXPECT_EQ(stored.mesh.parts.size(), mesh.parts.size());
  std::map<Vec3, std::size_t> node_at;
  for (std::size_t n = 0; n < mesh.nodes.size(); ++n) node_at[mesh.nodes[n]] = n;
  const PointField &found = point_field(stored, field_names::displacement);
  for (std::size_t n = 0; n < stored.mesh.nodes.size(); ++n) {
    ASSERT_EQ(node_at.count(stored.mesh.nodes[n]), 1U);
    for (int c = 0; c < 3; ++c)
      EXPECT_EQ(found.values[3 * n + c],
                float(fields[0].values[3 * node_at[stored.mesh.nodes[n]] + c]));
  }
}

TEST(PvtuFile, AFullDiskAndAMissingPieceAreErrors) {
  EXPECT_THROW(write_pvtu("/dev/full", {"a.vtu"}, {}), Error);
  const test::ScratchFolder folder;
  write_pvtu(folder.file("a.pvtu"), {"none.vtu"}, {});
  EXPECT_THROW(read_vtu(folder.file("a.pvtu")), Error);
}

TEST(VtuFile, FullDiskAndMissingFoldersAreErrors) {
  const Mesh mesh = test::ring();
  EXPECT_THROW(write_vtu("/dev/full", mesh, {}), Error);
  EXPECT_THROW(write_vtu("/no/such/folder/a.vtu", mesh, {}), Error);
  EXPECT_THROW(write_pvd("/dev/full", {{0, "a.vtu", "a"}}), Error);
}

TEST(VtuFile, AFieldOfTheWrongLengthIsRefused) {
  const test::ScratchFolder folder;
  EXPECT_THROW(write_vtu(folder.file("a.vtu"), test::ring(), {{"short", 1, {1, 2}}}),
               std::logic_error);
  EXPECT_EQ(test::n_files(folder.path()), 0);
}

TEST(VtuFile, DamagedAndMissingFilesAreErrors) {
  const test::ScratchFolder folder;
  EXPECT_THROW(read_vtu(folder.file("none.vtu")), Error);
  std::ofstream(folder.file("text.vtu")) << "not a mesh";
  EXPECT_THROW(read_vtu(folder.file("text.vtu")), Error);
  write_vtu(folder.file("whole.vtu"), test::toy_wheel(), {});
  const std::string whole = test::file_text(folder.file("whole.vtu"));
  std::ofstream(folder.file("half.vtu"), std::ios::binary) << whole.substr(0, whole.size() / 2);
  EXPECT_THROW(read_vtu(folder.file("half.vtu")), Error);
}

TEST(VtuFile, AnUnknownFieldIsAnErrorThatListsTheNames) {
  const test::ScratchFolder folder;
  const Mesh mesh = test::ring();
  write_vtu(folder.file("a.vtu"), mesh, {field(mesh, field_names::mean_stress, 1)});
  const StoredFields stored = read_vtu(folder.file("a.vtu"));
  try {
    point_field(stored, "strain");
    FAIL() << "no error";
  } catch (const Error &e) {
    EXPECT_NE(std::string(e.what()).find("'mean stress [MPa]'"), std::string::npos) << e.what();
  }
}

TEST(PvdFile, NamesEveryFileWithItsStepAndEscapesNames) {
  const test::ScratchFolder folder;
  write_pvd(folder.file("wheel.pvd"), {{0, "bending.vtu", "bending"}, {1, "a&b.vtu", "a<\"b\""}});
  const std::string text = test::file_text(folder.file("wheel.pvd"));
  EXPECT_NE(text.find("<VTKFile type=\"Collection\""), std::string::npos);
  EXPECT_NE(text.find("timestep=\"0\" group=\"\" part=\"0\" name=\"bending\" file=\"bending.vtu\""),
            std::string::npos);
  EXPECT_NE(text.find("timestep=\"1\" group=\"\" part=\"0\" name=\"a&lt;&quot;b&quot;\" "
                      "file=\"a&amp;b.vtu\""),
            std::string::npos);
}

}  // namespace
}  // namespace felloe
