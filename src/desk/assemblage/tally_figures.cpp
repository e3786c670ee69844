#include "desk/assemblage/tally_figures.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "base/text.h"
#include "desk/assemblage/field_words.h"
#include "desk/frame/csv.h"
#include "figure/bars.h"
#include "figure/composition.h"
#include "figure/heat_table.h"
#include "figure/side_by_side.h"
#include "figure/words.h"
#include "methods/quantify/natural_order.h"

namespace sherd::desk {

namespace {

using figure::number_text;

struct Measure {
  const char *name, *heading, *unit;
  int decimals;
};
constexpr std::array<Measure, 4> kMeasures{
    {{"count", "Sherds", "", 0}, {"weight_g", "Weight", "g", 1}, {"vessels", "Vessels", "", 0}, {"eve", "EVE", "", 2}}};

const Measure& measure_named(const std::string& name) {
  const auto at = std::ranges::find(kMeasures, name, [](const Measure& one) { return std::string(one.name); });
  return at == kMeasures.end() ? kMeasures.front() : *at;
}

std::optional<double> amount_of(const quantify::TallyRow& row, const Measure& measure) {
  const auto number = [](const std::optional<std::int64_t>& value) {
    return value ? std::optional(static_cast<double>(*value)) : std::nullopt;
  };
  switch (&measure - kMeasures.data()) {
    case 0:
      return number(row.count);
    case 1:
      return row.weight_g;
    case 2:
      return number(row.vessels);
    default:
      return row.eve;
  }
}

std::optional<double> share_of(const quantify::TallyRow& row, const Measure& measure) {
  const std::array<std::optional<double>, 4> shares{row.shares.count, row.shares.weight, row.shares.vessels,
                                                    row.shares.eve};
  return shares[static_cast<std::size_t>(&measure - kMeasures.data())];
}

std::optional<statistics::Interval> interval_of(const quantify::TallyRow& row, const Measure& measure) {
  if (!row.intervals) return std::nullopt;
  const std::array<std::optional<statistics::Interval>, 4> all{row.intervals->count_share, row.intervals->weight_share,
                                                               row.intervals->vessels_share, row.intervals->eve_share};
  return all[static_cast<std::size_t>(&measure - kMeasures.data())];
}

std::string amount_words(const std::optional<double>& amount, const Measure& measure) {
  return amount ? figure::with_unit(number_text(*amount, measure.decimals), measure.unit) : "";
}

std::string key_text(const std::optional<std::string>& key) { return key.value_or("(blank)"); }

class Drawing {
 public:
  Drawing(const TallyResponse& response, const TallyRequest& request, bool plain)
      : response_(response),
        request_(request),
        plain_(plain),
        measure_(measure_named(request.measure)),
        page_{static_cast<double>(request.width.value_or(174)), 235, 0} {}

  DrawnPicture bars() const {
    const bool shares = response_.intervals.has_value();
    figure::EstimatesData data;
    data.about = about(fmt::format("{} by {}", measure_.heading, fields()));
    data.measure = shares ? std::string("Share of ") + share_word() : measure_.heading;
    data.unit = shares ? "%" : measure_.unit;
    data.decimals = shares ? 1 : measure_.decimals;
    data.rows_word = rows_word();
    data.n_word = "sherds";
    if (shares) data.interval_by = response_.intervals->about;
    for (const TallyResponseRow& row : response_.rows) {
      figure::Estimate one{.name = name_of(row)};
      one.value = shares ? percent(share_of(row, measure_)) : amount_of(row, measure_);
      one.n = shares || &measure_ != kMeasures.data() ? row.count : std::nullopt;
      if (const auto interval = shares ? interval_of(row, measure_) : std::nullopt) {
        one.low = 100 * (*interval)[0];
        one.high = 100 * (*interval)[1];
      }
      one.data_set = set_of(row);
      data.rows.push_back(std::move(one));
    }
    return {"bars", data.about.title, figure::bars(data, page_)};
  }

