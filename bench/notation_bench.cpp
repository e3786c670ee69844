#include <benchmark/benchmark.h>

#include <array>
#include <cstddef>
#include <fstream>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

#include "base/csv.h"
#include "notation/date.h"
#include "notation/date_text.h"
#include "notation/period.h"

/// Reading 100,000 dates. The limit that we hold ourselves to: below 1 s in a release build.
namespace sherd::notation {
namespace {

constexpr std::size_t kDates = 100'000;
constexpr std::array<std::string_view, 32> kForms{"AD 120-250",
                                                  "1120-35",
                                                  "C2",
                                                  "2nd-3rd c.",
                                                  "late 13th to early 14th",
                                                  "L13-E14",
                                                  "3rd quarter C2",
                                                  "C2.3",
                                                  "1st half C13",
                                                  "C1BC-C1AD",
                                                  "c. 1350",
                                                  "c.AD 43-60",
                                                  "AD 270+",
                                                  "pre-410",
                                                  "43x60",
                                                  "120/140",
                                                  "C13?",
                                                  "poss. C13",
                                                  "1530s",
                                                  "undated",
                                                  "-120",
                                                  "50 BC-AD 20",
                                                  "mid-13th century",
                                                  "early 2nd century",
                                                  "Q3 C2",
                                                  "2nd half of the 13th century",
                                                  "post-270",
                                                  "1720",
                                                  "cal BC 3650-3520 (95%)",
                                                  "20XX",
                                                  "0120/0250",
                                                  "between 120 and 250"};
constexpr std::array<std::string_view, 8> kNames{"Hadrianic", "LIA/ER",   "early Roman", "temp. Edward I",
                                                 "Tudor",     "medieval", "Roman?",      "reign of George III"};

PeriodTable shipped(const char* name) {
  std::ifstream file(std::string(SHERD_SOURCE_DIR "/data/reference/") + name);
  std::stringstream text;
  text << file.rdbuf();
  return *period_table(*parse_csv(text.str()));
}

void count_read(benchmark::State& state, std::size_t read) {
  if (read != kDates) state.SkipWithError("not every date was read");
  state.SetItemsProcessed(static_cast<std::int64_t>(kDates) * state.iterations());
}

void years_and_centuries(benchmark::State& state) {
  std::size_t read = 0;
  for (auto unused : state) {
    read = 0;
    for (std::size_t i = 0; i < kDates; ++i) read += read_date(kForms[i % kForms.size()]).has_value() ? 1U : 0U;
  }
  count_read(state, read);
}
BENCHMARK(years_and_centuries)->Unit(benchmark::kMillisecond);

void with_names_of_periods(benchmark::State& state) {
  const DateReader reader = *DateReader::with(joined(shipped("periods.csv"), shipped("reigns.csv")));
  std::size_t read = 0;
  for (auto unused : state) {
    read = 0;
    for (std::size_t i = 0; i < kDates; ++i) {
      const std::string_view text = i % 4 == 0 ? kNames[i / 4 % kNames.size()] : kForms[i % kForms.size()];
      read += reader.read(text).has_value() ? 1U : 0U;
    }
  }
  count_read(state, read);
}
BENCHMARK(with_names_of_periods)->Unit(benchmark::kMillisecond);

void refused(benchmark::State& state) {
  std::size_t refused = 0;
  for (auto unused : state) {
    refused = 0;
    for (std::size_t i = 0; i < kDates; ++i) refused += read_date("C13 jug").has_value() ? 0U : 1U;
  }
  count_read(state, refused);
}
BENCHMARK(refused)->Unit(benchmark::kMillisecond);

void written(benchmark::State& state) {
  std::size_t length = 0;
  for (auto unused : state) {
    for (std::int64_t i = 0; i < static_cast<std::int64_t>(kDates); ++i) {
      length += date_text({Year{1 + i % 1500}, Year{100 + i % 1700 + i % 1500}}).size();
    }
  }
  benchmark::DoNotOptimize(length);
  count_read(state, kDates);
}
BENCHMARK(written)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace sherd::notation
