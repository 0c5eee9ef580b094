// SPDX-License-Identifier: GPL-3.0-or-later
// A sweep survives SIGKILL at any moment: nothing is lost, nothing is computed twice uncounted.
#include <signal.h>

#include <chrono>
#include <functional>
#include <memory>
#include <random>
#include <sstream>
#include <thread>

#include "cli/sweep/store.h"
#include "mesher/error.h"
#include "tests/sweep/small_sweep.h"

namespace felloe::test {
namespace {

void rest(int milliseconds) {
  std::this_thread::sleep_for(std::chrono::milliseconds(milliseconds));
}

/// The program in the background.
class Running {
 public:
  Running(const Folder &folder, std::vector<std::string> arguments) {
    arguments.insert(arguments.begin(), "felloe");
    std::vector<char *> argv;
    for (auto &a : arguments) argv.push_back(a.data());
    argv.push_back(nullptr);
    pid_ = ::fork();
    if (pid_ != 0) return;
    if (::chdir(folder.path().c_str()) != 0) ::_exit(125);
    ::dup2(::open("out.txt", O_WRONLY | O_CREAT | O_APPEND, 0600), 1);
    ::dup2(::open("err.txt", O_WRONLY | O_CREAT | O_APPEND, 0600), 2);
    ::execv(FELLOE_PROGRAM, argv.data());
    ::_exit(126);
  }
  ~Running() {
    if (waited_) return;
    ::kill(pid_, SIGKILL);
    ::waitpid(pid_, nullptr, 0);
  }
  pid_t pid() const { return pid_; }
  bool ended() {
    if (!waited_) waited_ = ::waitpid(pid_, &status_, WNOHANG) == pid_;
    return waited_;
  }
  int wait() {
    if (!waited_) ::waitpid(pid_, &status_, 0);
    waited_ = true;
    return status_;
  }

 private:
  pid_t pid_ = -1;
  bool waited_ = false;
  int status_ = 0;
};

/// Its worker processes.
std::vector<pid_t> children_of(pid_t pid) {
  const std::string id = std::to_string(pid);
  std::istringstream in(contents("/proc/" + id + "/task/" + id + "/children"));
  std::vector<pid_t> all;
  for (pid_t child; in >> child;) all.push_back(child);
  return all;
}

/// Designs done; -1: the store is not there yet.
long done_in(const Folder &folder) {
  try {
    return Store((folder / "designs").string(), Store::Use::read).counts().done;
  } catch (const Error &) {
    return -1;
  }
}

constexpr int n_designs = 40, n_kills = 20;

TEST(Faults, SweepKilledTwentyTimesGivesTheUndisturbedTable) {
  const Folder calm, rough;
  write_small_sweep(calm, n_designs);
  write_small_sweep(rough, n_designs);
  const Outcome undisturbed =
      felloe_in(calm.path(), {"sweep", "sweep.toml", "-o", "designs", "--workers", "2", "--quiet"});
  ASSERT_EQ(undisturbed.exit_code, 0) << undisturbed.err;

  std::mt19937 seeded(20);
  std::vector<long> moments;  // so many designs done, then a little later
  for (int i = 0; i < n_kills; ++i) moments.push_back(long(seeded() % (n_designs - 5)));
  std::sort(moments.begin(), moments.end());
  int parents = 0, workers = 0;
  std::unique_ptr<Running> sweep;
  const auto started = [&] {
    if (sweep && !sweep->ended()) return;
    const bool planned = done_in(rough) >= 0;
    sweep = std::make_unique<Running>(
        rough, planned ? std::vector<std::string>{"sweep", "designs", "--workers", "2", "--quiet"}
                       : std::vector<std::string>{"sweep", "sweep.toml", "-o", "designs",
                                                  "--workers", "2", "--quiet"});
  };
  for (const long moment : moments) {
    started();
    while (done_in(rough) < moment) {
      ASSERT_FALSE(sweep->ended()) << contents(rough / "err.txt");
      rest(5);
    }
    rest(int(seeded() % 100));
    std::vector<pid_t> victims = children_of(sweep->pid());
    const bool parent = victims.empty() || seeded() % 3 == 0;
    ASSERT_FALSE(sweep->ended()) << "over before all kills: " << contents(rough / "err.txt");
    ::kill(parent ? sweep->pid() : victims[seeded() % victims.size()], SIGKILL);
    ++(parent ? parents : workers);
    if (parent) sweep->wait();
  }
  started();
  EXPECT_EQ(sweep->wait(), 0) << contents(rough / "err.txt");
  EXPECT_EQ(parents + workers, n_kills);
  EXPECT_GT(parents, 0);
  EXPECT_GT(workers, 0);

  EXPECT_EQ(lasting_table(contents(rough / "designs/table.csv")),
            lasting_table(contents(calm / "designs/table.csv")));
  const Store store((rough / "designs").string(), Store::Use::read);
  EXPECT_EQ(store.counts().done, n_designs);
  EXPECT_EQ(store.counts().all(), n_designs);
  // A killed worker leaves one design unfinished, a killed parent takes both workers along: no
  // other attempt may have been made twice.
  long again = 0;
  for (const StoredDesign &d : store.designs()) again += d.attempts - 1;
  EXPECT_LE(again, workers + 2 * parents);
  EXPECT_GT(again, 0) << "no kill met a design: the test shows nothing";
}

TEST(Faults, WorkersEndWithTheirParent) {
  const Folder folder;
  write_small_sweep(folder, 40);
  std::vector<pid_t> workers;
  {
    Running sweep(folder, {"sweep", "sweep.toml", "-o", "designs", "--workers", "2", "--quiet"});
    while (done_in(folder) < 1) rest(5);
    workers = children_of(sweep.pid());
  }
  ASSERT_FALSE(workers.empty());
  for (const pid_t worker : workers) {  // the second one may take a moment longer than the first
    for (int i = 0; i < 1000 && ::kill(worker, 0) == 0; ++i) rest(5);
    EXPECT_NE(::kill(worker, 0), 0);
  }
}

TEST(Faults, CtrlCEndsCleanlyAndTheSweepGoesOn) {
  const Folder folder;
  write_small_sweep(folder, 12);
  {
    Running sweep(folder, {"sweep", "sweep.toml", "-o", "designs", "--workers", "2"});
    while (done_in(folder) < 1) rest(5);
    ::kill(sweep.pid(), SIGINT);
    const int status = sweep.wait();
    EXPECT_TRUE(WIFSIGNALED(status) && WTERMSIG(status) == SIGINT) << status;
  }
  EXPECT_NE(contents(folder / "err.txt").find("are done and kept; 'felloe sweep designs' goes on"),
            std::string::npos)
      << contents(folder / "err.txt");
  {
    const Store store((folder / "designs").string(), Store::Use::read);
    EXPECT_EQ(store.counts().running, 0) << "everything went back to the queue";
    EXPECT_LT(store.counts().done, 12);
  }
  EXPECT_EQ(felloe_in(folder.path(), {"sweep", "designs", "--quiet"}).exit_code, 0);
  EXPECT_EQ(done_in(folder), 12);
}

}  // namespace
}  // namespace felloe::test
