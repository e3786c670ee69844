#include "desk/frame/schema_openapi_examples.h"

namespace sherd::desk::openapi_parts {

namespace {

struct Example {
  std::string_view operation, parameter, value;
};

constexpr Example kExamples[] = {
    {"rows", "kind", "contexts"},       {"find", "text", "1013"},
    {"links", "record", "10080"},       {"similar", "fabric", "red-gloss"},
    {"calls", "fabric", "red-gloss"},   {"scan", "context", "1013"},
    {"tally", "by", "fabric"},          {"tally", "where", "context=1013"},
    {"compare", "how", "breakage"},     {"compare", "rows", "context.phase"},
    {"date", "context", "1013"},        {"chemistry", "how", "acceptance"},
    {"read", "what", "date"},           {"read", "text", "late C17"},
    {"when", "seen", "ware=creamware"}, {"stem-bores", "counts", "5=12,6=30,7=8"},
    {"piece-capacity", "vessel", "P3"}, {"piece-match", "vessel", "P3"},
    {"drawing", "vessel", "P3"},        {"report-file", "type", "1"},
    {"report-file", "give", "html"},    {"report-preview", "body", "{{total sherds}} sherds"}};

void job_example(Document& document) {
  document.text("use_case", "tally");
  document.object("request", [&] { document.list("by", [&] { document.word("fabric"); }); });
}

void edits_example(Document& document) {
  document.text("change", "0123456789abcdef0123456789abcdef");
  document.text("label", "a context added");
  document.list("steps", [&] {
    document.item([&] {
      document.text("do", "add");
      document.text("kind", "contexts");
      document.object("values", [&] {
        document.text("context", "9001");
        document.text("description", "dark fill with much charcoal");
      });
    });
  });
}

}  // namespace

std::string_view example_of(std::string_view operation, std::string_view parameter) {
  for (const Example& example : kExamples) {
    if (example.operation == operation && example.parameter == parameter) return example.value;
  }
  return {};
}

void body_example(Document& document, std::string_view definition) {
  if (definition == "JobRequest") document.object("example", [&] { job_example(document); });
  if (definition == "EditsRequest") document.object("example", [&] { edits_example(document); });
}

}  // namespace sherd::desk::openapi_parts
