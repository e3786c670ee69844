#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <nlohmann/json.hpp>

#include "base/hash.h"
#include "base/text.h"
#include "desk/archive/archive_figures.h"
#include "desk/archive/archive_names.h"
#include "desk/archive/read_archive.h"
#include "desk/archive/write_archive.h"
#include "desk/frame/testing.h"
#include "desk/site/new_site.h"
#include "desk/site/verify_store.h"
#include "store/fault_store.h"
#include "store/open.h"

namespace sherd::desk {
namespace {

using Names = std::vector<std::string>;

Table table_of(Kind kind, const Names& columns, const std::vector<Names>& rows) {
  Table table(kind);
  for (std::size_t i = 0; i < columns.size(); ++i) {
    const CellType type = kind_column_type(kind, columns[i]);
    Column& column = table.add(columns[i], type);
    for (const Names& row : rows) {
      if (is_text(type)) {
        column.push_text(row[i]);
      } else {
        column.push_integer(row[i].empty() ? Column::kNull : std::stoll(row[i]));
      }
    }
  }
  return table;
}

/// A desk whose store can be archived, and made again into a second store in memory.
class Archives : public testing::Test {
 protected:
  Archives() : desk_(store::in_memory()) {
    NewRequest request;
    request.store = "x.sherds";
    request.site = "SAL26";
    request.title = "Tanyard Lane";
    must(make_site(request, desk_.environment, desk_.progress));
    desk_.environment.processes = &processes_;
  }

  void change(const std::string& command, const std::function<Result<void>(Writing&)>& work) {
    auto writing =
        must(desk_.store().begin({desk_.environment.new_uid(), "recorder", "2026-03-02T09:00:00Z", "test", command}));
    must(work(*writing));
    must(writing->commit());
  }
  void insert(const Table& rows) {
    change("add", [&](Writing& writing) { return writing.insert("SAL26", rows); });
  }
  /// Contexts, fabrics and lines, one context before Christ.
  void fill() {
    insert(table_of(Kind::contexts, {"context", "my_earliest", "my_latest", "notes", "extra"},
                    {{"101", "-42", "0", "a \"pit\"", R"({"digger":"north, end"})"}, {"102", "120", "250", "", ""}}));
    insert(table_of(Kind::fabrics, {"fabric", "ware_group", "earliest", "latest"}, {{"grey-1", "grey", "43", "400"}}));
    insert(table_of(Kind::sherds, {"record", "context", "fabric", "count", "weight_g", "recorded_on"},
                    {{"1", "101", "grey-1", "3", "14500", "2026-03-02"}, {"2", "102", "grey-1", "", "900", ""}}));
  }
  Result<ArchiveResponse> archive(const std::string& folder, bool incomplete = false) {
    ArchiveRequest request;
    request.store = "x.sherds";
    request.folder = folder;
    request.incomplete = incomplete;
    return write_archive(request, desk_.environment, desk_.progress);
  }
  VerifyResponse verify(const std::string& folder, const std::string& sha256 = "", const std::string& against = "") {
    return must(verify_store({folder, sha256, against}, desk_.environment, desk_.progress));
  }
  /// A store made of an archive.
  std::unique_ptr<Store> made_again(const std::string& folder) {
    std::shared_ptr<Store> made = must(store::in_memory());
    Environment environment = desk_.environment;
    environment.create_store = [&](const std::string&) -> Result<std::unique_ptr<Store>> {
      return std::make_unique<OpenedStore>(*made);
    };
    environment.restore_store = [&](const std::string&, const std::string&) -> Result<void> { return {}; };
    must(restore_archive(folder, "again.sherds", environment, desk_.progress));
    kept_ = made;
    return std::make_unique<OpenedStore>(*kept_);
  }
  /// Everything a store holds of the site, as text.
  static Names all_of(Store& store) {
    Names all;
    for (const std::string& name : store.whole().tables()) {
      const Table rows = must(store.whole().versions("SAL26", name)).rows;
      for (std::size_t row = 0; row < rows.rows(); ++row) {
        std::string text = name;
        for (const Column& column : rows.columns()) text += "|" + cell_text(column, row);
        all.push_back(std::move(text));
      }
    }
    for (const Change& one : must(store.changes(0))) {
      all.push_back(one.uid + "|" + one.at + "|" + one.who + "|" + one.origin + "|" + one.command + "|" +
                    std::to_string(one.undoes.value_or(0)) + "|" + std::to_string(one.rows_added));
    }
    for (const std::string& name : must(store.document_names("SAL26", "")))
      all.push_back(name + "|" + must(store.document("SAL26", name))->bytes);
    all.push_back(std::to_string(must(store.whole().next_record("SAL26"))));
    return all;
  }
  std::map<std::string, std::string> below(const std::string& folder) {
    std::map<std::string, std::string> files;
    for (const auto& [path, bytes] : desk_.files.all()) {
      if (path.starts_with(folder + "/")) files[path.substr(folder.size() + 1)] = bytes;
    }
    return files;
  }
  void tamper(const std::string& path, const std::string& from, const std::string& to) {
    const std::string bytes = must(desk_.files.read(path));
    ASSERT_NE(bytes.find(from), std::string::npos);
    must(desk_.files.write(path, replace_all(bytes, from, to)));
  }

