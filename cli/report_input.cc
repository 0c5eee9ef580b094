// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report_input.h"

#include <ctime>

#include "cli/test_turns.h"
#include "post/section_drawing.h"

namespace felloe {
namespace {

std::string now() {
  const std::time_t time = std::time(nullptr);
  std::tm parts{};
  ::gmtime_r(&time, &parts);
  char text[40];
  std::strftime(text, sizeof text, "%Y-%m-%d %H:%M UTC", &parts);
  return text;
}

}  // namespace

ReportInput report_input(const Case &c, const Analysis &a, const std::string &case_text,
                         const std::string &command) {
  ReportInput in;
  in.results = a.results;
  in.rules = rating_rules(c);
  in.case_text = case_text;
  in.command = command;
  in.date = now();
  in.wheel = wheel_facts(c, a.layout);
  in.loads = load_facts(c);
  in.factors = factors_of(c);
  in.section = section_figure(a.layout);
  return in;
}

}  // namespace felloe
