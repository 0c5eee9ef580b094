// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that the table of what moves the life most changes a weld class to one that the toe can
// have.
#include <gtest/gtest.h>

#include "cli/sensitivity.h"

namespace felloe {
namespace {

std::string name(const WeldClass *w) { return w ? w->name : "none"; }

std::string below(const char *now) { return name(next_weld_classes(weld_class(now)).first); }
std::string above(const char *now) { return name(next_weld_classes(weld_class(now)).second); }

TEST(NextWeldClasses, AreThoseNextByStress) {
  EXPECT_EQ(below("IIW FAT 100 hot-spot"), "IIW FAT 90 hot-spot");
  EXPECT_EQ(above("IIW FAT 90 hot-spot"), "IIW FAT 100 hot-spot");
}

// Without the rule these would be cut edges (125 MPa) and notch stress (71 MPa, aluminium).
TEST(NextWeldClasses, AreMadeForToes) {
  EXPECT_EQ(above("EN 1993-1-9 112"), "none");
  for (const WeldClass &w : weld_classes()) {
    const auto [lower, higher] = next_weld_classes(w);
    for (const WeldClass *next : {lower, higher}) {
      if (next) {
        EXPECT_TRUE(next->for_toes) << w.name << ": " << next->name;
      }
    }
  }
}

TEST(NextWeldClasses, KeepTheMetal) {
  EXPECT_EQ(below("IIW FAT 40 hot-spot aluminium"), "IIW FAT 36 hot-spot aluminium");
  EXPECT_EQ(above("IIW FAT 40 hot-spot aluminium"), "none");
  EXPECT_EQ(below("EN 1993-1-9 71"), "EN 1993-1-9 36");
}

}  // namespace
}  // namespace felloe
