// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sweep/crew.h"

#include <poll.h>
#include <signal.h>
#include <string.h>
#include <sys/wait.h>

#include <algorithm>
#include <array>
#include <fstream>
#include <memory>
#include <vector>

#include "cli/sweep/detail/worker_process.h"
#include "mesher/error.h"

namespace felloe {
namespace {

constexpr std::array<int, 3> stop_signals = {SIGINT, SIGTERM, SIGHUP};
volatile sig_atomic_t stopped_by = 0;

/// While it lives, the signals that end a program are only noted.
class NotedSignals {
 public:
  NotedSignals() {
    stopped_by = 0;
    struct sigaction action = {};
    action.sa_handler = [](int number) { stopped_by = number; };
    for (std::size_t i = 0; i < stop_signals.size(); ++i) {
      ::sigaction(stop_signals[i], nullptr, &before_[i]);
      if (before_[i].sa_handler != SIG_IGN) ::sigaction(stop_signals[i], &action, nullptr);
    }
  }
  ~NotedSignals() {
    for (std::size_t i = 0; i < stop_signals.size(); ++i)
      ::sigaction(stop_signals[i], &before_[i], nullptr);
  }
  NotedSignals(const NotedSignals &) = delete;
  NotedSignals &operator=(const NotedSignals &) = delete;

 private:
  std::array<struct sigaction, stop_signals.size()> before_;
};

/// Processes that the kernel ended for want of memory since it started; -1: not known.
long memory_kills() {
  std::ifstream in("/proc/vmstat");
  std::string name;
  for (long n; in >> name >> n;)
    if (name == "oom_kill") return n;
  return -1;
}

std::string last_line(const std::string &words) {
  const auto end = words.find_last_not_of("\n ");
  if (end == std::string::npos) return {};
  const auto begin = words.rfind('\n', end);
  return words.substr(begin == std::string::npos ? 0 : begin + 1,
                      end - (begin == std::string::npos ? 0 : begin + 1) + 1);
}

class Watch {
 public:
  Watch(Store &store, const Crew &crew)
      : store_(store),
        crew_(crew),
        processors_(allowed_processors()),
        n_(crew.workers > 0 ? crew.workers : int(processors_.size())),
        memory_kills_(memory_kills()) {
    // two parents that start at the same moment see no worker of the other: let them begin apart
    const auto first = std::size_t(me_.pid) % processors_.size();
    std::rotate(processors_.begin(), processors_.begin() + long(first), processors_.end());
  }

  int run() {
    const NotedSignals noted;
    store_.release_ended(me_);
    for (;;) {
      if (stopped_by != 0) return stop();
      const Counts counts = store_.counts();
      crew_.watch(counts);
      if (counts.queued == 0 && counts.running == 0) return stop();
      if (counts.queued == 0 && workers_.empty()) store_.release_ended(me_);
      for (long waiting = counts.queued; waiting > 0 && int(workers_.size()) < n_; --waiting)
        start();
      report();
      pause();
      reap();
    }
  }

 private:
  void start() {
    auto load = store_.busy_processors(me_);
    for (const auto &w : workers_) load.push_back(w->processor());
    const int processor =
        *std::min_element(processors_.begin(), processors_.end(), [&](int a, int b) {
          return std::count(load.begin(), load.end(), a) < std::count(load.begin(), load.end(), b);
        });
    workers_.push_back(std::make_unique<WorkerProcess>(processor, crew_.worker));
  }

  /// Other machines can't see our processes; they hear of them.
  void report() {
    const double now = now_seconds();
    if (now - reported_ < silence_limit / 20) return;
    store_.report_alive(me_);
    reported_ = now;
  }

  void pause() {
    std::vector<pollfd> ears;
    for (const auto &w : workers_) ears.push_back({w->ear(), POLLIN, 0});
    if (::poll(ears.data(), nfds_t(ears.size()), 500) <= 0) return;
    // a pipe that is closed stays readable until the child is waited for: don't spin
    bool closed = false;
    for (std::size_t i = 0; i < ears.size(); ++i) {
      workers_[i]->listen();
      closed = closed || (ears[i].revents & POLLHUP);
    }
    if (closed) ::poll(nullptr, 0, 5);
  }

  void reap() {
    for (std::size_t i = 0; i < workers_.size();) {
      const auto status = workers_[i]->ended();
      if (!status) {
        ++i;
        continue;
      }
      const std::unique_ptr<WorkerProcess> gone = std::move(workers_[i]);
      workers_.erase(workers_.begin() + long(i));
      judge(*gone, *status);
    }
  }

  void judge(const WorkerProcess &gone, int status) {
    const std::string words = gone.last_words();
    if (WIFEXITED(status) && WEXITSTATUS(status) == 2) throw Error(last_line(words));
    const auto designs = store_.release(gone.place(), crash_reason(status, words));
    const bool well = WIFEXITED(status) && WEXITSTATUS(status) == 0;
    idle_deaths_ = well || !designs.empty() || killed(status) ? 0 : idle_deaths_ + 1;
    if (idle_deaths_ > n_ + 1)
      throw Error("sweep: workers end before they take a design: " + cause(status, words));
  }

  static bool killed(int status) {
    return WIFSIGNALED(status) && (WTERMSIG(status) == SIGKILL || WTERMSIG(status) == SIGTERM);
  }

  static std::string cause(int status, const std::string &words) {
    const std::string said = last_line(words);
    return (WIFSIGNALED(status) ? std::string("signal ") + std::to_string(WTERMSIG(status)) + " (" +
                                      ::strsignal(WTERMSIG(status)) + ")"
                                : "exit code " + std::to_string(WEXITSTATUS(status))) +
           (said.empty() ? "" : ", last words: " + said);
  }

  /// Empty: somebody killed it, the design is not to blame.
  std::string crash_reason(int status, const std::string &words) {
    if (WIFEXITED(status) && WEXITSTATUS(status) == 0) return {};
    if (!killed(status)) return cause(status, words);
    const long kills = memory_kills();
    if (kills <= memory_kills_) return {};
    memory_kills_ = kills;
    return "the machine ran out of memory; use fewer workers";
  }

  /// Ends all workers; their designs go back to the queue.
  int stop() {
    for (const auto &w : workers_) w->signal(SIGTERM);
    std::vector<Workplace> places;
    for (const auto &w : workers_) {
      places.push_back(w->place());
      // a commit under way is waited for, a solve is not
      for (int i = 0; i < 500 && !w->ended(); ++i) ::poll(nullptr, 0, 10);
    }
    workers_.clear();  // kills whoever is left
    for (const Workplace &place : places) store_.release(place, "");
    crew_.watch(store_.counts());
    return stopped_by;
  }

  Store &store_;
  const Crew &crew_;
  const Workplace me_ = this_workplace();
  std::vector<int> processors_;
  int n_;
  long memory_kills_;
  std::vector<std::unique_ptr<WorkerProcess>> workers_;
  int idle_deaths_ = 0;
  double reported_ = 0;
};

}  // namespace

int run_crew(Store &store, const Crew &crew) { return Watch(store, crew).run(); }

}  // namespace felloe
