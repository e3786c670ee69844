#include "base/hash.h"
#include "store/conformance.h"

namespace sherd::store {
namespace {

class StoreRows : public Conformance {};
SHERD_ON_EVERY_STORE(StoreRows);

TEST_P(StoreRows, every_column_of_every_kind_comes_back_as_it_went_in) {
  for (const KindSpec& spec : all_kinds()) {
    Table rows(spec.kind);
    for (const ColumnSpec& column : spec.columns) {
      Column& cells = rows.add(column.name, column.type);
      if (is_text(column.type)) {
        cells.push_text("one of " + column.name);
        cells.push_text(column.key || column.required ? "two" : "");
        cells.push_text("O'Neill \"x\" \\ \xE2\x82\xAC \xF0\x9F\x8F\xBA; drop table site");
      } else {
        cells.push_integer(0);
        cells.push_null();
        cells.push_integer(-9'000'000'000'000'000);
      }
    }
    rows.add("extra", CellType::text);
    for (const std::string text : {"{\"Fe_ppm\":\"12\"}", "", "{}"}) rows.columns().back().push_text(text);
    insert(store(), "all columns of " + spec.name, rows);
    auto wanted = spec.column_names();
    wanted.emplace_back("extra");
    EXPECT_EQ(read(store(), spec.kind, wanted), cells(rows)) << spec.name;
    const Table back = must(store().read({"SAL26", spec.kind, wanted, {}}));
    for (std::size_t i = 0; i < rows.columns().size(); ++i) {
      for (std::size_t row = 0; row < 3; ++row) {
        EXPECT_EQ(back.columns()[i].is_null(row), rows.columns()[i].is_null(row)) << spec.name << " " << wanted[i];
      }
    }
  }
}

TEST_P(StoreRows, those_that_later_changes_gave_their_values_can_be_asked_for_alone) {
  insert(store(), "a",
         table_of(Kind::sherds, {"record", "fabric"}, {{"1", "grey-1"}, {"2", "grey-1"}, {"3", "green-1"}}));
  const std::int64_t then = must(store().newest_change())->seq;
  insert(store(), "b", table_of(Kind::sherds, {"record", "fabric"}, {{"4", "grey-1"}}));
  const Table second = must(store().read({"SAL26", Kind::sherds, {"uid"}, {}, {{"record", "2"}}}));
  const auto writing = must(store().begin(note("c")));
  must(writing->edit("SAL26", Kind::sherds, {std::string(second.columns()[0].text(0)), "fabric", "grey-1", "grey-2"}));
  must(writing->commit());
  using Lines = std::vector<std::string>;
  const auto later = [&](std::int64_t seq, std::vector<Having> having = {}) {
    return cells(must(store().read({"SAL26", Kind::sherds, {"record", "fabric"}, {}, std::move(having), seq})));
  };
  EXPECT_EQ(later(then), (Lines{"2|grey-2", "4|grey-1"}));
  EXPECT_EQ(later(then, {{"fabric", "grey-1"}}), (Lines{"4|grey-1"}));
  EXPECT_EQ(later(then + 2), Lines{});
}

TEST_P(StoreRows, nought_and_nothing_are_not_the_same) {
  insert(store(), "a", table_of(Kind::sherds, {"record", "vessels"}, {{"1", "0"}, {"2", ""}}));
  const Table rows = must(store().read({"SAL26", Kind::sherds, {"vessels"}, {}}));
  EXPECT_FALSE(rows.columns()[0].is_null(0));
  EXPECT_EQ(rows.columns()[0].integer(0), 0);
  EXPECT_TRUE(rows.columns()[0].is_null(1));
}

TEST_P(StoreRows, a_very_long_note_is_kept_whole) {
  std::string text(3'000'000, 'x');
  text += "end";
  insert(store(), "a", table_of(Kind::contexts, {"context", "notes"}, {{"1", text}}));
  const Table rows = must(store().read({"SAL26", Kind::contexts, {"notes"}, {}}));
  EXPECT_TRUE(rows.columns()[0].text(0) == text);
}

TEST_P(StoreRows, many_chunks_of_rows_are_all_different) {
  // A bulk statement executed again without binding anew sent its first chunk each time: 35,000 rows are three
  // chunks of 10,000 and a part.
  constexpr std::int64_t kRows = 35'000;
  Table rows(Kind::sherds);
  Column& record = rows.add("record", CellType::text);
  for (std::int64_t row = 1; row <= kRows; ++row) record.push_text(std::to_string(row));
  Column& count = rows.add("count", CellType::count);
  for (std::int64_t row = 1; row <= kRows; ++row) count.push_integer(row * 3);
  const Change made = insert(store(), "bulk", rows);
  EXPECT_EQ(made.rows_added, kRows);
  EXPECT_EQ(must(store().count_rows("SAL26", Kind::sherds)), kRows);
  const Table back = must(store().read({"SAL26", Kind::sherds, {"record", "count", "uid"}, {}}));
  ASSERT_EQ(back.rows(), static_cast<std::size_t>(kRows));
  EXPECT_EQ(back.columns()[2].words().size(), static_cast<std::size_t>(kRows) + 1);
  for (std::size_t row = 0; row < back.rows(); ++row) {
    ASSERT_EQ(back.columns()[0].text(row), std::to_string(row + 1));
    ASSERT_EQ(back.columns()[1].integer(row), static_cast<std::int64_t>(row + 1) * 3);
  }
}

TEST_P(StoreRows, an_edited_row_keeps_its_place) {
  insert(store(), "a", table_of(Kind::fabrics, {"fabric"}, {{"grey-1"}, {"shell-3"}, {"sand-2"}}));
  edit(store(), "b", Kind::fabrics, {uid_of(store(), Kind::fabrics, 0), "name", "", "Grey ware"});
  insert(store(), "c", table_of(Kind::fabrics, {"fabric"}, {{"a-last"}}));
  EXPECT_EQ(read(store(), Kind::fabrics, {"fabric", "name"}),
            (std::vector<std::string>{"grey-1|Grey ware", "shell-3|", "sand-2|", "a-last|"}));
}

TEST_P(StoreRows, an_unknown_column_is_named_with_the_nearest) {
  const auto rows = store().read({"SAL26", Kind::sherds, {"weigth_g"}, {}});
  ASSERT_EQ(code_of(rows), "unknown_column");
  EXPECT_EQ(rows.error().message, "sherds have no column \"weigth_g\"");
  EXPECT_EQ(rows.error().hint, "did you mean \"weight_g\"?");
}

TEST_P(StoreRows, text_that_another_database_could_not_hold_is_refused) {
  auto writing = must(store().begin(note("a")));
  EXPECT_EQ(code_of(writing->insert("SAL26", table_of(Kind::fabrics, {"fabric"}, {{std::string("a\0b", 3)}}))),
            "not_text");
  EXPECT_EQ(code_of(writing->insert("SAL26", table_of(Kind::fabrics, {"fabric"}, {{"caf\xE9"}}))), "not_text");
  EXPECT_EQ(code_of(writing->insert("SAL26", table_of(Kind::sherds, {"record"}, {{""}}))), "no_record");
}

TEST_P(StoreRows, sites_are_kept_apart) {
  put_site(store(), "QUAY9");
  insert(store(), "a", table_of(Kind::contexts, {"context"}, {{"1"}, {"2"}}));
  insert(store(), "b", table_of(Kind::contexts, {"context"}, {{"1"}}), "QUAY9");
  EXPECT_EQ(must(store().count_rows("SAL26", Kind::contexts)), 2);
  EXPECT_EQ(must(store().count_rows("QUAY9", Kind::contexts)), 1);
  const std::string other = uid_of(store(), Kind::contexts, 0, "QUAY9");
  auto writing = must(store().begin(note("c")));
  EXPECT_EQ(code_of(writing->remove("SAL26", Kind::contexts, other)), "not_found");
  EXPECT_EQ(code_of(writing->edit("SAL26", Kind::contexts, {other, "area", "", "A"})), "not_found");
  EXPECT_EQ(code_of(store().read({"SAL62", Kind::contexts, {}, {}})), "no_site");
  EXPECT_EQ(store().read({"SAL62", Kind::contexts, {}, {}}).error().hint, "did you mean \"SAL26\"?");
}

TEST_P(StoreRows, a_project_sheet_comes_back_whole) {
  const Site site{"QUAY9", "The Quay", CountingRule::rims, CountedWhen::before_joining, Weight{12'000'000}};
  change(store(), "a", [&](Writing& writing) { return writing.put_site(site); });
  const auto sites = must(store().sites());
  ASSERT_EQ(sites.size(), 2U);
  EXPECT_EQ(sites[0].code, "QUAY9");
  EXPECT_EQ(sites[0].title, "The Quay");
  EXPECT_EQ(sites[0].counting_rule, CountingRule::rims);
  EXPECT_EQ(sites[0].counted, CountedWhen::before_joining);
  EXPECT_EQ(sites[0].box_limit, Weight{12'000'000});
  EXPECT_EQ(sites[1].code, "SAL26");
  EXPECT_EQ(sites[1].box_limit, std::nullopt);
}

TEST_P(StoreRows, a_document_of_several_chunks_comes_back_byte_by_byte) {
  std::string bytes(3'500'000, '\0');
  for (std::size_t i = 0; i < bytes.size(); ++i) bytes[i] = static_cast<char>((i * 2654435761U) >> 13U);
  for (const Document& document : {Document{"photo/1", "image/jpeg", bytes}, Document{"empty", "text/plain", ""},
                                   Document{"spot-dates/1", "text/html", std::string(1U << 20U, 'x')}}) {
    change(store(), document.name, [&](Writing& writing) { return writing.put_document("SAL26", document); });
    const auto back = must(store().document("SAL26", document.name));
    ASSERT_TRUE(back.has_value());
    EXPECT_TRUE(back->bytes == document.bytes) << document.name;
    EXPECT_EQ(back->mime, document.mime);
  }
  EXPECT_EQ(must(store().document_names("SAL26", "spot-dates/")), std::vector<std::string>{"spot-dates/1"});
  EXPECT_EQ(must(store().document("SAL26", "spot-dates/2")), std::nullopt);
  EXPECT_EQ(must(store().verify()), std::vector<std::string>{});
}

TEST_P(StoreRows, a_file_read_in_is_remembered_by_kind_and_site) {
  put_site(store(), "QUAY9");
  const std::string hash = sha256("record,context");
  change(store(), "a", [&](Writing& writing) { return writing.note_import("SAL26", Kind::sherds, hash); });
  EXPECT_TRUE(must(store().was_imported("SAL26", Kind::sherds, hash)));
  EXPECT_FALSE(must(store().was_imported("SAL26", Kind::rims, hash)));
  EXPECT_FALSE(must(store().was_imported("QUAY9", Kind::sherds, hash)));
  EXPECT_FALSE(must(store().was_imported("SAL26", Kind::sherds, sha256("other"))));
  change(store(), "again", [&](Writing& writing) { return writing.note_import("SAL26", Kind::sherds, hash); });
}

TEST_P(StoreRows, record_numbers_are_never_given_twice) {
  std::int64_t next = 1;
  for (const std::int64_t count : {1, 100, 7}) {
    change(store(), "lease " + std::to_string(count), [&](Writing& writing) -> Result<void> {
      EXPECT_EQ(must(writing.lease_records("SAL26", count)), next);
      return {};
    });
    next += count;
  }
  insert(store(), "own labels", table_of(Kind::sherds, {"record"}, {{"500"}, {"A-9000"}, {"12345678901234"}}));
  const Change removed = change(store(), "gone", [&](Writing& writing) {
    return writing.remove("SAL26", Kind::sherds, uid_of(store(), Kind::sherds, 0));
  });
  EXPECT_EQ(removed.rows_removed, 1);
  auto writing = must(store().begin(note("after labels")));
  EXPECT_EQ(must(writing->lease_records("SAL26", 1)), 501);
  EXPECT_EQ(must(writing->lease_records("SAL26", 1)), 502);
  EXPECT_EQ(code_of(writing->lease_records("SAL26", 0)), "bad_count");
}

}  // namespace

bool operator==(const Document& a, const Document& b) {
  return a.name == b.name && a.mime == b.mime && a.bytes == b.bytes;
}

}  // namespace sherd::store
