// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sweep/worker.h"

#include <signal.h>

#include <algorithm>
#include <chrono>
#include <new>
#include <thread>

#include "cli/case_file.h"
#include "mesher/error.h"

namespace felloe {
namespace {

double seconds_since(std::chrono::steady_clock::time_point start) {
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

/// While it lives, SIGTERM waits: a commit that is cut short may or may not count afterwards.
class TerminationWaits {
 public:
  TerminationWaits() {
    sigset_t set;
    ::sigemptyset(&set);
    ::sigaddset(&set, SIGTERM);
    ::pthread_sigmask(SIG_BLOCK, &set, &before_);
  }
  ~TerminationWaits() { ::pthread_sigmask(SIG_SETMASK, &before_, nullptr); }
  TerminationWaits(const TerminationWaits &) = delete;
  TerminationWaits &operator=(const TerminationWaits &) = delete;

 private:
  sigset_t before_;
};

/// True when this process still held the design.
bool worked(Store &store, const Job &job, const Workplace &me, const Evaluate &evaluate,
            const std::string &version) {
  const auto start = std::chrono::steady_clock::now();
  DesignFigures figures;
  std::string reason;
  try {
    const Case design = read_case_text(job.case_text, "design " + std::to_string(job.design));
    figures = evaluate(design, job.depth);
  } catch (const Error &e) {
    reason = e.what();
  } catch (const std::bad_alloc &) {
    reason = "not enough memory; use fewer workers";
  } catch (const std::exception &e) {
    reason = std::string("internal error: ") + e.what();
  }
  const double seconds = seconds_since(start);
  const TerminationWaits waits;
  return reason.empty() ? store.finish(job, me, figures, version, seconds)
                        : store.fail(job, me, reason, version, seconds);
}

}  // namespace

long work(Store &store, const Evaluate &evaluate, const std::string &version) {
  const Workplace me = this_workplace();
  constexpr std::chrono::milliseconds shortest(20), longest(1000);
  std::chrono::milliseconds pause = shortest;
  long n = 0;
  for (;;) {
    const auto job = [&] {
      const TerminationWaits waits;
      return store.take(me);
    }();
    if (job) {
      if (worked(store, *job, me, evaluate, version)) ++n;
      pause = shortest;
      continue;
    }
    if (store.release_ended(me) > 0) continue;
    const Counts counts = store.counts();
    if (counts.queued > 0) continue;
    if (counts.running == 0) return n;
    // what others work on may come back, or be followed by its wheel
    std::this_thread::sleep_for(pause);
    pause = std::min(longest, 2 * pause);
  }
}

}  // namespace felloe
