// SPDX-License-Identifier: GPL-3.0-or-later
// Pictures are drawn without a screen, or skipped with a reason; nothing takes the program down.
#include "post/pictures.h"

#include <gtest/gtest.h>
#include <signal.h>
#include <sys/wait.h>

#include <cstdlib>
#include <filesystem>
#include <stdexcept>

#include "mesher/error.h"
#include "post/display.h"
#include "post/field_input.h"
#include "tests/support/scratch_folder.h"
#include "tests/support/simple_wheel.h"

namespace felloe {
namespace {

/// Sets or (nullptr) removes a variable of the environment, and puts the old state back.
class Variable {
 public:
  Variable(const char *name, const char *value) : name_(name) {
    if (const char *old = std::getenv(name)) old_ = old, was_set_ = true;
    set(value);
  }
  ~Variable() { set(was_set_ ? old_.c_str() : nullptr); }

 private:
  void set(const char *value) { value ? ::setenv(name_, value, 1) : ::unsetenv(name_); }
  const char *name_;
  std::string old_;
  bool was_set_ = false;
};

std::vector<Marker> markers() {
  return {{1, {120 * std::cos(0.6), 120 * std::sin(0.6), test::bowl(120) + 2}, "first 180 MPa"},
          {2, {75 * std::cos(-1.9), 75 * std::sin(-1.9), test::bowl(75) - 2}, "second 130 MPa"}};
}

PictureResult draw(const std::string &folder) {
  const Mesh mesh = test::toy_wheel();
  PictureText text;
  text.title = "Toy wheel";
  text.load = "a load";
  return render_pictures(mesh, test::two_peaks(mesh), markers(), text, folder);
}

bool no_child_left() { return ::waitpid(-1, nullptr, WNOHANG) == -1 && errno == ECHILD; }

TEST(Pictures, AreDrawnWithoutADisplay) {
  const Variable no_display("DISPLAY", nullptr);
  const test::ScratchFolder folder;
  const PictureResult result = draw(folder.file("pictures"));
  ASSERT_EQ(result.skipped, "");
  ASSERT_EQ(result.files.size(), 4U);
  for (const std::string &file : result.files) {
    const PictureFigures figures = picture_figures(file);
    EXPECT_EQ(figures.width, 1600);
    EXPECT_EQ(figures.height, 1200);
    EXPECT_GT(figures.colours, 1000) << file;  // a blank page has 1, text alone a few dozen
  }
  EXPECT_EQ(test::n_files(folder.file("pictures")), 4);
  EXPECT_EQ(std::getenv("DISPLAY"), nullptr);
  EXPECT_TRUE(no_child_left());
}

TEST(Pictures, AreSkippedWithAReasonWhereThereIsNoServer) {
  const Variable no_display("DISPLAY", nullptr), no_programs("PATH", "/nonexistent");
  const test::ScratchFolder folder;
  const PictureResult result = draw(folder.path());
  EXPECT_TRUE(result.files.empty());
  EXPECT_NE(result.skipped.find("Xvfb could not be started"), std::string::npos) << result.skipped;
  EXPECT_EQ(test::n_files(folder.path()), 0);
  EXPECT_TRUE(no_child_left());
}

TEST(Pictures, ADisplayThatDoesNotAnswerIsReplacedByAPrivateOne) {
  const Variable wrong_display("DISPLAY", ":98765");
  const test::ScratchFolder folder;
  EXPECT_EQ(draw(folder.path()).files.size(), 4U);
  EXPECT_STREQ(std::getenv("DISPLAY"), ":98765");
}

TEST(Pictures, AFileInPlaceOfTheFolderIsAnError) {
  const test::ScratchFolder folder;
  std::ofstream(folder.file("pictures")) << "in the way";
  EXPECT_THROW(draw(folder.file("pictures")), Error);
}

TEST(Pictures, APictureThatCannotBeWrittenIsAnError) {
  const Variable no_display("DISPLAY", nullptr);
  const test::ScratchFolder folder;
  std::filesystem::create_directories(folder.file("front.png/inside"));
  EXPECT_THROW(draw(folder.path()), Error);
  EXPECT_TRUE(no_child_left());
}

TEST(PrivateDisplay, EndsWithItsObject) {
  std::string name;
  {
    const PrivateDisplay display;
    ASSERT_EQ(display.reason(), "");
    name = display.name();
    EXPECT_EQ(name.substr(0, 1), ":");
    EXPECT_TRUE(std::filesystem::exists("/tmp/.X11-unix/X" + name.substr(1)));
  }
  EXPECT_FALSE(std::filesystem::exists("/tmp/.X11-unix/X" + name.substr(1)));
  EXPECT_TRUE(no_child_left());
}

TEST(ChildProcess, ReportsAbortExceptionHangAndError) {
  EXPECT_EQ(in_child_process(
                ":0", [] {}, 10),
            "");
  EXPECT_NE(in_child_process(
                ":0", [] { std::abort(); }, 10)
                .find("Aborted"),
            std::string::npos);
  EXPECT_EQ(in_child_process(
                ":0", [] { throw std::runtime_error("no context"); }, 10),
            "the drawing failed: no context");
  EXPECT_EQ(in_child_process(
                ":0", [] { ::pause(); }, 1),
            "the drawing took longer than 1 s");
  EXPECT_THROW(in_child_process(
                   ":0", [] { throw Error("disk: full: really"); }, 10),
               Error);
  EXPECT_TRUE(no_child_left());
}

}  // namespace
}  // namespace felloe
