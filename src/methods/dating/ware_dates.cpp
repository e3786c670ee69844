#include "methods/dating/ware_dates.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <iterator>
#include <tuple>
#include <utility>

namespace sherd::dating {

namespace {

/// How specific a row is; the greater wins.
using Rank = std::tuple<int, bool, bool, bool, bool>;

Rank rank_of(const WareDate& row, bool from_table) {
  const int keys = (row.fabric.empty() ? 0 : 1) + (row.form.empty() ? 0 : 1) + (row.decoration.empty() ? 0 : 1) +
                   (row.region.empty() ? 0 : 1);
  return {keys, !row.decoration.empty(), !row.form.empty(), !row.region.empty(), from_table};
}

bool agrees(const std::string& key, std::string_view value) { return key.empty() || key == value; }

std::string row_text(const WareDate& row, std::string_view variant) {
  std::string text = row.fabric;
  if (!row.fabric.empty() && row.fabric != variant) text += fmt::format(" (of which {} is a variant)", variant);
  for (const std::string* key : {&row.form, &row.decoration, &row.region}) {
    if (key->empty()) continue;
    if (!text.empty()) text += ", ";
    text += *key;
  }
  text += ": " + range_text({row.earliest, row.latest});
  if (!row.reference.empty()) text += " (" + row.reference + ")";
  return text;
}

void widen(LineDate& date, const WareDate& row) {
  date.earliest = date.earliest && row.earliest ? std::optional(std::min(*date.earliest, *row.earliest)) : std::nullopt;
  date.latest = date.latest && row.latest ? std::optional(std::max(*date.latest, *row.latest)) : std::nullopt;
}

}  // namespace

WareDates::WareDates(std::vector<WareDate> rows, const std::vector<Fabric>& fabrics, const std::vector<Form>& forms) {
  for (WareDate& row : rows) add(std::move(row));
  own_from_ = rows_.size();
  for (const Fabric& fabric : fabrics) {
    if (!fabric.variant_of.empty()) parent_.emplace(fabric.fabric, fabric.variant_of);
    WareDate own;
    own.fabric = fabric.fabric;
    own.earliest = fabric.earliest;
    own.latest = fabric.latest;
    own.basis = fabric.basis;
    own.reference = fabric.reference;
    add(std::move(own));
  }
  for (const Form& form : forms) {
    if (!form.earliest && !form.latest) continue;
    WareDate own;
    own.form = form.form;
    own.earliest = form.earliest;
    own.latest = form.latest;
    own.basis = form.basis;
    own.reference = form.reference;
    form_.emplace(form.form, std::move(own));
  }
}

void WareDates::add(WareDate row) {
  if (!row.earliest && !row.latest) return;
  rows_of_fabric_[row.fabric].push_back(rows_.size());
  rows_.push_back(std::move(row));
}

std::vector<std::size_t> WareDates::matching(std::string_view fabric, const WareKeys& keys) const {
  std::vector<std::size_t> out;
  const auto at = rows_of_fabric_.find(fabric);
  if (at == rows_of_fabric_.end()) return out;
  std::copy_if(at->second.begin(), at->second.end(), std::back_inserter(out), [&](std::size_t i) {
    const WareDate& row = rows_[i];
    return agrees(row.form, keys.form) && agrees(row.decoration, keys.decoration) && agrees(row.region, keys.region);
  });
  return out;
}

LineDate WareDates::find(const WareKeys& keys) const {
  std::vector<std::size_t> candidates;
  std::string_view fabric = keys.fabric;
  for (std::size_t steps = 0; !fabric.empty() && candidates.empty() && steps <= parent_.size(); ++steps) {
    candidates = matching(fabric, keys);
    const auto parent = parent_.find(fabric);
    fabric = parent == parent_.end() ? std::string_view{} : std::string_view(parent->second);
  }
  const std::vector<std::size_t> without_fabric = matching({}, keys);
  candidates.insert(candidates.end(), without_fabric.begin(), without_fabric.end());

  LineDate out;
  std::vector<const WareDate*> best;
  Rank best_rank{};
  for (const std::size_t i : candidates) {
    const Rank rank = rank_of(rows_[i], i < own_from_);
    if (best.empty() || rank > best_rank) {
      best = {&rows_[i]};
      best_rank = rank;
    } else if (rank == best_rank) {
      best.push_back(&rows_[i]);
    }
  }
  if (const auto form = form_.find(keys.form); best.empty() && form != form_.end()) best = {&form->second};
  if (best.empty()) return out;
  out.earliest = best.front()->earliest;
  out.latest = best.front()->latest;
  out.because = row_text(*best.front(), keys.fabric);
  out.full = {best.front()->full_from, best.front()->full_to};
  out.basis = best.front()->basis.value_or(DateBasis::made);
  const bool differ = std::any_of(best.begin(), best.end(), [&](const WareDate* row) {
    return row->earliest != out.earliest || row->latest != out.latest;
  });
  if (!differ) return out;
  out.full = {};
  for (const WareDate* row : best) {
    widen(out, *row);
    out.conflicts.push_back(row_text(*row, keys.fabric));
  }
  out.because = fmt::format("{}, over {} rows that differ: {}", range_text(out.range()), best.size(),
                            fmt::join(out.conflicts, "; "));
  return out;
}

LineDate WareDates::date_line(const RecordLine& line, std::string_view region) const {
  if (line.earliest || line.latest) {
    LineDate out{.earliest = line.earliest,
                 .latest = line.latest,
                 .because = {},
                 .conflicts = {},
                 .full = {},
                 .basis = DateBasis::made};
    out.because = "the line's own date: " + range_text(out.range());
    return out;
  }
  return find({.fabric = line.fabric, .form = line.form, .decoration = line.decoration, .region = region});
}

}  // namespace sherd::dating
