#include <rapidcheck.h>

#include <map>
#include <set>

#include "store/postgres_fixture.h"

namespace sherd::store {
namespace {

/// The store in ten lines: the rows after every change, and undo by fields on them.
using Row = std::map<std::string, std::string>;
using State = std::map<std::string, Row>;

const std::vector<std::string> kColumns{"record", "rim_percent", "certainty", "vessel"};

struct Model {
  std::vector<State> states{State{}, State{}};  ///< by change; the site is change 1

  const State& today() const { return states.back(); }

  /// Nothing where the undo is refused.
  std::optional<State> undone(std::size_t seq) const {
    const State& was = states[seq - 1];
    const State& now = states[seq];
    State out = today();
    std::set<std::string> uids;
    for (const State* state : {&was, &now}) {
      for (const auto& [uid, row] : *state) uids.insert(uid);
    }
    for (const std::string& uid : uids) {
      const Row* before = find(was, uid);
      const Row* after = find(now, uid);
      if (before != nullptr && after != nullptr && *before == *after) continue;
      const Row* current = find(today(), uid);
      if ((after == nullptr) != (current == nullptr)) return std::nullopt;
      Row row = current == nullptr ? *before : *current;
      for (const std::string& column : kColumns) {
        const bool altered = before == nullptr || after == nullptr || before->at(column) != after->at(column);
        if (!altered) continue;
        if (current != nullptr && current->at(column) != after->at(column)) return std::nullopt;
        if (before != nullptr) row[column] = before->at(column);
      }
      if (before == nullptr) {
        out.erase(uid);
      } else {
        out[uid] = row;
      }
    }
    return out;
  }

  static const Row* find(const State& state, const std::string& uid) {
    const auto found = state.find(uid);
    return found == state.end() ? nullptr : &found->second;
  }
};

State state_of(Store& store, std::optional<std::int64_t> as_of = {}) {
  std::vector<std::string> columns = kColumns;
  columns.emplace_back("uid");
  const Table rows = must(store.read({"SAL26", Kind::rims, columns, as_of}));
  State state;
  for (std::size_t row = 0; row < rows.rows(); ++row) {
    Row& to = state[std::string(rows.find("uid")->text(row))];
    for (const std::string& column : kColumns) to[column] = cell_text(*rows.find(column), row);
  }
  return state;
}

std::string random_value(const std::string& column) {
  if (column == "certainty") return *rc::gen::element<std::string>("sure", "probable", "possible", "");
  if (column == "rim_percent") return *rc::gen::element<std::string>("5", "12.5", "");
  if (column == "record") return *rc::gen::element<std::string>("1", "2");
  return *rc::gen::element<std::string>("jug A", "jug B", "");
}

class RandomHistory {
 public:
  explicit RandomHistory(std::unique_ptr<Store> store) : store_(std::move(store)) { put_site(*store_, "SAL26"); }

  void step() {
    const int what = *rc::gen::inRange(0, 10);
    if (what < 6) {
      change();
    } else {
      undo();
    }
    RC_ASSERT(state_of(*store_) == model_.today());
  }
  void finish() {
    for (std::size_t seq = 0; seq < model_.states.size(); ++seq) {
      RC_ASSERT(state_of(*store_, static_cast<std::int64_t>(seq)) == model_.states[seq]);
    }
    RC_ASSERT(must(store_->verify()).empty());
  }

