// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/progress.h"

#include <unistd.h>

#include <cmath>
#include <condition_variable>
#include <cstdio>
#include <mutex>
#include <thread>

#include "cli/terminal.h"

namespace felloe {
namespace {

constexpr int name_width = 52;

/// Past the stream's buffer and lock: a child that is forked while the line renews itself must find
/// both untouched.
void to_terminal(const std::string &text) {
  if (::write(2, text.data(), text.size()) < 0) return;  // a progress line less
}

}  // namespace

std::string duration_text(double seconds) {
  char text[32];
  const long s = std::lround(seconds);
  if (s >= 3600)
    std::snprintf(text, sizeof text, "%ld:%02ld h", s / 3600, s / 60 % 60);
  else if (s >= 60)
    std::snprintf(text, sizeof text, "%ld:%02ld min", s / 60, s % 60);
  else
    std::snprintf(text, sizeof text, "%ld s", s);
  return text;
}

std::string running_line(const std::string &step, double seconds, double left, std::size_t width) {
  char head[160];
  std::snprintf(head, sizeof head, "  %-*s %6.0f s", name_width, step.c_str(), seconds);
  std::string line = head;
  // a figure that is about to be wrong helps nobody
  if (left >= 1) line += "  about " + duration_text(left) + " left";
  return line.substr(0, width);
}

/// Renews the line of the running step every second.
struct Progress::Ticker {
  std::mutex mutex;
  std::condition_variable changed;
  std::string step;  ///< empty: none runs
  clock::time_point step_start, end;
  bool end_known = false, over = false;
  std::thread thread{[this] { run(); }};

  ~Ticker() {
    {
      const std::lock_guard<std::mutex> lock(mutex);
      over = true;
    }
    changed.notify_one();
    thread.join();
  }

  void begin(const std::string &what) {
    const std::lock_guard<std::mutex> lock(mutex);
    step = what;
    step_start = clock::now();
    show();
  }
  /// Clears the line.
  void end_step() {
    const std::lock_guard<std::mutex> lock(mutex);
    step.clear();
    to_terminal("\r\033[K");
  }
  void expect(double seconds) {
    const std::lock_guard<std::mutex> lock(mutex);
    end_known = seconds > 0;
    end = clock::now() + std::chrono::milliseconds(std::llround(1e3 * seconds));
  }

 private:
  void show() const {
    const double left = end_known ? -seconds_since(end) : 0;
    to_terminal("\r\033[K" +
                running_line(step, seconds_since(step_start), left, text_width(stderr) - 1));
  }
  void run() {
    std::unique_lock<std::mutex> lock(mutex);
    while (!over) {
      changed.wait_for(lock, std::chrono::seconds(1));
      if (!over && !step.empty()) show();
    }
  }
};

Progress::Progress(bool quiet) : quiet_(quiet) {
  if (!quiet && is_terminal(stderr)) ticker_ = std::make_unique<Ticker>();
}

Progress::~Progress() {
  if (running_ && !quiet_) finish();
}

void Progress::step(const std::string &what, Work work) {
  finish();
  stopwatch_.start(what, work);
  running_ = true;
  step_ = what;
  step_start_ = clock::now();
  if (ticker_)
    ticker_->begin(what);
  else if (!quiet_)
    std::fprintf(stderr, "  %-*s", name_width, what.c_str());
}

void Progress::finish() {
  stopwatch_.stop();
  if (running_ && !quiet_) {
    if (ticker_) {
      ticker_->end_step();
      std::fprintf(stderr, "  %-*s", name_width, step_.c_str());
    }
    std::fprintf(stderr, " %6.1f s%s%s\n", seconds_since(step_start_), remark_.empty() ? "" : "  ",
                 remark_.c_str());
  }
  running_ = false;
  remark_.clear();
}

void Progress::note(const std::string &text) {
  finish();
  if (!quiet_) std::fprintf(stderr, "  %s\n", text.c_str());
}

void Progress::expect(double seconds) {
  if (ticker_) ticker_->expect(seconds);
}

}  // namespace felloe
