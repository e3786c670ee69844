#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "methods/dating/result_context.h"
#include "model/words.h"
#include "model/year.h"

namespace sherd::dating {

/// A row that dates one piece, as a reason. Rows that are equally specific stand one after another under the same
/// words.
struct WhenReason {
  std::string evidence;  ///< "ware=creamware, edge=feather"
  std::optional<Year> earliest, latest;
  std::string source;
  DateBasis basis = DateBasis::made;
  Nature nature = Nature::span;
  std::optional<Known> known;
  double weight = 0;      ///< bits by which the years would be less certain without it
  bool of_store = false;  ///< from the store's own rows
  std::string note;

  template <class V>
  static void fields(V& v) {
    v.field("evidence", &WhenReason::evidence);
    v.field("earliest", &WhenReason::earliest);
    v.field("latest", &WhenReason::latest);
    v.field("source", &WhenReason::source);
    v.field("basis", &WhenReason::basis);
    v.field("nature", &WhenReason::nature);
    v.field("known", &WhenReason::known);
    v.field("weight", &WhenReason::weight);
    v.field("of_store", &WhenReason::of_store);
    v.field("note", &WhenReason::note);
  }
};

/// Evidence to set aside so that years are left, and the years then.
struct WhenDrop {
  std::vector<std::string> evidence;
  std::optional<Year> earliest, latest;

  template <class V>
  static void fields(V& v) {
    v.field("evidence", &WhenDrop::evidence);
    v.field("earliest", &WhenDrop::earliest);
    v.field("latest", &WhenDrop::latest);
  }
};

/// What does not go together. Codes: `no_year_fits`, `spans_miss` (only their shoulders meet), `outside_window`,
/// `sources_differ`, `regions_differ`, `unusual`.
struct WhenConflict {
  std::string code, message;
  std::vector<std::string> evidence, sources;
  std::vector<WhenDrop> drop;  ///< all smallest sets, where no year fits

  template <class V>
  static void fields(V& v) {
    v.field("code", &WhenConflict::code);
    v.field("message", &WhenConflict::message);
    v.field("evidence", &WhenConflict::evidence);
    v.field("sources", &WhenConflict::sources);
    v.field("drop", &WhenConflict::drop);
  }
};

/// Another ware with which everything else that was seen goes together.
struct WhenAlternative {
  std::string ware;
  std::optional<Year> earliest, latest;
  std::vector<std::string> rests_on;  ///< rows of that ware that the observations bear out

  template <class V>
  static void fields(V& v) {
    v.field("ware", &WhenAlternative::ware);
    v.field("earliest", &WhenAlternative::earliest);
    v.field("latest", &WhenAlternative::latest);
    v.field("rests_on", &WhenAlternative::rests_on);
  }
};

/// One thing that a further look might show, and what would follow.
struct TellingAnswer {
  std::string value;  ///< "" for none of the known ones
  double share = 0;   ///< how often, by the rows that are known
  std::optional<Year> earliest, latest;
  std::vector<Year> most_likely;  ///< first and last year; empty where the years are open

  template <class V>
  static void fields(V& v) {
    v.field("value", &TellingAnswer::value);
    v.field("share", &TellingAnswer::share);
    v.field("earliest", &TellingAnswer::earliest);
    v.field("latest", &TellingAnswer::latest);
    v.field("most_likely", &TellingAnswer::most_likely);
  }
};

/// A further observation and the bits of uncertainty that it is expected to take away.
struct Telling {
  std::string key;
  double bits = 0;
  std::vector<TellingAnswer> answers;

  template <class V>
  static void fields(V& v) {
    v.field("key", &Telling::key);
    v.field("bits", &Telling::bits);
    v.field("answers", &Telling::answers);
  }
};

/// Words on evidence that are no years: what a thing is taken for, or what its absence does not mean.
struct WhenNote {
  std::string evidence, text, source;

  template <class V>
  static void fields(V& v) {
    v.field("evidence", &WhenNote::evidence);
    v.field("text", &WhenNote::text);
    v.field("source", &WhenNote::source);
  }
};

/// What of the answer rests on rows from memory.
struct MemoryEnd {
  std::string end;                    ///< "earliest", "latest" or "most_likely"
  std::optional<Year> year, without;  ///< of an end: as answered, and without the rows from memory
  std::vector<std::string> evidence;

  template <class V>
  static void fields(V& v) {
    v.field("end", &MemoryEnd::end);
    v.field("year", &MemoryEnd::year);
    v.field("without", &MemoryEnd::without);
    v.field("evidence", &MemoryEnd::evidence);
  }
};

/// What an observation that can be read in several ways may be: a stamp with lost letters, a mark.
struct WhenCandidate {
  std::string key, asked, value;
  double share = 0;        ///< by how often it occurs
  std::int64_t rows = 0;   ///< in the reference
  std::int64_t lines = 0;  ///< in the record
  std::optional<Year> earliest, latest;
  std::string source;

  template <class V>
  static void fields(V& v) {
    v.field("key", &WhenCandidate::key);
    v.field("asked", &WhenCandidate::asked);
    v.field("value", &WhenCandidate::value);
    v.field("share", &WhenCandidate::share);
    v.field("rows", &WhenCandidate::rows);
    v.field("lines", &WhenCandidate::lines);
    v.field("earliest", &WhenCandidate::earliest);
    v.field("latest", &WhenCandidate::latest);
    v.field("source", &WhenCandidate::source);
  }
};

/// When one piece was made, and why. A pair of years is first and last, both included.
struct ObjectDate {
  std::string statement;                            ///< "made between 1785 and 1810, most likely 1790-1805"
  std::optional<Year> earliest, latest;             ///< hard limits and spans intersected
  std::vector<std::vector<Year>> range68, range95;  ///< the shortest; none where the years are open
  std::optional<std::vector<Year>> most_likely;
  std::vector<WhenReason> because, use_limits;  ///< `use_limits`: of arrival or deposition, not of making
  std::vector<WhenConflict> conflicts;
  std::vector<WhenAlternative> alternatives;
  std::vector<Telling> next;  ///< the most telling further observation first
  std::vector<WhenNote> look_alikes, notes;
  std::vector<MemoryEnd> rests_on_memory;
  std::vector<WhenCandidate> candidates;
  std::vector<std::string> silent;  ///< observations that no known row dates
  std::vector<Year> window;         ///< years considered
  std::vector<Bin> density;         ///< probability of each single year within the bin; none where the years are open

  template <class V>
  static void fields(V& v) {
    v.field("statement", &ObjectDate::statement);
    v.field("earliest", &ObjectDate::earliest);
    v.field("latest", &ObjectDate::latest);
    v.field("range68", &ObjectDate::range68);
    v.field("range95", &ObjectDate::range95);
    v.field("most_likely", &ObjectDate::most_likely);
    v.field("because", &ObjectDate::because);
    v.field("use_limits", &ObjectDate::use_limits);
    v.field("conflicts", &ObjectDate::conflicts);
    v.field("alternatives", &ObjectDate::alternatives);
    v.field("next", &ObjectDate::next);
    v.field("look_alikes", &ObjectDate::look_alikes);
    v.field("notes", &ObjectDate::notes);
    v.field("rests_on_memory", &ObjectDate::rests_on_memory);
    v.field("candidates", &ObjectDate::candidates);
    v.field("silent", &ObjectDate::silent);
    v.field("window", &ObjectDate::window);
    v.field("density", &ObjectDate::density);
  }
};

}  // namespace sherd::dating
