#pragma once

#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "methods/prose/readability.h"

namespace sherd::desk {

struct GlossaryRequest {
  std::string word;

  template <class V>
  static void fields(V& v) {
    v.field("word", &GlossaryRequest::word, optional_argument("a term, or part of one; all terms unless said"));
  }
};

struct GlossaryEntry {
  std::string term;
  std::vector<std::string> also;
  std::string meaning, source;

  template <class V>
  static void fields(V& v) {
    v.field("term", &GlossaryEntry::term);
    v.field("also", &GlossaryEntry::also);
    v.field("meaning", &GlossaryEntry::meaning);
    v.field("source", &GlossaryEntry::source);
  }
};

struct GlossaryResponse : Reply {
  std::vector<GlossaryEntry> terms;

  template <class V>
  static void fields(V& v) {
    v.field("terms", &GlossaryResponse::terms);
  }
};

/// Terms of the trade in plain words. Error `unknown_term` with "did you mean".
Result<GlossaryResponse> show_glossary(const GlossaryRequest& request, Environment& environment, Progress& progress);

struct ReadabilityRequest {
  std::string text;

  template <class V>
  static void fields(V& v) {
    v.field("text", &ReadabilityRequest::text, argument("a file of plain text, or the text itself"));
  }
};

struct ReadabilityResponse : Reply, prose::Readability {
  bool at_twelve = false;  ///< no harder than the seventh grade

  template <class V>
  static void fields(V& v) {
    prose::Readability::fields(v);
    v.field("at_twelve", &ReadabilityResponse::at_twelve);
  }
};

/// How hard a text is to read. Errors: `nothing_to_read`; `no_file` where the text is a file's name and there is none.
Result<ReadabilityResponse> measure_text(const ReadabilityRequest& request, Environment& environment,
                                         Progress& progress);

}  // namespace sherd::desk
