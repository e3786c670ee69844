#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "methods/dating/when.h"

/// What the tests of `when` share.
namespace sherd::dating {

inline std::optional<Year> year(std::optional<std::int64_t> value) {
  return value ? std::optional(Year{*value}) : std::nullopt;
}

using Keys = std::vector<std::pair<std::string, std::string>>;

/// A row of nature span, of making, unless altered.
inline DatedRow row(const Keys& keys, std::optional<std::int64_t> from, std::optional<std::int64_t> to,
                    std::string reference = "A") {
  DatedRow out;
  for (const auto& [key, value] : keys) out.evidence.*kEvidenceKeys[*evidence_key(key)].member = value;
  out.evidence.earliest = year(from);
  out.evidence.latest = year(to);
  out.evidence.reference = std::move(reference);
  out.evidence.known = Known::read;
  return out;
}

inline DatedRow of_nature(Nature nature, DatedRow out) {
  out.evidence.nature = nature;
  return out;
}
inline DatedRow of_basis(DateBasis basis, DatedRow out) {
  out.evidence.basis = basis;
  return out;
}
inline DatedRow of_memory(DatedRow out) {
  out.evidence.known = Known::memory;
  return out;
}
inline DatedRow full(DatedRow out, std::optional<std::int64_t> from, std::optional<std::int64_t> to) {
  out.evidence.full_from = year(from);
  out.evidence.full_to = year(to);
  return out;
}

inline WhenQuestion seen(const Keys& keys) {
  WhenQuestion out;
  for (const auto& [key, value] : keys) out.observations.push_back({*evidence_key(key), value});
  return out;
}

inline std::string years(const std::optional<Year>& from, const std::optional<Year>& to) {
  return range_text({from, to});
}
inline std::string years(const ObjectDate& date) { return years(date.earliest, date.latest); }
inline std::string years(const std::vector<Year>& pair) { return years(pair.front(), pair.back()); }

}  // namespace sherd::dating
