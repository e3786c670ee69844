#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "model/mark_tables.h"
#include "model/words.h"
#include "model/year.h"

namespace sherd::desk {

struct NotationRequest {
  std::string what, text, style, to, authority;

  template <class V>
  static void fields(V& v) {
    v.field("what", &NotationRequest::what,
            argument("the notation: date, mark, colour, firing, size, rounding, sorting, frequency or hardness"));
    v.field("text", &NotationRequest::text, argument("what is written, such as \"L13-E14\" or \"10YR 5/4\""));
    v.field("style", &NotationRequest::style,
            option("of a date: default, cco, object-id, ucsd, mid-30-70, quarters or edtf; of a grade: the name of its "
                   "scale"));
    v.field("authority", &NotationRequest::authority,
            option("whose years the names of periods and reigns have in a date, such as pas"));
    v.field("to", &NotationRequest::to, option("of a grade: the scale to convert to; else all that there are"));
  }
};

/// One thing a mark may mean.
struct NotationAnswer {
  std::string mark, reads;
  std::optional<Year> earliest, latest;
  std::string on;  ///< the day of a registration, 1862-02-18; blank where it was not read whole
  MarkDates dates = MarkDates::vessel;
  Nature nature = Nature::limit;
  std::string source;
  Known known = Known::read;
  bool likely = true;
  std::string ruled_out;  ///< why it can not be; blank where it can

  template <class V>
  static void fields(V& v) {
    v.field("mark", &NotationAnswer::mark);
    v.field("reads", &NotationAnswer::reads);
    v.field("earliest", &NotationAnswer::earliest);
    v.field("latest", &NotationAnswer::latest);
    v.field("on", &NotationAnswer::on);
    v.field("dates", &NotationAnswer::dates);
    v.field("nature", &NotationAnswer::nature);
    v.field("source", &NotationAnswer::source);
    v.field("known", &NotationAnswer::known);
    v.field("likely", &NotationAnswer::likely);
    v.field("ruled_out", &NotationAnswer::ruled_out);
  }
};

/// CIE 1931 under illuminant C, and on a screen; null where the table of the renotation does not reach.
struct NotationColour {
  std::string reads;
  std::optional<double> x, y, luminance;
  std::string srgb, words;
  bool in_gamut = true;
  bool interpolated = false;

  template <class V>
  static void fields(V& v) {
    v.field("reads", &NotationColour::reads);
    v.field("x", &NotationColour::x);
    v.field("y", &NotationColour::y);
    v.field("Y", &NotationColour::luminance);
    v.field("srgb", &NotationColour::srgb);
    v.field("words", &NotationColour::words);
    v.field("in_gamut", &NotationColour::in_gamut);
    v.field("interpolated", &NotationColour::interpolated);
  }
};

struct NotationZone {
  std::string zone, firing;

  template <class V>
  static void fields(V& v) {
    v.field("zone", &NotationZone::zone);
    v.field("firing", &NotationZone::firing);
  }
};

/// A grade on a named scale. An open end, or one that the scale does not give, is null.
struct NotationGrade {
  std::string scale, version, reads;
  std::optional<double> low, high;
  std::string unit;
  bool exact = true;
  std::string loss;  ///< what a conversion loses, or why it can not be made

  template <class V>
  static void fields(V& v) {
    v.field("scale", &NotationGrade::scale);
    v.field("version", &NotationGrade::version);
    v.field("reads", &NotationGrade::reads);
    v.field("low", &NotationGrade::low);
    v.field("high", &NotationGrade::high);
    v.field("unit", &NotationGrade::unit);
    v.field("exact", &NotationGrade::exact);
    v.field("loss", &NotationGrade::loss);
  }
};

/// Years before 1950, not calibrated.
struct NotationAge {
  std::int64_t older = 0;
  std::int64_t younger = 0;
  std::optional<std::int64_t> sd;

  template <class V>
  static void fields(V& v) {
    v.field("older", &NotationAge::older);
    v.field("younger", &NotationAge::younger);
    v.field("sd", &NotationAge::sd);
  }
};

/// What follows `because` belongs to one of the notations each and is null or blank with the others.
struct NotationResponse : Reply {
  std::string text, reads;  ///< `reads`: the range, the colour, the grade in words
  std::optional<Year> earliest, latest;
  Certainty certainty = Certainty::sure;
  bool circa = false;
  std::string style;
  std::vector<std::string> because;
  std::string what, kind;  ///< `kind` of a date: calendar, calibrated, uncalibrated, radiocarbon age
  std::string edtf, period_authority, lab;
  std::optional<double> probability;
  std::optional<NotationAge> age;
  std::vector<NotationAnswer> readings;
  std::vector<std::string> not_said;  ///< of a mark: what it does not say
  std::optional<NotationColour> colour, colour_to;
  std::vector<NotationZone> zones;
  std::optional<NotationGrade> grade;
  std::optional<double> phi_low, phi_high;  ///< of a size
  std::vector<NotationGrade> also;          ///< the grade on other scales

  template <class V>
  static void fields(V& v) {
    v.field("text", &NotationResponse::text);
    v.field("reads", &NotationResponse::reads);
    v.field("earliest", &NotationResponse::earliest);
    v.field("latest", &NotationResponse::latest);
    v.field("certainty", &NotationResponse::certainty);
    v.field("circa", &NotationResponse::circa);
    v.field("style", &NotationResponse::style);
    v.field("because", &NotationResponse::because);
    v.field("what", &NotationResponse::what);
    v.field("kind", &NotationResponse::kind);
    v.field("edtf", &NotationResponse::edtf);
    v.field("period_authority", &NotationResponse::period_authority);
    v.field("lab", &NotationResponse::lab);
    v.field("probability", &NotationResponse::probability);
    v.field("age", &NotationResponse::age);
    v.field("readings", &NotationResponse::readings);
    v.field("not_said", &NotationResponse::not_said);
    v.field("colour", &NotationResponse::colour);
    v.field("colour_to", &NotationResponse::colour_to);
    v.field("zones", &NotationResponse::zones);
    v.field("grade", &NotationResponse::grade);
    v.field("phi_low", &NotationResponse::phi_low);
    v.field("phi_high", &NotationResponse::phi_high);
    v.field("also", &NotationResponse::also);
  }
};

/// A notation explained. Errors: `unknown_notation`, `unknown_date_style`, `unknown_scale`, `unreadable_date`,
/// `unreadable_mark`, `impossible_mark`, `unreadable_colour`, `unreadable_firing`, `unreadable_scale`.
Result<NotationResponse> read_notation(const NotationRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