 private:
  /// Several calls in one change, on any rows.
  void change() {
    auto writing = must(store_->begin(note(next())));
    const int calls = *rc::gen::inRange(1, 5);
    for (int call = 0; call < calls; ++call) {
      const State now = state_of(*store_);
      const int what = now.empty() ? 0 : *rc::gen::inRange(0, 4);
      if (what == 0) {
        insert(*writing);
        continue;
      }
      const auto& [uid, row] = *std::next(now.begin(), *rc::gen::inRange(0, static_cast<int>(now.size())));
      if (what == 1) {
        must(writing->remove("SAL26", Kind::rims, uid));
      } else {
        const std::string column = *rc::gen::elementOf(kColumns);
        const std::string value = random_value(column);
        const bool refused = value.empty() && column == "rim_percent";
        const auto edited = writing->edit("SAL26", Kind::rims, {uid, column, row.at(column), value});
        RC_ASSERT(code_of(edited) == (refused ? "required" : "none"));
      }
    }
    const Change made = must(writing->commit());
    RC_ASSERT(made.seq == static_cast<std::int64_t>(model_.states.size()));
    const State before = model_.today();
    model_.states.push_back(state_of(*store_));
    check_counts(made, before, model_.today());
    RC_ASSERT(state_of(*store_, made.seq - 1) == before);
  }

  void insert(Writing& writing) {
    const int rows = *rc::gen::inRange(1, 4);
    std::vector<std::vector<std::string>> values;
    for (int row = 0; row < rows; ++row) values.push_back({"1", "100", random_value("vessel")});
    must(writing.insert("SAL26", table_of(Kind::rims, {"record", "rim_percent", "vessel"}, values)));
  }

  void undo() {
    const auto seq = static_cast<std::size_t>(*rc::gen::inRange(1, static_cast<int>(model_.states.size())));
    if (seq == 1) return;
    const auto expected = model_.undone(seq);
    const auto done = store_->undo(static_cast<std::int64_t>(seq), note(next()));
    if (model_.states[seq - 1] == model_.states[seq]) {
      RC_ASSERT(code_of(done) == "nothing_to_undo");
      return;
    }
    if (!expected) {
      RC_ASSERT(code_of(done) == "later_change");
      const auto later = std::stoull(done.error().where.id);
      RC_ASSERT(later > seq && later < model_.states.size());
      return;
    }
    RC_ASSERT(code_of(done) == "none");
    const State before = model_.today();
    model_.states.push_back(*expected);
    check_counts(*done, before, *expected);
    if (*rc::gen::inRange(0, 3) == 0) undo_that(done->seq, before);
  }

  /// Undoing an undo at once gives back what there was.
  void undo_that(std::int64_t seq, const State& before) {
    must(store_->undo(seq, note(next())));
    model_.states.push_back(before);
  }

  static void check_counts(const Change& change, const State& before, const State& after) {
    std::int64_t added = 0, changed = 0, removed = 0;
    for (const auto& [uid, row] : after) {
      const Row* old = Model::find(before, uid);
      if (old == nullptr) {
        ++added;
      } else if (*old != row) {
        ++changed;
      }
    }
    for (const auto& [uid, row] : before) removed += after.contains(uid) ? 0 : 1;
    RC_ASSERT(change.rows_added == added);
    RC_ASSERT(change.rows_removed == removed);
    RC_ASSERT(change.rows_changed >= changed);  // a field that was set to and fro within one change is counted too
  }

  std::string next() { return "change " + std::to_string(++changes_); }

  std::unique_ptr<Store> store_;
  Model model_;
  int changes_ = 0;
};

TEST(StoreHistory, random_histories_give_what_the_simple_model_gives) {
  const bool held = rc::check([] {
    RandomHistory history(must(in_memory()));
    const int steps = *rc::gen::inRange(1, 30);
    for (int step = 0; step < steps; ++step) history.step();
    history.finish();
  });
  EXPECT_TRUE(held);
}

TEST(StoreHistory, random_histories_on_a_server_give_the_same) {
  if (test_server().empty()) GTEST_SKIP() << kNoServer;
  int histories = 0;
  const bool held = rc::check([&histories] {
    if (++histories > 4) return;  // each takes seconds: many round trips, each commit on the disk
    const TestDatabase database;
    RandomHistory history(must(create(database.address())));
    const int steps = *rc::gen::inRange(10, 20);
    for (int step = 0; step < steps; ++step) history.step();
    history.finish();
  });
  EXPECT_TRUE(held);
}

}  // namespace
}  // namespace sherd::store
