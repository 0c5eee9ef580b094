// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/stopwatch.h"

#include <sys/resource.h>

#include <algorithm>

namespace felloe {
namespace {

double seconds(const timeval &t) { return double(t.tv_sec) + 1e-6 * double(t.tv_usec); }

/// User and system time of all threads since the process began [s].
double processor_seconds() {
  rusage used{};
  ::getrusage(RUSAGE_SELF, &used);
  return seconds(used.ru_utime) + seconds(used.ru_stime);
}

double since(std::chrono::steady_clock::time_point t) {
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - t).count();
}

}  // namespace

void Stopwatch::start(const std::string &step, Work work) {
  stop();
  auto &steps = times_.steps;
  const bool writes = work == Work::writing;
  auto found = std::find_if(steps.begin(), steps.end(), [&](const StepTime &t) {
    return t.step == step && t.writes == writes;
  });
  if (found == steps.end()) found = steps.insert(steps.end(), {step, writes, 0, 0});
  running_ = &*found;
  step_begin_ = Clock::now();
  processor_at_begin_ = processor_seconds();
}

void Stopwatch::stop() {
  if (!running_) return;
  running_->wall_s += since(step_begin_);
  running_->processor_s += processor_seconds() - processor_at_begin_;
  running_ = nullptr;
}

double Stopwatch::wall_s() const { return since(begin_); }

RunTimes Stopwatch::times() const {
  RunTimes all = times_;
  all.wall_s = wall_s();
  all.processor_s = processor_seconds();
  for (const StepTime &t : all.steps)
    if (t.writes) {
      all.writing_wall_s += t.wall_s;
      all.writing_processor_s += t.processor_s;
    }
  return all;
}

}  // namespace felloe
