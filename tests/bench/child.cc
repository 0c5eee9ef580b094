// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/bench/child.h"

#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <sstream>

namespace felloe::bench {
namespace {

using Clock = std::chrono::steady_clock;

double seconds_since(Clock::time_point start) {
  return std::chrono::duration<double>(Clock::now() - start).count();
}

[[noreturn]] void become(const std::vector<std::string> &words, int output) {
  setpgid(0, 0);  // so that the time limit reaches children of the child
  dup2(output, STDOUT_FILENO);
  std::vector<char *> arguments;
  for (const std::string &word : words) arguments.push_back(const_cast<char *>(word.c_str()));
  arguments.push_back(nullptr);
  execvp(arguments[0], arguments.data());
  _exit(127);
}

}  // namespace

ChildResult run_child(const std::vector<std::string> &words, double limit_seconds) {
  ChildResult result;
  int ends[2];
  if (pipe2(ends, O_CLOEXEC) != 0) return result;
  const auto start = Clock::now();
  const pid_t child = fork();
  if (child == 0) become(words, ends[1]);
  close(ends[1]);
  if (child < 0) {
    close(ends[0]);
    return result;
  }
  char buffer[4096];
  pollfd waiting{ends[0], POLLIN, 0};
  while (true) {
    const double left = limit_seconds - seconds_since(start);
    if (left <= 0 && !result.timed_out) {
      result.timed_out = true;
      kill(-child, SIGKILL);
    }
    if (poll(&waiting, 1, result.timed_out ? -1 : static_cast<int>(1000 * left) + 1) <= 0) continue;
    const ssize_t n = read(ends[0], buffer, sizeof buffer);
    if (n <= 0) break;
    result.output.append(buffer, static_cast<std::size_t>(n));
  }
  close(ends[0]);
  int status = 0;
  rusage use{};
  wait4(child, &status, 0, &use);
  result.seconds = seconds_since(start);
  result.peak_MB = static_cast<double>(use.ru_maxrss) / 1024;
  if (WIFEXITED(status)) result.exit_code = WEXITSTATUS(status);
  return result;
}

std::map<std::string, double> values_of(const std::string &output) {
  std::map<std::string, double> values;
  std::istringstream lines(output);
  for (std::string line; std::getline(lines, line);) {
    std::istringstream words(line);
    std::string key;
    double value;
    if (words >> key >> value) values[key] = value;
  }
  return values;
}

std::string own_path() {
  char path[4096];
  const ssize_t n = readlink("/proc/self/exe", path, sizeof path);
  return n > 0 ? std::string(path, static_cast<std::size_t>(n)) : "";
}

}  // namespace felloe::bench
