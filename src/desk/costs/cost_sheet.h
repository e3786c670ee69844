#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "methods/cost/estimate.h"
#include "model/words.h"

namespace sherd::desk {

struct CostSheetRequest {
  std::string store, quote, shape, out, site;
  bool from_record = false, measured = false;
  std::optional<std::int64_t> draws, seed, share;

  template <class V>
  static void fields(V& v) {
    v.field("store", &CostSheetRequest::store, argument("the store"));
    v.field("quote", &CostSheetRequest::quote, option("lines of this quote alone; of all unless said"));
    v.field(
        "from_record", &CostSheetRequest::from_record,
        option(
            "amounts as the record has them now: its boxes, bags, weight, sherds, lines, vessels, samples, drawings; "
            "without estimates, what is still to record and to check by the rates"));
    v.field("measured", &CostSheetRequest::measured,
            option("the pace of recording as the history of this store measures it, in place of the rates' own"));
    v.field("shape", &CostSheetRequest::shape,
            option("how an amount lies between its ends: triangular (unless said) or pert"));
    v.field("share", &CostSheetRequest::share, option("percent of the draws between low and high (80 unless said)"));
    v.field("draws", &CostSheetRequest::draws, option("20,000 unless said"));
    v.field("seed", &CostSheetRequest::seed, option("of the draws (1 unless said)"));
    v.field("out", &CostSheetRequest::out, option("a file to write, too: .html, which prints on A4, .csv or .xlsx"));
    v.field("site", &CostSheetRequest::site, option("the site, where the store holds several"));
  }
};

struct CostLine {
  std::string estimate, stage, task, grade;
  std::optional<EstimateBasis> basis;
  double amount = 1;
  std::optional<double> sherds;    ///< likely, in all of the amount
  std::optional<double> pace;      ///< likely, sherds an hour
  std::string pace_from;           ///< "rates", "measured"; "" where hours are given
  std::optional<double> rate_day;  ///< of a day
  cost::LineEstimate sum;
  std::string note;  ///< what is missing, so that it adds nothing

  template <class V>
  static void fields(V& v) {
    v.field("estimate", &CostLine::estimate);
    v.field("stage", &CostLine::stage);
    v.field("task", &CostLine::task);
    v.field("grade", &CostLine::grade);
    v.field("basis", &CostLine::basis);
    v.field("amount", &CostLine::amount);
    v.field("sherds", &CostLine::sherds);
    v.field("pace", &CostLine::pace);
    v.field("pace_from", &CostLine::pace_from);
    v.field("rate_day", &CostLine::rate_day);
    v.field("sum", &CostLine::sum);
    v.field("note", &CostLine::note);
  }
};

/// What a stage is to take and has taken.
struct CostStage {
  std::string stage;
  cost::LineEstimate sum;
  double used_hours = 0;             ///< as entered in `hours`
  std::optional<double> left_hours;  ///< likely less used, where the stage was estimated
  std::string against;               ///< "within", "beyond the range", ...; "" where nothing was used

  template <class V>
  static void fields(V& v) {
    v.field("stage", &CostStage::stage);
    v.field("sum", &CostStage::sum);
    v.field("used_hours", &CostStage::used_hours);
    v.field("left_hours", &CostStage::left_hours);
    v.field("against", &CostStage::against);
  }
};

/// A pace as this store's history has it.
struct MeasuredPace {
  double pace_low = 0, pace_likely = 0, pace_high = 0;  ///< sherds an hour: 10th, 50th and 90th percentile of days
  double hours = 0, lines_hour = 0;
  std::int64_t days = 0, sherds = 0, lines = 0;

  template <class V>
  static void fields(V& v) {
    v.field("pace_low", &MeasuredPace::pace_low);
    v.field("pace_likely", &MeasuredPace::pace_likely);
    v.field("pace_high", &MeasuredPace::pace_high);
    v.field("hours", &MeasuredPace::hours);
    v.field("lines_hour", &MeasuredPace::lines_hour);
    v.field("days", &MeasuredPace::days);
    v.field("sherds", &MeasuredPace::sherds);
    v.field("lines", &MeasuredPace::lines);
  }
};

struct CostSheetResponse : Reply {
  std::string quote, currency;
  std::vector<std::string> quotes;  ///< names of those that the store keeps
  std::vector<CostLine> lines;
  std::vector<CostStage> stages;  ///< of the lines, then those that only have hours
  CostStage total;
  std::optional<MeasuredPace> measured;  ///< where the history has enough of it
  std::string method;                    ///< how the limits come about, in sentences
  std::string file;

  template <class V>
  static void fields(V& v) {
    v.field("quote", &CostSheetResponse::quote);
    v.field("currency", &CostSheetResponse::currency);
    v.field("quotes", &CostSheetResponse::quotes);
    v.field("lines", &CostSheetResponse::lines);
    v.field("stages", &CostSheetResponse::stages);
    v.field("total", &CostSheetResponse::total);
    v.field("measured", &CostSheetResponse::measured);
    v.field("method", &CostSheetResponse::method);
    v.field("file", &CostSheetResponse::file);
  }
};

/// Hours and cost by stage, with their range, from the estimates and rates of the store, set against the hours that
/// were really used. Errors: `no_estimates`, `unknown_quote` with "did you mean", `mixed_currency`, `nothing_measured`,
/// `bad_shape`, `bad_number`, `unknown_format`; those of store and file.
Result<CostSheetResponse> show_cost_sheet(const CostSheetRequest& request, Environment& environment,
                                          Progress& progress);

}  // namespace sherd::desk
