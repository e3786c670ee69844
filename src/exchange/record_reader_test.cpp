#include "exchange/record_reader.h"

#include <gtest/gtest.h>

namespace sherd::exchange {
namespace {

ReadOptions knowing(std::initializer_list<std::string_view> contexts, std::initializer_list<std::string_view> fabrics) {
  ReadOptions options;
  for (const auto name : contexts) options.known[Kind::contexts].add(name);
  for (const auto name : fabrics) options.known[Kind::fabrics].add(name);
  options.known[Kind::forms].add("jar");
  return options;
}

struct Reading {
  std::unique_ptr<RecordReader> reader;
  Table table;
};

Reading read(std::string_view text, ReadOptions options, Kind kind = Kind::sherds) {
  auto reader = RecordReader::open(kind, text, "sherds.csv", std::move(options));
  EXPECT_TRUE(reader) << (reader ? "" : reader.error().message);
  if (!reader) return {};
  auto table = (*reader)->next(1000);
  EXPECT_TRUE(table) << (table ? "" : table.error().message);
  return {std::move(*reader), table ? std::move(*table) : Table{}};
}

std::string cell(const Reading& reading, std::string_view column, std::size_t row) {
  return cell_text(*reading.table.find(column), row);
}

/// The one problem's code and message.
std::string problem(std::string_view row,
                    std::string_view headings = "context,fabric,count,weight_g,rims,rim_percent,earliest,latest") {
  const std::string text = std::string(headings) + "\n" + std::string(row) + "\n";
  const Reading reading = read(text, knowing({"101"}, {"grey-1", "shell-3"}));
  if (reading.reader->problems().empty()) return "kept";
  const Problem& found = reading.reader->problems().front();
  return found.code + ": " + found.message;
}

// Each was compared with every name of the record, which took minutes where both were many.
TEST(RecordReader, only_the_first_of_many_unknown_names_are_compared_with_those_of_the_record) {
  std::string text = "context,fabric,count\n";
  for (int i = 0; i < 400; ++i) text += "trench-" + std::to_string(i) + ",gery-1,1\n";
  const Reading reading = read(text, knowing({"trench-x"}, {"grey-1"}));
  int fabrics = 0;
  int contexts = 0;
  for (const Problem& problem : reading.reader->problems()) {
    if (!problem.hint.starts_with("did you mean")) continue;
    ++(problem.column == "fabric" ? fabrics : contexts);
  }
  EXPECT_EQ(reading.reader->rows_refused(), 400);
  EXPECT_EQ(fabrics, 400) << "the same name is compared once";
  EXPECT_EQ(contexts, 299);
  EXPECT_EQ(reading.reader->problems().back().column, "fabric");
  EXPECT_EQ(reading.reader->problems().rbegin()[1].hint, "import it first, or let --new-codes add it as provisional");
}

TEST(RecordReader, a_long_list_of_values_chooses_the_rows) {
  ReadOptions options = knowing({"101"}, {"grey-1"});
  for (int i = 0; i < 1000; i += 2) options.mapping.only["Lot"].push_back(std::to_string(i));
  std::string text = "context,fabric,count,Lot\n";
  for (int i = 0; i < 1000; ++i) text += "101,grey-1,1," + std::to_string(i) + "\n";
  const Reading reading = read(text, std::move(options));
  EXPECT_EQ(reading.reader->rows_kept(), 500);
  EXPECT_EQ(reading.reader->rows_left_out(), 500);
}

TEST(RecordReader, each_fault_of_a_row_has_its_own_message) {
  EXPECT_EQ(problem("101,grey-1,3,14.5,,,,"), "kept");
  EXPECT_EQ(problem("101,grey-1,1,14.5,1,130,,"), "rim_percent_over_100: 130 % on one rim");
  EXPECT_EQ(problem("101,grey-1,3,14.5,3,145,,"), "kept");
  EXPECT_EQ(problem("101,grey-1,3,-2,,,,"), "negative: \"-2\" is below zero");
  EXPECT_EQ(problem("101,grey-1,0,2,,,,"), "count_of_zero: a count of 0 sherds");
  EXPECT_EQ(problem("101,grey-1,1.5,2,,,,"), "not_whole: \"1.5\" is not a whole number");
  EXPECT_EQ(problem("101,grey-1,,,,,,"), "no_quantity: neither count nor weight is given");
  EXPECT_EQ(problem("110,grey-1,1,2,,,,"), "unknown_context: context \"110\" is not in the store");
  EXPECT_EQ(problem("101,gery-1,1,2,,,,"), "unknown_fabric: fabric \"gery-1\" is not in the store");
  EXPECT_EQ(problem(",grey-1,1,2,,,,"), "missing_value: context is blank");
  EXPECT_EQ(problem("101,grey-1,1,2,,,250,120"), "ends_before_it_starts: the date ends (120) before it starts (250)");
  EXPECT_EQ(problem("101,grey-1,1,\"1,450\",,,,"), "ambiguous_number: \"1,450\" may be a decimal or a thousand");
  EXPECT_EQ(problem("101,grey-1,1,14.5 kg,,,,"), "wrong_unit: \"14.5 kg\" is not in g");
  EXPECT_EQ(problem("101,grey-1,1,14.5 g,,,,"), "kept");
}

TEST(RecordReader, an_unknown_fabric_comes_with_the_nearest_one) {
  const Reading reading = read("context,fabric,count\n101,gery-1,2\n", knowing({"101"}, {"grey-1", "shell-3"}));
  ASSERT_EQ(reading.reader->problems().size(), 1U);
  EXPECT_EQ(reading.reader->problems()[0].hint, "did you mean \"grey-1\"?");
  EXPECT_EQ(reading.reader->problems()[0].row, 2);
  EXPECT_EQ(reading.reader->problems()[0].line, 2);
  EXPECT_EQ(reading.reader->problems()[0].column, "fabric");
  EXPECT_EQ(reading.reader->problems()[0].text, "gery-1");
}

TEST(RecordReader, a_question_mark_is_probable_and_two_are_possible) {
  const Reading reading = read("context,fabric,form,count\n101,grey-1?,jar (?),2\n101,shell-3??,jar,1\n",
                               knowing({"101"}, {"grey-1", "shell-3"}));
  ASSERT_EQ(reading.table.rows(), 2U);
  EXPECT_EQ(cell(reading, "fabric", 0), "grey-1");
  EXPECT_EQ(cell(reading, "fabric_certainty", 0), "probable");
  EXPECT_EQ(cell(reading, "form", 0), "jar");
  EXPECT_EQ(cell(reading, "form_certainty", 0), "probable");
  EXPECT_EQ(cell(reading, "fabric_certainty", 1), "possible");
  EXPECT_EQ(cell(reading, "form_certainty", 1), "");
}

TEST(RecordReader, counts_reconcile_and_totals_are_those_of_the_rows_kept) {
  auto options = knowing({"101"}, {"grey-1"});
  options.mapping = *read_mapping(R"({"only": {"material": ["pot"]}})", Kind::sherds);
  const Reading reading = read(
      "context,fabric,count,weight_g,vessels,rim_percent,material\n"
      "101,grey-1,3,14.5,1,12,pot\n101,grey-1,2,10.25,0,,pot\n101,grey-1,9,999,,,bone\n101,grey-1,x,1,,,pot\n",
      std::move(options));
  EXPECT_EQ(reading.reader->rows_read(), 4);
  EXPECT_EQ(reading.reader->rows_kept(), 2);
  EXPECT_EQ(reading.reader->rows_refused(), 1);
  EXPECT_EQ(reading.reader->rows_left_out(), 1);
  EXPECT_EQ(reading.reader->totals().count, 5);
  EXPECT_EQ(reading.reader->totals().weight_mg, 24750);
  EXPECT_EQ(reading.reader->totals().vessels, 1);
  EXPECT_EQ(reading.reader->totals().permille, 120);
}

TEST(RecordReader, a_decimal_comma_is_told_from_the_whole_file) {
  const Reading reading =
      read("context;fabric;count;weight_g\n101;grey-1;3;14,5\n101;grey-1;1;1,450\n", knowing({"101"}, {"grey-1"}));
  ASSERT_EQ(reading.table.rows(), 2U);
  EXPECT_EQ(cell(reading, "weight_g", 0), "14.5");
  EXPECT_EQ(cell(reading, "weight_g", 1), "1.45");
  EXPECT_EQ(reading.reader->style().decimal, ',');
}

TEST(RecordReader, unknown_columns_stay_with_their_row) {
  const Reading reading =
      read("context,fabric,count,Find \"quoted\",x\n101,grey-1,3,bag 7,\n", knowing({"101"}, {"grey-1"}));
  EXPECT_EQ(cell(reading, "extra", 0), R"({"Find \"quoted\"":"bag 7"})");
}

TEST(RecordReader, a_factor_turns_centimetres_into_millimetres_exactly) {
  const Reading reading = read("context,fabric,count,rim_diam_cm\n101,grey-1,3,14.55\n", knowing({"101"}, {"grey-1"}));
  EXPECT_EQ(cell(reading, "rim_diameter_mm", 0), "145.5");
}

TEST(RecordReader, an_eve_of_vessels_becomes_percent) {
  auto options = knowing({"101"}, {"grey-1"});
  options.mapping = *read_mapping(R"({"eve": {"as": "vessels"}})", Kind::sherds);
  const Reading reading = read("context,fabric,count,EVE\n101,grey-1,3,0.14\n", std::move(options));
  EXPECT_EQ(cell(reading, "rim_percent", 0), "14");
}

TEST(RecordReader, duplicates_in_the_table_and_in_the_store_are_told_apart) {
  auto options = knowing({"101"}, {"grey-1"});
  options.existing.add("7");
  const Reading reading = read(
      "record,context,fabric,count\n7,101,grey-1,1\n8,101,grey-1,1\n8,101,grey-1,2\n,101,grey-1,2\n,101,grey-1,2\n",
      std::move(options));
  ASSERT_EQ(reading.reader->problems().size(), 2U);
  EXPECT_EQ(reading.reader->problems()[0].message, "line \"7\" is in the store already");
  EXPECT_EQ(reading.reader->problems()[0].hint, "--update applies the differences");
  EXPECT_EQ(reading.reader->problems()[1].message, "line \"8\" stands in the table twice");
  EXPECT_EQ(reading.table.rows(), 3U);
}

TEST(RecordReader, relations_are_turned_the_same_way_round) {
  ReadOptions options;
  for (const char* name : {"1", "2", "3"}) options.known[Kind::contexts].add(name);
  const Reading reading =
      read("later,earlier,kind\n1,2,cuts\n2,3,cut by\n3,1,Below\n1,3,same-as\n", std::move(options), Kind::relations);
  ASSERT_EQ(reading.table.rows(), 4U);
  EXPECT_EQ(cell(reading, "later", 1) + cell(reading, "kind", 1) + cell(reading, "earlier", 1), "3cuts2");
  EXPECT_EQ(cell(reading, "later", 2) + cell(reading, "kind", 2) + cell(reading, "earlier", 2), "1above3");
  EXPECT_EQ(cell(reading, "kind", 3), "same_as");
}

TEST(RecordReader, a_relation_told_from_both_sides_is_kept_once) {
  ReadOptions options;
  for (const char* name : {"1", "2"}) options.known[Kind::contexts].add(name);
  const Reading reading =
      read("later,earlier,kind\n1,2,above\n2,1,below\n1,2,cuts\n", std::move(options), Kind::relations);
  EXPECT_EQ(reading.table.rows(), 2U);
  EXPECT_EQ(reading.reader->rows_left_out(), 1);
  EXPECT_EQ(reading.reader->rows_repeated(), 1);
}

TEST(RecordReader, a_variant_may_name_a_fabric_further_down) {
  const Reading reading = read("fabric,variant_of\ngrey-1a,grey-1\ngrey-1,\ngrey-2a,grey-9\n", {}, Kind::fabrics);
  EXPECT_EQ(reading.table.rows(), 2U);
  ASSERT_EQ(reading.reader->problems().size(), 1U);
  EXPECT_EQ(reading.reader->problems()[0].message, "fabric \"grey-9\" is not in the store");
}

TEST(RecordReader, dates_are_read_in_the_notations_of_reports) {
  const Reading reading = read("fabric,earliest,latest\na,C2,C3\nb,50 BC,AD 70\nc,-43,120\n", {}, Kind::fabrics);
  ASSERT_EQ(reading.table.rows(), 3U) << reading.reader->problems().front().message;
  EXPECT_EQ(cell(reading, "earliest", 0), "101");
  EXPECT_EQ(cell(reading, "latest", 0), "300");
  EXPECT_EQ(cell(reading, "earliest", 1), "-50");
  EXPECT_EQ(cell(reading, "earliest", 2), "-43");
}

TEST(RecordReader, new_codes_are_counted_and_taken_when_allowed) {
  auto options = knowing({"101"}, {"grey-1"});
  options.new_codes = true;
  const Reading reading = read("context,fabric,count\n101,red-9,1\n102,red-9,1\n", std::move(options));
  EXPECT_EQ(reading.table.rows(), 2U);
  EXPECT_EQ(reading.reader->unknown().at(Kind::fabrics).at("red-9"), 2);
  EXPECT_EQ(reading.reader->unknown().at(Kind::contexts).at("102"), 1);
}

// Seidensticker, doctoral thesis Tuebingen, data doi 10.5281/zenodo.6337181 (CC BY-SA 4.0): rows 2, 3, 4 and 9 of
// finds.csv as typed by its author, some columns left out.
TEST(RecordReader, rows_of_a_published_table_are_read_as_they_stand) {
  ReadOptions options;
  options.mapping =
      *read_mapping(R"({"columns": {"context": "feature", "rim_diameter_mm": {"from": "rim_diam_cm", "times": 10}},
      "only": {"material": ["K"]}, "codes": {"part": {"R": "rim", "W": "body", "G": "whole", "B": "base"}},
      "blank_as": {"context": "unstratified", "fabric": "unknown"}})",
                    Kind::sherds);
  options.new_codes = true;
  const Reading reading = read(
      "objID,site,feature,individual,material,part,count,weight_g,rim_diam_cm,fabric,vessel_form\n"
      "1359,,,18,K,R,1,66.3,,,E2 (?)\n1360,,,17,K,R,1,54.8,,,\n1495,,,\"8,27\",K,,,,,,KON (?)\n",
      std::move(options));
  EXPECT_EQ(reading.reader->rows_kept(), 2);
  EXPECT_EQ(reading.reader->rows_refused(), 1);
  EXPECT_EQ(reading.reader->problems()[0].code, "no_quantity");
  EXPECT_EQ(reading.reader->totals().weight_mg, 121100);
  EXPECT_EQ(cell(reading, "context", 0), "unstratified");
  EXPECT_EQ(cell(reading, "part", 0), "rim");
  EXPECT_EQ(cell(reading, "form", 0), "E2");
  EXPECT_EQ(cell(reading, "form_certainty", 0), "probable");
}

TEST(RecordReader, what_is_not_a_table_is_said_plainly) {
  const auto reader = RecordReader::open(Kind::sherds, "%PDF-1.7\n%\xE2\xE3\xCF\xD3\n1 0 obj", "list.pdf", {});
  ASSERT_FALSE(reader);
  EXPECT_EQ(reader.error().code, "not_a_table");
}

TEST(RecordReader, a_cell_of_ten_megabytes_is_refused_by_its_place) {
  const std::string text =
      "context,fabric,count,notes\n101,grey-1,1,x\n101,grey-1,1," + std::string(10'000'000, 'x') + "\n";
  auto reader = RecordReader::open(Kind::sherds, text, "sherds.csv", knowing({"101"}, {"grey-1"}));
  const auto table = reader ? (*reader)->next(10) : Result<Table>(fail(reader.error()));
  ASSERT_FALSE(table);
  EXPECT_EQ(table.error().code, "cell_too_large");
  EXPECT_EQ(table.error().where.row, 3);
}

}  // namespace
}  // namespace sherd::exchange
