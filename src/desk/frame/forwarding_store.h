#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "store/store.h"

namespace sherd::desk {

/// Hands every call on to another store, which outlives it; for those that do one thing otherwise.
class ForwardingStore : public Store {
 public:
  explicit ForwardingStore(Store& inner) : inner_(inner) {}
  ForwardingStore(const ForwardingStore&) = delete;
  ForwardingStore& operator=(const ForwardingStore&) = delete;

  Result<std::vector<Site>> sites() override { return inner_.sites(); }
  Result<Table> read(const ReadRequest& request) override { return inner_.read(request); }
  Result<std::int64_t> count_rows(const std::string& site, Kind kind) override { return inner_.count_rows(site, kind); }
  Result<Table> sums(const SumRequest& request) override { return inner_.sums(request); }
  Result<std::unique_ptr<Writing>> begin(const ChangeNote& note) override { return inner_.begin(note); }
  Result<Change> undo(std::int64_t seq, const ChangeNote& note) override { return inner_.undo(seq, note); }
  Result<std::vector<Change>> changes(std::int64_t after_seq) override { return inner_.changes(after_seq); }
  Result<std::vector<Difference>> differences(std::int64_t seq) override { return inner_.differences(seq); }
  Result<std::optional<Change>> newest_change() override { return inner_.newest_change(); }
  Result<bool> was_imported(const std::string& site, Kind kind, const std::string& sha256) override {
    return inner_.was_imported(site, kind, sha256);
  }
  Result<std::optional<Document>> document(const std::string& site, const std::string& name) override {
    return inner_.document(site, name);
  }
  Result<std::vector<std::string>> document_names(const std::string& site, std::string_view prefix) override {
    return inner_.document_names(site, prefix);
  }
  Result<void> backup(const std::string& file) override { return inner_.backup(file); }
  Result<std::vector<std::string>> verify() override { return inner_.verify(); }
  std::vector<std::string> warnings() const override { return inner_.warnings(); }
  Away& away() override { return inner_.away(); }
  Whole& whole() override { return inner_.whole(); }

 private:
  Store& inner_;
};

}  // namespace sherd::desk
