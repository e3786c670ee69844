#include "methods/dating/telling.h"

#include <algorithm>
#include <set>

namespace sherd::dating {

namespace {

constexpr double kNothing = 1e-9;

/// Whether a row that names this key and one of the wares is known.
bool matters_to(const std::vector<std::string>& wares, std::size_t key, const std::vector<Match>& matches) {
  return std::any_of(matches.begin(), matches.end(), [&](const Match& match) {
    const Evidence& row = match.row->evidence;
    return !(row.*kEvidenceKeys[key].member).empty() && std::find(wares.begin(), wares.end(), row.ware) != wares.end();
  });
}

/// The rows that would hold if something were seen of a key.
std::vector<Match> waiting_for(std::size_t key, const std::vector<Match>& matches, const WhenQuestion& question) {
  const bool of_any_ware =
      kEvidenceKeys[key].pattern || !question.family || (key != kFormKey && matters_to(*question.family, key, matches));
  std::vector<Match> out;
  for (const Match& match : matches) {
    const Evidence& row = match.row->evidence;
    const std::uint32_t missing = match.missing & ~(1U << kRegionKey);
    if (match.contradicted || missing != 1U << key || !dated(row) || basis_of(row) != DateBasis::made) continue;
    if (!of_any_ware && !match.row->of_store && row.ware.empty() && row.fabric.empty()) continue;
    out.push_back(match);
  }
  return out;
}

/// Which answers a key has.
class KeyAnswers {
 public:
  KeyAnswers(std::size_t key, const Gathered& gathered, const WhenQuestion& question, Window window)
      : key_(key), gathered_(gathered), window_(window), shoulder_(question.shoulder) {
    observations_ = question.observations;
    observations_.push_back({key, ""});
  }

  /// What would follow from seeing this value; nothing where no year would be left.
  struct Then {
    TellingAnswer answer;
    std::int64_t rows = 0;
    double bits = 0;
  };
  std::optional<Then> see(const std::string& value, const std::vector<Match>& waiting) {
    observations_.back().value = value;
    std::vector<Match> held = gathered_.held;
    Then out;
    for (Match match : waiting) {
      const std::string& cell = match.row->evidence.*kEvidenceKeys[key_].member;
      if (!cell_holds(kEvidenceKeys[key_], cell, value)) continue;
      if (cell == value) ++out.rows;
      match.missing &= ~(1U << key_);
      match.seen |= std::uint64_t{1} << (observations_.size() - 1);
      held.push_back(match);
    }
    std::vector<Piece> pieces = select_pieces(held, observations_);
    pieces.insert(pieces.end(), gathered_.several.begin(), gathered_.several.end());
    const std::vector<const Piece*> all = pointers_to(pieces);
    const YearDensity density = combined(all, window_, shoulder_);
    if (density.empty() || allowed_years(all, 0).empty()) return std::nullopt;
    out.bits = entropy_bits(density);
    out.answer = answer_of(value, all, density);
    return out;
  }

  TellingAnswer answer_of(const std::string& value, const std::vector<const Piece*>& pieces,
                          const YearDensity& density) const {
    TellingAnswer out;
    out.value = value;
    const YearRange years = hull_of(allowed_years(pieces, 0));
    out.earliest = years.earliest;
    out.latest = years.latest;
    const YearRange most = likeliest(density);
    if (hull_of(allowed_years(pieces, shoulder_)).closed() && !density.empty())
      out.most_likely = {*most.earliest, *most.latest};
    return out;
  }

 private:
  std::size_t key_;
  const Gathered& gathered_;
  Window window_;
  std::int64_t shoulder_;
  std::vector<Observation> observations_;
};

Telling tell(std::size_t key, const std::vector<Match>& waiting, const Gathered& gathered, const WhenQuestion& question,
             Window window, const YearDensity& now) {
  KeyAnswers answers(key, gathered, question, window);
  std::set<std::string> values;
  for (const Match& match : waiting) values.insert(match.row->evidence.*kEvidenceKeys[key].member);
  const double bits_now = entropy_bits(now);
  auto all = static_cast<double>(gathered.held.size());
  double saved = 0;
  Telling out;
  out.key = kEvidenceKeys[key].name;
  for (const std::string& value : values) {
    auto then = answers.see(value, waiting);
    if (!then) continue;
    const auto rows = static_cast<double>(then->rows);
    all += rows;
    saved += rows * (bits_now - then->bits);
    then->answer.share = rows;
    out.answers.push_back(std::move(then->answer));
  }
  if (out.answers.empty()) return out;
  if (!gathered.held.empty()) {
    out.answers.push_back(answers.answer_of("", pointers_to(gathered.pieces), now));
    out.answers.back().share = static_cast<double>(gathered.held.size());
  }
  for (TellingAnswer& answer : out.answers) answer.share /= all;
  out.bits = std::max(0.0, saved / all);
  std::stable_sort(out.answers.begin(), out.answers.end(),
                   [](const TellingAnswer& a, const TellingAnswer& b) { return a.share > b.share; });
  return out;
}

}  // namespace

std::vector<Telling> most_telling(const std::vector<Match>& matches, const Gathered& gathered,
                                  const WhenQuestion& question, Window window) {
  std::uint32_t seen = 0;
  for (const Observation& observation : question.observations) seen |= 1U << observation.key;
  constexpr std::uint32_t kWhatItIs = 1U << kFabricKey | 1U << kWareKey;
  if ((seen & kWhatItIs) != 0) seen |= kWhatItIs;
  seen |= 1U << kRegionKey;
  std::string description;
  for (const Observation& observation : question.observations) {
    if (!kEvidenceKeys[observation.key].feature) description += observation.value + "\n";
    for (const std::string& kind : observation.broader) description += kind + "\n";
  }
  const YearDensity now = combined(pointers_to(gathered.pieces), window, question.shoulder);
  std::vector<Telling> out;
  if (now.empty()) return out;
  for (std::size_t key = 0; key < kEvidenceKeys.size(); ++key) {
    if ((seen >> key & 1U) != 0 || description.find(kEvidenceKeys[key].of_what) == std::string::npos) continue;
    Telling telling = tell(key, waiting_for(key, matches, question), gathered, question, window, now);
    if (telling.bits > kNothing) out.push_back(std::move(telling));
  }
  std::stable_sort(out.begin(), out.end(), [](const Telling& a, const Telling& b) { return a.bits > b.bits; });
  return out;
}

}  // namespace sherd::dating
