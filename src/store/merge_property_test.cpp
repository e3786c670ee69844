#include <rapidcheck.h>

#include <cstdlib>

#include "store/merge_testing.h"
#include "store/row_changes.h"

namespace sherd::store {
namespace {

using Texts = std::vector<std::string>;

/// Each history is merged in six orders; who wants more of them says so in RC_PARAMS.
[[maybe_unused]] const bool kFewer = setenv("RC_PARAMS", "max_success=30", 0) == 0;

/// What a laptop may do to a record: add, edit, remove, undo. Values come from few, so that the sides meet.
class Hand {
 public:
  /// `anew`: keys that have gone may be given to new rows, and keys of new rows may go.
  Hand(Store& store, std::string name, bool anew) : store_(store), name_(std::move(name)), anew_(anew) {}

  void work(int steps) {
    for (int step = 0; step < steps; ++step) {
      if (*rc::gen::inRange(0, 5) == 0) {
        undo();
      } else {
        several();
      }
    }
  }

 private:
  std::string next() { return name_ + " " + std::to_string(++changes_); }

  void undo() {
    const std::int64_t newest = must(store_.newest_change())->seq;
    const auto done = store_.undo(*rc::gen::inRange<std::int64_t>(std::max<std::int64_t>(2, newest - 4), newest + 1),
                                  note(next(), "undo"));
    const std::string code = code_of(done);
    RC_ASSERT(code == "none" || code == "later_change" || code == "still_used" || code == "no_longer_there" ||
              code == "nothing_to_undo");
  }

  void several() {
    auto writing = must(store_.begin(note(next())));
    const int calls = *rc::gen::inRange(1, 4);
    for (int call = 0; call < calls; ++call) {
      const Kind kind = *rc::gen::element(Kind::fabrics, Kind::contexts, Kind::sherds);
      switch (*rc::gen::inRange(0, 6)) {
        case 0:
        case 1:
          add(*writing, kind);
          break;
        case 2:
          remove(*writing, kind);
          break;
        default:
          edit(*writing, kind);
      }
    }
    must(writing->commit());
  }

  /// Keys that a side may give to a new row; others may go, but are never given anew.
  static bool is_new(const std::string& key) {
    return key == "103" || key == "104" || key == "sand-2" || key == "sand-3";
  }

  static std::string new_key(Kind kind) {
    if (kind == Kind::fabrics) return *rc::gen::element<std::string>("sand-2", "sand-3");
    return *rc::gen::element<std::string>("103", "104");
  }

  static std::string word(const std::string& column) {
    if (column == "count" || column == "earliest") return *rc::gen::element<std::string>("", "3", "40");
    if (column == "context") return *rc::gen::element<std::string>("101", "102", "103");
    if (column == "fabric") return *rc::gen::element<std::string>("grey-1", "shell-3", "sand-2");
    return *rc::gen::element<std::string>("", "a", "b", "c");
  }

  bool has_key(Kind kind, const std::string& key) {
    const Texts keys = read(store_, kind, {kind_spec(kind).columns.front().name});
    return std::ranges::find(keys, key) != keys.end();
  }

  void add(Writing& writing, Kind kind) {
    if (kind == Kind::sherds) {
      const std::int64_t record = must(writing.lease_records("SAL26", 1));
      RC_ASSERT(!has_key(kind, std::to_string(record)));
      const std::string notes = word("notes");
      return must(
          writing.insert("SAL26", table_of(kind, {"record", "context", "fabric", "notes"},
                                           {{std::to_string(record), word("context"), word("fabric"), notes}})));
    }
    const std::string key = anew_ ? word(kind == Kind::fabrics ? "fabric" : "context") : new_key(kind);
    if (has_key(kind, key)) return;
    const std::string column = kind == Kind::fabrics ? "name" : "notes";
    const std::string value = word(column);
    must(writing.insert("SAL26", table_of(kind, {kind_spec(kind).columns.front().name, column}, {{key, value}})));
  }

  std::string key_of(Kind kind, const std::string& uid) {
    const Table rows = must(store_.read({"SAL26", kind, {kind_spec(kind).columns.front().name}, {}, {{"uid", uid}}}));
    return rows.rows() == 0 ? std::string() : std::string(rows.columns()[0].text(0));
  }

