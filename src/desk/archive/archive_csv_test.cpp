#include "desk/archive/archive_csv.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <string>

#include "desk/archive/archive_names.h"
#include "desk/frame/testing.h"
#include "store/open.h"

namespace sherd::desk {
namespace {

/// Versions of one table in the order of a store, out of text: uid, from, to, then what `cells` gives for each column.
TableVersions versions_of(const std::string& table, const std::vector<std::vector<std::string>>& rows) {
  const auto store = must(store::in_memory());
  TableVersions out = *store->whole().empty(table);
  for (const auto& cells : rows) {
    for (std::size_t i = 0; i < out.rows.columns().size(); ++i) {
      Column& column = out.rows.columns()[i];
      const std::string cell = i < cells.size() ? cells[i] : std::string();
      if (is_text(column.type())) {
        column.push_text(cell);
      } else {
        column.push_integer(cell.empty() ? Column::kNull : std::stoll(cell));
      }
    }
  }
  return out;
}

std::vector<std::string> cells_of(const Table& table) {
  std::vector<std::string> out;
  for (std::size_t row = 0; row < table.rows(); ++row) {
    std::string text;
    for (const Column& column : table.columns()) text += cell_text(column, row) + "|";
    out.push_back(text);
  }
  return out;
}

TableVersions read_back(const TableVersions& versions) {
  TableVersions again = versions_of(versions.table, {});
  for (const bool former : {false, true}) must(read_versions(csv_of(versions, former).text, "t.csv", again));
  sort_versions(again);
  return again;
}

TEST(ArchiveCsv, versions_come_back_from_their_text_whatever_is_in_them) {
  const auto holds = rc::check([] {
    std::vector<std::vector<std::string>> rows;
    const auto count = *rc::gen::inRange(0, 12);
    const auto text = rc::gen::container<std::string>(rc::gen::elementOf(std::string("ab ,;\"\n\r'=-0\xC3\xA9|")));
    for (int i = 0; i < count; ++i) {
      const std::string uid = "r" + std::to_string(100 + i / 2);  // two versions each
      const bool former = i % 2 == 0 && i + 1 < count;
      std::string word = *text;
      // A lone lead byte is no UTF-8: the store would not have taken it.
      std::erase_if(word, [](char c) { return c == '\xC3' || c == '\xA9'; });
      const std::string extra =
          *rc::gen::elementOf(std::vector<std::string>{"", R"({"colour":"grey","size":"2, \"big\""})", R"({"n":3})",
                                                       R"({"b":"2","a":"1"})", R"({"empty":""})", "[1]"});
      rows.push_back({uid, std::to_string(1 + i), former ? std::to_string(2 + i) : "", "c" + word, word, "", "", "", "",
                      "", "", "", std::to_string(*rc::gen::inRange(-500, 500)), "", "", "", "1500"});
      rows.back().resize(24);
      rows.back().push_back(extra);
    }
    const TableVersions versions = versions_of("contexts", rows);
    RC_ASSERT(cells_of(read_back(versions).rows) == cells_of(versions.rows));
  });
  EXPECT_TRUE(holds);
}

TEST(ArchiveCsv, columns_of_files_stand_under_their_own_names) {
  TableVersions versions = versions_of("people", {{"r1", "1", "", "AB"}, {"r2", "1", "", "CD"}});
  versions.rows.find("extra")->set_text(1, R"({"phone":"12"})");
  const CsvText csv = csv_of(versions, false);
  EXPECT_EQ(csv.text, "initials,name,role,notes,extra.phone,row_id,from_change\nAB,,,,,r1,1\nCD,,,,12,r2,1\n");
  EXPECT_EQ(csv.rows, 2);
  EXPECT_EQ(csv_of(versions, true).rows, 0);
}

TEST(ArchiveCsv, years_are_historical_and_weights_in_grams) {
  TableVersions versions = versions_of("phases", {{"r1", "1", ""}});
  versions.rows.find("earliest")->set_integer(0, -42);
  versions.rows.find("latest")->set_integer(0, 0);
  const std::string text = csv_of(versions, false).text;
  EXPECT_NE(text.find(",-43,-1,"), std::string::npos) << text;
  EXPECT_EQ(cells_of(read_back(versions).rows), cells_of(versions.rows));
}

TEST(ArchiveCsv, what_is_no_number_is_named_with_file_row_and_column) {
  TableVersions into = versions_of("rims", {});
  const auto read = read_versions("rim_percent,row_id,from_change\n12,r1,1\nmany,r2,1\n", "tables/rims.csv", into);
  ASSERT_EQ(code_of(read), "damaged_archive");
  EXPECT_EQ(read.error().where.file, "tables/rims.csv");
  EXPECT_EQ(read.error().where.row, 3);
  EXPECT_EQ(read.error().where.column, "rim_percent");
}

TEST(ArchiveCsv, what_is_no_text_is_named_with_file_and_row) {
  for (const std::string text :
       {"record,row_id,from_change\n1,u1,1\n2,u2,1\n\xFF,u3,1\n", "\xFF,row_id,from_change\n1,u1,1\n",
        "record,row_id,from_change,extra.colour\n1,u1,1,\xFF\n",
        "record,row_id,from_change,extra.\xFF\n1,u1,1,grey\n"}) {
    TableVersions into = versions_of("sherds", {});
    const auto read = read_versions(text, "tables/sherds.csv", into);
    ASSERT_EQ(code_of(read), "damaged_archive");
    EXPECT_EQ(read.error().where.row,
              std::count(text.begin(), text.begin() + static_cast<long>(text.find('\xFF')), '\n') + 1);
    EXPECT_EQ(read.error().where.file, "tables/sherds.csv");
  }
}

TEST(ArchiveCsv, days_are_days_of_the_calendar) {
  EXPECT_TRUE(is_day("2026-03-02"));
  EXPECT_TRUE(is_day("2024-02-29"));   // a leap year (ISO 8601-1:2019, 3.1.1.21: divisible by 4)
  EXPECT_FALSE(is_day("1900-02-29"));  // not where it is divisible by 100 and not by 400
  EXPECT_FALSE(is_day("2026-02-30"));
  EXPECT_FALSE(is_day("2026-13-01"));
  EXPECT_FALSE(is_day("02/03/2026"));
}

TEST(ArchiveNames, are_those_that_the_guidance_of_the_archive_allows) {
  EXPECT_TRUE(name_troubles("tables/sherds.csv").empty());
  EXPECT_TRUE(name_troubles("README.txt").empty());
  for (const char* bad :
       {"my file.csv", "pot&pan.csv", "figure.1.svg", "photo.JPG", "photo", "a//b.csv", "caf\xC3\xA9.txt"})
    EXPECT_FALSE(name_troubles(bad).empty()) << bad;
}

TEST(ArchiveNames, are_made_of_any_text_and_given_out_once) {
  EXPECT_EQ(safe_stem("spot-dates/3"), "spot-dates_3");
  EXPECT_EQ(safe_stem("\xC3\xA9\xC3\xA9"), "unnamed");
  FreeNames names;
  EXPECT_EQ(names.take("pictures", "P 1", ".jpg"), "pictures/P_1.jpg");
  EXPECT_EQ(names.take("pictures", "p/1", ".jpg"), "pictures/p_1_2.jpg");  // some disks do not tell P from p
}

}  // namespace
}  // namespace sherd::desk
