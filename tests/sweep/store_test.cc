// SPDX-License-Identifier: GPL-3.0-or-later
// A store hands out every design once, keeps what is finished, and takes back what was left.
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmath>
#include <limits>

#include "mesher/error.h"
#include "tests/support/scratch_folder.h"
#include "tests/sweep/cheap_model.h"

namespace felloe {
namespace {

using test::cheap_figures;
using test::disc_head;
using test::discs;
using test::ScratchFolder;

std::string message_of(const std::function<void()> &body) {
  try {
    body();
  } catch (const Error &e) {
    return e.what();
  }
  return "no error";
}

/// A process that never was, on this machine.
Workplace ended_process() {
  Workplace w = this_workplace();
  w.start += 1;  // same number, another start: a process number that came round again
  w.parent = 0;
  return w;
}

TEST(Store, FiguresComeBackUnchanged) {
  const ScratchFolder folder;
  Store::plan(folder.path(), disc_head(), discs(2));
  Store store(folder.path(), Store::Use::write);
  const Workplace me = this_workplace();
  const Job job = *store.take(me);
  DesignFigures f = cheap_figures(read_case_text(job.case_text, "design"), Depth::wheel);
  f.tests[0].life_p50 = std::numeric_limits<double>::infinity();
  f.radial_N_per_mm = 1.0 / 3;
  f.dofs = 123456789012;
  ASSERT_TRUE(store.finish(job, me, f, "1.2.3", 4.5));
  const StoredDesign d = store.designs()[0];
  EXPECT_EQ(d.state, JobState::done);
  EXPECT_EQ(d.figures.mass_kg, f.mass_kg);
  EXPECT_EQ(d.figures.radial_N_per_mm, f.radial_N_per_mm);
  EXPECT_EQ(d.figures.dofs, f.dofs);
  EXPECT_EQ(d.figures.verdict, f.verdict);
  ASSERT_EQ(d.figures.tests.size(), 1u);
  EXPECT_EQ(d.figures.tests[0].stress_MPa, f.tests[0].stress_MPa);
  EXPECT_TRUE(std::isinf(d.figures.tests[0].life_p50));
  EXPECT_EQ(d.version, "1.2.3");
  EXPECT_EQ(d.input_hash, text_hash(job.case_text + "\nwheel\n1.2.3"));
  EXPECT_EQ(store.designs()[1].state, JobState::queued);
}

TEST(Store, EveryDesignIsHandedOutOnce) {
  const ScratchFolder folder;
  EXPECT_EQ(Store::plan(folder.path(), disc_head(), discs(3)), 3);
  Store one(folder.path(), Store::Use::write), two(folder.path(), Store::Use::write);
  const Workplace me = this_workplace();
  EXPECT_EQ(one.take(me)->design, 1);
  EXPECT_EQ(two.take(me)->design, 2);
  EXPECT_EQ(one.take(me)->design, 3);
  EXPECT_FALSE(two.take(me));
}

TEST(Store, PlanningAgainKeepsWhatIsDone) {
  const ScratchFolder folder;
  Store::plan(folder.path(), disc_head(), discs(3));
  {
    Store store(folder.path(), Store::Use::write);
    EXPECT_EQ(work(store, cheap_figures, "1"), 3);
  }
  auto fewer_and_more = discs(5);
  fewer_and_more.erase(fewer_and_more.begin());
  EXPECT_EQ(Store::plan(folder.path(), disc_head(), fewer_and_more), 4);
  Store store(folder.path(), Store::Use::write);
  EXPECT_EQ(store.counts().designs, 4);
  EXPECT_EQ(store.counts().done, 2);
  EXPECT_EQ(store.counts().queued, 2);
  EXPECT_EQ(work(store, cheap_figures, "1"), 2);
}

TEST(Store, DesignsWithTheSameCaseAreOne) {
  const ScratchFolder folder;
  auto twice = discs(2);
  twice.push_back(twice[0]);
  EXPECT_EQ(Store::plan(folder.path(), disc_head(), twice), 2);
}

TEST(Store, DesignOfAnEndedProcessGoesBackToTheQueue) {
  const ScratchFolder folder;
  Store::plan(folder.path(), disc_head(), discs(1));
  Store store(folder.path(), Store::Use::write);
  ASSERT_TRUE(store.take(ended_process()));
  EXPECT_EQ(store.release_ended(this_workplace()), 1);
  EXPECT_EQ(store.take(this_workplace())->attempt, 2);
  EXPECT_EQ(store.release_ended(this_workplace()), 0) << "this process lives";
}

TEST(Store, ProcessesOfOtherMachinesAreBelievedForTenMinutes) {
  Workplace other = this_workplace();
  other.host = "elsewhere";
  other.boot = "another kernel";
  EXPECT_FALSE(has_ended(other, now_seconds() - 500, this_workplace()));
  EXPECT_TRUE(has_ended(other, now_seconds() - 700, this_workplace()));
  other.host = this_workplace().host;
  EXPECT_TRUE(has_ended(other, now_seconds(), this_workplace())) << "this machine started anew";
}

TEST(Store, PlannedForOneMachineRefusesASecondOne) {
  for (const bool shared : {false, true}) {
    const ScratchFolder folder;
    SweepHead head = disc_head();
    head.shared_disk = shared;
    Store::plan(folder.path(), head, discs(2));
    Store store(folder.path(), Store::Use::write);
    Workplace other = this_workplace();
    other.host = "elsewhere";
    other.boot = "another kernel";
    ASSERT_TRUE(store.take(other));
    const std::string m = message_of([&] { store.refuse_other_machines(this_workplace()); });
    EXPECT_EQ(m.find("the machine 'elsewhere' works on it") != std::string::npos, !shared) << m;
    EXPECT_EQ(work(
                  store,
                  [&](const Case &c, Depth d) {
                    store.release(other, "");  // else this process would wait for it
                    return cheap_figures(c, d);
                  },
                  "1"),
              2);
  }
}

TEST(Store, LateResultOfALostDesignIsNotStored) {
  const ScratchFolder folder;
  Store::plan(folder.path(), disc_head(), discs(1));
  Store store(folder.path(), Store::Use::write);
  const Workplace slow = ended_process(), me = this_workplace();
  const Job lost = *store.take(slow);
  store.release(slow, "");
  const Job again = *store.take(me);
  EXPECT_FALSE(store.finish(lost, slow, {}, "1", 1));
  EXPECT_TRUE(store.finish(again, me, {}, "1", 1));
  EXPECT_EQ(store.designs()[0].attempts, 2) << "counted twice";
}

TEST(Store, SecondCrashFailsTheDesign) {
  const ScratchFolder folder;
  Store::plan(folder.path(), disc_head(), discs(1));
  Store store(folder.path(), Store::Use::write);
  const Workplace me = this_workplace();
  for (int i = 0; i < 2; ++i) {
    ASSERT_TRUE(store.take(me)) << i;
    store.release(me, "signal 11");
  }
  EXPECT_EQ(store.designs()[0].state, JobState::failed);
  EXPECT_EQ(store.designs()[0].reason, "ended its process 2 times: signal 11");
  EXPECT_EQ(store.retry_failed(), 1);
  EXPECT_EQ(store.take(me)->attempt, 1);
}

TEST(Store, KillsFromOutsideBlameNobodyUpToTenTimes) {
  const ScratchFolder folder;
  Store::plan(folder.path(), disc_head(), discs(1));
  Store store(folder.path(), Store::Use::write);
  const Workplace me = this_workplace();
  for (int i = 0; i < 10; ++i) {
    ASSERT_TRUE(store.take(me)) << i;
    store.release(me, "");
  }
  EXPECT_EQ(store.designs()[0].reason, "10 attempts ended without a result");
}

TEST(Store, WheelFollowsOnlyAGoodSection) {
  const ScratchFolder folder;
  SweepHead head = disc_head();
  head.first = Depth::section;
  head.screened = true;
  head.screen_utilisation = 0.5;
  // stress / allowed = 5 / t^2 of the cheap model: at most 0.5 from t = 3.1623 on
  Store::plan(folder.path(), head, discs(300));  // t = 1 ... 3.99
  Store store(folder.path(), Store::Use::write);
  work(store, cheap_figures, "1");
  long wheels = 0;
  for (const StoredDesign &d : store.designs()) {
    EXPECT_EQ(d.state, JobState::done);
    const bool thick = std::get<double>(d.values[0]) >= std::sqrt(10);
    EXPECT_EQ(d.depth == Depth::wheel, thick) << std::get<double>(d.values[0]);
    wheels += d.depth == Depth::wheel;
  }
  EXPECT_EQ(wheels, 83);  // 3.17 ... 3.99
}

TEST(Store, DesignThatCannotBeComputedIsFailedWithItsReason) {
  const ScratchFolder folder;
  Store::plan(folder.path(), disc_head(), discs(2));
  Store store(folder.path(), Store::Use::write);
  work(
      store,
      [](const Case &c, Depth d) {
        if (c.wheel.disc.thickness[0].thickness < 1.005) throw Error("the sheet is too thin");
        return cheap_figures(c, d);
      },
      "1");
  EXPECT_EQ(store.designs()[0].state, JobState::failed);
  EXPECT_EQ(store.designs()[0].reason, "the sheet is too thin");
  EXPECT_EQ(store.designs()[1].state, JobState::done);
}

TEST(Store, FullDiskIsOneClearErrorAndTheSweepGoesOnAfterwards) {
  const ScratchFolder folder;
  Store::plan(folder.path(), disc_head(), discs(200));
  {
    Store store(folder.path(), Store::Use::write);
    store.limit_pages(1);  // SQLite takes the pages in use for the limit: not one more
    const std::string m = message_of([&] { work(store, cheap_figures, "1"); });
    EXPECT_NE(m.find("designs.sqlite: can't be written: the disk is full; make room, then 'felloe "
                     "sweep " +
                     folder.path() + "' goes on where it stopped"),
              std::string::npos)
        << m;
  }
  Store store(folder.path(), Store::Use::write);
  EXPECT_GT(store.counts().queued, 0);
  store.release(this_workplace(), "");
  work(store, cheap_figures, "1");
  EXPECT_EQ(store.counts().done, 200);
}

TEST(Store, FileThatIsNoStoreIsRefused) {
  const ScratchFolder folder;
  std::ofstream(folder.file("designs.sqlite")) << std::string(5000, 'x');
  const std::string m = message_of([&] { Store(folder.path(), Store::Use::read); });
  EXPECT_NE(m.find("is damaged or not the store of a sweep"), std::string::npos) << m;
}

TEST(Store, TwoProcessesShareAThousandDesignsWithoutDoubleWorkOrLockErrors) {
  const ScratchFolder folder;
  Store::plan(folder.path(), disc_head(), discs(1000));
  // both begin together, or on a busy machine one has done everything before the other starts
  int ready[2], go[2];
  ASSERT_EQ(::pipe(ready), 0);
  ASSERT_EQ(::pipe(go), 0);
  pid_t children[2];
  for (pid_t &child : children) {
    child = ::fork();
    if (child != 0) continue;
    int code = 1;
    try {
      ::close(go[1]);
      Store store(folder.path(), Store::Use::write);
      char byte = 1;
      const bool told = ::write(ready[1], &byte, 1) == 1 && ::read(go[0], &byte, 1) == 0;
      // a millisecond a design: without it one process can hold the lock until all is done
      const auto figures = [](const Case &c, Depth d) {
        ::usleep(1000);
        return cheap_figures(c, d);
      };
      code = told && work(store, figures, "1") > 0 ? 0 : 4;
    } catch (const std::exception &e) {
      std::fprintf(stderr, "%s\n", e.what());
    }
    ::_exit(code);
  }
  ::close(ready[1]);
  char byte = 0;
  for (int i = 0; i < 2; ++i) EXPECT_EQ(::read(ready[0], &byte, 1), 1);
  ::close(go[1]);  // the children read its end
  for (const pid_t child : children) {
    int status = 0;
    ::waitpid(child, &status, 0);
    EXPECT_EQ(status, 0) << "an error, or nothing to do for one of the two";
  }
  const Store store(folder.path(), Store::Use::read);
  EXPECT_EQ(store.counts().done, 1000);
  for (const StoredDesign &d : store.designs()) EXPECT_EQ(d.attempts, 1) << d.id;
}

}  // namespace
}  // namespace felloe
