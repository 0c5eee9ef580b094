// SPDX-License-Identifier: GPL-3.0-or-later
// Files appear whole or not at all, and a full disk is an Error.
#include "post/whole_file.h"

#include <gtest/gtest.h>

#include "mesher/error.h"
#include "tests/support/scratch_folder.h"

namespace felloe {
namespace {

std::string message_of(const std::string &path) {
  try {
    write_whole_file(path, "text");
  } catch (const Error &e) {
    return e.what();
  }
  return "no error";
}

TEST(WholeFile, ReplacesAnOlderFileAndLeavesNothingBeside) {
  const test::ScratchFolder folder;
  write_whole_file(folder.file("a.txt"), "an older, longer text");
  write_whole_file(folder.file("a.txt"), std::string("new\0text", 8));
  EXPECT_EQ(test::file_text(folder.file("a.txt")), std::string("new\0text", 8));
  EXPECT_EQ(test::n_files(folder.path()), 1);
}

TEST(WholeFile, FullDiskIsAnErrorThatNamesTheFileAndTheReason) {
  EXPECT_EQ(message_of("/dev/full"),
            "/dev/full: could not be written: No space left on device; free some space or choose "
            "another place");
}

TEST(WholeFile, AMissingFolderIsAnErrorAndNothingIsLeft) {
  const test::ScratchFolder folder;
  EXPECT_NE(message_of(folder.file("none/a.txt")).find("No such file"), std::string::npos);
  EXPECT_EQ(test::n_files(folder.path()), 0);
}

TEST(MakeFolder, MakesParentsAndRefusesTheNameOfAFile) {
  const test::ScratchFolder folder;
  make_folder(folder.file("a/b"));
  make_folder(folder.file("a/b"));  // again: no error
  write_whole_file(folder.file("a/b/c"), "");
  EXPECT_THROW(make_folder(folder.file("a/b/c")), Error);
  EXPECT_THROW(make_folder(folder.file("a/b/c/d")), Error);
}

}  // namespace
}  // namespace felloe