  DrawnPicture measures() const {
    figure::SideBySideData data;
    data.about = about(fmt::format("Four measures by {}", fields()));
    data.about.left_out.insert(data.about.left_out.begin(),
                               "Sherds count breakage as well as pots, weight favours thick walls, vessels grow with "
                               "how finely they are told apart; EVE needs measured rims.");
    data.title = "Share of all (%), the amount beneath";
    data.unit = "%";
    data.rows_word = rows_word();
    for (const Measure& one : kMeasures)
      data.columns.push_back(*one.unit == '\0' ? one.heading : fmt::format("{} ({})", one.heading, one.unit));
    for (const TallyResponseRow& row : response_.rows) {
      figure::SideBySideRow out{.name = name_of(row), .cells = {}, .data_set = set_of(row)};
      for (const Measure& one : kMeasures) {
        const auto amount = amount_of(row, one);
        out.cells.push_back({percent(share_of(row, one)), amount ? number_text(*amount, one.decimals) : ""});
      }
      data.rows.push_back(std::move(out));
    }
    return {"measures", data.about.title, figure::side_by_side(data, page_)};
  }

  /// By two fields.
  DrawnPicture stacked() const {
    figure::CompositionData data;
    data.about = about(fmt::format("{} of {} in each of the {}", measure_.heading, columns_word(), rows_word()));
    data.measure = std::string("Share of ") + share_word();
    data.n_word = "sherds";
    data.rows_word = rows_word();
    data.categories_word = columns_word();
    const auto columns = keys(1);
    for (const auto& column : columns) data.categories.push_back(key_text(column));
    for (const auto& row : keys(0)) {
      figure::CompositionGroup group{.name = key_text(row), .amounts = {}, .n = 0, .data_sets = {}};
      for (const auto& column : columns) {
        const TallyResponseRow* cell = at(row, column);
        group.amounts.push_back(cell == nullptr ? 0 : amount_of(*cell, measure_).value_or(0));
        group.data_sets.push_back(cell == nullptr ? "" : set_of(*cell));
        if (cell != nullptr) *group.n += cell->count.value_or(0);
      }
      data.groups.push_back(std::move(group));
    }
    return {"stacked", data.about.title, figure::composition(data, page_)};
  }

  DrawnPicture crossed() const {
    figure::HeatTableData data;
    data.about = about(fmt::format("{} by {}", measure_.heading, fields()));
    data.title = figure::axis_title(measure_.heading, measure_.unit);
    data.rows_word = rows_word();
    data.columns_word = columns_word();
    data.n_word = "sherds";
    const auto columns = keys(1);
    double most = 0;
    for (const TallyResponseRow& row : response_.rows) most = std::max(most, amount_of(row, measure_).value_or(0));
    for (const auto& column : columns) data.columns.push_back({key_text(column)});
    for (const auto& row : keys(0)) {
      std::int64_t sherds = 0;
      auto& cells = data.cells.emplace_back();
      for (const auto& column : columns) {
        figure::HeatCell out{.shade = 0, .text = "", .words = key_text(row) + ", " + key_text(column), .data_set = ""};
        const TallyResponseRow* cell = at(row, column);
        const auto amount = cell == nullptr ? std::nullopt : amount_of(*cell, measure_);
        out.words += ": " + (cell == nullptr ? "none" : amount ? amount_words(amount, measure_) : "not recorded");
        if (amount) {
          out.shade = most > 0 ? *amount / most : 0;
          out.text = number_text(*amount, measure_.decimals);
          out.data_set = set_of(*cell);
          sherds += cell->count.value_or(0);
        }
        cells.push_back(std::move(out));
      }
      data.rows.push_back({key_text(row), grouped(sherds), ""});
    }
    data.key_low = "none";
    data.key_high = number_text(most, measure_.decimals);
    return {"crossed", data.about.title, figure::heat_table(data, page_)};
  }

 private:
  static std::optional<double> percent(const std::optional<double>& share) {
    return share ? std::optional(100 * *share) : std::nullopt;
  }
  std::string share_word() const { return &measure_ == kMeasures.data() + 3 ? "EVE" : lower(measure_.heading); }
  std::string rows_word() const { return response_.by.size() > 2 ? "rows" : plural_of(response_.by[0], "rows"); }
  std::string columns_word() const { return plural_of(response_.by.back(), "columns"); }
  std::string fields() const {
    std::vector<std::string> words;
    for (const std::string& field : response_.by) words.push_back(plural_of(field, "rows"));
    return join(words, " and ");
  }
  std::string name_of(const TallyResponseRow& row) const {
    std::vector<std::string> words;
    for (const auto& [field, value] : row.group) words.push_back(key_text(value));
    return join(words, ", ");
  }
  std::string set_of(const TallyResponseRow& row) const {
    if (plain_) return {};
    std::string out;
    const auto add = [&](const std::string& condition) {
      out += (out.empty() ? "where=" : "&where=") + percent_encoded(condition);
    };
    for (const std::string& condition : request_.where) add(condition);
    for (const auto& [field, value] : row.group) add(field + "=" + value.value_or(""));
    return out;
  }

