// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sweep/detail/worker_process.h"

#include <fcntl.h>
#include <sched.h>
#include <signal.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <exception>

#include "mesher/error.h"

namespace felloe {
namespace {

constexpr std::size_t words_kept = 4000;

/// In the child: everything that it needs before it works.
void settle(int processor, int mouth, pid_t parent) {
  // a parent that is killed takes its workers along; it may have died before this call
  ::prctl(PR_SET_PDEATHSIG, SIGKILL);
  if (::getppid() != parent) ::_exit(0);
  // Ctrl-C reaches the whole process group; the parent decides what it means
  ::signal(SIGINT, SIG_IGN);
  ::signal(SIGHUP, SIG_IGN);
  ::signal(SIGTERM, SIG_DFL);
  ::dup2(mouth, 1);
  ::dup2(mouth, 2);
  if (processor < 0) return;
  cpu_set_t set;
  CPU_ZERO(&set);
  CPU_SET(processor, &set);
  ::sched_setaffinity(0, sizeof set, &set);
}

}  // namespace

std::vector<int> allowed_processors() {
  cpu_set_t set;
  CPU_ZERO(&set);
  std::vector<int> all;
  if (::sched_getaffinity(0, sizeof set, &set) == 0)
    for (int i = 0; i < CPU_SETSIZE; ++i)
      if (CPU_ISSET(i, &set)) all.push_back(i);
  if (all.empty()) all.push_back(0);
  return all;
}

WorkerProcess::WorkerProcess(int processor, const std::function<int()> &body)
    : processor_(processor) {
  int ends[2];
  if (::pipe2(ends, O_CLOEXEC) != 0)
    throw Error(std::string("sweep: no pipe to a worker: ") + std::strerror(errno));
  std::fflush(nullptr);
  const pid_t parent = ::getpid(), child = ::fork();
  if (child < 0) {
    const int code = errno;
    ::close(ends[0]), ::close(ends[1]);
    throw Error(std::string("sweep: a worker can't be started: ") + std::strerror(code) +
                "; use fewer workers or close other programs");
  }
  if (child == 0) {
    settle(processor, ends[1], parent);
    int code = 3;
    try {
      code = body();
    } catch (const Error &e) {
      std::fprintf(stderr, "%s\n", e.what());
      code = 2;
    } catch (const std::exception &e) {
      std::fprintf(stderr, "internal error: %s\n", e.what());
    }
    std::fflush(nullptr);
    ::_exit(code);
  }
  ::close(ends[1]);
  ear_ = ends[0];
  ::fcntl(ear_, F_SETFL, O_NONBLOCK);
  place_ = workplace_of_child(child);
}

WorkerProcess::~WorkerProcess() {
  if (!waited_) {
    ::kill(pid_t(place_.pid), SIGKILL);
    ::waitpid(pid_t(place_.pid), nullptr, 0);
  }
  ::close(ear_);
}

void WorkerProcess::listen() {
  char block[4096];
  ssize_t n;
  while ((n = ::read(ear_, block, sizeof block)) > 0) {
    words_.append(block, std::size_t(n));
    if (words_.size() > words_kept) words_.erase(0, words_.size() - words_kept);
  }
}

std::optional<int> WorkerProcess::ended() {
  int status = 0;
  if (waited_ || ::waitpid(pid_t(place_.pid), &status, WNOHANG) != pid_t(place_.pid)) return {};
  waited_ = true;
  listen();
  return status;
}

void WorkerProcess::signal(int number) const {
  if (!waited_) ::kill(pid_t(place_.pid), number);
}

}  // namespace felloe
