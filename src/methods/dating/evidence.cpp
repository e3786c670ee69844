#include "methods/dating/evidence.h"

#include <algorithm>
#include <cctype>

#include "base/numbers.h"
#include "base/text.h"

namespace sherd::dating {

namespace {

std::optional<double> number_of(std::string_view text) {
  constexpr int kPlaces = 3;
  constexpr double kScale = 1000;
  text = trim(text);
  if (text.ends_with("/64")) text = trim(text.substr(0, text.size() - 3));
  const auto scaled = parse_scaled(text, kPlaces);
  if (!scaled) return std::nullopt;
  return static_cast<double>(*scaled) / kScale;
}

/// Letters in lower case and digits; `?` and `*` stay. Other signs are left out, bytes beyond ASCII stay.
std::string letters_of(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte >= 0x80 || std::isalnum(byte) != 0) out += static_cast<char>(byte >= 0x80 ? byte : std::tolower(byte));
    if (c == '?' || c == '*') out += c;
  }
  return out;
}

/// Bytes of the character of UTF-8 text that begins at `at`.
std::size_t character_bytes(std::string_view text, std::size_t at) {
  std::size_t end = at + 1;
  while (end < text.size() && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) ++end;
  return end - at;
}

}  // namespace

std::optional<std::size_t> evidence_key(std::string_view name) {
  for (std::size_t i = 0; i < kEvidenceKeys.size(); ++i) {
    if (kEvidenceKeys[i].name == name) return i;
  }
  return std::nullopt;
}

std::string text_of(const Observation& observation) {
  return std::string(kEvidenceKeys[observation.key].name) + "=" + observation.value;
}

std::string keys_text(const Evidence& row) {
  std::string out;
  for (const EvidenceKey& key : kEvidenceKeys) {
    const std::string& cell = row.*key.member;
    if (cell.empty()) continue;
    if (!out.empty()) out += ", ";
    out.append(key.name).append("=").append(cell);
  }
  return out;
}

bool NumberSpan::holds(const NumberSpan& other) const {
  if (low && (!other.low || *other.low < *low || (*other.low == *low && low_excluded && !other.low_excluded)))
    return false;
  return !(high &&
           (!other.high || *other.high > *high || (*other.high == *high && high_excluded && !other.high_excluded)));
}

std::optional<NumberSpan> number_span(std::string_view cell) {
  const std::string plain = replace_all(std::string(trim(cell)), "\u2013", "-");
  const std::string_view text = plain;
  NumberSpan out;
  if (text.starts_with("<") || text.starts_with(">")) {
    const bool below = text.starts_with("<"), with_end = text.size() > 1 && text[1] == '=';
    const auto end = number_of(text.substr(with_end ? 2 : 1));
    if (!end) return std::nullopt;
    (below ? out.high : out.low) = end;
    (below ? out.high_excluded : out.low_excluded) = !with_end;
    return out;
  }
  const std::size_t dash = text.find('-', 1);
  out.low = number_of(text.substr(0, dash));
  out.high = dash == std::string_view::npos ? out.low : number_of(text.substr(dash + 1));
  if (!out.low || !out.high || *out.high < *out.low) return std::nullopt;
  return out;
}

bool is_pattern(std::string_view value) { return value.find_first_of("?*") != std::string_view::npos; }

bool fits_pattern(std::string_view pattern, std::string_view text) {
  const std::string p = letters_of(pattern), t = letters_of(text);
  std::size_t i = 0, j = 0;
  std::size_t star = std::string::npos, resume = 0;  // the last * and where its match ends so far
  while (j < t.size()) {
    if (i < p.size() && p[i] == '*') {
      star = i++;
      resume = j;
    } else if (i < p.size() && p[i] == '?') {
      ++i;
      j += character_bytes(t, j);
    } else if (i < p.size() && p[i] == t[j]) {
      ++i;
      ++j;
    } else if (star != std::string::npos) {
      resume += character_bytes(t, resume);
      i = star + 1;
      j = resume;
    } else {
      return false;
    }
  }
  while (i < p.size() && p[i] == '*') ++i;
  return i == p.size();
}

bool cell_holds(const EvidenceKey& key, std::string_view cell, std::string_view seen) {
  if (cell == seen) return true;
  if (key.pattern && is_pattern(seen)) return fits_pattern(seen, cell);
  if (!key.number) return false;
  const auto row = number_span(cell), piece = number_span(seen);
  return row && piece && row->holds(*piece);
}

namespace {

/// Notes the observation of this key that a cell holds for, or that is a kind of it by the fewest steps. False where
/// there is none.
bool bear_out(std::size_t key, const std::string& cell, const std::vector<Observation>& observations, Match& match) {
  std::optional<std::size_t> best;
  std::size_t by = 0;
  for (std::size_t i = 0; i < observations.size(); ++i) {
    const Observation& seen = observations[i];
    if (seen.key != key) continue;
    std::optional<std::size_t> steps;
    if (cell_holds(kEvidenceKeys[key], cell, seen.value)) {
      steps = 0;
    } else if (const auto kind = std::find(seen.broader.begin(), seen.broader.end(), cell);
               kind != seen.broader.end()) {
      steps = static_cast<std::size_t>(kind - seen.broader.begin()) + 1;
    }
    if (!steps || (best && *best <= *steps)) continue;
    best = steps;
    by = i;
  }
  if (!best) return false;
  match.seen |= std::uint64_t{1} << by;
  match.steps += *best;
  return true;
}

}  // namespace

std::vector<Match> match_rows(const std::vector<DatedRow>& rows, const std::vector<Observation>& observations) {
  std::uint32_t observed = 0;
  for (const Observation& observation : observations) observed |= 1U << observation.key;
  std::vector<Match> out;
  out.reserve(rows.size());
  for (const DatedRow& row : rows) {
    if (row.evidence.status == "retired") continue;
    Match match{.row = &row};
    for (std::size_t k = 0; k < kEvidenceKeys.size() && !match.contradicted; ++k) {
      const std::string& cell = row.evidence.*kEvidenceKeys[k].member;
      if (cell.empty()) continue;
      if ((observed & (1U << k)) == 0) {
        match.missing |= 1U << k;
        continue;
      }
      match.contradicted = !bear_out(k, cell, observations, match);
    }
    out.push_back(match);
  }
  return out;
}

}  // namespace sherd::dating