  figure::About about(std::string title) const {
    figure::About out{std::move(title), {}};
    std::string all = counted(response_.total.lines, "line");
    for (const Measure& one : kMeasures) {
      if (const auto amount = amount_of(response_.total, one))
        all += ", " + number_text(*amount, one.decimals) + " " +
               (*one.unit == '\0' ? (one.name == std::string("eve") ? "EVE" : lower(one.heading)) : one.unit);
    }
    out.left_out.push_back("All: " + all + ".");
    if (!request_.where.empty()) out.left_out.push_back("Lines with " + join(request_.where, " and ") + ".");
    for (const std::string& warning : response_.warnings)
      out.left_out.push_back(upper_first(warning) + (warning.ends_with('.') ? "" : "."));
    return out;
  }
  static std::string upper_first(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
  }

  /// The values of one of the fields, in the order of the rows; a blank last.
  std::vector<std::optional<std::string>> keys(std::size_t field) const {
    std::vector<std::optional<std::string>> out;
    bool blank = false;
    for (const TallyResponseRow& row : response_.rows) {
      const auto& key = row.group[field].second;
      if (!key) {
        blank = true;
      } else if (std::ranges::find(out, key) == out.end()) {
        out.push_back(key);
      }
    }
    if (field > 0)  // rows are in the order of the first field: the second's own order is that of its values
      std::ranges::sort(out, [](const auto& a, const auto& b) { return quantify::NaturalLess{}(*a, *b); });
    if (blank) out.emplace_back();
    return out;
  }
  const TallyResponseRow* at(const std::optional<std::string>& row, const std::optional<std::string>& column) const {
    const auto found = std::ranges::find_if(response_.rows, [&](const TallyResponseRow& one) {
      return one.group[0].second == row && one.group[1].second == column;
    });
    return found == response_.rows.end() ? nullptr : &*found;
  }

  const TallyResponse& response_;
  const TallyRequest& request_;
  bool plain_;
  const Measure& measure_;
  figure::Page page_;
};

}  // namespace

std::vector<DrawnPicture> tally_pictures(const TallyResponse& response, const TallyRequest& request, bool plain) {
  const Drawing drawing(response, request, plain);
  if (response.by.size() == 2) return {drawing.stacked(), drawing.crossed(), drawing.measures()};
  return {drawing.bars(), drawing.measures()};
}

std::vector<AnswerTable> tally_tables(const TallyResponse& response, const std::string& measure) {
  TallyResponseRow like;
  for (const std::string& name : response.by) like.group.emplace_back(name, std::nullopt);
  std::vector<AnswerTable> out{{"tally", csv_rows(response.rows, like)}};
  if (response.by.size() != 2) return out;
  const Measure& one = measure_named(measure);
  std::vector<std::string> columns;
  std::vector<std::string> rows;
  std::map<std::pair<std::string, std::string>, std::string> cells;
  for (const TallyResponseRow& row : response.rows) {
    const std::string first = key_text(row.group[0].second), second = key_text(row.group[1].second);
    if (std::ranges::find(rows, first) == rows.end()) rows.push_back(first);
    if (std::ranges::find(columns, second) == columns.end()) columns.push_back(second);
    if (const auto amount = amount_of(row, one)) cells[{first, second}] = csv_cell(*amount);
  }
  std::ranges::sort(columns, quantify::NaturalLess{});
  AnswerTable table{one.name, {{response.by[0]}}};
  table.rows[0].insert(table.rows[0].end(), columns.begin(), columns.end());
  for (const std::string& row : rows) {
    std::vector<std::string>& line = table.rows.emplace_back(std::vector<std::string>{row});
    for (const std::string& column : columns) line.push_back(cells[{row, column}]);
  }
  out.push_back(std::move(table));
  return out;
}

}  // namespace sherd::desk
