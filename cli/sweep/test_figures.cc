// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sweep/test_figures.h"

#include "post/worst_first.h"

namespace felloe {

TestFigures test_figures(const std::string &test, const std::vector<HotSpot> &sorted,
                         double required_cycles) {
  TestFigures f;
  f.test = test;
  f.required_cycles = required_cycles;
  if (sorted.empty()) return f;
  const HotSpot &worst = sorted.front();
  f.feature = worst.feature;
  f.stress_MPa = worst.fully_reversed;
  f.error_percent = worst.error_percent;
  const HotSpot &shortest = *shortest_lived(sorted, worst.test);
  f.life_p50 = shortest.life_p50;
  f.life_design = shortest.life_design;
  f.verdict = worst.verdict;
  f.allowed_stress_MPa = worst.allowed;
  return f;
}

Verdict verdict_of(const std::vector<TestFigures> &tests) {
  Verdict verdict = tests.empty() ? Verdict::not_rated : Verdict::pass;
  for (const TestFigures &t : tests) {
    if (t.verdict == Verdict::fail) return Verdict::fail;
    if (t.verdict == Verdict::not_rated) verdict = Verdict::not_rated;
  }
  return verdict;
}

}  // namespace felloe
