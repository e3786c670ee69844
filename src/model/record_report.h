#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "model/column.h"
#include "model/quantity.h"
#include "model/words.h"

/// Rows of the record that the report is made of, and those that say what the work is to cost and has taken.
/// Field lists as in record.h.
namespace sherd {

/// A block of prose that the specialist writes, in Markdown with live fields ({{total sherds}}).
struct TextBlock {
  std::string text, section, title, reports;
  std::optional<std::int64_t> position;
  std::string body, author, written_on, notes;

  template <class V>
  static void fields(V& v) {
    v.field("text", &TextBlock::text, ColumnNote{.key = true, .required = true});
    v.field("section", &TextBlock::section, ColumnNote{.required = true, .help = "the heading that it stands under"});
    v.field("title", &TextBlock::title, ColumnNote{.help = "a heading of its own; blank is none"});
    v.field("reports", &TextBlock::reports, ColumnNote{.help = "types of report: 2, 3; blank is all"});
    v.field("position", &TextBlock::position, ColumnNote{.help = "its place under the heading"});
    v.field("body", &TextBlock::body, ColumnNote{.help = "Markdown with fields such as {{total sherds}}"});
    v.field("author", &TextBlock::author, ColumnNote{});
    v.field("written_on", &TextBlock::written_on, ColumnNote{});
    v.field("notes", &TextBlock::notes, ColumnNote{});
  }
};

/// A table or figure of the report that the specialist places, captions anew or leaves out.
struct ReportItem {
  std::string item, section, shows;
  std::optional<Shown> shown;
  std::string reports;
  std::optional<std::int64_t> position;
  std::string caption, notes;

  template <class V>
  static void fields(V& v) {
    v.field("item", &ReportItem::item,
            ColumnNote{.key = true, .required = true, .help = "by which the prose names it"});
    v.field("section", &ReportItem::section, ColumnNote{.help = "the heading that it stands under"});
    v.field("shows", &ReportItem::shows, ColumnNote{.required = true, .help = "which table or figure it is"});
    v.field("shown", &ReportItem::shown, ColumnNote{.help = "blank is yes"});
    v.field("reports", &ReportItem::reports, ColumnNote{.help = "types of report: 2, 3; blank is all"});
    v.field("position", &ReportItem::position, ColumnNote{.help = "its place among the others"});
    v.field("caption", &ReportItem::caption, ColumnNote{.help = "in place of the program's own"});
    v.field("notes", &ReportItem::notes, ColumnNote{});
  }
};

/// A work that the report may cite.
struct Citation {
  std::string citation, type, authors, year, title, csl, notes;

  template <class V>
  static void fields(V& v) {
    v.field("citation", &Citation::citation, ColumnNote{.key = true, .required = true, .help = "its key: orton1975"});
    v.field("type", &Citation::type, ColumnNote{.help = "as CSL has it: book, article-journal, chapter"});
    v.field("authors", &Citation::authors, ColumnNote{.help = "family names first, parted by semicolons"});
    v.field("year", &Citation::year, ColumnNote{});
    v.field("title", &Citation::title, ColumnNote{.required = true});
    v.field("csl", &Citation::csl, ColumnNote{.help = "the whole entry as CSL JSON"});
    v.field("notes", &Citation::notes, ColumnNote{});
  }
};

/// What a day of a task costs, and how fast it goes.
struct Rate {
  std::string task, grade;
  std::optional<Decimal> rate_day, hours_day, pace_low, pace_likely, pace_high;
  std::string currency, reference, notes;