  TestDesk desk_;
  SystemProcess processes_;
  std::shared_ptr<Store> kept_;
  int archives_ = 0;
};

TEST_F(Archives, hold_every_table_described_and_sealed) {
  fill();
  const ArchiveResponse answer = must(archive("a"));
  const auto files = below("a");
  EXPECT_EQ(files.size(), answer.files.size() + 1);
  for (const char* path :
       {"README.txt", "datapackage.json", "manifest-sha256.txt", "tables/sherds.csv", "tables/contexts.csv",
        "history/changes.csv", "metadata/fields.csv", "metadata/codes.csv", "metadata/scales.csv", "metadata/files.csv",
        "metadata/dublin_core.xml", "metadata/entity_relations.svg", "metadata/entity_relations.pdf",
        "report/report.html", "results/context_dates.csv", "results/computations.csv", "figures/figure_01.svg",
        "figures/figure_01.pdf"})
    EXPECT_TRUE(files.contains(path)) << path;
  for (const auto& [path, bytes] : files) EXPECT_TRUE(name_troubles(path).empty()) << path;
  EXPECT_EQ(sha256(files.at("manifest-sha256.txt")), answer.sha256);
  EXPECT_EQ(files.at("tables/sherds.csv").substr(0, 7), "record,");
}

TEST_F(Archives, dates_are_given_as_edtf_whose_year_0_is_1_bc) {
  fill();
  must(archive("a"));
  // ISO 8601-2:2019 and the Library of Congress specification: 43 BC is -0042, 1 BC is 0000.
  const std::string dates = below("a").at("results/context_dates.csv");
  EXPECT_NE(dates.find("\n101,-43,-1,-0042/0000,"), std::string::npos) << dates;
  EXPECT_NE(dates.find("\n102,120,250,0120/0250,"), std::string::npos) << dates;
}

TEST_F(Archives, of_the_same_record_are_the_same_bytes) {
  fill();
  const std::string seal = must(archive("a")).sha256;
  EXPECT_EQ(must(archive("b")).sha256, seal);
  EXPECT_EQ(below("a"), below("b"));
}

TEST_F(Archives, read_back_give_the_store_that_they_were_made_of) {
  const auto holds = rc::check([this] {
    const auto doings = *rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 100));
    int number = 0;
    for (const int doing : doings) {
      const std::string name =
          "n" + std::to_string(must(desk_.store().newest_change())->seq) + "-" + std::to_string(++number);
      const Table rows = must(desk_.store().read({"SAL26", Kind::contexts, {"uid", "notes"}}));
      switch (doing % 5) {
        case 0:
          insert(table_of(Kind::contexts, {"context", "notes", "extra"}, {{name, "x\n,\"" + name, R"({"a":"b"})"}}));
          break;
        case 1:
          insert(
              table_of(Kind::sherds, {"record", "context", "fabric", "weight_g"}, {{name, "101", "grey-1", "1250"}}));
          break;
        case 2:
          if (rows.rows() == 0) break;
          change("edit", [&](Writing& writing) {
            const auto row = static_cast<std::size_t>(doing) % rows.rows();
            return writing.edit(
                "SAL26", Kind::contexts,
                {std::string(rows.find("uid")->text(row)), "notes", cell_text(*rows.find("notes"), row), name});
          });
          break;
        case 3:
          change("keep", [&](Writing& writing) {
            return writing.put_document("SAL26", {"lists/" + std::to_string(doing % 3), "text/plain", name});
          });
          break;
        default:
          // A record without its site is refused by `archive`, and rightly: it is not what is asked here.
          if (must(desk_.store().newest_change())->command == "new") break;
          [[maybe_unused]] const auto undone =
              desk_.store().undo(must(desk_.store().newest_change())->seq, {name, "Ann", "2026-03-03", "test", "undo"});
      }
    }
    const std::string folder = "p" + std::to_string(++archives_);
    must(archive(folder));
    const auto again = made_again(folder);
    RC_ASSERT(all_of(*again) == all_of(desk_.store()));
    RC_ASSERT(must(again->verify()).empty());
  });
  EXPECT_TRUE(holds);
}

