#include "methods/dating/when.h"

#include <algorithm>
#include <cmath>
#include <tuple>
#include <utility>

#include "base/text.h"
#include "methods/dating/conflict.h"
#include "methods/dating/telling.h"
#include "methods/dating/when_conflicts.h"
#include "methods/dating/when_evidence.h"
#include "methods/dating/when_others.h"
#include "methods/dating/when_words.h"

namespace sherd::dating {

namespace {

std::vector<Year> pair_of(const YearRange& range) { return {*range.earliest, *range.latest}; }

std::vector<std::vector<Year>> pairs_of(const std::vector<YearRange>& ranges) {
  std::vector<std::vector<Year>> out;
  for (const YearRange& range : ranges) out.push_back(pair_of(range));
  return out;
}

WhenReason reason_of(const DatedRow& row, std::string words, double weight) {
  WhenReason out;
  out.evidence = std::move(words);
  out.earliest = row.evidence.earliest;
  out.latest = row.evidence.latest;
  out.source = row.evidence.reference;
  out.basis = basis_of(row.evidence);
  out.nature = nature_of(row.evidence);
  out.known = row.evidence.known;
  out.weight = weight;
  out.of_store = row.of_store;
  out.note = row.evidence.notes;
  return out;
}

/// The rows of a piece, those of its readings included.
void add_rows(const Piece& piece, std::vector<const DatedRow*>& out) {
  out.insert(out.end(), piece.rows.begin(), piece.rows.end());
  for (const Piece::Reading& reading : piece.readings) {
    for (const Piece& part : reading.pieces) add_rows(part, out);
  }
}

double years_of(const Piece& piece) {
  const YearRange range = hull_of(allowed_years(piece, 0));
  return range.closed() ? static_cast<double>(range.latest->value - range.earliest->value) : INFINITY;
}

/// Bits by which the years would be less certain without piece i.
double weight_of(const std::vector<Piece>& pieces, std::size_t i, Window window, std::int64_t shoulder, double bits) {
  std::vector<const Piece*> others = pointers_to(pieces);
  others.erase(others.begin() + static_cast<std::ptrdiff_t>(i));
  return entropy_bits(combined(others, window, shoulder)) - bits;
}

struct Weighed {
  const Piece* piece;
  double weight, years;
  std::string words;
};

std::vector<WhenReason> reasons(const std::vector<Piece>& pieces, const WhenQuestion& question, Window window,
                                const YearDensity& density) {
  std::vector<Weighed> weighed;
  const double bits = entropy_bits(density);
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const double weight = density.empty() ? 0 : weight_of(pieces, i, window, question.shoulder, bits);
    weighed.push_back({&pieces[i], weight, years_of(pieces[i]), words_of(pieces[i], question.observations)});
  }
  std::stable_sort(weighed.begin(), weighed.end(), [](const Weighed& a, const Weighed& b) {
    constexpr double kSame = 1e-9;
    if (std::abs(a.weight - b.weight) > kSame) return a.weight > b.weight;
    return std::tie(a.years, a.words) < std::tie(b.years, b.words);
  });
  std::vector<WhenReason> out;
  for (const Weighed& entry : weighed) {
    std::vector<const DatedRow*> rows;
    add_rows(*entry.piece, rows);
    for (const DatedRow* row : rows) out.push_back(reason_of(*row, keys_text(row->evidence), entry.weight));
  }
  return out;
}

/// Runs of years of the same probability.
std::vector<Bin> bins_of(const YearDensity& density) {
  std::vector<Bin> out;
  for (std::size_t i = 0; i < density.at.size(); ++i) {
    const Year year{density.first.value + static_cast<std::int64_t>(i)};
    if (!out.empty() && out.back().value == density.at[i]) {
      out.back().to = year;
    } else {
      out.push_back({year, year, density.at[i]});
    }
  }
  return out;
}

bool has_closed_usual(const std::vector<Piece>& pieces) {
  return std::any_of(pieces.begin(), pieces.end(), [](const Piece& piece) {
    return piece.nature == Nature::usual && std::all_of(piece.rows.begin(), piece.rows.end(), [](const DatedRow* row) {
             return row->evidence.earliest && row->evidence.latest;
           });
  });
}

/// The ranges mean something where the years have two ends, or where what is usual gathers them.
bool is_bounded(const std::vector<Piece>& pieces, const WhenQuestion& question) {
  return question.window || hull_of(allowed_years(pointers_to(pieces), question.shoulder)).closed() ||
         has_closed_usual(pieces);
}

void add_ranges(const YearDensity& density, ObjectDate& out) {
  constexpr double k68 = 0.68, k95 = 0.95;
  if (density.empty()) return;
  out.range68 = pairs_of(shortest(density, k68));
  out.range95 = pairs_of(shortest(density, k95));
  out.most_likely = pair_of(likeliest(density));
  out.density = bins_of(density);
}

void add_words(const Gathered& gathered, const WhenQuestion& question, ObjectDate& out) {
  std::vector<const DatedRow*> rows;
  for (const Piece& piece : gathered.pieces) add_rows(piece, rows);
  for (const DatedRow* row : rows) {
    if (!row->evidence.look_alikes.empty())
      out.look_alikes.push_back({keys_text(row->evidence), row->evidence.look_alikes, row->evidence.reference});
  }
  for (const Match& match : gathered.undated) {
    const Evidence& row = match.row->evidence;
    if (!row.look_alikes.empty()) out.look_alikes.push_back({keys_text(row), row.look_alikes, row.reference});
    if (!row.notes.empty()) out.notes.push_back({keys_text(row), row.notes, row.reference});
  }
  for (const Match& match : gathered.of_use)
    out.use_limits.push_back(reason_of(*match.row, keys_text(match.row->evidence), 0));
  for (std::size_t i = 0; i < question.observations.size(); ++i) {
    if ((gathered.spoken >> i & 1U) == 0) out.silent.push_back(text_of(question.observations[i]));
  }
}

}  // namespace

ObjectDate when(const std::vector<DatedRow>& rows, const WhenQuestion& question) {
  const std::vector<Match> matches = match_rows(rows, question.observations);
  Gathered gathered = gather(matches, question, true);
  const Window all_years = question.window ? Window{*question.window->earliest, *question.window->latest}
                                           : window_of(rows, question.shoulder);
  Window window = question.window ? all_years : window_around(gathered.pieces, question.shoulder, all_years);
  if (!question.window && question.today) window.last = std::min(window.last, *question.today);
  const std::vector<const Piece*> pieces = pointers_to(gathered.pieces);
  const YearRange years = hull_of(allowed_years(pieces, 0));
  const YearDensity density = combined(pieces, window, question.shoulder);
  ObjectDate out;
  out.window = {window.first, window.last};
  out.earliest = years.earliest;
  out.latest = years.latest;
  if (!pieces.empty() && is_bounded(gathered.pieces, question)) add_ranges(density, out);
  out.because = reasons(gathered.pieces, question, window, density);
  out.conflicts = conflicts_of(gathered.pieces, question, window, density);
  add_words(gathered, question, out);
  if (!density.empty()) out.rests_on_memory = ends_from_memory(matches, gathered, question, window);
  if (question.alternatives) out.alternatives = alternatives_to(rows, question);
  if (question.telling) out.next = most_telling(matches, gathered, question, window);
  out.candidates = std::move(gathered.candidates);
  out.statement = statement_of(out);
  return out;
}

}  // namespace sherd::dating
