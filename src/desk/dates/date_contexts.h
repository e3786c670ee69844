#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "methods/dating/result.h"
#include "methods/stratigraphy/result.h"
#include "model/words.h"

namespace sherd::desk {

struct DateRequest {
  std::string store, site;
  std::string context, measure, curve;
  bool only_spot = false, brief = false;
  std::optional<std::int64_t> bin, seed;

  template <class V>
  static void fields(V& v) {
    v.field("store", &DateRequest::store, argument("the store"));
    v.field("only_spot", &DateRequest::only_spot,
            option("the conventional dates: terminus post quem, spot range, mean date, apportioned curve"));
    v.field("context", &DateRequest::context, option("this context only"));
    v.field("brief", &DateRequest::brief,
            option("without curves, mean dates and the records that a spot range or a residual share rests on"));
    v.field("bin", &DateRequest::bin, option("years a bin of the apportioned curves (25 unless said)"));
    v.field("measure", &DateRequest::measure,
            option("what weights mean dates and is apportioned: count (unless said), weight_g, vessels or eve"));
    v.field("curve", &DateRequest::curve,
            option("how a ware's making is spread over its years: flat (unless said), trapezoid or popularity"));
    v.field("seed", &DateRequest::seed, option("the seed of the mean date's resampling (1 unless said)"));
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

/// Asked for in brief, it leaves out `mean_date`, `apportioned`, `bracket`, `spot.records`, `spot.because` and
/// `residual.records`.
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
  dating::Residual residual;
  std::vector<dating::KeptLong> kept_long;

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
  }
};

struct PhaseDate {
  std::string phase, title, area;
  std::optional<Year> earliest, latest;
  std::int64_t contexts = 0;
  std::optional<Year> latest_terminus;

  template <class V>
  static void fields(V& v) {
    v.field("phase", &PhaseDate::phase);
    v.field("title", &PhaseDate::title);
    v.field("area", &PhaseDate::area);
    v.field("earliest", &PhaseDate::earliest);
    v.field("latest", &PhaseDate::latest);
    v.field("contexts", &PhaseDate::contexts);
    v.field("latest_terminus", &PhaseDate::latest_terminus);
  }
};

struct DateResponse : Reply {
  std::string measure = "count", curve = "flat";
  std::int64_t bin = 25;
  std::vector<ContextDate> contexts;
  std::vector<PhaseDate> phases;
  std::vector<stratigraphy::Stopped> stopped;

  template <class V>
  static void fields(V& v) {
    v.field("measure", &DateResponse::measure);
    v.field("curve", &DateResponse::curve);
    v.field("bin", &DateResponse::bin);
    v.field("contexts", &DateResponse::contexts);
    v.field("phases", &DateResponse::phases);
    v.field("stopped", &DateResponse::stopped);
  }
};

/// Dates every context, or the one asked for. Errors: `loop` where the relations run in a circle, `only_spot` where
/// modelled dates are asked for, `no_context`, `unknown_word`, those of the store.
Result<DateResponse> date_contexts(const DateRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
