#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/dates/kept_date.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "methods/dating/result.h"
#include "methods/stratigraphy/result.h"
#include "model/words.h"

namespace sherd::desk {

struct DateRequest {
  std::string store, site;
  std::string context, measure, curve;
  bool only_spot = false, brief = false, in_sequence = false, keep = false;
  std::optional<std::int64_t> bin, seed, chains, draws;
  std::string window, limits, settings;
  std::vector<std::string> pair;

  template <class V>
  static void fields(V& v) {
    v.field("store", &DateRequest::store, argument("the store"));
    v.field("only_spot", &DateRequest::only_spot,
            option("the conventional dates: terminus post quem, spot range, mean date, apportioned curve"));
    v.field("context", &DateRequest::context, option("this context only, by its own pottery alone"));
    v.field("in_sequence", &DateRequest::in_sequence,
            option("with --context: also with what its relations carry to it, for which the whole record is read"));
    v.field("brief", &DateRequest::brief,
            option("without curves, mean dates and the records that a spot range or a residual share rests on"));
    v.field("bin", &DateRequest::bin, option("years a bin of the apportioned curves (25 unless said)"));
    v.field("measure", &DateRequest::measure,
            option("what weights mean dates and is apportioned: count (unless said), weight_g, vessels or eve"));
    v.field("curve", &DateRequest::curve,
            option("how a ware's making is spread over its years: flat (unless said), trapezoid or popularity"));
    v.field("window", &DateRequest::window, option("first and last year looked at, such as -50:450"));
    v.field("limits", &DateRequest::limits,
            option("what holds the contexts together: none, site (unless said) or phases"));
    v.field("settings", &DateRequest::settings, option("a file (JSON) with numbers of the model other than ours"));
    v.field("keep", &DateRequest::keep,
            option("keep the dates in sequence in the store: diagram and recording then show them"));
    v.field("pair", &DateRequest::pair,
            option("LATER>EARLIER: how likely it is that the first is the later; may be given again"));
    v.field("chains", &DateRequest::chains, option("chains of draws side by side (4 unless said)"));
    v.field("draws", &DateRequest::draws, option("the most draws of a chain (20,000 unless said)"));
    v.field("seed", &DateRequest::seed, option("the seed of draws and of the mean date's resampling (1 unless said)"));
    v.field("site", &DateRequest::site, option("the site, where the store holds several"));
  }
};

struct OwnDate {
  std::optional<Year> earliest, latest;
  std::string reason, confidence;

  template <class V>
  static void fields(V& v) {
    v.field("earliest", &OwnDate::earliest);
    v.field("latest", &OwnDate::latest);
    v.field("reason", &OwnDate::reason);
    v.field("confidence", &OwnDate::confidence);
  }
};

/// A terminus with what sets it: the context's own line, or one of an earlier context.
struct TerminusAnswer {
  std::optional<Year> year, own;
  std::string from, record, via, because;
  bool carried = false;

  template <class V>
  static void fields(V& v) {
    v.field("year", &TerminusAnswer::year);
    v.field("because", &TerminusAnswer::because);
    v.field("own", &TerminusAnswer::own);
    v.field("carried", &TerminusAnswer::carried);
    v.field("from", &TerminusAnswer::from);
    v.field("record", &TerminusAnswer::record);
    v.field("via", &TerminusAnswer::via);
  }
};

/// Pottery that is older than its context. From a model the amounts are expected ones: each date-group's by its chance
/// of being residual.
struct ResidualAnswer {
  std::optional<double> count, weight_g, vessels;
  std::optional<double> count_share, weight_share, vessels_share;
  std::vector<std::string> records;
  bool expected = false;

  template <class V>
  static void fields(V& v) {
    v.field("count", &ResidualAnswer::count);
    v.field("weight_g", &ResidualAnswer::weight_g);
    v.field("vessels", &ResidualAnswer::vessels);
    v.field("count_share", &ResidualAnswer::count_share);
    v.field("weight_share", &ResidualAnswer::weight_share);
    v.field("vessels_share", &ResidualAnswer::vessels_share);
    v.field("records", &ResidualAnswer::records);
    v.field("expected", &ResidualAnswer::expected);
  }
};

/// What stands from `same_as` on comes from the model alone. Asked for in brief, it leaves out `mean_date`,
/// `apportioned`, `bracket`, `spot.records`, `spot.because` and `residual.records`.
struct ContextDate {
  std::string context, type, description;
  std::optional<Deposit> deposit;
  std::string phase;
  std::int64_t lines = 0;
  std::optional<std::int64_t> sherds;
  OwnDate mine;
  TerminusAnswer terminus_post_quem;
  dating::Spot spot;
  dating::MeanDate mean_date;
  std::vector<dating::Bin> apportioned;
  std::optional<double> apportioned_undated;
  std::optional<dating::Bracket> bracket;
  std::vector<std::string> flags;
  ResidualAnswer residual;
  std::vector<dating::KeptLong> kept_long;
  std::vector<std::string> same_as;
  std::string printed;
  std::optional<stratigraphy::DateSummary> began, completed, alone_began, alone, not_intrusive;
  std::optional<Year> or_later_from;
  std::optional<double> or_later, strain;
  std::vector<stratigraphy::GroupDate> groups, other_grouping;
  std::vector<stratigraphy::DateFlag> date_flags;
  std::optional<KeptDate> kept;  ///< of one context alone: its date in sequence as it was kept last

