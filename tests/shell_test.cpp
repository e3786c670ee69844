#include <gmock/gmock.h>

#include <array>
#include <cstdio>
#include <sstream>

#include "program.h"

/// What an installed program brings for the shell and the manual.
namespace sherd::tests {
namespace {

class Shell : public Bench {
 protected:
  /// What bash offers for the last of `words`, by the program's own completion, called as bash calls it.
  std::vector<std::string> completed(const std::vector<std::string>& words) const {
    write("completion.bash", run({"reference", "--bash"}).out);
    std::string array;
    for (const std::string& word : words) array += quoted(word) + " ";
    const std::string script = ". ./completion.bash; COMP_WORDS=(" + array +
                               "); COMP_CWORD=" + std::to_string(words.size() - 1) +
                               "; _sherdwright; printf '%s\\n' \"${COMPREPLY[@]}\"";
    return lines(shell("bash --norc -c " + quoted(script)));
  }
  std::string shell(const std::string& command) const {
    std::string out;
    FILE* pipe = popen(("cd " + quoted(folder_.string()) + " && " + command).c_str(), "r");
    std::array<char, 4096> bytes{};
    for (std::size_t n = 0; (n = fread(bytes.data(), 1, bytes.size(), pipe)) > 0;) out.append(bytes.data(), n);
    pclose(pipe);
    return out;
  }
  static std::vector<std::string> lines(const std::string& text) {
    std::vector<std::string> out;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) {
      if (!line.empty()) out.push_back(line);
    }
    return out;
  }
};

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

TEST_F(Shell, bash_completes_commands_and_the_options_of_each) {
  EXPECT_THAT(completed({"sherdwright", "tal"}), ElementsAre("tally"));
  EXPECT_THAT(completed({"sherdwright", ""}), Contains("open"));
  EXPECT_THAT(completed({"sherdwright", "--v"}), ElementsAre("--version"));
  EXPECT_THAT(completed({"sherdwright", "tally", "x.sherds", "--inter"}), ElementsAre("--intervals"));
  EXPECT_THAT(completed({"sherdwright", "tally", "x.sherds", "--"}), Contains("--json"));
  EXPECT_THAT(completed({"sherdwright", "tally", "x.sherds", "--"}), Not(Contains("--dry-run")));
}

TEST_F(Shell, bash_is_left_to_complete_files_where_a_file_or_a_value_stands) {
  EXPECT_THAT(completed({"sherdwright", "tally", "x"}), IsEmpty());
  EXPECT_THAT(completed({"sherdwright", "report", "x.sherds", "--out", "-"}), IsEmpty());
  EXPECT_THAT(completed({"sherdwright", "no-such-command", "--"}), IsEmpty());
  write("one.sherds", "");
  const std::string script =
      ". ./completion.bash; complete -p sherdwright | grep -c -- '-o default'; compgen -f -- one";
  EXPECT_THAT(lines(shell("bash --norc -c " + quoted(script))), ElementsAre("1", "one.sherds"));
}

TEST_F(Shell, each_command_has_its_place_in_the_manual_and_in_every_completion) {
  const std::string manual = run({"reference", "--man"}).out;
  const std::string zsh = run({"reference", "--zsh"}).out, fish = run({"reference", "--fish"}).out;
  std::vector<std::string> commands;
  std::istringstream page(run({"reference"}).out);
  for (std::string line; std::getline(page, line);) {
    if (line.starts_with("## ")) commands.push_back(line.substr(3));
  }
  ASSERT_GT(commands.size(), 40U);
  const auto offered = completed({"sherdwright", ""});
  EXPECT_EQ(offered.size(), commands.size());
  for (const std::string& command : commands) {
    EXPECT_THAT(offered, Contains(command));
    EXPECT_THAT(zsh, HasSubstr("'" + command + ":"));
    EXPECT_THAT(fish, HasSubstr(" -a " + command + " "));
    std::string roff;
    for (const char c : command) roff += c == '-' ? "\\-" : std::string(1, c);
    EXPECT_THAT(manual, HasSubstr(".SS " + roff + "\n"));
  }
}

TEST_F(Shell, open_is_refused_where_there_is_no_such_store_and_no_browser_to_say_so) {
  const Answer answer = run({"open", "none.sherds", "--no-browser", "--port", "0"});
  EXPECT_EQ(answer.code, 1);
  EXPECT_THAT(answer.err, HasSubstr("none.sherds"));
  EXPECT_EQ(run({"open", "--no-browser", "--port", "70000"}).code, 2);
}

}  // namespace
}  // namespace sherd::tests
