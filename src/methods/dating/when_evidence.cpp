#include "methods/dating/when_evidence.h"

#include <algorithm>
#include <map>
#include <utility>

#include "base/text.h"

namespace sherd::dating {

namespace {

/// The rows and other readings that stand for one value of an observation.
struct Group {
  std::string value;
  std::vector<Match> dated_rows;
  std::int64_t rows = 0, lines = 0, times = 0;
  std::vector<std::string> sources;

  void take(const DatedRow& row) {
    const std::string& source = row.evidence.reference;
    if (!source.empty() && std::find(sources.begin(), sources.end(), source) == sources.end())
      sources.push_back(source);
  }
};

bool read_in_several_ways(const WhenQuestion& question, std::size_t i) {
  const Observation& seen = question.observations[i];
  return (kEvidenceKeys[seen.key].pattern && is_pattern(seen.value)) ||
         std::any_of(question.readings.begin(), question.readings.end(),
                     [&](const OtherReading& reading) { return reading.observation == i; });
}

bool from_memory(const DatedRow& row) { return row.evidence.known == Known::memory; }

std::vector<Group> groups_of(std::size_t i, const std::vector<Match>& matches, const WhenQuestion& question,
                             bool memory) {
  const std::uint64_t bit = std::uint64_t{1} << i;
  const auto member = kEvidenceKeys[question.observations[i].key].member;
  std::map<std::string, Group> by_value;
  const auto group = [&](const Evidence& row) -> Group& {
    Group& out = by_value[lower(row.*member)];
    if (out.value.empty()) out.value = row.*member;
    return out;
  };
  for (const Match& match : matches) {
    if ((match.seen & bit) == 0 || (!memory && from_memory(*match.row))) continue;
    Group& of = group(match.row->evidence);
    ++of.rows;
    ++of.times;
    of.take(*match.row);
    if (dated(match.row->evidence)) of.dated_rows.push_back(match);
  }
  for (const OtherReading& reading : question.readings) {
    if (reading.observation != i || (!memory && from_memory(reading.row))) continue;
    Group& of = group(reading.row.evidence);
    (reading.of_record ? of.lines : of.rows) += reading.times;
    of.times += reading.times;
    of.take(reading.row);
    if (dated(reading.row.evidence)) of.dated_rows.push_back({.row = &reading.row, .seen = bit});
  }
  std::vector<Group> out;
  for (auto& [value, of] : by_value) out.push_back(std::move(of));
  std::stable_sort(out.begin(), out.end(), [](const Group& a, const Group& b) { return a.times > b.times; });
  return out;
}

WhenCandidate candidate_of(const Observation& asked, const Group& group, std::int64_t all,
                           const std::vector<Piece>& pieces) {
  WhenCandidate out;
  out.key = kEvidenceKeys[asked.key].name;
  out.asked = asked.value;
  out.value = group.value;
  out.share = static_cast<double>(group.times) / static_cast<double>(all);
  out.rows = group.rows;
  out.lines = group.lines;
  out.source = join(group.sources, "; ");
  const YearRange years = hull_of(allowed_years(pointers_to(pieces), 0));
  out.earliest = years.earliest;
  out.latest = years.latest;
  return out;
}

/// Reads observation i in all its ways: one piece, and the candidates.
void read_in_all_ways(std::size_t i, const std::vector<Match>& matches, const WhenQuestion& question, bool memory,
                      Gathered& out) {
  const std::vector<Group> groups = groups_of(i, matches, question, memory);
  std::int64_t all = 0;
  for (const Group& group : groups) all += group.times;
  Piece piece{.rows = {}, .seen = std::uint64_t{1} << i, .nature = Nature::span, .readings = {}};
  bool any = false;
  for (const Group& group : groups) {
    std::vector<Piece> parts = select_pieces(group.dated_rows, question.observations);
    if (groups.size() > 1 || group.value != question.observations[i].value)
      out.candidates.push_back(candidate_of(question.observations[i], group, all, parts));
    any = any || !parts.empty();
    piece.readings.push_back({static_cast<double>(group.times), std::move(parts)});
  }
  if (!groups.empty()) out.spoken |= piece.seen;
  if (!any) return;
  if (groups.size() > 1) {
    out.several.push_back(std::move(piece));
  } else {
    out.held.insert(out.held.end(), groups.front().dated_rows.begin(), groups.front().dated_rows.end());
  }
}

void add_rows(const Piece& piece, std::vector<DatedRow>& out) {
  for (const DatedRow* row : piece.rows) out.push_back(*row);
  for (const Piece::Reading& reading : piece.readings) {
    for (const Piece& part : reading.pieces) add_rows(part, out);
  }
}

std::vector<Match> most_specific(const std::vector<Match>& matches, const std::vector<Observation>& observations) {
  std::vector<Match> out;
  for (const Piece& piece : select_pieces(matches, observations)) {
    for (const DatedRow* row : piece.rows) out.push_back({.row = row, .seen = piece.seen});
  }
  return out;
}

}  // namespace

std::vector<const Piece*> pointers_to(const std::vector<Piece>& pieces) {
  std::vector<const Piece*> out;
  out.reserve(pieces.size());
  for (const Piece& piece : pieces) out.push_back(&piece);
  return out;
}

Gathered gather(const std::vector<Match>& matches, const WhenQuestion& question, bool memory) {
  Gathered out;
  std::uint64_t several = 0;
  for (std::size_t i = 0; i < question.observations.size(); ++i) {
    if (read_in_several_ways(question, i)) several |= std::uint64_t{1} << i;
  }
  std::vector<Match> to_read, arrived, deposited;
  for (const Match& match : matches) {
    if (!match.held() || (!memory && from_memory(*match.row))) continue;
    out.spoken |= match.seen;
    const DateBasis basis = basis_of(match.row->evidence);
    if (basis == DateBasis::made && (match.seen & several) != 0) {
      to_read.push_back(match);
    } else if (!dated(match.row->evidence)) {
      out.undated.push_back(match);
    } else {
      (basis == DateBasis::made ? out.held : basis == DateBasis::arrived ? arrived : deposited).push_back(match);
    }
  }
  for (std::size_t i = 0; i < question.observations.size(); ++i) {
    if ((several >> i & 1U) != 0) read_in_all_ways(i, to_read, question, memory, out);
  }
  out.of_use = most_specific(arrived, question.observations);
  const std::vector<Match> of_deposit = most_specific(deposited, question.observations);
  out.of_use.insert(out.of_use.end(), of_deposit.begin(), of_deposit.end());
  out.pieces = select_pieces(out.held, question.observations);
  out.pieces.insert(out.pieces.end(), out.several.begin(), out.several.end());
  std::stable_sort(out.pieces.begin(), out.pieces.end(), [&](const Piece& a, const Piece& b) {
    const auto rank = [&](const Piece& piece) {
      return std::pair(words_of(piece, question.observations), piece.nature);
    };
    return rank(a) < rank(b);
  });
  return out;
}

Window window_of(const std::vector<DatedRow>& rows, std::int64_t shoulder) {
  std::optional<Year> first, last;
  for (const DatedRow& row : rows) {
    for (const std::optional<Year>& year : {row.evidence.earliest, row.evidence.latest}) {
      if (!year) continue;
      first = first ? std::min(*first, *year) : *year;
      last = last ? std::max(*last, *year) : *year;
    }
  }
  if (!first) return {Year{1}, Year{2000}};
  return {Year{first->value - shoulder}, Year{last->value + shoulder}};
}

Window window_around(const std::vector<Piece>& pieces, std::int64_t shoulder, Window otherwise) {
  std::vector<DatedRow> rows;
  for (const Piece& piece : pieces) add_rows(piece, rows);
  if (rows.empty()) return otherwise;
  return window_of(rows, shoulder + kOpenYears);
}

std::string words_of(const Piece& piece, const std::vector<Observation>& observations) {
  if (!piece.rows.empty()) return keys_text(piece.rows.front()->evidence);
  for (std::size_t i = 0; i < observations.size(); ++i) {
    if ((piece.seen >> i & 1U) != 0) return text_of(observations[i]);
  }
  return {};
}

}  // namespace sherd::dating
