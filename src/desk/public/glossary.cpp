#include "desk/public/glossary.h"

#include "base/text.h"
#include "reference/glossary.h"

namespace sherd::desk {

namespace {

Result<ReadabilityResponse> measured(const std::string& text, Environment& environment) {
  ReadabilityResponse response;
  static_cast<prose::Readability&>(response) = prose::readability(text);
  if (response.words == 0) return fail("nothing_to_read", "the text has no words");
  response.at_twelve = response.grade <= prose::kGradeAtTwelve;
  response.provenance.version = environment.version;
  return response;
}

}  // namespace

Result<GlossaryResponse> show_glossary(const GlossaryRequest& request, Environment& environment, Progress&) {
  GlossaryResponse response;
  response.provenance.version = environment.version;
  const std::string wanted = lower(trim(request.word));
  std::vector<std::string> known;
  const auto put = [&](const reference::GlossaryTerm& term) {
    response.terms.push_back({term.term, term.also, term.meaning, term.source});
  };
  if (const auto* exact = reference::glossary_term(wanted)) {
    put(*exact);
    return response;
  }
  for (const reference::GlossaryTerm& term : reference::glossary()) {
    bool fits = wanted.empty() || lower(term.term).find(wanted) != std::string::npos;
    for (const std::string& also : term.also) {
      fits = fits || lower(also).find(wanted) != std::string::npos;
      known.push_back(also);
    }
    known.push_back(term.term);
    if (fits) put(term);
  }
  if (response.terms.empty())
    return fail("unknown_term", "the glossary has no \"" + request.word + "\"", did_you_mean(wanted, known));
  return response;
}

Result<ReadabilityResponse> measure_text(const ReadabilityRequest& request, Environment& environment, Progress&) {
  const bool file = environment.files->exists(request.text);
  const bool looks_like_one =
      request.text.find(' ') == std::string::npos && request.text.find('.') != std::string::npos;
  if (!file && !looks_like_one) return measured(request.text, environment);
  SHERD_TRY(const std::string text, environment.files->read(request.text));
  return measured(text, environment);
}

}  // namespace sherd::desk
