// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sweep/sweep_progress.h"

#include <unistd.h>

#include <cmath>
#include <cstdio>

namespace felloe {
namespace {

/// Between two lines [s].
constexpr double on_terminal = 0.9, in_a_file = 30;

std::string duration(double seconds) {
  char text[32];
  const long s = std::lround(seconds);
  if (s >= 3600)
    std::snprintf(text, sizeof text, "%ld:%02ld h", s / 3600, s / 60 % 60);
  else
    std::snprintf(text, sizeof text, "%ld:%02ld min", s / 60, s % 60);
  return text;
}

}  // namespace

std::string progress_line(const Counts &c, long finished_before, double seconds,
                          const std::string &best) {
  std::string line = std::to_string(c.finished()) + " of " + std::to_string(c.all());
  if (c.failed > 0) line += " (" + std::to_string(c.failed) + " failed)";
  const long n = c.finished() - finished_before;
  if (n > 0 && seconds > 0) {
    const double a_second = double(n) / seconds;
    line += ", " + std::to_string(std::lround(3600 * a_second)) + " an hour";
    if (c.finished() < c.all())
      line += ", " + duration(double(c.all() - c.finished()) / a_second) + " left";
  }
  return line + (best.empty() ? "" : ", " + best);
}

SweepProgress::SweepProgress(const Store &store, const Counts &at_start, bool quiet)
    : store_(store),
      at_start_(at_start),
      last_(at_start),
      quiet_(quiet),
      terminal_(::isatty(2) == 1),
      start_(now_seconds()) {}

SweepProgress::~SweepProgress() {
  if (!quiet_ && terminal_ && open_line_) std::fputc('\n', stderr);
}

void SweepProgress::watch(const Counts &c) {
  if (quiet_) return;
  const bool last = c.queued == 0 && c.running == 0;
  const bool due = now_seconds() - shown_ > (terminal_ ? on_terminal : in_a_file);
  if (due || (last && c.finished() != last_.finished())) show(c);
}

void SweepProgress::show(const Counts &c) {
  shown_ = now_seconds();
  last_ = c;
  const std::string line =
      progress_line(c, at_start_.finished(), shown_ - start_, store_.lightest_that_passes());
  std::fprintf(stderr, terminal_ ? "\r\033[K  %s" : "  %s\n", line.c_str());
  std::fflush(stderr);
  open_line_ = true;
}

void SweepProgress::note(const std::string &line) {
  if (quiet_) return;
  if (terminal_ && open_line_) std::fputc('\n', stderr);
  open_line_ = false;
  std::fprintf(stderr, "  %s\n", line.c_str());
}

}  // namespace felloe
