#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "store/store.h"

/// For tests: a store that fails at the n-th call, counted over the store and the changes made on it.
namespace sherd::store {

class FaultStore final : public Store {
 public:
  explicit FaultStore(Store& inner) : inner_(inner) {}

  /// The n-th call from now fails, with n from 1; all others are passed on.
  void fail_at(std::int64_t n) { left_ = n; }
  bool failed() const { return left_ <= 0; }

  Result<std::vector<Site>> sites() override {
    return through([&] { return inner_.sites(); });
  }
  Result<Table> read(const ReadRequest& request) override {
    return through([&] { return inner_.read(request); });
  }
  Result<std::int64_t> count_rows(const std::string& site, Kind kind) override {
    return through([&] { return inner_.count_rows(site, kind); });
  }
  Result<Table> sums(const SumRequest& request) override {
    return through([&] { return inner_.sums(request); });
  }
  Result<std::unique_ptr<Writing>> begin(const ChangeNote& note) override {
    return through([&]() -> Result<std::unique_ptr<Writing>> {
      SHERD_TRY(auto writing, inner_.begin(note));
      return std::make_unique<FaultWriting>(*this, std::move(writing));
    });
  }
  Result<Change> undo(std::int64_t seq, const ChangeNote& note) override {
    return through([&] { return inner_.undo(seq, note); });
  }
  Result<std::vector<Change>> changes(std::int64_t after_seq) override {
    return through([&] { return inner_.changes(after_seq); });
  }
  Result<std::vector<Difference>> differences(std::int64_t seq) override {
    return through([&] { return inner_.differences(seq); });
  }
  Result<std::optional<Change>> newest_change() override {
    return through([&] { return inner_.newest_change(); });
  }
  Result<bool> was_imported(const std::string& site, Kind kind, const std::string& sha256) override {
    return through([&] { return inner_.was_imported(site, kind, sha256); });
  }
  Result<std::optional<Document>> document(const std::string& site, const std::string& name) override {
    return through([&] { return inner_.document(site, name); });
  }
  Result<std::vector<std::string>> document_names(const std::string& site, std::string_view prefix) override {
    return through([&] { return inner_.document_names(site, prefix); });
  }
  Result<void> backup(const std::string& file) override {
    return through([&] { return inner_.backup(file); });
  }
  Result<std::vector<std::string>> verify() override {
    return through([&] { return inner_.verify(); });
  }
  std::vector<std::string> warnings() const override { return inner_.warnings(); }
  /// Its calls are not counted.
  Away& away() override { return inner_.away(); }
  /// Its calls are not counted.
  Whole& whole() override { return inner_.whole(); }

 private:
  class FaultWriting final : public Writing {
   public:
    FaultWriting(FaultStore& store, std::unique_ptr<Writing> inner) : store_(store), inner_(std::move(inner)) {}

    Result<void> insert(const std::string& site, const Table& rows) override {
      return store_.through([&] { return inner_->insert(site, rows); });
    }
    Result<void> edit(const std::string& site, Kind kind, const Edit& edit) override {
      return store_.through([&] { return inner_->edit(site, kind, edit); });
    }
    Result<void> remove(const std::string& site, Kind kind, const std::string& uid) override {
      return store_.through([&] { return inner_->remove(site, kind, uid); });
    }
    Result<std::int64_t> lease_records(const std::string& site, std::int64_t count) override {
      return store_.through([&] { return inner_->lease_records(site, count); });
    }
    Result<void> put_document(const std::string& site, const Document& document) override {
      return store_.through([&] { return inner_->put_document(site, document); });
    }
    Result<void> note_import(const std::string& site, Kind kind, const std::string& sha256) override {
      return store_.through([&] { return inner_->note_import(site, kind, sha256); });
    }
    Result<void> put_site(const Site& site) override {
      return store_.through([&] { return inner_->put_site(site); });
    }
    Result<void> replay(const CopyChange& change) override {
      return store_.through([&] { return inner_->replay(change); });
    }
    Result<void> settle(const Settlement& settlement) override {
      return store_.through([&] { return inner_->settle(settlement); });
    }
    Result<Change> commit() override {
      return store_.through([&] { return inner_->commit(); });
    }

   private:
    FaultStore& store_;
    std::unique_ptr<Writing> inner_;
  };

  template <class Call>
  std::invoke_result_t<Call> through(Call call) {
    if (--left_ == 0) return fail("disk_full", "there is no room left on the disk", "Make room and try again");
    return call();
  }

  Store& inner_;
  std::int64_t left_ = INT64_MAX;
};

}  // namespace sherd::store