TEST_F(Archives, that_were_tampered_with_are_found_out_and_not_read) {
  fill();
  const std::string seal = must(archive("a")).sha256;
  EXPECT_TRUE(verify("a", seal).ok());
  EXPECT_EQ(verify("a", std::string(64, '0')).damage.size(), 1U);
  tamper("a/tables/sherds.csv", "14.5", "145");
  must(desk_.files.remove("a/metadata/codes.csv"));
  must(desk_.files.write("a/tables/more.csv", "x\n"));
  const VerifyResponse found = verify("a");
  EXPECT_FALSE(found.ok());
  EXPECT_EQ(found.errors[0].code, "damaged_archive");
  Names told;
  for (const ArchiveFault& fault : found.files) told.push_back(fault.path + " " + fault.what);
  EXPECT_EQ(told, (Names{"metadata/codes.csv missing", "tables/more.csv added", "tables/sherds.csv changed"}));
  Environment environment = desk_.environment;
  EXPECT_EQ(code_of(restore_archive("a", "again.sherds", environment, desk_.progress)), "damaged_archive");
}

TEST_F(Archives, whose_list_of_checksums_was_made_to_fit_still_contradict_their_description) {
  fill();
  const std::string seal = must(archive("a")).sha256;
  const std::string before = sha256(below("a").at("tables/sherds.csv"));
  tamper("a/tables/sherds.csv", "2,102,", "9,102,");
  tamper("a/manifest-sha256.txt", before, sha256(below("a").at("tables/sherds.csv")));
  const VerifyResponse found = verify("a");
  EXPECT_TRUE(found.files.empty());
  ASSERT_EQ(found.damage.size(), 1U);
  EXPECT_NE(found.damage[0].find("tables/sherds.csv differ"), std::string::npos);
  EXPECT_EQ(verify("a", seal).damage.size(), 2U);
}

TEST_F(Archives, are_held_against_the_store_that_went_on) {
  fill();
  must(archive("a"));
  EXPECT_TRUE(verify("a", "", "x.sherds").since.empty());
  insert(table_of(Kind::contexts, {"context"}, {{"103"}}));
  const VerifyResponse later = verify("a", "", "x.sherds");
  EXPECT_TRUE(later.ok());
  ASSERT_EQ(later.since.size(), 1U);
  EXPECT_EQ(later.since[0], "change 5: add by recorder, 2026-03-02T09:00:00Z");
}

TEST_F(Archives, leave_nothing_behind_where_a_file_cannot_be_written) {
  fill();
  for (std::int64_t n = 1;; ++n) {
    ASSERT_LT(n, 300);
    const std::string folder = "a" + std::to_string(n);
    desk_.files.fail_at(n);
    const auto answer = archive(folder);
    const bool failed = desk_.files.failed();
    desk_.files.fail_at(INT64_MAX);
    if (!failed) {
      must(answer);
      break;
    }
    EXPECT_EQ(code_of(answer), "not_writable");
    EXPECT_EQ(below(folder).size(), 0U);
    for (const auto& [path, bytes] : desk_.files.all()) EXPECT_EQ(path.find(".part-"), std::string::npos) << path;
  }
}

TEST_F(Archives, leave_nothing_behind_where_the_store_fails) {
  fill();
  store::FaultStore faults(desk_.store());
  desk_.serve(faults);
  for (std::int64_t n = 1;; ++n) {
    ASSERT_LT(n, 300);
    faults.fail_at(n);
    const auto answer = archive("a" + std::to_string(n));
    if (!faults.failed()) {
      must(answer);
      break;
    }
    EXPECT_EQ(code_of(answer), "disk_full");
    EXPECT_TRUE(desk_.files.all().empty());
  }
}

TEST_F(Archives, are_not_made_of_a_record_that_changes_meanwhile) {
  fill();
  class Meddler final : public Progress {
   public:
    explicit Meddler(std::function<void()> once) : once_(std::move(once)) {}
    bool step(double, std::string_view text) override {
      if (text == "archiving sherds" && once_) std::exchange(once_, nullptr)();
      return true;
    }

   private:
    std::function<void()> once_;
  } meddler([this] { insert(table_of(Kind::contexts, {"context"}, {{"103"}})); });
  ArchiveRequest request;
  request.store = "x.sherds";
  request.folder = "a";
  EXPECT_EQ(code_of(write_archive(request, desk_.environment, meddler)), "record_changed");
  EXPECT_TRUE(desk_.files.all().empty());
}

