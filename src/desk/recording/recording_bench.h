#pragma once

#include <map>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "desk/recording/apply_edits.h"
#include "desk/site/import_bench.h"
#include "store/store.h"

/// For the tests of recording: the small site of the import's tests, and steps written short.
namespace sherd::desk {

inline EditStep adding(std::string kind, std::map<std::string, std::string> values, std::string as = {}) {
  EditStep step;
  step.act = "add";
  step.kind = std::move(kind);
  step.values = std::move(values);
  step.as = std::move(as);
  return step;
}

inline EditStep setting(std::string kind, std::string row, std::string column, std::string seen, std::string value) {
  EditStep step;
  step.act = "set";
  step.kind = std::move(kind);
  step.row = std::move(row);
  step.column = std::move(column);
  step.seen = std::move(seen);
  step.value = std::move(value);
  return step;
}

inline EditStep removing(std::string kind, std::string row, std::vector<std::string> with = {}) {
  EditStep step;
  step.act = "remove";
  step.kind = std::move(kind);
  step.row = std::move(row);
  step.with = std::move(with);
  return step;
}

class RecordingBench : public ImportBench {
 protected:
  explicit RecordingBench(Result<std::unique_ptr<Store>> store) : ImportBench(std::move(store)) {}

  static EditsRequest change(std::vector<EditStep> steps, std::string uid) {
    EditsRequest request;
    request.store = "x.sherds";
    request.change = std::move(uid);
    request.label = "recording";
    request.steps = std::move(steps);
    return request;
  }
  /// A change of its own identity.
  EditsRequest change(std::vector<EditStep> steps) {
    std::string number = std::to_string(++changes_);
    return change(std::move(steps), std::string(32 - number.size(), 'a') + number);
  }
  EditsResponse ask(const EditsRequest& request) {
    return must(apply_edits(request, desk_.environment, desk_.progress));
  }
  /// A change that must be taken.
  EditsResponse make(std::vector<EditStep> steps) {
    EditsResponse response = ask(change(std::move(steps)));
    EXPECT_TRUE(response.ok()) << (response.errors.empty() ? "" : response.errors.front().message);
    return response;
  }
  /// A change that must be refused; "column: code" of each problem.
  std::vector<std::string> refused(std::vector<EditStep> steps) {
    const auto before = desk_.everything();
    const EditsResponse response = ask(change(std::move(steps)));
    EXPECT_FALSE(response.ok());
    EXPECT_FALSE(response.seq);
    EXPECT_EQ(desk_.everything(), before);
    std::vector<std::string> out;
    for (const EditProblem& problem : response.problems) out.push_back(problem.column + ": " + problem.code);
    return out;
  }

 private:
  int changes_ = 0;
};

}  // namespace sherd::desk
