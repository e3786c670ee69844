#include "program.h"

#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <fstream>
#include <sstream>

namespace sherd::tests {

namespace fs = std::filesystem;

namespace {

std::string bytes_of(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

std::string program() {
  const char* path = std::getenv("SHERDWRIGHT");
  return path == nullptr ? std::string{} : fs::absolute(path).string();
}

}  // namespace

std::string quoted(const std::string& word) {
  std::string out = "'";
  for (const char c : word) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out + "'";
}

std::string open_data() {
  const char* path = std::getenv("SHERD_OPEN_DATA");
  return path == nullptr ? std::string{} : path;
}

Bench::Bench() {
  std::string pattern = (fs::temp_directory_path() / "sherd-test-XXXXXX").string();
  folder_ = mkdtemp(pattern.data());
}

Bench::~Bench() {
  std::error_code ignored;
  fs::remove_all(folder_, ignored);
}

Answer Bench::run(const std::vector<std::string>& arguments) const {
  const std::string binary = program();
  EXPECT_FALSE(binary.empty()) << "SHERDWRIGHT does not name the program";
  std::string command = "cd " + quoted(folder_.string()) + " && " + quoted(binary);
  for (const std::string& argument : arguments) command += " " + quoted(argument);
  const fs::path out = folder_ / ".out";
  const fs::path err = folder_ / ".err";
  command += " >" + quoted(out.string()) + " 2>" + quoted(err.string()) + " </dev/null";
  const int status = std::system(command.c_str());
  return {WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status), bytes_of(out), bytes_of(err)};
}

nlohmann::json Bench::ask(std::vector<std::string> arguments, int expected_code) const {
  arguments.emplace_back("--json");
  const Answer answer = run(arguments);
  EXPECT_EQ(answer.code, expected_code) << answer.out << answer.err;
  const auto document = nlohmann::json::parse(answer.out, nullptr, false);
  EXPECT_FALSE(document.is_discarded()) << answer.out;
  return document;
}

void Bench::write(const std::string& name, const std::string& bytes) const {
  std::ofstream out(folder_ / name, std::ios::binary);
  out << bytes;
}

std::string Bench::read(const std::string& name) const { return bytes_of(folder_ / name); }

void Bench::make_small_store(const std::string& name) const {
  ask({"new", name, "--site", "X", "--title", "Test pit"});
  write("contexts.csv", "context,deposit,phase\n1,mixed,\n2,dump,\n3,use,\n4,cut,\n5,silting,\n");
  write("fabrics.csv",
        "fabric,ware_group,earliest,latest,reference\ngrey-1,Roman,120,250,test\ngreen-1,medieval,1250,1400,test\n");
  write("forms.csv", "form\njar\njug\n");
  ask({"import", name, "contexts.csv", "--as", "contexts"});
  ask({"import", name, "fabrics.csv", "--as", "fabrics"});
  ask({"import", name, "forms.csv", "--as", "forms"});
}

}  // namespace sherd::tests
