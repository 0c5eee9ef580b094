// SPDX-License-Identifier: GPL-3.0-or-later
// The parent of worker processes starts new ones for those that die and knows whom to blame.
#include <gtest/gtest.h>
#include <signal.h>
#include <unistd.h>

#include "cli/sweep/crew.h"
#include "mesher/error.h"
#include "tests/support/scratch_folder.h"
#include "tests/sweep/cheap_model.h"

namespace felloe {
namespace {

using test::disc_head;
using test::discs;
using test::ScratchFolder;

/// Becomes this test program as a worker (see main() below).
int become(const std::string &folder, const char *kind) {
  ::execl("/proc/self/exe", "crew_tests", "worker", folder.c_str(), kind,
          static_cast<char *>(nullptr));
  return 126;
}

Crew crew_of(const std::string &folder, const char *kind) {
  Crew crew;
  crew.workers = 2;
  crew.worker = [folder, kind] { return become(folder, kind); };
  crew.watch = [](const Counts &) {};
  return crew;
}

TEST(Crew, ComputesEveryDesignOnce) {
  const ScratchFolder folder;
  Store::plan(folder.path(), disc_head(), discs(50));
  Store store(folder.path(), Store::Use::write);
  EXPECT_EQ(run_crew(store, crew_of(folder.path(), "good")), 0);
  EXPECT_EQ(store.counts().done, 50);
  for (const StoredDesign &d : store.designs()) EXPECT_EQ(d.attempts, 1);
}

TEST(Crew, DesignThatEndsItsWorkerTwiceIsFailedAndTheOthersGoOn) {
  const ScratchFolder folder;
  Store::plan(folder.path(), disc_head(), discs(10));
  Store store(folder.path(), Store::Use::write);
  EXPECT_EQ(run_crew(store, crew_of(folder.path(), "crashes at the third")), 0);
  const auto designs = store.designs();
  EXPECT_EQ(store.counts().done, 9);
  EXPECT_EQ(designs[2].state, JobState::failed);
  EXPECT_EQ(designs[2].attempts, 2);
  EXPECT_EQ(designs[2].reason,
            "ended its process 2 times: signal 11 (Segmentation fault), last words: oh");
}

TEST(Crew, WorkersThatNeverTakeADesignEndTheSweep) {
  const ScratchFolder folder;
  Store::plan(folder.path(), disc_head(), discs(10));
  Store store(folder.path(), Store::Use::write);
  try {
    run_crew(store, crew_of(folder.path(), "gives up"));
    FAIL() << "no error";
  } catch (const Error &e) {
    EXPECT_STREQ(e.what(),
                 "sweep: workers end before they take a design: exit code 7, last words: no mood");
  }
}

TEST(Crew, WhatStopsAWorkerForGoodStopsTheSweep) {
  const ScratchFolder folder;
  Store::plan(folder.path(), disc_head(), discs(10));
  Store store(folder.path(), Store::Use::write);
  try {
    run_crew(store, crew_of(folder.path(), "error"));
    FAIL() << "no error";
  } catch (const Error &e) {
    EXPECT_STREQ(e.what(), "designs.sqlite: the disk is full");
  }
}

int worker(const std::string &folder, const std::string &kind) {
  if (kind == "gives up") return std::fprintf(stderr, "no mood\n"), 7;
  if (kind == "error") return std::fprintf(stderr, "designs.sqlite: the disk is full\n"), 2;
  Store store(folder, Store::Use::write);
  work(
      store,
      [&](const Case &c, Depth depth) {
        if (kind != "good" && c.wheel.disc.thickness[0].thickness == 1.02) {
          std::fprintf(stderr, "oh\n");
          ::signal(SIGSEGV, SIG_DFL);
          ::raise(SIGSEGV);
        }
        return test::cheap_figures(c, depth);
      },
      "1");
  return 0;
}

}  // namespace
}  // namespace felloe

int main(int argc, char **argv) {
  if (argc == 4 && std::string(argv[1]) == "worker") return felloe::worker(argv[2], argv[3]);
  ::testing::InitGoogleTest(&argc, argv);
  return RUN_ALL_TESTS();
}
