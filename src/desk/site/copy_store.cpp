#include "desk/site/copy_store.h"

#include <filesystem>

#include "base/text.h"
#include "desk/frame/session.h"

namespace sherd::desk {

namespace {

constexpr std::int64_t kLease = 500;
constexpr std::int64_t kMostLeased = 10'000'000;

Result<std::vector<std::string>> sites_to_lease(Store& store, const std::string& site) {
  SHERD_TRY(const std::vector<Site> sites, store.sites());
  std::vector<std::string> codes;
  for (const Site& one : sites) codes.push_back(one.code);
  if (codes.empty()) return fail("no_site", "the store holds no site", "Make one with: sherdwright new");
  if (site.empty()) return codes;
  for (const std::string& code : codes) {
    if (code == site) return std::vector<std::string>{site};
  }
  return fail("no_site", "the store holds no site \"" + site + "\"", did_you_mean(site, codes));
}

}  // namespace

Result<CopyResponse> copy_store(const CopyRequest& request, Environment& environment, Progress&) {
  const std::int64_t lease = request.lease.value_or(kLease);
  if (lease < 1 || lease > kMostLeased) {
    return fail(ErrorKind::usage, "bad_lease", "--lease " + std::to_string(lease) + " is no number of record numbers",
                "Say how many the copy may give, 1 to " + std::to_string(kMostLeased));
  }
  SHERD_TRY(const auto store, environment.open_store(request.store));
  SHERD_TRY(const auto sites, sites_to_lease(*store, request.site));
  if (environment.files->exists(request.file)) {
    return fail("store_exists", request.file + " is there already", "Give a name that is not taken");
  }
  CopyResponse response;
  response.file = request.file;
  response.name = request.name.empty() ? std::filesystem::path(request.file).stem().string() : request.name;
  response.provenance.version = environment.version;
  response.warnings = store->warnings();
  const ChangeNote note =
      change_note(environment, "lease " + std::to_string(lease) + " record numbers to " + response.name);
  std::vector<NumberBlock> blocks;
  SHERD_TRY(const auto writing, store->begin(note));
  for (const std::string& site : sites) {
    SHERD_TRY(const std::int64_t first, writing->lease_records(site, lease));
    blocks.push_back({site, first, first + lease - 1});
    response.leased.push_back({site, first, first + lease - 1});
  }
  SHERD_CHECK(writing->commit());
  SHERD_TRY(const CopyNote made, store->away().make_copy(request.file, note.uid, response.name, blocks));
  response.change = made.base_seq;
  return response;
}

}  // namespace sherd::desk
