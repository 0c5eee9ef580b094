// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/interruption.h"

#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cassert>

namespace felloe {
namespace {

constexpr std::array<int, 3> signals = {SIGINT, SIGTERM, SIGHUP};
std::array<struct sigaction, signals.size()> before;
char doomed[4096] = "";  // a signal handler may not touch a std::string

/// A handler may call fork, exec and wait, but nothing that allocates: rm does the work.
void remove_and_end(int number) {
  const pid_t child = ::fork();
  if (child == 0) {
    ::execl("/bin/rm", "rm", "-rf", "--", doomed, static_cast<char *>(nullptr));
    ::_exit(127);
  }
  if (child > 0) ::waitpid(child, nullptr, 0);
  ::signal(number, SIG_DFL);
  ::raise(number);
}

}  // namespace

RemovedOnInterruption::RemovedOnInterruption(const std::string &folder) {
  assert(doomed[0] == '\0' && !folder.empty());
  if (folder.size() >= sizeof doomed) return;
  folder.copy(doomed, folder.size());
  doomed[folder.size()] = '\0';
  struct sigaction action = {};
  action.sa_handler = remove_and_end;
  ::sigfillset(&action.sa_mask);
  for (std::size_t i = 0; i < signals.size(); ++i) {
    ::sigaction(signals[i], nullptr, &before[i]);
    if (before[i].sa_handler != SIG_IGN) ::sigaction(signals[i], &action, nullptr);
  }
}

RemovedOnInterruption::~RemovedOnInterruption() {
  if (doomed[0] == '\0') return;
  for (std::size_t i = 0; i < signals.size(); ++i) ::sigaction(signals[i], &before[i], nullptr);
  doomed[0] = '\0';
}

}  // namespace felloe