  template <class V>
  static void fields(V& v) {
    v.field("context", &ContextDate::context);
    v.field("type", &ContextDate::type);
    v.field("description", &ContextDate::description);
    v.field("deposit", &ContextDate::deposit);
    v.field("phase", &ContextDate::phase);
    v.field("lines", &ContextDate::lines);
    v.field("sherds", &ContextDate::sherds);
    v.field("mine", &ContextDate::mine);
    v.field("terminus_post_quem", &ContextDate::terminus_post_quem);
    v.field("spot", &ContextDate::spot);
    v.field("mean_date", &ContextDate::mean_date);
    v.field("apportioned", &ContextDate::apportioned);
    v.field("apportioned_undated", &ContextDate::apportioned_undated);
    v.field("bracket", &ContextDate::bracket);
    v.field("flags", &ContextDate::flags);
    v.field("residual", &ContextDate::residual);
    v.field("kept_long", &ContextDate::kept_long);
    v.field("same_as", &ContextDate::same_as);
    v.field("printed", &ContextDate::printed);
    v.field("began", &ContextDate::began);
    v.field("completed", &ContextDate::completed);
    v.field("alone_began", &ContextDate::alone_began);
    v.field("alone", &ContextDate::alone);
    v.field("not_intrusive", &ContextDate::not_intrusive);
    v.field("or_later_from", &ContextDate::or_later_from);
    v.field("or_later", &ContextDate::or_later);
    v.field("strain", &ContextDate::strain);
    v.field("groups", &ContextDate::groups);
    v.field("other_grouping", &ContextDate::other_grouping);
    v.field("date_flags", &ContextDate::date_flags);
    v.field("kept", &ContextDate::kept);
  }
};

struct PhaseDate {
  std::string phase, title, area;
  std::optional<Year> earliest, latest;
  std::int64_t contexts = 0;
  std::optional<Year> latest_terminus;
  std::optional<stratigraphy::DateSummary> start = {}, finish = {};  ///< from the model, as what follows
  std::optional<std::int64_t> length = {};
  std::vector<std::int64_t> length95 = {};

  template <class V>
  static void fields(V& v) {
    v.field("phase", &PhaseDate::phase);
    v.field("title", &PhaseDate::title);
    v.field("area", &PhaseDate::area);
    v.field("earliest", &PhaseDate::earliest);
    v.field("latest", &PhaseDate::latest);
    v.field("contexts", &PhaseDate::contexts);
    v.field("latest_terminus", &PhaseDate::latest_terminus);
    v.field("start", &PhaseDate::start);
    v.field("finish", &PhaseDate::finish);
    v.field("length", &PhaseDate::length);
    v.field("length95", &PhaseDate::length95);
  }
};

struct DateResponse : Reply {
  std::string measure = "count", curve = "flat";
  std::int64_t bin = 25;
  std::vector<ContextDate> contexts;
  std::vector<PhaseDate> phases;
  std::vector<stratigraphy::Stopped> stopped;
  std::vector<Year> window;
  std::vector<stratigraphy::PairOrder> pairs;
  std::optional<stratigraphy::SamplerReport> sampler;
  std::optional<KeptState> kept;        ///< of `contexts[].kept`
  std::optional<std::int64_t> kept_as;  ///< asked to keep them: the change that did

  template <class V>
  static void fields(V& v) {
    v.field("measure", &DateResponse::measure);
    v.field("curve", &DateResponse::curve);
    v.field("bin", &DateResponse::bin);
    v.field("contexts", &DateResponse::contexts);
    v.field("phases", &DateResponse::phases);
    v.field("stopped", &DateResponse::stopped);
    v.field("window", &DateResponse::window);
    v.field("pairs", &DateResponse::pairs);
    v.field("sampler", &DateResponse::sampler);
    v.field("kept", &DateResponse::kept);
    v.field("kept_as", &DateResponse::kept_as);
  }
};

/// Dates every context, or the one asked for: by its own pottery, without phases, or in sequence as among all the
/// others. Errors: `loop` where the relations run in a circle,
/// `no_context`, `unknown_word`, `bad_settings`, those of date_in_sequence and of the store.
Result<DateResponse> date_contexts(const DateRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
