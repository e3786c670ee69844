#include "desk/site/new_site.h"

#include <algorithm>

#include "desk/frame/session.h"
#include "exchange/cell_reader.h"

namespace sherd::desk {

namespace {

constexpr Weight kBoxLimit{10'000'000};  // 10 kg, common practice, no source; repositories differ

/// Codes go into file names and on labels: letters, digits, hyphen and underscore.
bool is_site_code(const std::string& code) {
  return !code.empty() && code.size() <= 32 && std::all_of(code.begin(), code.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_';
  });
}

template <WordList E>
Result<std::optional<E>> optional_word(const std::string& text) {
  if (text.empty()) return std::optional<E>{};
  SHERD_TRY(const std::string_view found, exchange::read_word(text, Words<E>::kNames));
  return from_word<E>(found);
}

Result<Site> sheet_from(const NewRequest& request) {
  if (!is_site_code(request.site)) {
    return fail(ErrorKind::usage, "bad_site_code", "\"" + request.site + "\" cannot be a site's code",
                "use letters, digits, hyphen and underscore, at most 32 of them");
  }
  Site site{request.site, request.title, {}, {}, kBoxLimit};
  SHERD_TRY(site.counting_rule, optional_word<CountingRule>(request.counting_rule));
  SHERD_TRY(site.counted, optional_word<CountedWhen>(request.counted));
  if (!request.box_limit_g.empty()) {
    SHERD_TRY(const std::int64_t mg, exchange::read_number(request.box_limit_g, CellType::weight, {}, {}));
    site.box_limit = Weight{mg};
  }
  return site;
}

/// A store made now, or one whose making was cut off before its site was written.
Result<std::unique_ptr<Store>> empty_store(const std::string& address, Environment& environment) {
  auto made = environment.create_store(address);
  if (made || made.error().code != "store_exists") return made;
  auto there = environment.open_store(address);
  if (!there) return made;
  const auto newest = (*there)->newest_change();
  return newest && !*newest ? std::move(there) : std::move(made);
}

}  // namespace

Result<NewResponse> make_site(const NewRequest& request, Environment& environment, Progress&) {
  SHERD_TRY(const Site site, sheet_from(request));
  SHERD_TRY(const auto store, empty_store(request.store, environment));
  SHERD_TRY(const auto writing, store->begin(change_note(environment, "new " + site.code)));
  SHERD_CHECK(writing->put_site(site));
  SHERD_CHECK(writing->commit());
  NewResponse response;
  response.site = site.code;
  response.title = site.title;
  response.provenance.version = environment.version;
  return response;
}

}  // namespace sherd::desk
