#include "desk/costs/cost_sheet.h"

#include <algorithm>
#include <set>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/costs/cost_sheet_files.h"
#include "desk/costs/quote_lines.h"
#include "desk/costs/record_amounts.h"
#include "desk/frame/session.h"
#include "model/record_report.h"
#include "model/rows.h"

namespace sherd::desk {

namespace {

constexpr std::int64_t kShare = 80;

class Sheet {
 public:
  Sheet(const CostSheetRequest& request, const Session& session, Environment& environment, Progress& progress)
      : request_(request), session_(session), environment_(environment), progress_(progress) {}

  Result<CostSheetResponse> run() {
    SHERD_CHECK(understand());
    SHERD_CHECK(read());
    SHERD_CHECK(choose_lines());
    SHERD_CHECK(check_currency());
    SHERD_CHECK(work_out());
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
    if (chosen_.empty() && request_.from_record)
      chosen_ = lines_left(rates_, amounts_, session_.site.level ? std::string(word(*session_.site.level)) : "");
    if (!chosen_.empty() || !hours_.empty()) return {};
    return fail(
        "no_estimates", "the store has no estimates yet",
        request_.from_record
            ? "give rates with a pace: sherdwright add STORE rates task=\"basic record\" rate_day=240 pace_likely=60"
            : "add lines: sherdwright add STORE estimates estimate=E1 stage=analysis basis=boxes amount=12 "
              "sherds_low=100 sherds_likely=200 sherds_high=350 task=\"basic record\"");
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
      if (const Rate* rate = rate_of(one, rates_)) {
        SHERD_CHECK(note(rate->currency, "the rate of " + rate->task));
      }
    }
    return {};
  }

  Result<void> work_out() {
    const QuoteBasis basis{rates_, request_.from_record ? &amounts_ : nullptr,
                           request_.measured ? &*response_.measured : nullptr};
    for (const Estimate& one : chosen_) {
      SHERD_TRY(QuoteLine made, quote_line(one, basis));
      lines_.push_back(std::move(made.line));
      response_.lines.push_back(std::move(made.shown));
    }
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