TEST_F(Archives, are_not_made_where_something_is) {
  fill();
  must(desk_.files.make_folder("a"));
  must(archive("a"));  // an empty folder gives way
  const auto again = archive("a");
  EXPECT_EQ(code_of(again), "folder_in_use");
  must(desk_.files.write("file", "x"));
  EXPECT_EQ(code_of(archive("file")), "folder_in_use");
}

TEST_F(Archives, say_which_pictures_are_missing) {
  fill();
  insert(table_of(Kind::pictures, {"picture", "record", "file"}, {{"P1", "1", "files/abc.jpg"}}));
  const auto refused = archive("a");
  ASSERT_EQ(code_of(refused), "missing_pictures");
  EXPECT_NE(refused.error().message.find("picture P1: files/abc.jpg"), std::string::npos);
  EXPECT_TRUE(below("a").empty());
  EXPECT_EQ(must(archive("a", true)).missing, Names{"picture P1: files/abc.jpg"});
  EXPECT_NE(below("a").at("README.txt").find("picture P1: files/abc.jpg"), std::string::npos);
}

TEST_F(Archives, keep_the_bytes_of_pictures_and_of_documents_that_were_replaced) {
  fill();
  const std::string jpeg = std::string("\xFF\xD8\xFF\xE0", 4) + "not looked at" + std::string("\0\r\n", 3);
  for (const char* text : {"first", "second"}) {
    change("keep",
           [&](Writing& writing) { return writing.put_document("SAL26", {"spot-dates/1", "text/html", text}); });
  }
  change("keep",
         [&](Writing& writing) { return writing.put_document("SAL26", {"files/abc.jpg", "image/jpeg", jpeg}); });
  insert(table_of(Kind::pictures, {"picture", "file"}, {{"P 1", "files/abc.jpg"}}));
  must(archive("a"));
  const auto files = below("a");
  EXPECT_EQ(files.at("pictures/P_1.jpg"), jpeg);
  EXPECT_EQ(files.at("documents/spot-dates_1.html"), "second");
  EXPECT_EQ(files.at("history/documents/spot-dates_1.html"), "first");
  EXPECT_NE(files.at("tables/document.csv").find("pictures/P_1.jpg"), std::string::npos);
}

TEST_F(Archives, say_which_references_lead_nowhere_and_describe_none_of_them) {
  fill();
  insert(table_of(Kind::sherds, {"record", "context", "fabric"}, {{"3", "999", "grey-1"}}));
  const ArchiveResponse answer = must(archive("a"));
  ASSERT_EQ(answer.warnings.size(), 1U);
  EXPECT_EQ(answer.warnings[0], "sherds.context: 1 value without a row in contexts (999)");
  const auto package = nlohmann::json::parse(below("a").at("datapackage.json"));
  for (const auto& resource : package["resources"]) {
    if (resource["name"] != "sherds") continue;
    for (const auto& key : resource["schema"]["foreignKeys"]) EXPECT_NE(key["fields"], "context");
  }
}

TEST_F(Archives, of_what_is_none_are_refused) {
  must(desk_.files.make_folder("b"));
  Environment environment = desk_.environment;
  EXPECT_EQ(code_of(verify_store({"b", "", ""}, environment, desk_.progress)), "not_an_archive");
  fill();
  must(archive("a"));
  tamper("a/manifest-sha256.txt", "  tables/sherds.csv", "  ../../sherds.csv");
  EXPECT_EQ(code_of(verify_store({"a", "", ""}, environment, desk_.progress)), "not_an_archive");
}

TEST(FiguresOfAPage, come_with_their_captions) {
  const auto figures = figures_of(
      "<figure class=\"table\"><figcaption>T</figcaption><table></table></figure>"
      "<figure class=\"drawing\"><svg width=\"1mm\"><g/></svg><figcaption><b>Figure 1.</b> Pots &amp; "
      "pans</figcaption></figure>");
  ASSERT_EQ(figures.size(), 1U);
  EXPECT_EQ(figures[0].svg, "<svg width=\"1mm\"><g/></svg>\n");
  EXPECT_EQ(figures[0].caption, "Figure 1. Pots & pans");
}

}  // namespace
}  // namespace sherd::desk
