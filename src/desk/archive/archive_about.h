#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "desk/frame/session.h"
#include "model/record_deposit.h"
#include "model/year.h"

namespace sherd::desk {

/// What an archive says of itself as a whole.
struct ArchiveAbout {
  Site site;
  std::optional<Repository> repository;  ///< the row that the project sheet names, or the only one
  std::vector<std::string> creators;     ///< as the repository's row says, else the names of people, else who changed
  std::string copyright_holder, licence, language, version;
  Change last;      ///< the newest change
  std::string day;  ///< of that change, YYYY-MM-DD; "" where it has none
  YearRange span;   ///< of the dates of its contexts and lines
  std::int64_t contexts = 0, lines = 0, sherds = 0;
  Weight weight;
  std::vector<std::string> ware_groups;

  std::string title() const;
  std::string made_by() const { return "Sherdwright " + version; }
};

/// Errors: those of the store; `nothing_to_archive` where nothing was ever written.
Result<ArchiveAbout> archive_about(const Session& session, const Environment& environment);

/// The rules of the repository that the project sheet names, of the only one where it names none.
Result<std::optional<Repository>> repository_of(const Session& session);

/// "2026-03-02" as "02/03/2026", as the file-level template asks for.
std::string slashed(const std::string& day);

}  // namespace sherd::desk
