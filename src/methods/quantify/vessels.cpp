#include "methods/quantify/vessels.h"

#include <algorithm>
#include <cstddef>
#include <limits>
#include <tuple>
#include <unordered_map>

namespace sherd::quantify {

namespace {

constexpr std::int64_t kWholeVessel = 1000;  // thousandths

std::optional<std::int64_t> number_at(const Column* column, std::size_t row) {
  if (column == nullptr || column->is_null(row)) return std::nullopt;
  return column->integer(row);
}

/// Rim rows sorted by the line that they stand under.
struct RimsOfLines {
  std::vector<std::uint32_t> begin;  ///< lines + 1; empty where there are no rims
  std::vector<std::uint32_t> rows;

  std::span<const std::uint32_t> of(std::size_t line) const {
    if (begin.empty()) return {};
    return std::span(rows).subspan(begin[line], begin[line + 1] - begin[line]);
  }
};

RimsOfLines sort_rims(const TallyInput& input) {
  RimsOfLines out;
  const Column* record = input.rim.record;
  if (record == nullptr || input.rim.rim_percent == nullptr || input.line.record == nullptr) return out;
  if (record->size() == 0) return out;
  std::unordered_map<std::string_view, std::uint32_t> code_of;
  for (std::uint32_t code = 1; code < record->words().size(); ++code) code_of.emplace(record->words()[code], code);

  constexpr auto kNone = std::numeric_limits<std::uint32_t>::max();
  std::vector<std::uint32_t> line_of(record->words().size(), kNone);
  for (std::uint32_t line = 0; line < input.lines; ++line) {
    const auto at = code_of.find(input.line.record->text(line));
    if (at != code_of.end()) line_of[at->second] = line;
  }
  out.begin.assign(input.lines + 1, 0);
  const auto usable = [&](std::size_t row) {
    return !input.rim.rim_percent->is_null(row) && line_of[record->codes()[row]] != kNone;
  };
  for (std::size_t row = 0; row < record->size(); ++row) {
    if (usable(row)) ++out.begin[line_of[record->codes()[row]] + 1];
  }
  for (std::size_t line = 0; line < input.lines; ++line) out.begin[line + 1] += out.begin[line];
  out.rows.resize(out.begin.back());
  std::vector<std::uint32_t> next(out.begin.begin(), out.begin.end() - 1);
  for (std::size_t row = 0; row < record->size(); ++row) {
    if (usable(row)) out.rows[next[line_of[record->codes()[row]]]++] = static_cast<std::uint32_t>(row);
  }
  return out;
}

/// One numbering for the vessels that lines name and those that rims name: 0 is none.
struct VesselNumbers {
  std::vector<std::string_view> names{std::string_view{}};
  std::vector<std::uint32_t> of_rim_word;

  explicit VesselNumbers(const TallyInput& input) {
    if (input.line.vessel != nullptr)
      names.assign(input.line.vessel->words().begin(), input.line.vessel->words().end());
    if (input.rim.vessel == nullptr) return;
    std::unordered_map<std::string_view, std::uint32_t> number;
    for (std::uint32_t i = 0; i < names.size(); ++i) number.emplace(names[i], i);
    for (const std::string& word : input.rim.vessel->words()) {
      const auto [at, fresh] = number.try_emplace(word, static_cast<std::uint32_t>(names.size()));
      if (fresh) names.emplace_back(word);
      of_rim_word.push_back(at->second);
    }
  }
};

class Reader {
 public:
  Reader(const TallyInput& input, Evidence& out) : input_(input), out_(out), rims_(sort_rims(input)), numbers_(input) {}