  template <class V>
  static void fields(V& v) {
    v.field("task", &Rate::task, ColumnNote{.key = true, .required = true});
    v.field("grade", &Rate::grade, ColumnNote{.key = true, .help = "who does it: specialist, assistant"});
    v.field("rate_day", &Rate::rate_day, ColumnNote{.help = "cost of a day"});
    v.field("hours_day", &Rate::hours_day, ColumnNote{.help = "hours in a day; blank is 7.5"});
    v.field("pace_low", &Rate::pace_low, ColumnNote{.help = "sherds an hour at the slowest"});
    v.field("pace_likely", &Rate::pace_likely, ColumnNote{.help = "sherds an hour as a rule"});
    v.field("pace_high", &Rate::pace_high, ColumnNote{.help = "sherds an hour at the fastest"});
    v.field("currency", &Rate::currency, ColumnNote{.help = "as it is to be written"});
    v.field("reference", &Rate::reference, ColumnNote{.help = "where the rate stands"});
    v.field("notes", &Rate::notes, ColumnNote{});
  }
};

/// A line of a quote: so many boxes, bags or kilograms with so many sherds each, hours known beforehand, or a cost from
/// outside or a fee for each of them.
struct Estimate {
  std::string estimate, quote, stage, task, grade;
  std::optional<EstimateBasis> basis;
  std::optional<Decimal> amount, sherds_low, sherds_likely, sherds_high, hours_low, hours_likely, hours_high, cost_low,
      cost_likely, cost_high;
  std::string currency, made_by, made_on, notes;

  template <class V>
  static void fields(V& v) {
    v.field("estimate", &Estimate::estimate, ColumnNote{.key = true, .required = true});
    v.field("quote", &Estimate::quote, ColumnNote{.help = "the quote that the line belongs to"});
    v.field("stage", &Estimate::stage, ColumnNote{.required = true, .help = "assessment, analysis, archive"});
    v.field("task", &Estimate::task, ColumnNote{.help = "as in rates"});
    v.field("grade", &Estimate::grade, ColumnNote{.help = "as in rates"});
    v.field("basis", &Estimate::basis, ColumnNote{.required = true, .help = "what the amount counts"});
    v.field("amount", &Estimate::amount, ColumnNote{.help = "how many; blank is 1"});
    v.field("sherds_low", &Estimate::sherds_low, ColumnNote{.help = "sherds in each, at the least"});
    v.field("sherds_likely", &Estimate::sherds_likely, ColumnNote{.help = "sherds in each, as is likely"});
    v.field("sherds_high", &Estimate::sherds_high, ColumnNote{.help = "sherds in each, at the most"});
    v.field("hours_low", &Estimate::hours_low, ColumnNote{.help = "hours for each, at the least"});
    v.field("hours_likely", &Estimate::hours_likely, ColumnNote{.help = "hours for each, as is likely"});
    v.field("hours_high", &Estimate::hours_high, ColumnNote{.help = "hours for each, at the most"});
    v.field("cost_low", &Estimate::cost_low, ColumnNote{.help = "outside cost or fee for each, at the least"});
    v.field("cost_likely", &Estimate::cost_likely, ColumnNote{.help = "outside cost or fee for each, as is likely"});
    v.field("cost_high", &Estimate::cost_high, ColumnNote{.help = "outside cost or fee for each, at the most"});
    v.field("currency", &Estimate::currency, ColumnNote{.help = "as it is to be written"});
    v.field("made_by", &Estimate::made_by, ColumnNote{});
    v.field("made_on", &Estimate::made_on, ColumnNote{});
    v.field("notes", &Estimate::notes, ColumnNote{});
  }
};

/// Hours that somebody really worked.
struct WorkedHours {
  std::string entry, stage, task, grade, who, worked_on;
  std::optional<Decimal> hours;
  std::string notes;

  template <class V>
  static void fields(V& v) {
    v.field("entry", &WorkedHours::entry, ColumnNote{.key = true, .required = true});
    v.field("stage", &WorkedHours::stage, ColumnNote{.required = true, .help = "as in estimates"});
    v.field("task", &WorkedHours::task, ColumnNote{.help = "as in rates"});
    v.field("grade", &WorkedHours::grade, ColumnNote{.help = "as in rates"});
    v.field("who", &WorkedHours::who, ColumnNote{});
    v.field("worked_on", &WorkedHours::worked_on, ColumnNote{});
    v.field("hours", &WorkedHours::hours, ColumnNote{.required = true});
    v.field("notes", &WorkedHours::notes, ColumnNote{});
  }
};

}  // namespace sherd
