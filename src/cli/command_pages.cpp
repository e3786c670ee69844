#include "cli/command_pages.h"

#include "cli/options.h"
#include "cli/wanted.h"
#include "desk/use_cases.h"

namespace sherd::cli {

namespace {

std::string upper(std::string_view name) {
  std::string out(name);
  for (char& c : out) c = c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
  return out;
}

/// Takes a request's field list.
struct Collect {
  std::vector<CommandField>& fields;

  template <class M, class B>
  void field(std::string_view name, M B::*, const Note& note) {
    const bool argument = note.place == Place::argument;
    const bool flag = std::is_same_v<M, bool>;
    fields.push_back({argument ? upper(name) : option_name(name), argument || flag ? "" : upper(name),
                      std::string(note.help), argument, note.required});
  }
};

}  // namespace

std::string CommandPage::usage() const {
  std::string out;
  for (const CommandField& field : fields) {
    const std::string spelt = field.value.empty() ? field.spelling : field.spelling + " " + field.value;
    if (!out.empty()) out += " ";
    out += field.is_required ? spelt : "[" + spelt + "]";
  }
  return out;
}

std::vector<CommandPage> command_pages() {
  std::vector<CommandPage> pages;
  desk::for_each_use_case([&]<class UseCase>(const UseCase& use_case) {
    if constexpr (!desk::PageOnly<typename UseCase::Request>) {
      CommandPage page{std::string(use_case.name), std::string(use_case.help), {}};
      Collect collect{page.fields};
      UseCase::Request::fields(collect);
      pages.push_back(std::move(page));
    }
  });
  return pages;
}

std::vector<CommandField> common_fields() {
  std::vector<CommandField> fields;
  Collect collect{fields};
  Wanted::fields(collect);
  fields.push_back({"--help", "", "what the command takes", false, false});
  return fields;
}

}  // namespace sherd::cli