  std::string any(Kind kind) {
    const Texts uids = read(store_, kind, {"uid"});
    return uids.empty() ? std::string() : *rc::gen::elementOf(uids);
  }

  void remove(Writing& writing, Kind kind) {
    const std::string uid = any(kind);
    if (uid.empty() || (!anew_ && kind != Kind::sherds && is_new(key_of(kind, uid)))) return;
    must(writing.remove("SAL26", kind, uid));
  }

  void edit(Writing& writing, Kind kind) {
    const std::string uid = any(kind);
    if (uid.empty()) return;
    static const std::map<Kind, Texts> kColumns{{Kind::fabrics, {"name", "description", "earliest"}},
                                                {Kind::contexts, {"notes", "area"}},
                                                {Kind::sherds, {"notes", "count", "fabric"}}};
    const std::string column = *rc::gen::elementOf(kColumns.at(kind));
    const Table now = must(store_.read({"SAL26", kind, {"uid", column}, {}}));
    for (std::size_t row = 0; row < now.rows(); ++row) {
      if (now.columns()[0].text(row) != uid) continue;
      const std::string value = word(column);
      must(writing.edit("SAL26", kind, {uid, column, cell_text(now.columns()[1], row), value}));
    }
  }

  Store& store_;
  std::string name_;
  bool anew_;
  int changes_ = 0;
};

/// A row lives where either side has it; of two values the greater one wins.
Settlement ruled(const OpenConflict& one) {
  if (one.sort == "removed") return {one.number, Settlement::Take::here, {}, {}};
  if (one.sort == "gone" || one.sort == "named") return {one.number, Settlement::Take::there, {}, {}};
  const bool there = one.here == "removed" || one.there > one.here;
  return {one.number, there ? Settlement::Take::there : Settlement::Take::here, {}, {}};
}

void settle_all(Store& store) {
  for (int n = 0; n < 500; ++n) {
    const auto open = conflicts_of(store);
    if (open.empty()) return;
    // Rows first: what becomes of their fields follows from them.
    auto chosen = std::ranges::find_if(open, [](const OpenConflict& one) { return one.column.empty(); });
    if (chosen == open.end()) chosen = open.begin();
    settle(store, "settle " + std::to_string(n), ruled(*chosen));
  }
  RC_FAIL("conflicts never end");
}

/// "fabrics.name=a" of every version that these changes began; what a conflict keeps counts for its field.
void add_values(Store& store, std::int64_t after, std::set<std::string>& to) {
  for (const Change& change : must(store.changes(after))) {
    for (const TableChanges& part : must(store.away().table_changes(change.seq))) {
      const Table& now = part.now;
      for (std::size_t row = 0; row < now.rows(); ++row) {
        if (part.table == "merge_conflict") {
          to.insert(std::string(now.find("table")->text(row)) + "." + std::string(now.find("column")->text(row)) + "=" +
                    std::string(now.find("there")->text(row)));
        } else if (const auto kind = kind_named(part.table)) {
          for (const std::string& column : kind_spec(*kind).column_names()) {
            if (!now.find(column)->is_null(row))
              to.insert(part.table + "." + column + "=" + cell_text(*now.find(column), row));
          }
        }
      }
    }
  }
}

struct Setting {
  TestFolder folder;
  std::unique_ptr<Store> parent;
  std::map<std::string, std::unique_ptr<Store>> copies;
  std::set<std::string> given;  ///< values that a copy acknowledged
};

void make(Setting& setting, bool anew) {
  setting.parent = must(create(setting.folder.file("parent")));
  put_site(*setting.parent, "SAL26");
  insert(*setting.parent, "fabrics", table_of(Kind::fabrics, {"fabric", "name"}, {{"grey-1", "a"}, {"shell-3", ""}}));
  insert(*setting.parent, "contexts", table_of(Kind::contexts, {"context"}, {{"101"}, {"102"}}));
  Hand parent(*setting.parent, "parent", anew);
  parent.work(*rc::gen::inRange(0, 4));
  for (const char* name : {"A", "B", "C"}) {
    setting.copies[name] = copy_of(*setting.parent, setting.folder, name);
    parent.work(*rc::gen::inRange(0, 3));
    Hand hand(*setting.copies[name], name, anew);
    hand.work(*rc::gen::inRange(1, 6));
    add_values(*setting.copies[name], must(setting.copies[name]->away().copy_note())->base_seq, setting.given);
  }
}

/// The parent as it is now, in a file of its own.
std::unique_ptr<Store> twin_of(Setting& setting, const std::string& name) {
  must(setting.parent->backup(setting.folder.file(name)));
  return must(open(setting.folder.file(name)));
}

std::string told_of(Store& store, std::int64_t after) {
  std::string text;
  for (const Change& change : must(store.changes(after))) {
    text += "\n  " + change.uid;
    for (const Difference& one : must(store.differences(change.seq))) {
      text += "; " + kind_spec(one.kind).one + " " + one.id + " " + one.column + " [" + one.was + "] [" + one.now + "]";
    }
  }
  return text;
}

std::string told(Setting& setting) {
  std::string text = "\nparent" + told_of(*setting.parent, 1);
  for (const auto& [name, copy] : setting.copies) {
    text += "\n" + name + told_of(*copy, must(copy->away().copy_note())->base_seq);
  }
  return text;
}

std::string described(Store& store, const Texts& first) {
  std::string text = "\nthe record is not that of the first order";
  const Texts now = record_of(store);
  for (const std::string& row : first) {
    if (std::ranges::find(now, row) == now.end()) text += "\n- " + row;
  }
  for (const std::string& row : now) {
    if (std::ranges::find(first, row) == first.end()) text += "\n+ " + row;
  }
  return text;
}

void check_nothing_is_lost(const Setting& setting, Store& store) {
  std::set<std::string> kept;
  add_values(store, 0, kept);
  for (const std::string& value : setting.given) {
    if (!kept.contains(value)) RC_FAIL("lost: " + value);
  }
}

/// All copies merged, in that order, and each once more.
void merge_all(Setting& setting, const std::array<std::string, 3>& order, Store& store) {
  for (const std::string& copy : order) merge_into(*setting.copies[copy], store);
  const Texts merged = record_of(store);
  for (const std::string& copy : order) RC_ASSERT(merge_into(*setting.copies[copy], store).changes == 0);
  RC_ASSERT(record_of(store) == merged);
  const auto records = read(store, Kind::sherds, {"record"});
  RC_ASSERT(std::set<std::string>(records.begin(), records.end()).size() == records.size());
  check_nothing_is_lost(setting, store);
}

TEST(Merge, three_copies_give_the_same_record_in_every_order) {
  const bool held = rc::check([] {
    Setting setting;
    make(setting, false);
    std::array<std::string, 3> order{"A", "B", "C"};
    Texts first;
    do {
      const std::string name = order[0] + order[1] + order[2];
      auto store = twin_of(setting, name);
      merge_all(setting, order, *store);
      settle_all(*store);
      RC_ASSERT(must(store->verify()) == Texts{});
      if (first.empty()) first = record_of(*store);
      if (record_of(*store) != first) RC_FAIL(told(setting) + "\nin the order " + name + described(*store, first));
    } while (std::ranges::next_permutation(order).found);
  });
  EXPECT_TRUE(held);
}

// Where a key that has gone is given anew beside, which row it is may follow the order; that nothing is lost does not.
TEST(Merge, nothing_is_lost_and_merging_twice_changes_nothing_whatever_becomes_of_keys) {
  const bool held = rc::check([] {
    Setting setting;
    make(setting, true);
    std::array<std::string, 3> order{"A", "B", "C"};
    for (int turns = *rc::gen::inRange(0, 6); turns > 0; --turns) std::ranges::next_permutation(order);
    auto store = twin_of(setting, "merged");
    merge_all(setting, order, *store);
    settle_all(*store);
    RC_ASSERT(must(store->verify()) == Texts{});
  });
  EXPECT_TRUE(held);
}

}  // namespace
}  // namespace sherd::store