  void read(std::uint32_t line, std::uint32_t position, std::uint32_t group) {
    Sums& sums = out_.line[position];
    amounts(line, sums);
    const std::uint32_t own = input_.line.vessel == nullptr ? 0 : input_.line.vessel->codes()[line];
    const auto vessels = number_at(input_.line.vessels, line);
    const std::size_t before = out_.mentions.size();
    Mention mention{.group = group, .vessel = own, .line = position, .counts = own != 0 || vessels != 0};
    const auto rims = rims_.of(line);
    for (const std::uint32_t row : rims) {
      const std::uint32_t named = rim_vessel(row);
      mention.vessel = named != 0 ? named : own;
      add_eve(mention, input_.rim.rim_percent->integer(row), sums);
    }
    mention.vessel = own;
    if (const auto percent = number_at(input_.line.rim_percent, line); rims.empty() && percent) {
      add_eve(mention, *percent, sums);
    } else if (own != 0) {
      out_.mentions.push_back(mention);
    }
    unnamed_vessels(own, vessels, before, sums);
  }

  std::vector<std::string_view> take_names() { return std::move(numbers_.names); }

 private:
  void amounts(std::uint32_t line, Sums& sums) const {
    sums.lines = 1;
    const auto count = number_at(input_.line.count, line);
    const auto weight = number_at(input_.line.weight, line);
    sums.has_count = count.has_value();
    sums.has_weight = weight.has_value();
    sums.count = count.value_or(0);
    sums.weight_mg = weight.value_or(0);
    if (count && weight) {
      sums.weighed_count = *count;
      sums.counted_weight_mg = *weight;
    }
  }

  std::uint32_t rim_vessel(std::uint32_t row) const {
    return input_.rim.vessel == nullptr ? 0 : numbers_.of_rim_word[input_.rim.vessel->codes()[row]];
  }

  /// A tenth of a percent of the rim is a thousandth of a vessel.
  void add_eve(Mention mention, std::int64_t tenths, Sums& sums) {
    if (mention.vessel == 0) {
      sums.has_eve = true;
      sums.eve_thousandths += tenths;
      return;
    }
    mention.has_eve = true;
    mention.eve_thousandths = tenths;
    out_.mentions.push_back(mention);
  }

  /// Those of the line's number that neither it nor its rims name.
  void unnamed_vessels(std::uint32_t own, const std::optional<std::int64_t>& vessels, std::size_t before, Sums& sums) {
    if (own != 0 || !vessels) return;
    std::vector<std::uint32_t> named;
    for (std::size_t i = before; i < out_.mentions.size(); ++i) named.push_back(out_.mentions[i].vessel);
    std::sort(named.begin(), named.end());
    const auto distinct = std::unique(named.begin(), named.end()) - named.begin();
    sums.has_vessels = true;
    sums.vessels = std::max<std::int64_t>(0, *vessels - distinct);
  }

  const TallyInput& input_;
  Evidence& out_;
  RimsOfLines rims_;
  VesselNumbers numbers_;
};

}  // namespace

Evidence read_lines(const TallyInput& input, std::span<const std::uint32_t> lines,
                    std::span<const std::uint32_t> group_of) {
  Evidence out;
  out.line.resize(lines.size());
  Reader reader(input, out);
  for (std::uint32_t k = 0; k < lines.size(); ++k) reader.read(lines[k], k, group_of[k]);
  out.vessel_names = reader.take_names();
  return out;
}

std::vector<VesselPart> vessel_parts(std::vector<Mention> mentions, bool across) {
  if (across) {
    for (Mention& mention : mentions) mention.group = 0;
  }
  std::sort(mentions.begin(), mentions.end(), [](const Mention& a, const Mention& b) {
    return std::tie(a.group, a.vessel, a.line) < std::tie(b.group, b.vessel, b.line);
  });
  std::vector<VesselPart> out;
  for (const Mention& mention : mentions) {
    if (out.empty() || out.back().group != mention.group || out.back().vessel != mention.vessel) {
      out.push_back({.group = mention.group, .vessel = mention.vessel, .line = mention.line, .sums = {}});
    }
    Sums& sums = out.back().sums;
    sums.has_vessels = true;
    if (mention.counts) sums.vessels = 1;
    sums.has_eve = sums.has_eve || mention.has_eve;
    sums.eve_thousandths += mention.eve_thousandths;
  }
  for (VesselPart& part : out) {
    part.capped = part.sums.eve_thousandths > kWholeVessel;
    part.sums.eve_thousandths = std::min(part.sums.eve_thousandths, kWholeVessel);
  }
  return out;
}

}  // namespace sherd::quantify
