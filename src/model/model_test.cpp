#include <gtest/gtest.h>

#include "model/kind_spec.h"
#include "model/rows.h"
#include "model/table.h"
#include "model/year.h"

namespace sherd {
namespace {

TEST(Year, there_is_no_year_nought_outside) {
  EXPECT_EQ(historical(Year{0}), -1);
  EXPECT_EQ(historical(Year{-42}), -43);
  EXPECT_EQ(historical(Year{1}), 1);
  for (const std::int64_t number : {-10000, -43, -1, 1, 43, 2026})
    EXPECT_EQ(historical(from_historical(number)), number);
}

TEST(Year, ranges_read_as_a_specialist_writes_them) {
  EXPECT_EQ(range_text({Year{120}, Year{250}}), "120-250");
  EXPECT_EQ(range_text({Year{-49}, Year{70}}), "50 BC-AD 70");
  EXPECT_EQ(range_text({Year{-99}, Year{-39}}), "100-40 BC");
  EXPECT_EQ(range_text({Year{270}, {}}), "270 or later");
  EXPECT_EQ(range_text({{}, Year{410}}), "410 or earlier");
  EXPECT_EQ(range_text({Year{1700}, Year{1700}}), "1700");
  EXPECT_EQ(range_text({}), "undated");
}

TEST(KindSpec, follows_the_field_lists) {
  const KindSpec& sherds = kind_spec(Kind::sherds);
  EXPECT_EQ(sherds.column("weight_g")->stored_name, "weight_mg");
  EXPECT_EQ(sherds.column("rim_percent")->stored_name, "rim_permille");
  EXPECT_EQ(sherds.column("rim_diameter_mm")->stored_name, "rim_diameter_mm100");
  EXPECT_EQ(sherds.column("fabric_certainty")->words.size(), 3U);
  EXPECT_EQ(sherds.column("recorded_on")->type, CellType::day);
  EXPECT_EQ(sherds.column("nothing"), nullptr);
  EXPECT_EQ(kind_spec(Kind::dates).key_names(),
            (std::vector<std::string>{"fabric", "form", "decoration", "region", "reference"}));
  for (const KindSpec& spec : all_kinds()) EXPECT_EQ(kind_named(spec.name), spec.kind);
}

TEST(Rows, structs_and_tables_carry_the_same) {
  RecordLine line;
  line.record = "12";
  line.weight = Weight{14500};
  line.vessels = 0;
  line.fabric_certainty = Certainty::probable;
  line.earliest = Year{-42};
  const Table table = table_from(Kind::sherds, std::vector<RecordLine>{line, {}});
  ASSERT_EQ(table.rows(), 2U);
  EXPECT_EQ(cell_text(*table.find("weight_g"), 0), "14.5");
  EXPECT_EQ(cell_text(*table.find("earliest"), 0), "-43");
  EXPECT_EQ(cell_text(*table.find("weight_g"), 1), "");
  const auto back = rows_from<RecordLine>(table);
  EXPECT_EQ(back[0].weight, line.weight);
  EXPECT_EQ(back[0].vessels, 0);
  EXPECT_EQ(back[0].fabric_certainty, Certainty::probable);
  EXPECT_FALSE(back[1].vessels.has_value());
}

}  // namespace
}  // namespace sherd
