// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that wrong input to the harmonic model ends in an Error that names load, place and remedy.
#include <gtest/gtest.h>

#include "mesher/error.h"
#include "solver/harmonic_model.h"
#include "tests/support/section_block.h"
#include "tests/support/steel.h"

namespace felloe {
namespace {

const std::map<Part, Material> all_steel{{Part::disc, test::steel()}};

HarmonicSupports held_at(const std::string &place) {
  HarmonicSupports supports;
  supports.held = {{place, {true, true, true}, {}}};
  return supports;
}

std::string message_of(const SectionMesh &mesh, const HarmonicSupports &supports,
                       const HarmonicLoad &load,
                       const std::map<Part, Material> &materials = all_steel) {
  try {
    HarmonicModel(mesh, materials).solve(supports, {load});
  } catch (const Error &e) {
    return e.what();
  }
  return "";
}

void expect_words(const std::string &text, const std::vector<std::string> &words) {
  for (const std::string &word : words)
    EXPECT_NE(text.find(word), std::string::npos) << "no '" << word << "' in: " << text;
}

HarmonicLoad load_named(const std::string &name, int n) {
  HarmonicLoad load;
  load.name = name;
  load.n = n;
  return load;
}

const SectionMesh mesh = test::rectangle(1, 2, 0, 1, 2, 2);

TEST(HarmonicErrors, UnknownEdgeListsTheNames) {
  expect_words(message_of(mesh, held_at("rim"), load_named("a", 0)), {"rim", "inner", "outer"});
  HarmonicLoad load = load_named("pull", 0);
  load.tractions = {{"lid", [](const Vec2 &, const Vec2 &) { return HarmonicVector{}; }}};
  expect_words(message_of(mesh, held_at("outer"), load), {"'pull'", "lid", "inner"});
  HarmonicLoad ring = load_named("ring", 0);
  ring.ring_forces = {{"corner", {1, 0, 0}}};
  expect_words(message_of(mesh, held_at("outer"), ring), {"'ring'", "corner"});
}

TEST(HarmonicErrors, AdapterLoadNeedsAFreeAdapter) {
  HarmonicLoad load = load_named("tilt", 1);
  load.adapter_moment = 1;
  expect_words(message_of(mesh, held_at("outer"), load), {"'tilt'", "adapter"});
  load.n = 2;
  expect_words(message_of(mesh, held_at("outer"), load), {"'tilt'", "harmonics 0 and 1"});
}

TEST(HarmonicErrors, AdapterThatSharesANodeWithAHeldEdgeIsNamed) {
  HarmonicSupports supports = held_at("bottom");
  supports.adapter_edge = "inner";
  expect_words(message_of(mesh, supports, load_named("a", 1)), {"'inner'", "shares a node"});
}

TEST(HarmonicErrors, InterferenceNeedsPairsAndHarmonicZero) {
  HarmonicLoad load = load_named("fit", 0);
  load.interference = 0.1;
  expect_words(message_of(mesh, held_at("outer"), load), {"'fit'", "no press-fit pairs"});
  load.n = 1;
  expect_words(message_of(mesh, held_at("outer"), load), {"'fit'", "harmonic 0"});
}

TEST(HarmonicErrors, BadSectionOrMaterialIsNamed) {
  SectionMesh turned = mesh;
  std::swap(turned.cells[1][0], turned.cells[1][2]);
  std::swap(turned.cells[1][6], turned.cells[1][8]);
  expect_words(message_of(turned, held_at("outer"), load_named("a", 0)), {"cell 1", "turned over"});
  expect_words(message_of(test::rectangle(-1, 1, 0, 1, 2, 1), held_at("outer"), load_named("a", 0)),
               {"cell 0", "positive radii"});
  expect_words(message_of(mesh, held_at("outer"), load_named("a", 0), {}), {"no material"});
  expect_words(message_of(mesh, held_at("outer"), load_named("a", 0),
                          {{Part::disc, test::steel(210000, 0.5)}}),
               {"steel", "nu < 0.5"});
}

TEST(HarmonicErrors, OneOfTwoPiecesLeftFreeIsFound) {
  SectionMesh two = test::rectangle(1, 2, 0, 1, 2, 1, Part::disc, "disc ");
  test::append(two, test::rectangle(2, 3, 0, 1, 2, 1, Part::disc, "rim "));
  test::pair_up(two, "disc outer", "rim inner");
  // The press fit ties the radial direction only: the rim can slide off axially.
  expect_words(message_of(two, held_at("disc inner"), load_named("slide", 0)),
               {"'slide'", "axial shift"});
  // In harmonic 1 the tie of a cylinder holds lateral shift and tilt.
  EXPECT_EQ(message_of(two, held_at("disc inner"), load_named("tilt", 1)), "");
}

}  // namespace
}  // namespace felloe
