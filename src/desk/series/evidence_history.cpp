#include "desk/series/evidence_history.h"

#include <set>
#include <utility>

#include "model/kind_spec.h"
#include "model/table.h"

namespace sherd::desk {

namespace {

/// A row's cells as the outside writes them, in the order of the kind's columns; by uid.
using State = std::map<std::string, std::vector<std::string>>;

class Historian {
 public:
  Historian(const Session& session, Kind kind)
      : session_(session), kind_(kind), columns_(kind_spec(kind).column_names()) {}

  Result<std::map<std::string, std::vector<EvidenceChange>>> run() {
    SHERD_TRY(changes_, session_.store->changes(0));
    if (changes_.empty()) return std::move(out_);
    SHERD_TRY(const State now, state(changes_.size()));
    for (const auto& row : now) current_.insert(row.first);
    SHERD_CHECK(between(0, State{}, changes_.size(), now));
    return std::move(out_);
  }

 private:
  /// After the first `count` changes.
  Result<State> state(std::size_t count) {
    std::vector<std::string> asked{"uid"};
    asked.insert(asked.end(), columns_.begin(), columns_.end());
    SHERD_TRY(const Table table, session_.store->read({session_.site.code, kind_, asked, changes_[count - 1].seq}));
    State out;
    for (std::size_t row = 0; row < table.rows(); ++row) {
      std::vector<std::string>& cells = out[std::string(table.find("uid")->text(row))];
      for (const std::string& column : columns_) cells.push_back(cell_text(*table.find(column), row));
    }
    return out;
  }

  Result<void> between(std::size_t from, const State& was, std::size_t to, const State& now) {
    if (was == now) return {};
    if (to == from + 1) {
      tell(changes_[to - 1], was, now);
      return {};
    }
    const std::size_t half = from + (to - from) / 2;
    SHERD_TRY(const State middle, state(half));
    SHERD_CHECK(between(from, was, half, middle));
    return between(half, middle, to, now);
  }

  void tell(const Change& change, const State& was, const State& now) {
    for (const auto& [uid, cells] : now) {
      if (!current_.contains(uid)) continue;
      const auto before = was.find(uid);
      if (before == was.end()) {
        out_[uid].push_back({change.seq, change.at, change.who, change.command, "", "", "added"});
        continue;
      }
      for (std::size_t i = 0; i < columns_.size(); ++i) {
        if (before->second[i] == cells[i]) continue;
        out_[uid].push_back(
            {change.seq, change.at, change.who, change.command, columns_[i], before->second[i], cells[i]});
      }
    }
  }

  const Session& session_;
  Kind kind_;
  std::vector<std::string> columns_;
  std::vector<Change> changes_;
  std::set<std::string> current_;
  std::map<std::string, std::vector<EvidenceChange>> out_;
};

}  // namespace

Result<std::map<std::string, std::vector<EvidenceChange>>> evidence_history(const Session& session, Kind kind) {
  return Historian(session, kind).run();
}

}  // namespace sherd::desk
