#include "desk/site/verify_store.h"

#include <algorithm>

#include "base/text.h"

namespace sherd::desk {

namespace {

/// What the store's history has beyond the archive.
Result<void> compare_with(const std::string& address, const ReadArchive& archive, Environment& environment,
                          VerifyResponse& response) {
  SHERD_TRY(const auto store, environment.open_store(address));
  SHERD_TRY(const auto changes, store->changes(std::max<std::int64_t>(0, archive.changes - 1)));
  if (changes.empty() || changes.front().uid != archive.last_change) {
    response.damage.emplace_back("the store does not have the change that the archive was made after");
    return {};
  }
  for (std::size_t i = 1; i < changes.size(); ++i) {
    const Change& one = changes[i];
    response.since.push_back("change " + std::to_string(one.seq) + ": " + one.command + " by " + one.who + ", " +
                             one.at);
  }
  return {};
}

Result<VerifyResponse> verify_archive(const VerifyRequest& request, Environment& environment, Progress& progress) {
  SHERD_TRY(ReadArchive archive, ReadArchive::open(environment, request.store));
  VerifyResponse response;
  response.provenance.version = environment.version;
  response.provenance.inputs.push_back(archive.site + "@" + archive.last_change);
  response.sha256 = archive.seal();
  response.files_read = archive.files();
  SHERD_TRY(response.files, archive.faults(progress));
  for (const ArchiveFault& fault : response.files) response.damage.push_back(fault.path + ": " + fault.what);
  SHERD_TRY(const auto contradictions, archive.contradictions());
  response.damage.insert(response.damage.end(), contradictions.begin(), contradictions.end());
  if (!request.sha256.empty() && lower(request.sha256) != archive.seal())
    response.damage.emplace_back("the list of checksums is not the one that was noted: its own is " + archive.seal());
  if (!request.against.empty()) SHERD_CHECK(compare_with(request.against, archive, environment, response));
  if (!response.damage.empty()) {
    response.errors.push_back(
        {.code = "damaged_archive",
         .message = "the archive is not as it was made: " + counted(std::ssize(response.damage), "fault"),
         .hint = "take another copy of it, or make it anew with: sherdwright archive STORE FOLDER"});
  }
  return response;
}

}  // namespace

Result<VerifyResponse> verify_store(const VerifyRequest& request, Environment& environment, Progress& progress) {
  if (ReadArchive::is_archive(environment, request.store)) return verify_archive(request, environment, progress);
  SHERD_TRY(const auto store, environment.open_store(request.store));
  VerifyResponse response;
  SHERD_TRY(response.damage, store->verify());
  response.warnings = store->warnings();
  response.provenance.version = environment.version;
  if (!response.damage.empty()) {
    response.errors.push_back(
        {.code = "damaged_store",
         .message = "the store is damaged: " + counted(static_cast<long long>(response.damage.size()), "fault"),
         .hint = "copy the file as it is, then bring back the last good backup with: sherdwright restore"});
  }
  return response;
}

}  // namespace sherd::desk
