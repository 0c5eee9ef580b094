// SPDX-License-Identifier: GPL-3.0-or-later
// A full disk and a read-only store give one clear error, and the sweep goes on afterwards.
#include <sched.h>
#include <sys/mount.h>
#include <sys/stat.h>

#include <cerrno>
#include <cstring>

#include "tests/sweep/small_sweep.h"

namespace felloe::test {
namespace {

/// The program as a user without special rights.
Outcome as_nobody(const fs::path &folder, const std::vector<std::string> &arguments) {
  const Folder streams;
  const std::string err = (streams / "err").string();
  std::vector<char *> argv = {const_cast<char *>(FELLOE_PROGRAM)};
  for (const auto &a : arguments) argv.push_back(const_cast<char *>(a.c_str()));
  argv.push_back(nullptr);
  const pid_t child = ::fork();
  if (child == 0) {
    if (::chdir(folder.c_str()) != 0) ::_exit(125);
    ::dup2(::open("/dev/null", O_WRONLY), 1);
    ::dup2(::open(err.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600), 2);
    if (::geteuid() == 0 && (::setgid(65534) != 0 || ::setuid(65534) != 0)) ::_exit(124);
    ::execv(argv[0], argv.data());
    ::_exit(126);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, "", contents(err)};
}

TEST(Disk, LimitOnFileSizesIsOneErrorAndTheSweepGoesOn) {
  const Folder folder;
  write_small_sweep(folder, 6);
  ASSERT_EQ(felloe_in(folder.path(), {"sweep", "sweep.toml", "-o", "designs", "--quiet"}).exit_code,
            0);
  const auto table = lasting_table(contents(folder / "designs/table.csv"));
  fs::remove_all(folder / "designs");
  // enough to plan the designs, too little for all their figures
  const Outcome full =
      felloe_in(folder.path(), {"sweep", "sweep.toml", "-o", "designs", "--quiet"}, 100 * 1024);
  EXPECT_EQ(full.exit_code, 2) << full.err;
  EXPECT_EQ(lines(full.err), 1u) << full.err;
  EXPECT_NE(full.err.find("designs.sqlite: can't be written: the limit on file sizes is reached"),
            std::string::npos)
      << full.err;
  const Outcome later = felloe_in(folder.path(), {"sweep", "designs", "--quiet"});
  EXPECT_EQ(later.exit_code, 0) << later.err;
  EXPECT_EQ(lasting_table(contents(folder / "designs/table.csv")), table);
}

TEST(Disk, FullDiskIsOneErrorAndTheSweepGoesOn) {
  if (::geteuid() != 0 || ::unshare(CLONE_NEWNS) != 0 ||
      ::mount(nullptr, "/", nullptr, MS_REC | MS_PRIVATE, nullptr) != 0)
    GTEST_SKIP() << "a small disk can't be mounted here: " << std::strerror(errno);
  const Folder folder;
  write_small_sweep(folder, 8);
  const std::string disk = (folder / "designs").string();
  fs::create_directories(disk);
  ASSERT_EQ(::mount("felloe-test", disk.c_str(), "tmpfs", 0, "size=200k"), 0)
      << std::strerror(errno);
  const Outcome full =
      felloe_in(folder.path(), {"sweep", "sweep.toml", "-o", "designs", "--quiet"});
  EXPECT_EQ(full.exit_code, 2) << full.err;
  EXPECT_EQ(lines(full.err), 1u) << full.err;
  EXPECT_NE(full.err.find("designs.sqlite: can't be written: the disk is full"), std::string::npos)
      << full.err;
  ASSERT_EQ(::mount("felloe-test", disk.c_str(), "tmpfs", MS_REMOUNT, "size=20m"), 0);
  const Outcome later = felloe_in(folder.path(), {"sweep", "designs", "--quiet"});
  EXPECT_EQ(later.exit_code, 0) << later.err;
  EXPECT_EQ(lines(contents(folder / "designs/table.csv")), 9u);
  ::umount(disk.c_str());
}

TEST(Disk, ReadOnlyStoreIsOneErrorAndCanStillBeRead) {
  const Folder folder;
  ::chmod(folder.path().c_str(), 0755);
  write_small_sweep(folder, 4);
  ASSERT_EQ(felloe_in(folder.path(), {"sweep", "sweep.toml", "-o", "designs", "--quiet"}).exit_code,
            0);
  folder.write("sweep.toml", small_sweep(5));  // one new design: the middle
  ASSERT_EQ(::chmod((folder / "designs").c_str(), 0555), 0);
  ASSERT_EQ(::chmod((folder / "designs/designs.sqlite").c_str(), 0444), 0);
  const Outcome refused = as_nobody(folder.path(), {"sweep", "designs", "--quiet", "--retry"});
  if (refused.exit_code >= 124) GTEST_SKIP() << "the program can't be run without special rights";
  EXPECT_EQ(refused.exit_code, 2);
  EXPECT_EQ(lines(refused.err), 1u) << refused.err;
  EXPECT_NE(refused.err.find("designs.sqlite: can't be written: the file or its folder is "
                             "read-only for you; change the access rights"),
            std::string::npos)
      << refused.err;
  EXPECT_EQ(as_nobody(folder.path(), {"sweep", "designs", "--table"}).exit_code, 0);
  ::chmod((folder / "designs").c_str(), 0755);
  ::chmod((folder / "designs/designs.sqlite").c_str(), 0644);
  EXPECT_EQ(felloe_in(folder.path(), {"sweep", "sweep.toml", "-o", "designs", "--quiet"}).exit_code,
            0);
  EXPECT_EQ(lines(contents(folder / "designs/table.csv")), 6u);
}

}  // namespace
}  // namespace felloe::test
