// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that a result folder appears whole or not at all, and that other people's files are safe.
#include "cli/output_folder.h"

#include <csignal>

#include "mesher/error.h"
#include "tests/cli/program.h"

namespace felloe::test {
namespace {

using Names = std::set<std::string>;

TEST(OutputFolder, AppearsOnlyWhenItIsPublished) {
  const Folder place;
  {
    OutputFolder out((place / "out").string());
    out.write("results.json", "{}");
    out.write("pictures/front.txt", "picture");
    EXPECT_FALSE(fs::exists(place / "out"));
    out.publish();
  }
  EXPECT_EQ(place.listing(),
            (Names{"out", "out/results.json", "out/pictures", "out/pictures/front.txt"}));
  EXPECT_EQ(contents(place / "out/results.json"), "{}");
}

TEST(OutputFolder, LeavesNothingWhenItIsNotPublished) {
  const Folder place;
  { OutputFolder((place / "out").string()).write("results.json", "{}"); }
  EXPECT_EQ(place.listing(), Names{});
}

TEST(OutputFolder, ReplacesEarlierResultsAsAWhole) {
  const Folder place;
  place.write("out/results.json", "old");
  place.write("out/old.vtu", "old");
  OutputFolder out((place / "out/").string());  // a slash at the end means the same folder
  out.write("results.json", "new");
  EXPECT_EQ(contents(place / "out/results.json"), "old");
  out.publish();
  EXPECT_EQ(place.listing(), (Names{"out", "out/results.json"}));
  EXPECT_EQ(contents(place / "out/results.json"), "new");
}

TEST(OutputFolder, TakesAnEmptyFolder) {
  const Folder place;
  fs::create_directory(place / "out");
  OutputFolder out((place / "out").string());
  out.write("results.json", "{}");
  out.publish();
  EXPECT_EQ(place.listing(), (Names{"out", "out/results.json"}));
}

TEST(OutputFolder, RefusesAFolderWithOtherFiles) {
  const Folder place;
  place.write("out/letter.txt", "dear reader");
  EXPECT_THROW(OutputFolder((place / "out").string()), Error);
  EXPECT_EQ(place.listing(), (Names{"out", "out/letter.txt"}));
}

TEST(OutputFolder, RefusesFilesThatArrivedMeanwhile) {
  const Folder place;
  {
    OutputFolder out((place / "out").string());
    out.write("results.json", "{}");
    place.write("out/letter.txt", "dear reader");
    EXPECT_THROW(out.publish(), Error);
  }
  EXPECT_EQ(place.listing(), (Names{"out", "out/letter.txt"}));
}

/// Runs f in a child process whose files may not grow over `bytes`; its exit code.
template <class F>
int with_file_limit(rlim_t bytes, F f) {
  const pid_t child = ::fork();
  if (child == 0) {
    std::signal(SIGXFSZ, SIG_IGN);
    const rlimit limit = {bytes, bytes};
    ::setrlimit(RLIMIT_FSIZE, &limit);
    ::_exit(f());
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

TEST(OutputFolder, AFileThatCantBeWrittenWholeIsAnErrorNamingTheTarget) {
  const Folder place;
  const int code = with_file_limit(1000, [&] {
    try {
      OutputFolder out((place / "out").string());
      out.write("results.json", std::string(5000, 'x'));
      return 1;
    } catch (const Error &e) {
      const std::string what = e.what();
      return what.find((place / "out/results.json").string() + ": could not be written") == 0 ? 0
                                                                                              : 2;
    }
  });
  EXPECT_EQ(code, 0);
  EXPECT_EQ(place.listing(), Names{});
}

TEST(OutputFolder, AnInterruptedRunLeavesNothing) {
  const Folder place;
  const pid_t child = ::fork();
  if (child == 0) {
    OutputFolder out((place / "out").string());
    out.write("results.json", "{}");
    ::raise(SIGTERM);
    ::_exit(0);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  EXPECT_TRUE(WIFSIGNALED(status));
  EXPECT_EQ(place.listing(), Names{});
}

TEST(OutputFolder, WritersErrorsNameTheTarget) {
  const Folder place;
  const OutputFolder out((place / "out").string());
  try {
    out.fill([](const std::string &folder) { throw Error(folder + "/a.vtu: lost"); });
    FAIL() << "nothing was thrown";
  } catch (const Error &e) {
    EXPECT_EQ(e.what(), (place / "out/a.vtu").string() + ": lost");
  }
}

}  // namespace
}  // namespace felloe::test
