// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that supports which cannot work end in a message that says what to repair.
#include <gtest/gtest.h>

#include "mesher/error.h"
#include "solver/elastic_model.h"
#include "tests/support/block_mesh.h"
#include "tests/support/steel.h"

namespace felloe {
namespace {

Mesh cube() {
  test::Block block;
  block.n = {2, 2, 2};
  block.map = [](const Vec3 &p) { return scale(10.0, p); };
  return test::block_mesh(block);
}

std::string message(const Mesh &mesh, const Supports &supports,
                    NodalFrame frame = NodalFrame::cartesian) {
  try {
    ElasticModel(mesh, {{Part::disc, test::steel()}, {Part::rim, test::steel()}}, frame)
        .solve(supports, {LoadCase{}});
  } catch (const Error &e) {
    return e.what();
  }
  return "no error";
}

bool has(const std::string &text, const std::string &part) {
  return text.find(part) != std::string::npos;
}

TEST(Supports, UnknownPlaceListsThePlaces) {
  Supports supports;
  supports.held = {{"a"}};
  const std::string text = message(cube(), supports);
  EXPECT_TRUE(has(text, "'a'") && has(text, "a-, b+")) << text;
}

TEST(Supports, FreeRigidMotionsAreNamed) {
  Supports supports;
  supports.held = {{"a-", {true, false, false}, {}}, {"c-", {false, false, true}, {}}};
  const std::string text = message(cube(), supports);
  EXPECT_TRUE(has(text, "shift along y") && !has(text, "turn")) << text;
  supports.held = {{"a-", {true, true, true}, {}}};
  EXPECT_EQ(message(cube(), supports), "no error");
}

TEST(Supports, ContradictingValuesAreRefused) {
  Supports supports;
  supports.held = {{"a-"}, {"b-", {true, false, false}, [](const Vec3 &) {
                              return Vec3{1, 0, 0};
                            }}};
  EXPECT_TRUE(has(message(cube(), supports), "make them agree"));
}

TEST(Supports, PartHeldByNothingIsFound) {
  test::Block second;
  second.part = Part::rim;
  second.n = {2, 2, 2};
  second.map = [](const Vec3 &p) { return Vec3{20 + p[0], p[1], p[2]}; };
  second.sides.fill("second");
  test::Block first = second;
  first.part = Part::disc;
  first.map = [](const Vec3 &p) { return Vec3{p[0], p[1], p[2]}; };
  first.sides.fill("first");
  const Mesh mesh = test::block_mesh(std::vector<test::Block>{first, second});
  Supports supports;
  supports.held = {{"first"}};
  EXPECT_TRUE(has(message(mesh, supports), "rigid motion of some part"));
}

TEST(Supports, EveryPartNeedsAMaterial) {
  try {
    ElasticModel(cube(), {{Part::rim, test::steel()}});
    FAIL();
  } catch (const Error &e) {
    EXPECT_TRUE(has(e.what(), "materials: disc")) << e.what();
  }
}

TEST(Supports, FoldedCellIsNamed) {
  Mesh mesh = cube();
  mesh.nodes[mesh.cells[5][13]][0] += 20;
  try {
    ElasticModel(mesh, {{Part::disc, test::steel()}});
    FAIL();
  } catch (const Error &e) {
    EXPECT_TRUE(has(e.what(), "cell 5")) << e.what();
  }
}

}  // namespace
}  // namespace felloe
