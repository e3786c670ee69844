#include "desk/costs/quote_lines.h"

#include <cmath>
#include <optional>
#include <utility>

#include "base/text.h"
#include "reference/public_side.h"

namespace sherd::desk {

namespace {

using cost::ThreePoints;

constexpr double kHoursDay = 7.5;

/// From what is given of least, likely and most: what is missing stands where its neighbours are.
std::optional<ThreePoints> three(const std::optional<Decimal>& low, const std::optional<Decimal>& likely,
                                 const std::optional<Decimal>& high) {
  if (!low && !likely && !high) return std::nullopt;
  ThreePoints out;
  out.low = low ? low->value() : likely ? likely->value() : high->value();
  out.high = high ? high->value() : likely ? likely->value() : low->value();
  out.likely = likely ? likely->value() : (out.low + out.high) / 2;
  return out;
}

bool is_recording(const std::string& task) {
  return reference::holds_word(task, {"record", "recording", "scan", "scanning", "basic", "detailed", "cataloguing"});
}
bool is_checking(const std::string& task) { return reference::holds_word(task, {"check", "checking"}); }

void take_amount(const Estimate& one, const RecordAmounts& record, CostLine& shown, cost::Line& line) {
  const auto found = one.basis ? record.amounts.find(*one.basis) : record.amounts.end();
  if (found == record.amounts.end() || is_recording(one.estimate) || one.estimate == "checking") return;
  shown.amount = found->second;
  const bool holds =
      *one.basis == EstimateBasis::boxes || *one.basis == EstimateBasis::bags || *one.basis == EstimateBasis::weight;
  if (!holds || !line.sherds || !(found->second > 0)) return;
  const double each = record.amounts.at(EstimateBasis::sherds) / found->second;
  line.sherds = ThreePoints{each, each, each};
}

void take_pace(const Estimate& one, const MeasuredPace* measured, CostLine& shown, cost::Line& line) {
  if (measured != nullptr && is_recording(one.task)) {
    line.pace = ThreePoints{measured->pace_low, measured->pace_likely, measured->pace_high};
    shown.pace_from = "measured";
  } else if (line.pace) {
    shown.pace_from = "rates";
  }
  if (line.hours || !line.sherds) shown.pace_from.clear();
  if (line.pace && !shown.pace_from.empty()) shown.pace = line.pace->likely;
}

std::string missing(const Estimate& one, const cost::Line& line, const Rate* rate) {
  if (!one.task.empty() && !rate) return "no rate for " + one.task + (one.grade.empty() ? "" : ", " + one.grade);
  if (line.sherds && !line.hours && !line.pace && !one.task.empty()) return "the rate of " + one.task + " has no pace";
  if (!line.hours && !line.cost && !(line.sherds && line.pace)) return "neither hours nor cost";
  if (rate && !rate->rate_day && (line.hours || line.pace)) return "the rate of " + one.task + " has no cost of a day";
  return {};
}

/// Rows typed by hand or merged may stand out of order where one of the three is not given.
Result<void> in_order(const Estimate& one, const cost::Line& line) {
  for (const auto* points : {&line.sherds, &line.pace, &line.hours, &line.cost}) {
    if (*points && !cost::check(**points))
      return fail("bad_estimate", "estimate " + one.estimate + ": least, likely and most are not in that order",
                  "correct the estimate or its rate");
  }
  if (line.pace && !(line.pace->low > 0))
    return fail("bad_estimate", "the rate of " + one.task + " has a pace of 0", "leave it blank instead");
  return {};
}

Estimate line_of(const Rate& rate, std::string stage, double sherds) {
  Estimate out;
  out.estimate = stage;
  out.stage = std::move(stage);
  out.task = rate.task;
  out.grade = rate.grade;
  out.basis = EstimateBasis::sherds;
  out.amount = Decimal{std::llround(sherds * 1e6)};
  return out;
}

}  // namespace

const Rate* rate_of(const Estimate& estimate, const std::vector<Rate>& rates) {
  const Rate* any = nullptr;
  for (const Rate& rate : rates) {
    if (rate.task != estimate.task) continue;
    if (rate.grade == estimate.grade) return &rate;
    if (estimate.grade.empty() || rate.grade.empty()) any = any ? any : &rate;
  }
  return any;
}

Result<QuoteLine> quote_line(const Estimate& one, const QuoteBasis& basis) {
  const Rate* rate = rate_of(one, basis.rates);
  QuoteLine out;
  CostLine& shown = out.shown;
  cost::Line& line = out.line;
  shown = {one.estimate, one.stage, one.task, one.grade, one.basis, one.amount ? one.amount->value() : 1,
           {},           {},        "",       {},        {},        ""};
  line.stage = one.stage;
  line.sherds = three(one.sherds_low, one.sherds_likely, one.sherds_high);
  line.hours = three(one.hours_low, one.hours_likely, one.hours_high);
  line.cost = three(one.cost_low, one.cost_likely, one.cost_high);
  if (one.basis == EstimateBasis::sherds) line.sherds = ThreePoints{1, 1, 1};
  if (basis.amounts != nullptr) take_amount(one, *basis.amounts, shown, line);
  line.amount = shown.amount;
  const double hours_day = rate && rate->hours_day ? rate->hours_day->value() : kHoursDay;
  if (one.basis == EstimateBasis::days && !line.hours) line.hours = ThreePoints{hours_day, hours_day, hours_day};
  if (rate) {
    line.pace = three(rate->pace_low, rate->pace_likely, rate->pace_high);
    if (rate->rate_day) {
      shown.rate_day = rate->rate_day->value();
      line.rate_hour = *shown.rate_day / hours_day;
    }
  }
  take_pace(one, basis.pace, shown, line);
  line.sherds_key = one.basis ? std::string(word(*one.basis)) : "";
  line.pace_key = one.task + "/" + one.grade;
  if (line.sherds) shown.sherds = line.amount * line.sherds->likely;
  shown.note = missing(one, line, rate);
  SHERD_CHECK(in_order(one, line));
  return out;
}

std::vector<Estimate> lines_left(const std::vector<Rate>& rates, const RecordAmounts& amounts,
                                 const std::string& level) {
  std::vector<const Rate*> recording;
  for (const Rate& rate : rates) {
    if (is_recording(rate.task) && (level.empty() || reference::holds_word(rate.task, {lower(level)})))
      recording.push_back(&rate);
  }
  if (recording.empty()) {
    for (const Rate& rate : rates) {
      if (is_recording(rate.task)) recording.push_back(&rate);
    }
  }
  std::vector<Estimate> left;
  if (!recording.empty()) left.push_back(line_of(*recording.front(), "recording", amounts.sherds_left));
  for (const Rate& rate : rates) {
    if (is_checking(rate.task)) left.push_back(line_of(rate, "checking", amounts.sherds_unchecked));
  }
  return left;
}

}  // namespace sherd::desk
