// SPDX-License-Identifier: GPL-3.0-or-later
// The standing cautions say what every report has to say.
#include <gtest/gtest.h>

#include "post/results.h"

namespace felloe {
namespace {

TEST(StandingCautions, NameTheLaboratoryTheLocalCodesAndTheEngineers) {
  std::string all;
  for (const std::string &caution : standing_cautions()) {
    EXPECT_LE(caution.size(), 300U) << caution;
    all += caution + "\n";
  }
  for (const char *words :
       {"tests of production parts by an accredited laboratory decide", "Local codes",
        "licensed engineers take precedence", "must never return to a vehicle"})
    EXPECT_NE(all.find(words), std::string::npos) << words;
}

}  // namespace
}  // namespace felloe
