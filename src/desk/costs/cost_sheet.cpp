#include "desk/costs/cost_sheet.h"

#include <algorithm>
#include <set>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/costs/cost_sheet_files.h"
#include "desk/costs/record_amounts.h"
#include "desk/frame/session.h"
#include "model/record_report.h"
#include "model/rows.h"
#include "reference/public_side.h"

namespace sherd::desk {

namespace {

using cost::ThreePoints;

constexpr double kHoursDay = 7.5;
constexpr std::int64_t kShare = 80;

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

class Sheet {
 public:
  Sheet(const CostSheetRequest& request, const Session& session, Environment& environment, Progress& progress)
      : request_(request), session_(session), environment_(environment), progress_(progress) {}

  Result<CostSheetResponse> run() {
    SHERD_CHECK(understand());
    SHERD_CHECK(read());
    SHERD_CHECK(choose_lines());
    SHERD_CHECK(check_currency());
    for (const Estimate& one : chosen_) {
      SHERD_CHECK(add(one));
    }
    SHERD_TRY(const cost::Estimate found, cost::estimate(lines_, settings_, progress_));
    for (std::size_t i = 0; i < lines_.size(); ++i) response_.lines[i].sum = found.lines[i];
    add_stages(found);
    say_method();
    return std::move(response_);
  }

 private:
  Result<void> understand() {
    if (!request_.shape.empty()) {
      const auto shape = from_word<cost::Shape>(request_.shape);
      if (!shape)
        return fail(ErrorKind::usage, "bad_shape", "there is no shape \"" + request_.shape + "\"",
                    "say triangular or pert");
      settings_.shape = *shape;
    }
    const std::int64_t share = request_.share.value_or(kShare);
    if (share < 1 || share > 99) return fail(ErrorKind::usage, "bad_number", "share is 1 to 99 percent");
    settings_.share = static_cast<double>(share) / 100;
    settings_.draws = request_.draws.value_or(settings_.draws);
    if (settings_.draws < 100 || settings_.draws > 1'000'000)
      return fail(ErrorKind::usage, "bad_number", "draws are 100 to 1,000,000");
    if (request_.seed && *request_.seed < 0) return fail(ErrorKind::usage, "bad_number", "a seed is no less than 0");
    settings_.seed = static_cast<std::uint64_t>(request_.seed.value_or(1));
    return {};
  }

  template <class T>
  Result<std::vector<T>> rows(Kind kind) const {
    SHERD_TRY(const Table table, session_.store->read({session_.site.code, kind, {}, {}}));
    return rows_from<T>(table);
  }

  Result<void> read() {
    SHERD_TRY(rates_, rows<Rate>(Kind::rates));
    SHERD_TRY(estimates_, rows<Estimate>(Kind::estimates));
    SHERD_TRY(hours_, rows<WorkedHours>(Kind::hours));
    SHERD_TRY(response_.measured, measured_pace(session_, environment_));
    if (request_.measured && !response_.measured) {
      return fail("nothing_measured", "the history has too little recording by hand for a pace",
                  "it takes three days with a quarter of an hour each; give paces in the rates until then");
    }
    if (request_.from_record) {
      SHERD_TRY(amounts_, record_amounts(request_, session_, environment_, progress_));
    }
    for (const Estimate& one : estimates_) {
      if (std::ranges::find(response_.quotes, one.quote) == response_.quotes.end())
        response_.quotes.push_back(one.quote);
    }
    return {};
  }

  Result<void> choose_lines() {
    response_.quote = request_.quote;
    if (!request_.quote.empty() && std::ranges::find(response_.quotes, request_.quote) == response_.quotes.end())
      return fail("unknown_quote", "the store has no quote \"" + request_.quote + "\"",
                  did_you_mean(request_.quote, response_.quotes));
    for (const Estimate& one : estimates_) {
      if (request_.quote.empty() || one.quote == request_.quote) chosen_.push_back(one);
    }
    if (chosen_.empty() && request_.from_record) lines_of_record();
    if (!chosen_.empty() || !hours_.empty()) return {};
    return fail(
        "no_estimates", "the store has no estimates yet",
        request_.from_record
            ? "give rates with a pace: sherdwright add STORE rates task=\"basic record\" rate_day=240 pace_likely=60"
            : "add lines: sherdwright add STORE estimates estimate=E1 stage=analysis basis=boxes amount=12 "
              "sherds_low=100 sherds_likely=200 sherds_high=350 task=\"basic record\"");
  }

