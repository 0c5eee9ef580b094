// SPDX-License-Identifier: GPL-3.0-or-later
// Proves what edges and finishes do to an S-N curve, and the surface factors of design courses.
#include "post/surface_state.h"

#include <gtest/gtest.h>

#include "mesher/error.h"

namespace felloe {
namespace {

const SnCurve face = parent_metal_curve(material("S420MC"), 25);

double share(const char *edge, EdgeSide side, double given = 0) {
  return with_edge(face, edge_finish(edge), side, given).knee_amplitude / face.knee_amplitude;
}

TEST(Edges, FactorsMultiplyTheFatigueLimit) {  // values are the program's own, see the rows
  EXPECT_NEAR(share("none", EdgeSide::burr), 1, 1e-12);
  EXPECT_NEAR(share("sheared", EdgeSide::burr), 0.75, 1e-12);
  EXPECT_NEAR(share("reamed", EdgeSide::burr), 1, 1e-12);
  EXPECT_NEAR(share("coined", EdgeSide::burr), 0.85, 1e-12);
  EXPECT_NEAR(share("laser-cut", EdgeSide::burr), 125.0 / 160, 0.005);  // EN 1993-1-9, rounded
}

TEST(Edges, AGivenFactorReplacesTheRow) {
  EXPECT_NEAR(share("sheared", EdgeSide::burr, 0.6), 0.6, 1e-12);
  EXPECT_NEAR(share("sheared", EdgeSide::entry, 0.6), 0.85, 1e-12);
  EXPECT_NEAR(share("sheared", EdgeSide::entry, 0.95), 0.95, 1e-12);
  EXPECT_NE(with_edge(face, edge_finish("sheared"), EdgeSide::burr, 0.6)
                .assumptions.back()
                .find("(given)"),
            std::string::npos);
}

TEST(Edges, EveryRowIsCautiousAndSaysSo) {
  for (const EdgeFinish &e : edge_finishes()) {
    SCOPED_TRACE(e.name);
    EXPECT_LE(e.lowest, e.factor);
    EXPECT_LE(e.factor, e.entry_factor);  // the burr side is never the better one
    EXPECT_LE(e.entry_factor, e.highest);
    EXPECT_LE(e.entry_factor, 1);  // no benefit is counted
    EXPECT_FALSE(e.summary.empty());
    EXPECT_FALSE(e.confidence.empty());
    if (e.name == "none") continue;
    const SnCurve c = with_edge(face, e, EdgeSide::burr);
    EXPECT_NE(c.name.find(e.name), std::string::npos);
    EXPECT_NE(c.assumptions.back().find(e.name + " edge"), std::string::npos);
    EXPECT_NE(c.assumptions.back().find("range"), std::string::npos);
  }
  EXPECT_THROW(edge_finish("bitten"), Error);
}

TEST(Finishes, EveryRowIsCautiousAndSaysSo) {
  for (const SurfaceFinish &f : surface_finishes()) {
    SCOPED_TRACE(f.name);
    EXPECT_LE(f.lowest, f.factor);
    EXPECT_LE(f.factor, 1);
    const SnCurve c = with_finish(face, f);
    EXPECT_NEAR(c.knee_amplitude, f.factor * face.knee_amplitude, 1e-9);
    if (f.name != "as delivered") {
      EXPECT_NE(c.assumptions.back().find(f.name), std::string::npos);
    }
  }
  EXPECT_THROW(surface_finish("gilded"), Error);
}

// k_a = a Rm^b at 600 MPa: Shigley (from memory; the machined row found second-hand).
TEST(SurfaceFactors, OfDesignCourses) {
  const struct {
    const char *name;
    double factor;
  } rows[] = {{"ground", .91731},
              {"machined", .82788},
              {"hot-rolled", .58407},
              {"forged", .46807},
              {"ground, newer", .89897},
              {"machined, newer", .75860},
              {"hot-rolled, newer", .60366},
              {"forged, newer", .43026}};
  for (const auto &row : rows) EXPECT_NEAR(surface_factor(row.name).at(600), row.factor, 6e-6);
  EXPECT_EQ(surface_factor("forged").at(100), 1);
}

}  // namespace
}  // namespace felloe
