#include "desk/recording/find_text.h"

#include <algorithm>
#include <array>

#include "base/text.h"
#include "desk/frame/session.h"
#include "desk/recording/kept_lines.h"
#include "model/kind_spec.h"

namespace sherd::desk {

namespace {

constexpr std::int64_t kLimit = 20;

/// 0: is the text, 1: begins with it, 2: holds it; nothing where it does not.
std::optional<int> fit(std::string_view value, std::string_view wanted) {
  const std::size_t at = value.find(wanted);
  if (at == std::string_view::npos) return std::nullopt;
  return at > 0 ? 2 : value.size() == wanted.size() ? 0 : 1;
}

/// The best hits of a group; the others are only counted.
class Best {
 public:
  explicit Best(std::string group, std::size_t most) : most_(most) { group_.group = std::move(group); }

  template <class MakeHit>
  void take(int fit, const MakeHit& hit) {
    ++group_.total;
    std::vector<FindHit>& hits = by_fit_[static_cast<std::size_t>(fit)];
    if (hits.size() < most_) hits.push_back(hit());
  }
  void put(std::vector<FindGroup>& groups) {
    for (auto& hits : by_fit_) {
      for (FindHit& hit : hits) {
        if (group_.hits.size() < most_) group_.hits.push_back(std::move(hit));
      }
    }
    if (group_.total > 0) groups.push_back(std::move(group_));
  }

 private:
  std::size_t most_;
  FindGroup group_;
  std::array<std::vector<FindHit>, 3> by_fit_;
};

/// Rows of a small table by its key and some columns of words.
struct Searched {
  Kind kind;
  std::array<std::string_view, 3> columns;
};
constexpr std::array<Searched, 5> kTables{{{Kind::contexts, {"context", "description", "notes"}},
                                           {Kind::fabrics, {"fabric", "name", "description"}},
                                           {Kind::forms, {"form", "name", "vessel_class"}},
                                           {Kind::decorations, {"decoration", "name", "description"}},
                                           {Kind::bags, {"bag", "box", "notes"}}}};

class Search {
 public:
  Search(const Session& session, std::string_view text, std::size_t most)
      : session_(session), wanted_(lower(text)), most_(most) {}

  void lines(const LinesInShort& lines, std::vector<FindGroup>& groups) {
    Best records("record", most_);
    std::vector<Best> columns;
    for (const std::string_view name : LinesInShort::kSearched) columns.emplace_back(std::string(name), most_);
    for (const LineDigest& line : lines.lines) {
      if (line.uid.empty()) continue;
      const auto hit = [&](std::string_view column, std::string_view value) {
        return FindHit{"sherds", line.uid, line.record, line.context, std::string(column), std::string(value)};
      };
      if (const auto found = fit(line.record, wanted_); found && *found < 2)
        records.take(*found, [&] { return hit("record", line.record); });
      if (line.words.find(wanted_) == std::string::npos) continue;
      const auto cells = split(line.words, '\n');
      for (std::size_t i = 0; i < columns.size(); ++i) {
        if (const auto found = fit(cells[i], wanted_))
          columns[i].take(*found, [&] { return hit(LinesInShort::kSearched[i], cells[i]); });
      }
    }
    records.put(groups);
    for (Best& best : columns) best.put(groups);
  }

  Result<void> table(const Searched& searched, std::vector<FindGroup>& groups) const {
    const KindSpec& spec = kind_spec(searched.kind);
    std::vector<std::string> columns{"uid"};
    for (const std::string_view name : searched.columns) columns.emplace_back(name);
    const bool has_context = searched.kind == Kind::bags;
    if (has_context) columns.emplace_back("context");
    SHERD_TRY(const Table table, session_.store->read({session_.site.code, searched.kind, columns, {}}));
    Best best(spec.name, most_);
    for (std::size_t row = 0; row < table.rows(); ++row) {
      const std::string id(table.columns()[1].text(row));
      for (std::size_t i = 0; i < searched.columns.size(); ++i) {
        const std::string_view value = table.columns()[i + 1].text(row);
        const auto found = fit(lower(value), wanted_);
        if (!found) continue;
        const std::string context = searched.kind == Kind::contexts ? id
                                    : has_context                   ? std::string(table.find("context")->text(row))
                                                                    : std::string{};
        best.take(i == 0 ? *found : 2, [&] {
          return FindHit{spec.name, std::string(table.columns()[0].text(row)), id,
                         context,   std::string(searched.columns[i]),          std::string(value)};
        });
        break;
      }
    }
    best.put(groups);
    return {};
  }

  /// The cells of hits in lines as they were written, not in small letters.
  Result<void> as_written(std::vector<FindGroup>& groups) const {
    for (FindGroup& group : groups) {
      for (FindHit& hit : group.hits) {
        if (hit.kind != "sherds" || hit.column == "record") continue;
        SHERD_TRY(const Table table,
                  session_.store->read({session_.site.code, Kind::sherds, {hit.column}, {}, {{"uid", hit.uid}}}));
        if (table.rows() > 0) hit.value = table.columns()[0].text(0);
      }
    }
    return {};
  }

 private:
  const Session& session_;
  std::string wanted_;
  std::size_t most_;
};

}  // namespace

Result<FindResponse> find_text(const FindRequest& request, Environment& environment, Progress&) {
  const std::string_view text = trim(request.text);
  if (text.empty()) return fail(ErrorKind::usage, "no_text", "there is nothing to look for", "give a number or a word");
  const std::int64_t limit = request.limit.value_or(kLimit);
  if (limit < 1) return fail(ErrorKind::usage, "bad_number", "limit is at least 1");
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  FindResponse response;
  response.text = text;
  SHERD_TRY(response.provenance, session.provenance(environment));
  response.warnings = session.store->warnings();
  Search search(session, text, static_cast<std::size_t>(limit));
  std::vector<FindGroup> of_lines;
  SHERD_CHECK(look_at_lines(session, environment, [&](const LinesInShort& lines) -> Result<void> {
    search.lines(lines, of_lines);
    return {};
  }));
  SHERD_CHECK(search.as_written(of_lines));
  if (!of_lines.empty() && of_lines.front().group == "record") {
    response.groups.push_back(std::move(of_lines.front()));
    of_lines.erase(of_lines.begin());
  }
  for (const Searched& searched : kTables) SHERD_CHECK(search.table(searched, response.groups));
  for (FindGroup& group : of_lines) response.groups.push_back(std::move(group));
  return response;
}

}  // namespace sherd::desk
