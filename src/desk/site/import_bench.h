#pragma once

#include <string>
#include <vector>

#include "desk/frame/testing.h"
#include "desk/site/import_table.h"
#include "desk/site/new_site.h"
#include "store/store.h"

/// For the tests of the import: a small site in memory, and tables as text.
namespace sherd::desk {

class ImportBench : public ::testing::Test {
 protected:
  explicit ImportBench(Result<std::unique_ptr<Store>> store) : desk_(std::move(store)) {
    must(make_site({.store = "x.sherds", .site = "SAL26", .title = "Mill Close"}, desk_.environment, desk_.progress));
    take("contexts", "context,deposit\n1,dump\n2,use\n3,cut\n");
    take("fabrics", "fabric\ngrey-1\ngreen-1\n");
    take("forms", "form\njar\n");
  }

  ImportRequest request(const std::string& kind, const std::string& text) {
    const std::string name = kind + std::to_string(++files_) + ".csv";
    must(desk_.files.write(name, text));
    return {.store = "x.sherds", .file = name, .as = kind};
  }
  Result<ImportResponse> run(const ImportRequest& request) {
    return import_table(request, desk_.environment, desk_.progress);
  }
  /// An import that must succeed.
  ImportResponse take(const std::string& kind, const std::string& text) {
    const ImportResponse answer = must(run(request(kind, text)));
    EXPECT_TRUE(answer.ok()) << (answer.errors.empty() ? "" : answer.errors.front().message);
    return answer;
  }
  ImportResponse update(const std::string& text, const std::string& only = {}, const std::string& kind = "sherds") {
    ImportRequest wanted = request(kind, text);
    wanted.update = true;
    wanted.only = only;
    return must(run(wanted));
  }
  std::vector<std::string> sherds(std::vector<std::string> columns) {
    return desk_.rows(Kind::sherds, std::move(columns));
  }
  static std::vector<std::string> told(const ImportResponse& answer) {
    std::vector<std::string> out;
    for (const ImportDifference& each : answer.differences)
      out.push_back(each.key + " " + each.column + ": \"" + each.was + "\" to \"" + each.now + "\"");
    return out;
  }

  TestDesk desk_;

 private:
  int files_ = 0;
};

using Lines = std::vector<std::string>;

}  // namespace sherd::desk
