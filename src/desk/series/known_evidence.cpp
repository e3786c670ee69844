#include "desk/series/known_evidence.h"

#include <algorithm>
#include <utility>

#include "base/text.h"
#include "methods/dating/evidence.h"
#include "model/kind_spec.h"
#include "model/rows.h"
#include "reference/evidence.h"
#include "reference/evidence_words.h"

namespace sherd::desk {

namespace {

using dating::kEvidenceKeys;

/// What tells rows apart: keys and reference.
std::string identity(const Evidence& row) {
  std::string out;
  for (const auto& key : kEvidenceKeys) out += row.*key.member + "\n";
  return out + std::string(trim(row.reference));
}

/// True where the row names this key and nothing else.
bool names_alone(const Evidence& row, std::string Evidence::* member) {
  if ((row.*member).empty()) return false;
  return std::ranges::all_of(kEvidenceKeys,
                             [&](const auto& key) { return key.member == member || (row.*key.member).empty(); });
}

Evidence row_of(const WareDate& date) {
  Evidence row;
  row.fabric = date.fabric;
  row.form = date.form;
  row.decoration = date.decoration;
  row.region = date.region;
  row.earliest = date.earliest;
  row.latest = date.latest;
  row.full_from = date.full_from;
  row.full_to = date.full_to;
  row.nature = Nature::span;
  row.basis = date.basis;
  row.reference = date.reference;
  return row;
}

template <class T>
Evidence own_range(const T& of, std::string Evidence::* key, const std::string& name, std::string_view what) {
  Evidence row;
  row.*key = name;
  row.earliest = of.earliest;
  row.latest = of.latest;
  row.nature = Nature::span;
  row.basis = of.basis;
  row.reference = of.reference.empty() ? std::string(what) + "'s own range" : of.reference;
  return row;
}

template <class T>
Result<std::vector<T>> load(const Session& session, Kind kind, StoreEvidence& into) {
  std::vector<std::string> columns = kind_spec(kind).column_names();
  columns.emplace_back("uid");
  SHERD_TRY(const Table table, session.store->read({session.site.code, kind, columns, {}}));
  const Column& uids = *table.find("uid");
  for (std::size_t row = 0; row < table.rows(); ++row) into.uids[kind].emplace_back(uids.text(row));
  return rows_from<T>(table);
}

}  // namespace

const std::vector<std::string>& evidence_keys() {
  static const std::vector<std::string> kKeys = [] {
    std::vector<std::string> keys = kind_spec(Kind::evidence).key_names();
    std::erase(keys, "reference");
    return keys;
  }();
  return kKeys;
}

KnownEvidence::KnownEvidence(const std::vector<DatedRow>& shipped, const StoreEvidence& own) : rows_(shipped) {
  for (std::size_t i = 0; i < rows_.size(); ++i) {
    place_.emplace(identity(rows_[i].evidence), i);
    for (const auto& key : kEvidenceKeys) learn(key.name, rows_[i].evidence.*key.member);
  }
  for (const reference::EvidenceWord& word : reference::evidence_words().all()) {
    if (word.kind_of) learn(word.key, word.said);
  }
  take_store(own);
}

void KnownEvidence::learn(std::string_view key, const std::string& value) {
  if (!value.empty()) spellings_[std::string(key)].emplace(reference::folded(value), value);
}

void KnownEvidence::take_store(const StoreEvidence& own) {
  for (const Fabric& fabric : own.fabrics) {
    learn("fabric", fabric.fabric);
    if (!fabric.variant_of.empty()) variant_of_.emplace(fabric.fabric, fabric.variant_of);
  }
  for (const Form& form : own.forms) learn("form", form.form);
  for (std::size_t i = 0; i < own.evidence.size(); ++i) put(own.evidence[i], {Kind::evidence, i});
  for (std::size_t i = 0; i < own.dates.size(); ++i) put(row_of(own.dates[i]), {Kind::dates, i});
  take_own_ranges(own);
  std::erase_if(rows_, [](const DatedRow& row) { return row.evidence.status == "retired"; });
  place_.clear();
}

void KnownEvidence::take_own_ranges(const StoreEvidence& own) {
  const auto named_alone = [&](std::string Evidence::* member, const std::string& name) {
    return std::ranges::any_of(rows_, [&](const DatedRow& row) {
      return row.of_store && row.evidence.*member == name && names_alone(row.evidence, member);
    });
  };
  const auto carries_one = [](const auto& of) { return of.status != "retired" && (of.earliest || of.latest); };
  for (std::size_t i = 0; i < own.fabrics.size(); ++i) {
    const Fabric& fabric = own.fabrics[i];
    if (carries_one(fabric) && !named_alone(&Evidence::fabric, fabric.fabric))
      put(own_range(fabric, &Evidence::fabric, fabric.fabric, "the fabric"), {Kind::fabrics, i});
  }
  for (std::size_t i = 0; i < own.forms.size(); ++i) {
    const Form& form = own.forms[i];
    if (carries_one(form) && !named_alone(&Evidence::form, form.form))
      put(own_range(form, &Evidence::form, form.form, "the form"), {Kind::forms, i});
  }
}

void KnownEvidence::put(Evidence row, RowOrigin from) {
  DatedRow mine{.evidence = respelt(std::move(row)), .of_store = true, .change = {}};
  for (const auto& key : kEvidenceKeys) learn(key.name, mine.evidence.*key.member);
  origin_[identity(mine.evidence)] = from;
  const bool is_retired = mine.evidence.status == "retired";
  if (is_retired) retired_.push_back(mine);
  const auto [place, is_new] = place_.emplace(identity(mine.evidence), rows_.size());
  if (is_new) {
    rows_.push_back(std::move(mine));
    return;
  }
  DatedRow& there = rows_[place->second];
  if (!there.of_store && is_retired) retired_.push_back(there);
  if (!there.of_store && !is_retired) ++replaced_;
  there = std::move(mine);
}

/// A store's fabrics and forms are codes of its own, and a legend stands as it was read; everything else is spelt as
/// the shipped rows do.
Evidence KnownEvidence::respelt(Evidence row) const {
  for (const auto& key : kEvidenceKeys) {
    std::string& cell = row.*key.member;
    if (cell.empty() || key.number || key.name == "legend" || key.name == "fabric" || key.name == "form") continue;
    if (const std::string* known = find(key.name, cell)) {
      cell = *known;
    } else {
      cell = trim(cell);
    }
  }
  return row;
}

const RowOrigin* KnownEvidence::origin(const DatedRow& row) const {
  if (!row.of_store) return nullptr;
  const auto found = origin_.find(identity(row.evidence));
  return found == origin_.end() ? nullptr : &found->second;
}

std::vector<std::string> KnownEvidence::broader(std::string_view key, std::string_view value) const {
  if (key != "fabric") return reference::evidence_words().broader(key, value);
  std::vector<std::string> out;
  for (auto at = variant_of_.find(value); at != variant_of_.end(); at = variant_of_.find(at->second)) {
    if (at->second == value || std::ranges::find(out, at->second) != out.end()) break;
    out.push_back(at->second);
  }
  return out;
}

std::vector<std::string> KnownEvidence::values(std::string_view key) const {
  std::vector<std::string> out;
  if (const auto spellings = spellings_.find(key); spellings != spellings_.end()) {
    for (const auto& [text, value] : spellings->second) out.push_back(value);
  }
  std::ranges::sort(out);
  return out;
}

Result<StoreEvidence> store_evidence(const Session& session) {
  StoreEvidence own;
  SHERD_TRY(own.evidence, load<Evidence>(session, Kind::evidence, own));
  SHERD_TRY(own.dates, load<WareDate>(session, Kind::dates, own));
  SHERD_TRY(own.fabrics, load<Fabric>(session, Kind::fabrics, own));
  SHERD_TRY(own.forms, load<Form>(session, Kind::forms, own));
  return own;
}

Result<KnownEvidence> known_evidence(const Session& session, const Environment& environment) {
  SHERD_TRY(const StoreEvidence own, store_evidence(session));
  SHERD_TRY(const Provenance provenance, session.provenance(environment));
  KnownEvidence known(reference::evidence_rows(), own);
  known.inputs = provenance.inputs;
  return known;
}

Result<KnownEvidence> known_evidence(Environment& environment, const std::string& store, const std::string& site) {
  if (store.empty()) return KnownEvidence(reference::evidence_rows(), {});
  SHERD_TRY(const Session session, open_session(environment, store, site));
  return known_evidence(session, environment);
}

}  // namespace sherd::desk
