// SPDX-License-Identifier: GPL-3.0-or-later
// A private X server for pictures, and drawing in a child process.
#include "post/display.h"

#include <fcntl.h>
#include <poll.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cctype>
#include <cerrno>
#include <chrono>
#include <cmath>
#include <csignal>
#include <cstdlib>
#include <cstring>
#include <exception>

#include "mesher/error.h"

namespace felloe {
namespace {

using Clock = std::chrono::steady_clock;

/// Exit code of a child whose work threw an Error.
constexpr int repairable_code = 2;

/// Reads from the descriptor until its end, the deadline, or (when asked) the first newline; true
/// when the end or the newline came first.
bool read_until(int descriptor, Clock::time_point deadline, bool one_line, std::string &text) {
  for (;;) {
    const auto left =
        std::chrono::duration_cast<std::chrono::milliseconds>(deadline - Clock::now()).count();
    if (left <= 0) return false;
    pollfd poll_descriptor{descriptor, POLLIN, 0};
    const int ready = ::poll(&poll_descriptor, 1, static_cast<int>(std::min<long>(left, 60000)));
    if (ready < 0 && errno != EINTR) return false;
    if (ready <= 0) continue;
    char buffer[4096];
    const ssize_t n = ::read(descriptor, buffer, sizeof buffer);
    if (n == 0) return true;
    if (n < 0 && errno != EINTR) return false;
    if (n > 0) text.append(buffer, static_cast<std::size_t>(n));
    if (one_line && text.find('\n') != std::string::npos) return true;
  }
}

/// Waits for the end of the child; true with its status when it comes before the deadline.
bool ended(pid_t process, Clock::time_point deadline, int &status) {
  for (;;) {
    const pid_t result = ::waitpid(process, &status, WNOHANG);
    if (result == process) return true;
    if (result < 0 && errno != EINTR) return true;  // somebody else has waited for it
    if (Clock::now() >= deadline) return false;
    ::usleep(2000);
  }
}

void end_process(pid_t process, int gentle_signal) {
  int status = 0;
  ::kill(process, gentle_signal);
  if (ended(process, Clock::now() + std::chrono::seconds(2), status)) return;
  ::kill(process, SIGKILL);
  while (::waitpid(process, &status, 0) < 0 && errno == EINTR) {
  }
}

/// Between fork and exec: only calls that are safe after the fork of a threaded process.
[[noreturn]] void become_xvfb(int report, pid_t parent) {
  constexpr int report_descriptor = 3;
  ::prctl(PR_SET_PDEATHSIG, SIGTERM);
  if (::getppid() != parent) ::_exit(127);  // the parent was gone before prctl
  const int null = ::open("/dev/null", O_RDWR);
  ::dup2(null, 0);
  ::dup2(null, 1);
  ::dup2(null, 2);
  if (report != report_descriptor)
    ::dup2(report, report_descriptor);
  else
    ::fcntl(report, F_SETFD, 0);
  ::closefrom(report_descriptor + 1);
  ::execlp("Xvfb", "Xvfb", "-displayfd", "3", "-screen", "0", "1600x1200x24", "-nolisten", "tcp",
           static_cast<char *>(nullptr));
  ::_exit(127);
}

/// The last line that says something.
std::string last_line(std::string text) {
  while (!text.empty() && std::isspace(static_cast<unsigned char>(text.back()))) text.pop_back();
  const auto start = text.find_last_of('\n');
  return start == std::string::npos ? text : text.substr(start + 1);
}

[[noreturn]] void do_work(int output, const std::string &display,
                          const std::function<void()> &work) {
  ::prctl(PR_SET_PDEATHSIG, SIGKILL);
  for (const int signal : {SIGABRT, SIGSEGV, SIGTERM, SIGINT}) std::signal(signal, SIG_DFL);
  ::dup2(output, 1);
  ::dup2(output, 2);
  ::setenv("DISPLAY", display.c_str(), 1);
  int code = 0;
  std::string said;
  try {
    work();
  } catch (const Error &e) {
    said = e.what();
    code = repairable_code;
  } catch (const std::exception &e) {
    said = e.what();
    code = 1;
  }
  if (code != 0) {
    said = "\n" + said + "\n";
    if (::write(2, said.data(), said.size()) < 0) code = 1;
  }
  ::_exit(code);  // no destructors: they belong to the parent
}

}  // namespace

PrivateDisplay::PrivateDisplay() {
  int ends[2];
  if (::pipe2(ends, O_CLOEXEC) != 0) {
    reason_ = std::string("no pipe: ") + std::strerror(errno);
    return;
  }
  const pid_t parent = ::getpid();
  process_ = ::fork();
  if (process_ == 0) become_xvfb(ends[1], parent);
  ::close(ends[1]);
  std::string number;
  if (process_ < 0)
    reason_ = std::string("no new process: ") + std::strerror(errno);
  else if (!read_until(ends[0], Clock::now() + std::chrono::seconds(10), true, number))
    reason_ = "Xvfb gave no answer within 10 s";
  else if (number.find('\n') == std::string::npos)
    reason_ = "Xvfb could not be started (is the package xvfb installed?)";
  else
    name_ = ":" + number.substr(0, number.find('\n'));
  ::close(ends[0]);
  if (name_.empty()) stop();
}

PrivateDisplay::~PrivateDisplay() { stop(); }

void PrivateDisplay::stop() {
  if (process_ > 0) end_process(process_, SIGTERM);
  process_ = -1;
}

ChildProcess::ChildProcess(const std::string &display, const std::function<void()> &work,
                           double seconds)
    : seconds_(seconds), deadline_(Clock::now() + std::chrono::milliseconds(long(1e3 * seconds))) {
  int ends[2];
  if (::pipe2(ends, O_CLOEXEC) != 0) {
    failure_ = std::string("no pipe: ") + std::strerror(errno);
    return;
  }
  process_ = ::fork();
  if (process_ == 0) do_work(ends[1], display, work);
  ::close(ends[1]);
  output_ = ends[0];
  if (process_ < 0) failure_ = std::string("no new process: ") + std::strerror(errno);
}

ChildProcess::~ChildProcess() {
  if (process_ > 0) end_process(process_, SIGKILL);
  if (output_ >= 0) ::close(output_);
}

std::string ChildProcess::wait() {
  if (!failure_.empty()) return failure_;
  std::string output;
  int status = 0;
  if (!read_until(output_, deadline_, false, output) || !ended(process_, deadline_, status))
    return "the drawing took longer than " + std::to_string(std::lround(seconds_)) + " s";
  process_ = -1;
  if (WIFEXITED(status) && WEXITSTATUS(status) == 0) return "";
  const std::string said = last_line(output);
  if (WIFEXITED(status) && WEXITSTATUS(status) == repairable_code) throw Error(said);
  std::string why = WIFSIGNALED(status) ? std::string("the drawing process ended by signal '") +
                                              ::strsignal(WTERMSIG(status)) + "'"
                                        : "the drawing failed";
  return said.empty() ? why : why + ": " + said;
}

std::string in_child_process(const std::string &display, const std::function<void()> &work,
                             double seconds) {
  return ChildProcess(display, work, seconds).wait();
}

}  // namespace felloe
