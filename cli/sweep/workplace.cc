// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sweep/workplace.h"

#include <sched.h>
#include <unistd.h>

#include <chrono>
#include <fstream>
#include <iterator>
#include <sstream>

namespace felloe {
namespace {

std::string first_line(const std::string &file) {
  std::ifstream in(file);
  std::string line;
  std::getline(in, line);
  return line;
}

struct ProcessState {
  char letter = 0;  ///< 0: no such process
  std::int64_t start = 0;
};

/// /proc/PID/stat: the name in parentheses may hold anything, so count from the last ')'. Field 3
/// is the state, 22 the start (proc(5)).
ProcessState process_state(std::int64_t pid) {
  const std::string line = first_line("/proc/" + std::to_string(pid) + "/stat");
  const auto end = line.rfind(')');
  if (end == std::string::npos) return {};
  std::istringstream fields(line.substr(end + 1));
  ProcessState s;
  fields >> s.letter;
  std::string skipped;
  for (int field = 4; field < 22; ++field) fields >> skipped;
  fields >> s.start;
  return s;
}

bool lives(std::int64_t pid, std::int64_t start) {
  const ProcessState s = process_state(pid);
  return s.letter != 0 && s.letter != 'Z' && s.letter != 'X' && s.start == start;
}

std::string name_space() {
  char name[128] = "";
  const ssize_t n = ::readlink("/proc/self/ns/pid", name, sizeof name - 1);
  return n > 0 ? std::string(name, std::size_t(n)) : std::string();
}

/// The processor that this process is bound to; -1: it may use several.
std::int64_t bound_processor() {
  cpu_set_t set;
  CPU_ZERO(&set);
  if (::sched_getaffinity(0, sizeof set, &set) != 0 || CPU_COUNT(&set) != 1) return -1;
  for (int i = 0; i < CPU_SETSIZE; ++i)
    if (CPU_ISSET(i, &set)) return i;
  return -1;
}

}  // namespace

Workplace this_workplace() {
  Workplace w;
  char host[256] = "";
  ::gethostname(host, sizeof host - 1);
  w.host = host;
  w.boot = first_line("/proc/sys/kernel/random/boot_id");
  w.pid_names = name_space();
  w.pid = ::getpid();
  w.start = process_state(w.pid).start;
  w.parent = ::getppid();
  w.parent_start = process_state(w.parent).start;
  w.processor = bound_processor();
  return w;
}

Workplace workplace_of_child(std::int64_t pid) {
  Workplace w = this_workplace();
  w.parent = w.pid;
  w.parent_start = w.start;
  w.pid = pid;
  w.start = process_state(pid).start;
  w.processor = -1;
  return w;
}

double now_seconds() {
  return std::chrono::duration<double>(std::chrono::system_clock::now().time_since_epoch()).count();
}

bool has_ended(const Workplace &w, double last_seen, const Workplace &me) {
  if (w.boot == me.boot && w.pid_names == me.pid_names) {
    const bool watched = w.parent > 1 && w.parent != me.pid && lives(w.parent, w.parent_start);
    return !watched && !lives(w.pid, w.start);
  }
  if (w.host == me.host && w.boot != me.boot) return true;
  return now_seconds() - last_seen > silence_limit;
}

}  // namespace felloe