  /// What is still to record and to check, by the rates that have a pace and whose task names it.
  void lines_of_record() {
    const std::string level = session_.site.level ? std::string(word(*session_.site.level)) : "";
    std::vector<const Rate*> recording;
    for (const Rate& rate : rates_) {
      if (is_recording(rate.task) && (level.empty() || reference::holds_word(rate.task, {lower(level)})))
        recording.push_back(&rate);
    }
    if (recording.empty()) {
      for (const Rate& rate : rates_) {
        if (is_recording(rate.task)) recording.push_back(&rate);
      }
    }
    if (!recording.empty()) chosen_.push_back(line_of(*recording.front(), "recording", amounts_.sherds_left));
    for (const Rate& rate : rates_) {
      if (is_checking(rate.task)) chosen_.push_back(line_of(rate, "checking", amounts_.sherds_unchecked));
    }
  }
  static Estimate line_of(const Rate& rate, std::string stage, double sherds) {
    Estimate out;
    out.estimate = stage;
    out.stage = std::move(stage);
    out.task = rate.task;
    out.grade = rate.grade;
    out.basis = EstimateBasis::sherds;
    out.amount = Decimal{static_cast<std::int64_t>(sherds * 1e6 + 0.5)};
    return out;
  }

  /// One currency, as the user writes it; blank goes with any.
  Result<void> check_currency() {
    const auto note = [&](const std::string& currency, const std::string& where) -> Result<void> {
      if (currency.empty() || currency == response_.currency) return {};
      if (response_.currency.empty()) {
        response_.currency = currency;
        return {};
      }
      return fail("mixed_currency", where + " is in " + currency + ", what stands before it in " + response_.currency,
                  "a sum needs one currency: write the same one in rates and estimates, or ask for one quote");
    };
    for (const Estimate& one : chosen_) {
      SHERD_CHECK(note(one.currency, "estimate " + one.estimate));
      if (const Rate* rate = rate_of(one)) {
        SHERD_CHECK(note(rate->currency, "the rate of " + rate->task));
      }
    }
    return {};
  }

  const Rate* rate_of(const Estimate& one) const {
    const Rate* any = nullptr;
    for (const Rate& rate : rates_) {
      if (rate.task != one.task) continue;
      if (rate.grade == one.grade) return &rate;
      if (one.grade.empty() || rate.grade.empty()) any = any ? any : &rate;
    }
    return any;
  }

  Result<void> add(const Estimate& one) {
    const Rate* rate = one.task.empty() ? nullptr : rate_of(one);
    CostLine shown{one.estimate, one.stage, one.task, one.grade, one.basis, one.amount ? one.amount->value() : 1,
                   {},           {},        "",       {},        {},        ""};
    cost::Line line;
    line.stage = one.stage;
    line.sherds = three(one.sherds_low, one.sherds_likely, one.sherds_high);
    line.hours = three(one.hours_low, one.hours_likely, one.hours_high);
    line.cost = three(one.cost_low, one.cost_likely, one.cost_high);
    if (one.basis == EstimateBasis::sherds) line.sherds = ThreePoints{1, 1, 1};
    if (request_.from_record) take_amount(one, shown, line);
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
    take_pace(one, shown, line);
    line.sherds_key = one.basis ? std::string(word(*one.basis)) : "";
    line.pace_key = one.task + "/" + one.grade;
    if (line.sherds) shown.sherds = line.amount * line.sherds->likely;
    shown.note = missing(one, line, rate);
    SHERD_CHECK(in_order(one, line));
    lines_.push_back(std::move(line));
    response_.lines.push_back(std::move(shown));
    return {};
  }

  void take_amount(const Estimate& one, CostLine& shown, cost::Line& line) const {
    const auto found = one.basis ? amounts_.amounts.find(*one.basis) : amounts_.amounts.end();
    if (found == amounts_.amounts.end() || is_recording(one.estimate) || one.estimate == "checking") return;
    shown.amount = found->second;
    const bool holds =
        *one.basis == EstimateBasis::boxes || *one.basis == EstimateBasis::bags || *one.basis == EstimateBasis::weight;
    if (!holds || !line.sherds || !(found->second > 0)) return;
    const double each = amounts_.amounts.at(EstimateBasis::sherds) / found->second;
    line.sherds = ThreePoints{each, each, each};
  }

  void take_pace(const Estimate& one, CostLine& shown, cost::Line& line) const {
    if (request_.measured && response_.measured && is_recording(one.task)) {
      line.pace =
          ThreePoints{response_.measured->pace_low, response_.measured->pace_likely, response_.measured->pace_high};
      shown.pace_from = "measured";
    } else if (line.pace) {
      shown.pace_from = "rates";
    }
    if (line.hours || !line.sherds) shown.pace_from.clear();
    if (line.pace && !shown.pace_from.empty()) shown.pace = line.pace->likely;
  }

