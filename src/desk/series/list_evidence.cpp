#include "desk/series/list_evidence.h"

#include <algorithm>
#include <array>
#include <utility>

#include "base/text.h"
#include "desk/assemblage/line_fields.h"
#include "desk/series/known_evidence.h"
#include "methods/dating/evidence.h"
#include "model/kind_spec.h"
#include "reference/evidence.h"

namespace sherd::desk {

namespace {

constexpr std::array<std::string_view, 6> kOtherFields{"nature", "basis", "known", "quality", "reference", "from"};

std::string from_text(const KnownEvidence& known, const DatedRow& row) {
  const RowOrigin* origin = known.origin(row);
  return origin == nullptr ? "shipped" : kind_spec(origin->kind).name;
}

EvidenceEntry entry_of(const KnownEvidence& known, const DatedRow& row) {
  const Evidence& evidence = row.evidence;
  EvidenceEntry entry;
  for (const auto& key : dating::kEvidenceKeys) {
    if (!(evidence.*key.member).empty()) entry.seen.emplace(key.name, evidence.*key.member);
  }
  entry.earliest = evidence.earliest;
  entry.latest = evidence.latest;
  entry.full_from = evidence.full_from;
  entry.full_to = evidence.full_to;
  entry.nature = dating::nature_of(evidence);
  entry.basis = dating::basis_of(evidence);
  entry.reference = evidence.reference;
  entry.known = evidence.known;
  entry.quality = evidence.quality;
  entry.look_alikes = evidence.look_alikes;
  entry.notes = evidence.notes;
  entry.from = from_text(known, row);
  return entry;
}

std::string other_field(const EvidenceEntry& entry, std::string_view field) {
  if (field == "nature") return std::string(word(entry.nature));
  if (field == "basis") return std::string(word(entry.basis));
  if (field == "known") return entry.known ? std::string(word(*entry.known)) : "";
  if (field == "quality") return entry.quality;
  return field == "reference" ? entry.reference : entry.from;
}

bool meets(const EvidenceEntry& entry, const Condition& condition) {
  if (std::ranges::find(kOtherFields, condition.field) != kOtherFields.end())
    return lower(other_field(entry, condition.field)) == lower(condition.value);
  const auto seen = entry.seen.find(condition.field);
  if (condition.value.empty()) return seen == entry.seen.end();
  const auto place = dating::evidence_key(condition.field);
  return seen != entry.seen.end() && place &&
         dating::cell_holds(dating::kEvidenceKeys[*place], seen->second, condition.value);
}

Result<std::vector<Condition>> read_conditions(const KnownEvidence& known, const std::vector<std::string>& where,
                                               std::vector<std::string>& warnings) {
  SHERD_TRY(std::vector<Condition> conditions, conditions_of(where));
  SHERD_CHECK(check_none_negated(conditions));
  for (Condition& condition : conditions) {
    const bool other = std::ranges::find(kOtherFields, condition.field) != kOtherFields.end();
    if (other || (condition.value.empty() && dating::evidence_key(condition.field))) continue;
    SHERD_TRY(const SeenValue seen, known.normalise(condition.field, condition.value));
    if (!seen.note.empty()) warnings.push_back(seen.note);
    condition = {seen.key, seen.value};
  }
  return conditions;
}

/// Changes of the store's rows, read a kind at a time and only for kinds of which a row is listed.
class Histories {
 public:
  Histories(const Session& session, const KnownEvidence& known, const StoreEvidence& own)
      : session_(session), known_(known), own_(own) {}

  Result<void> tell(const DatedRow& row, EvidenceEntry& entry) {
    const RowOrigin* origin = known_.origin(row);
    if (origin == nullptr) return {};
    if (!read_.contains(origin->kind)) {
      SHERD_TRY(read_[origin->kind], evidence_history(session_, origin->kind));
    }
    const auto& changes = read_[origin->kind];
    const auto found = changes.find(own_.uids.at(origin->kind)[origin->index]);
    if (found == changes.end()) return {};
    entry.history = found->second;
    entry.change = entry.history.back().change;
    return {};
  }

 private:
  const Session& session_;
  const KnownEvidence& known_;
  const StoreEvidence& own_;
  std::map<Kind, std::map<std::string, std::vector<EvidenceChange>>> read_;
};

std::int64_t own_rows(const std::vector<DatedRow>& rows) {
  return std::ranges::count_if(rows, [](const DatedRow& row) { return row.of_store; });
}

/// `histories` is nullptr where there is no store.
Result<EvidenceResponse> answer(const EvidenceRequest& request, const KnownEvidence& known, Histories* histories) {
  EvidenceResponse response;
  response.known = static_cast<std::int64_t>(known.rows().size());
  response.own = own_rows(known.rows());
  response.replaced = static_cast<std::int64_t>(known.replaced());
  response.retired = own_rows(known.retired());
  if (!request.values.empty()) {
    if (!dating::evidence_key(request.values)) return fail(known.normalise(request.values, "x").error());
    response.values = known.values(request.values);
    return response;
  }
  SHERD_TRY(const auto conditions, read_conditions(known, request.where, response.warnings));
  for (const DatedRow& row : request.retired ? known.retired() : known.rows()) {
    if (request.own && !row.of_store) continue;
    EvidenceEntry entry = entry_of(known, row);
    if (!std::ranges::all_of(conditions, [&](const Condition& each) { return meets(entry, each); })) continue;
    if (histories != nullptr) SHERD_CHECK(histories->tell(row, entry));
    response.rows.push_back(std::move(entry));
  }
  response.total = static_cast<std::int64_t>(response.rows.size());
  return response;
}

}  // namespace

Result<EvidenceResponse> list_evidence(const EvidenceRequest& request, Environment& environment, Progress&) {
  if (request.store.empty()) {
    if (request.own || request.retired || !request.site.empty()) {
      return fail(ErrorKind::usage, "needs_store", "own rows, retired rows and sites are those of a store",
                  "name the store: sherdwright evidence STORE --own");
    }
    SHERD_TRY(EvidenceResponse response, answer(request, KnownEvidence(reference::evidence_rows(), {}), nullptr));
    response.provenance.version = environment.version;
    return response;
  }
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  SHERD_TRY(const StoreEvidence own, store_evidence(session));
  const KnownEvidence known(reference::evidence_rows(), own);
  Histories histories(session, known, own);
  SHERD_TRY(EvidenceResponse response, answer(request, known, &histories));
  SHERD_TRY(response.provenance, session.provenance(environment));
  for (const std::string& warning : session.store->warnings()) response.warnings.push_back(warning);
  return response;
}

}  // namespace sherd::desk
