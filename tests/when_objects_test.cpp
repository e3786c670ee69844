#include <gmock/gmock.h>

#include <algorithm>
#include <fstream>
#include <sstream>

#include "base/csv.h"
#include "base/text.h"
#include "program.h"

namespace sherd::tests {
namespace {

/// A piece of data/examples/objects.csv: what is seen on it, and the answer with the reason for it.
struct Piece {
  std::string number, description;
  std::vector<std::string> seen;
  std::string earliest, latest, most_likely;
  std::vector<std::string> conflicts, from_memory;
  std::string why;
};

std::vector<std::string> words(const std::string& text, char separator) {
  std::vector<std::string> out;
  for (const std::string_view part : split(text, separator)) {
    if (!trim(part).empty()) out.emplace_back(trim(part));
  }
  return out;
}

std::vector<Piece> pieces() {
  std::ifstream file(SHERD_SOURCE_DIR "/data/examples/objects.csv", std::ios::binary);
  std::ostringstream bytes;
  bytes << file.rdbuf();
  const auto rows = parse_csv(bytes.str());
  std::vector<Piece> out;
  if (!rows) {
    ADD_FAILURE() << rows.error().message;
    return out;
  }
  const auto table = CsvTable::of(
      *rows, {"object", "description", "seen", "earliest", "latest", "most_likely", "conflicts", "from_memory", "why"});
  if (!table) {
    ADD_FAILURE() << table.error().message;
    return out;
  }
  for (std::size_t row = 0; row < table->rows(); ++row) {
    const auto cell = [&](std::size_t column) { return table->text(row, column); };
    out.push_back({cell(0), cell(1), words(cell(2), ';'), cell(3), cell(4), cell(5), words(cell(6), ' '),
                   words(cell(7), ' '), cell(8)});
  }
  return out;
}

std::string text_of(const nlohmann::json& year) { return year.is_null() ? "" : std::to_string(year.get<int>()); }
std::string pair_of(const nlohmann::json& pair) {
  return pair.is_null() ? "" : text_of(pair.at(0)) + ":" + text_of(pair.at(1));
}

class WhenObjects : public Bench {
 protected:
  nlohmann::json when(std::vector<std::string> seen, const std::vector<std::string>& options = {}) const {
    seen.insert(seen.begin(), "when");
    seen.insert(seen.end(), options.begin(), options.end());
    return ask(seen);
  }
};

TEST_F(WhenObjects, twenty_pieces_have_the_answers_of_the_scenario_file) {
  const std::vector<Piece> all = pieces();
  EXPECT_EQ(all.size(), 20U);
  for (const Piece& piece : all) {
    SCOPED_TRACE(piece.number + ", " + piece.description);
    const auto answer = when(piece.seen);
    EXPECT_EQ(text_of(answer["earliest"]), piece.earliest);
    EXPECT_EQ(text_of(answer["latest"]), piece.latest);
    EXPECT_EQ(pair_of(answer["most_likely"]), piece.most_likely);
    std::vector<std::string> conflicts, from_memory;
    for (const auto& conflict : answer["conflicts"]) conflicts.push_back(conflict["code"]);
    for (const auto& end : answer["rests_on_memory"]) from_memory.push_back(end["end"]);
    conflicts.erase(std::unique(conflicts.begin(), conflicts.end()), conflicts.end());
    EXPECT_EQ(conflicts, piece.conflicts);
    EXPECT_EQ(from_memory, piece.from_memory);
    EXPECT_FALSE(answer["statement"].get<std::string>().empty());
    EXPECT_GT(piece.why.size(), 40U);
  }
}

TEST_F(WhenObjects, every_reason_has_its_source_and_its_years_hold_the_answer) {
  for (const Piece& piece : pieces()) {
    SCOPED_TRACE(piece.number);
    const auto answer = when(piece.seen);
    ASSERT_FALSE(answer["because"].empty());
    for (const auto& reason : answer["because"]) {
      EXPECT_FALSE(reason["source"].get<std::string>().empty());
      EXPECT_EQ(reason["basis"], "made");
      EXPECT_FALSE(reason["earliest"].is_null() && reason["latest"].is_null());
    }
    if (answer["most_likely"].is_null()) continue;
    ASSERT_FALSE(answer["range68"].empty());
    EXPECT_LE(answer["range95"].front().at(0), answer["range68"].front().at(0));
    EXPECT_GE(answer["range95"].back().at(1), answer["range68"].back().at(1));
  }
}

TEST_F(WhenObjects, the_plain_statement_comes_first_in_the_text) {
  const Answer answer = run({"when", "ware=pearlware", "technique=transfer print", "print_colour=brown"});
  EXPECT_EQ(answer.code, 0);
  EXPECT_TRUE(answer.out.starts_with("Made between 1809 and 1840.\n")) << answer.out;
  EXPECT_NE(answer.out.find("\nBecause\n"), std::string::npos);
  EXPECT_NE(answer.out.find("\nLook next at\n"), std::string::npos);
}

TEST_F(WhenObjects, an_unknown_key_is_a_wrong_use_and_an_unknown_value_is_wrong_data) {
  const auto key = ask({"when", "wares=creamware"}, 2);
  EXPECT_EQ(key["errors"][0]["code"], "unknown_key");
  EXPECT_NE(key["errors"][0]["hint"].get<std::string>().find("did you mean \"ware\"?"), std::string::npos);
  const auto value = ask({"when", "ware=creamwear"}, 1);
  EXPECT_EQ(value["errors"][0]["code"], "unknown_value");
  EXPECT_NE(value["errors"][0]["hint"].get<std::string>().find("did you mean \"creamware\"?"), std::string::npos);
  EXPECT_EQ(ask({"when"}, 2)["ok"], false);
}

TEST_F(WhenObjects, the_rows_of_a_store_decide_and_its_marks_are_searched) {
  make_small_store("x.sherds");
  write("dates.csv",
        "fabric,form,decoration,earliest,latest,reference\ngrey-1,,,100,250,R1\ngrey-1,,lattice,180,230,R2\n");
  ask({"import", "x.sherds", "dates.csv", "--as", "dates"});
  write("s.csv",
        "context,fabric,count,mark,earliest,latest\n5,grey-1,1,TENN,151,160\n5,grey-1,1,TENN,151,160\n3,grey-1,1,TONG,"
        "171,180\n");
  ask({"import", "x.sherds", "s.csv", "--as", "sherds"});
  EXPECT_EQ(when({"fabric=grey-1", "decoration=lattice"}, {"--in", "x.sherds"})["latest"], 230);
  const auto stamp = when({"legend=T?N*"}, {"--in", "x.sherds"});
  ASSERT_EQ(stamp["candidates"].size(), 2U);
  EXPECT_EQ(stamp["candidates"][0]["value"], "TENN");
  EXPECT_EQ(stamp["candidates"][0]["lines"], 2);
  EXPECT_EQ(pair_of(stamp["most_likely"]), "151:160");
}

TEST_F(WhenObjects, the_drawing_is_written) {
  EXPECT_EQ(when({"edge=rococo"}, {"--svg", "plate.svg"})["file"], "plate.svg");
  EXPECT_NE(read("plate.svg").find("<svg"), std::string::npos);
}

}  // namespace
}  // namespace sherd::tests