  static std::string missing(const Estimate& one, const cost::Line& line, const Rate* rate) {
    if (!one.task.empty() && !rate) return "no rate for " + one.task + (one.grade.empty() ? "" : ", " + one.grade);
    if (line.sherds && !line.hours && !line.pace && !one.task.empty())
      return "the rate of " + one.task + " has no pace";
    if (!line.hours && !line.cost && !(line.sherds && line.pace)) return "neither hours nor cost";
    if (rate && !rate->rate_day && (line.hours || line.pace))
      return "the rate of " + one.task + " has no cost of a day";
    return {};
  }

  /// Rows typed by hand or merged may stand out of order where one of the three is not given.
  static Result<void> in_order(const Estimate& one, const cost::Line& line) {
    for (const auto* points : {&line.sherds, &line.pace, &line.hours, &line.cost}) {
      if (*points && !cost::check(**points))
        return fail("bad_estimate", "estimate " + one.estimate + ": least, likely and most are not in that order",
                    "correct the estimate or its rate");
    }
    if (line.pace && !(line.pace->low > 0))
      return fail("bad_estimate", "the rate of " + one.task + " has a pace of 0", "leave it blank instead");
    return {};
  }

  void add_stages(const cost::Estimate& found) {
    for (const cost::StageEstimate& stage : found.stages)
      response_.stages.push_back({stage.stage, stage.sum, 0, {}, ""});
    for (const WorkedHours& entry : hours_) {
      auto place = std::ranges::find(response_.stages, entry.stage, &CostStage::stage);
      if (place == response_.stages.end()) {
        if (!request_.quote.empty()) continue;
        response_.stages.push_back({entry.stage, {}, 0, {}, ""});
        place = response_.stages.end() - 1;
      }
      place->used_hours += entry.hours ? entry.hours->value() : 0;
    }
    response_.total.stage = "all";
    response_.total.sum = found.total;
    for (std::size_t i = 0; i < response_.stages.size(); ++i) {
      response_.total.used_hours += response_.stages[i].used_hours;
      compare(response_.stages[i], i < found.stages.size());
    }
    compare(response_.total, !lines_.empty());
  }
  static void compare(CostStage& stage, bool estimated) {
    const cost::Spread& hours = stage.sum.hours;
    if (estimated) stage.left_hours = hours.likely - stage.used_hours;
    if (stage.used_hours <= 0) return;
    if (!estimated || hours.most <= 0) {
      stage.against = "not in the quote";
    } else if (stage.used_hours > hours.most) {
      stage.against = "beyond all that was thought possible";
    } else if (stage.used_hours > hours.high) {
      stage.against = "beyond the range";
    } else if (stage.used_hours > hours.likely) {
      stage.against = "above the likely hours";
    } else {
      stage.against = "within the likely hours";
    }
  }

  void say_method() {
    const std::string percent = format_fixed(settings_.share * 100, 0);
    response_.method =
        "Hours are the amount times hours each, or times sherds each divided by the pace. Least and most put "
        "everything "
        "at its low and at its high end. Low and high hold " +
        percent + " % of " + grouped(settings_.draws) + " draws from " + std::string(word(settings_.shape)) +
        " distributions; lines that count by the same boxes, bags or kilograms are as full together, those of one task "
        "and "
        "grade as slow together, all else errs by itself.";
    response_.provenance.seed = settings_.seed;
    response_.provenance.settings["draws"] = std::to_string(settings_.draws);
    response_.provenance.settings["shape"] = std::string(word(settings_.shape));
    response_.provenance.settings["share"] = percent;
  }

  const CostSheetRequest& request_;
  const Session& session_;
  Environment& environment_;
  Progress& progress_;
  cost::Settings settings_;
  std::vector<Rate> rates_;
  std::vector<Estimate> estimates_, chosen_;
  std::vector<WorkedHours> hours_;
  RecordAmounts amounts_;
  std::vector<cost::Line> lines_;
  CostSheetResponse response_;
};

}  // namespace

Result<CostSheetResponse> show_cost_sheet(const CostSheetRequest& request, Environment& environment,
                                          Progress& progress) {
  SHERD_TRY(const auto format, cost_sheet_format(request.out));
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  SHERD_TRY(CostSheetResponse response, Sheet(request, session, environment, progress).run());
  SHERD_TRY(Provenance provenance, session.provenance(environment));
  provenance.settings = response.provenance.settings;
  provenance.seed = response.provenance.seed;
  response.provenance = std::move(provenance);
  response.warnings = session.store->warnings();
  for (const CostLine& line : response.lines) {
    if (!line.note.empty()) response.warnings.push_back("estimate " + line.estimate + ": " + line.note);
  }
  if (format) {
    SHERD_TRY(const std::string bytes, cost_sheet_file(*format, session.site, response));
    SHERD_CHECK(environment.files->write(request.out, bytes));
    response.file = request.out;
  }
  return response;
}

}  // namespace sherd::desk
