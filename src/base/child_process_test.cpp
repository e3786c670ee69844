#include "base/child_process.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <fstream>
#include <sstream>
#include <string>
#include <thread>
#include <vector>

namespace sherd {
namespace {

using namespace std::chrono_literals;
using ::testing::HasSubstr;

// The programs are those of POSIX.1-2017, Shell and Utilities: sh, cat, printf, sleep.
std::vector<std::string> shell(const std::string& script) { return {"sh", "-c", script}; }

Result<ChildOutput> run(const std::vector<std::string>& argv, std::string_view input = {}, ChildLimit limit = {}) {
  SystemProcess process;
  NoProgress progress;
  return process.run(argv, input, limit, progress);
}

// Asked `turns` times it goes on, then it stops.
class StopsAfter final : public Progress {
 public:
  explicit StopsAfter(int turns) : left_(turns) {}
  bool step(double, std::string_view) override { return left_-- > 0; }

 private:
  int left_;
};

bool has_no_child() { return ::waitpid(-1, nullptr, WNOHANG) == -1 && errno == ECHILD; }

// A process that has ended but is not yet buried by init counts as gone.
bool is_gone(pid_t pid) {
  if (::kill(pid, 0) != 0) return true;
  std::ifstream file("/proc/" + std::to_string(pid) + "/stat");
  std::ostringstream text;
  text << file.rdbuf();
  return text.str().find(") Z ") != std::string::npos;
}

TEST(ChildProcess, HandsOverWhatItIsToldAndWhatItSays) {
  const auto output = run({"cat"}, "rim\nbase\n");
  ASSERT_TRUE(output.has_value());
  EXPECT_EQ(output->out, "rim\nbase\n");
  EXPECT_EQ(output->err, "");
  EXPECT_TRUE(output->succeeded());
  EXPECT_TRUE(has_no_child());
}

TEST(ChildProcess, TellsTheExitCodeAndWhatWentToStandardError) {
  const auto output = run(shell("printf out; printf trouble >&2; exit 7"));
  ASSERT_TRUE(output.has_value());
  EXPECT_EQ(output->exit_code, 7);
  EXPECT_EQ(output->out, "out");
  EXPECT_EQ(output->err, "trouble");
  EXPECT_FALSE(output->succeeded());
}

TEST(ChildProcess, TellsTheSignalThatEndedIt) {
  const auto output = run(shell("kill -9 $$"));
  ASSERT_TRUE(output.has_value());
  EXPECT_EQ(output->signal, SIGKILL);
  EXPECT_FALSE(output->succeeded());
}

TEST(ChildProcess, WordsReachTheProgramAsTheyAreWithoutAShell) {
  const auto output = run({"printf", "%s|", "a b", "$(exit 3)", "it's", ""});
  ASSERT_TRUE(output.has_value());
  EXPECT_EQ(output->out, "a b|$(exit 3)|it's||");
}

TEST(ChildProcess, AMissingProgramIsSaidByName) {
  const auto output = run({"sherd-no-such-program"});
  ASSERT_FALSE(output.has_value());
  EXPECT_EQ(output.error().code, "no_program");
  EXPECT_EQ(output.error().message, "sherd-no-such-program is not installed, or not on the PATH.");
  EXPECT_TRUE(has_no_child());
}

TEST(ChildProcess, MuchInAndMuchOutAtOnceDoNotWaitForOneAnother) {
  std::string input;
  while (input.size() < 8'000'000) input += "context 1043, fabric shell-3, 12 sherds, 140 g\n";
  const auto output = run(shell("tee /dev/stderr"), input);
  ASSERT_TRUE(output.has_value());
  EXPECT_TRUE(output->out == input);
  EXPECT_TRUE(output->err == input);
}

TEST(ChildProcess, AProgramThatDoesNotReadItsInputIsNoTrouble) {
  const auto output = run(shell("exec <&-; printf done"), std::string(4'000'000, 'x'));
  ASSERT_TRUE(output.has_value()) << output.error().message;
  EXPECT_EQ(output->out, "done");
}

TEST(ChildProcess, ASlowProgramIsEndedWithItsChildren) {
  ChildLimit limit;
  limit.time = 300ms;
  const auto began = std::chrono::steady_clock::now();
  const auto output = run(shell("sleep 60 & sleep 60"), {}, limit);
  ASSERT_FALSE(output.has_value());
  EXPECT_EQ(output.error().code, "program_too_slow");
  EXPECT_EQ(output.error().message, "sh took longer than 0.3 s.");
  EXPECT_LT(std::chrono::steady_clock::now() - began, 10s);
  EXPECT_TRUE(has_no_child());
}

TEST(ChildProcess, AChildThatOutlivesTheProgramIsNeitherWaitedForNorLeft) {
  const auto began = std::chrono::steady_clock::now();
  const auto output = run(shell("sleep 60 & printf %s $!"));
  ASSERT_TRUE(output.has_value());
  EXPECT_LT(std::chrono::steady_clock::now() - began, 20s);
  const auto pid = static_cast<pid_t>(std::stol(output->out));
  for (int i = 0; i < 100 && !is_gone(pid); ++i) std::this_thread::sleep_for(50ms);
  EXPECT_TRUE(is_gone(pid));
}

TEST(ChildProcess, CanBeStopped) {
  SystemProcess process;
  StopsAfter progress(3);
  const auto output = process.run(shell("sleep 60"), {}, {}, progress);
  ASSERT_FALSE(output.has_value());
  EXPECT_EQ(output.error().kind, ErrorKind::stopped);
  EXPECT_TRUE(has_no_child());
}

TEST(ChildProcess, AProgramThatWritesWithoutEndIsEnded) {
  ChildLimit limit;
  limit.output_bytes = 1'000'000;
  const auto output = run(shell("while :; do printf 0123456789; done"), {}, limit);
  ASSERT_FALSE(output.has_value());
  EXPECT_EQ(output.error().code, "program_says_too_much");
  EXPECT_TRUE(has_no_child());
}

TEST(ChildProcess, ItsLimitOfMemoryIsInForceBeforeItBegins) {
  ChildLimit limit;
  limit.memory_bytes = std::size_t{512} << 20;
  for (int i = 0; i < 20; ++i) {
    const auto output = run({"sh", "-c", "ulimit -v; echo \"$1\"", "x", "a 'b' $c"}, {}, limit);
    ASSERT_TRUE(output.has_value());
    EXPECT_EQ(output->out, "524288\na 'b' $c\n") << "its words are handed on as they are";
  }
  const auto none = run({"sherd-no-such-program"}, {}, limit);
  ASSERT_FALSE(none.has_value());
  EXPECT_EQ(none.error().code, "no_program");
}

TEST(ChildProcess, AProgramThatAsksForTooMuchMemoryDoesNotGetIt) {
  ChildLimit limit;
  limit.memory_bytes = std::size_t{64} << 20;
  // The string doubles to 1 GB.
  const auto output =
      run(shell("x=0123456789abcdef; i=0; while [ $i -lt 26 ]; do x=$x$x; i=$((i+1)); done; printf got"), {}, limit);
  ASSERT_TRUE(output.has_value()) << output.error().message;
  EXPECT_FALSE(output->succeeded());
  EXPECT_THAT(output->out, ::testing::Not(HasSubstr("got")));
}

}  // namespace
}  // namespace sherd
