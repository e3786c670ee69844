#include "desk/report/issue_report.h"

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>

#include "base/text.h"
#include "desk/report/compose_report.h"
#include "desk/report/report_files.h"

namespace sherd::desk {

namespace {

using Json = nlohmann::json;
using report::DocumentTable;

constexpr std::string_view kFolder = "report/";

/// A figure by where it stands: table, row, column.
struct Place {
  std::string table, row, column;
  auto operator<=>(const Place&) const = default;
};
using Figures = std::map<Place, std::string>;

/// The name of a row: its cells that are no numbers and stand before the first one that is; a second row of the same
/// name gets a number.
std::string row_name(const std::vector<std::string>& cells, std::map<std::string, int>& seen) {
  std::string name = cells.empty() ? std::string() : cells.front();
  if (cells.size() > 1 && (name.empty() || seen.contains(name))) name += (name.empty() ? "" : ", ") + cells[1];
  const int before = seen[name]++;
  return before == 0 ? name : name + " (" + std::to_string(before + 1) + ")";
}

void add_table(const DocumentTable& table, Figures& figures) {
  const auto rows = plain_rows(table);
  std::map<std::string, int> seen;
  const bool grouped = !table.heads.empty();
  for (std::size_t i = 1; i < rows.size(); ++i) {
    std::string name = grouped ? rows[i][0] + (rows[i][0].empty() ? "" : " / ") + rows[i][1] : row_name(rows[i], seen);
    for (std::size_t column = grouped ? 2 : 1; column < rows[i].size(); ++column)
      figures[{table.id, name, rows[0][column]}] = rows[i][column];
  }
}

Figures figures_of(const ComposedReport& composed) {
  Figures figures;
  for (const DocumentTable* table : report::tables_of(composed.document)) add_table(*table, figures);
  for (const auto& [field, value] : composed.prose_values) figures[{"", field, ""}] = value;
  return figures;
}

std::string json_of(const ReportWish& wish, const ComposedReport& composed, const Figures& figures) {
  Json kept;
  kept["type"] = wish.type;
  kept["spelling"] = wish.spelling == report::Spelling::american ? "american" : "british";
  kept["record"] = composed.provenance.inputs.front();
  kept["version"] = composed.provenance.version;
  kept["seed"] = composed.provenance.seed.value_or(0);
  kept["settings"] = composed.provenance.settings;
  kept["tables"] = Json::object();
  for (const auto& [id, name] : report::item_names(composed.document)) kept["tables"][id] = name;
  kept["figures"] = Json::array();
  for (const auto& [place, value] : figures) kept["figures"].push_back({place.table, place.row, place.column, value});
  return kept.dump();
}

struct Kept {
  Json json;
  Figures figures;
};

Result<Kept> read_kept(const Session& session, const std::string& name) {
  SHERD_TRY(const auto document, session.store->document(session.site.code, std::string(kFolder) + name + ".json"));
  if (!document) {
    return fail("no_issue", "no report went out as \"" + name + "\"", "list them with: sherdwright errata STORE");
  }
  Kept kept{Json::parse(document->bytes, nullptr, false), {}};
  if (!kept.json.is_object() || !kept.json.contains("figures") || !kept.json["figures"].is_array())
    return fail("damaged_store", "what was kept of the report \"" + name + "\" cannot be read",
                "check the store: sherdwright verify");
  for (const Json& figure : kept.json["figures"]) {
    if (figure.is_array() && figure.size() == 4)
      kept.figures[{figure[0].get<std::string>(), figure[1].get<std::string>(), figure[2].get<std::string>()}] =
          figure[3].get<std::string>();
  }
  return kept;
}

IssuedReport issued_of(const std::string& name, const Kept& kept, const std::vector<Change>& changes) {
  IssuedReport out;
  out.name = name;
  out.type = kept.json.value("type", std::int64_t{2});
  out.record = kept.json.value("record", "");
  out.figures = std::ssize(kept.figures);
  const std::string command = "report --issue " + name;
  for (const Change& change : changes) {
    if (change.command != command) continue;
    out.change = change.seq;
    out.at = change.at;
    out.who = change.who;
  }
  return out;
}

std::string place_words(const Place& place, const Json& names, const report::Words& words) {
  if (place.table.empty()) return words("errata.text");
  const std::string id = replace_all(place.table, "_", " ");
  const auto name = names.find(place.table);
  return name == names.end() || !name->is_string() ? id : name->get<std::string>() + " (" + id + ")";
}

std::vector<Erratum> compare(const Kept& kept, const Figures& now, const report::Words& words) {
  std::vector<Erratum> errata;
  const Json names = kept.json.value("tables", Json::object());
  const auto add = [&](const Place& place, const std::string& was, const std::string& is) {
    errata.push_back({place_words(place, names, words), place.row, place.column, was, is});
  };
  for (const auto& [place, was] : kept.figures) {
    const auto found = now.find(place);
    if (found == now.end()) {
      add(place, was, "");
    } else if (found->second != was) {
      add(place, was, found->second);
    }
  }
  for (const auto& [place, value] : now) {
    const bool known_table = std::ranges::any_of(
        kept.figures, [&, &table = place.table](const auto& figure) { return figure.first.table == table; });
    if (known_table && !place.table.empty() && !kept.figures.contains(place)) add(place, "", value);
  }
  return errata;
}

}  // namespace

Result<void> check_issue_name(const std::string& name) {
  const bool good = !name.empty() && name.size() <= 64 && name.front() != '.' && std::ranges::all_of(name, [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_' ||
           c == '.';
  });
  if (good) return {};
  return fail(ErrorKind::usage, "bad_issue", "\"" + name + "\" cannot be the name of an issue",
              "use letters, digits, dot, hyphen and underscore, at most 64 of them");
}

Result<void> keep_issue(const ReportWish& wish, const ComposedReport& composed, const IssuedFile& file,
                        Environment& environment) {
  SHERD_TRY(const Session session, open_session(environment, wish.store, wish.site));
  SHERD_TRY(const auto writing, session.store->begin(change_note(environment, "report --issue " + wish.issue)));
  const std::string name = std::string(kFolder) + wish.issue;
  SHERD_TRY(const auto there, session.store->document(session.site.code, name + ".json"));
  if (there)
    return fail("issue_exists", "a report went out as \"" + wish.issue + "\" already", "give this one another name");
  SHERD_CHECK(writing->put_document(
      session.site.code, {name + ".json", "application/json", json_of(wish, composed, figures_of(composed))}));
  SHERD_CHECK(writing->put_document(session.site.code,
                                    {name + ".html", "text/html", report::document_html(composed.document)}));
  if (!file.path.empty()) SHERD_CHECK(environment.files->write(file.path, file.bytes));
  SHERD_CHECK(writing->commit());
  return {};
}

Result<IssueReportResponse> issue_report(const IssueReportRequest& request, Environment& environment,
                                         Progress& progress) {
  SHERD_CHECK(check_issue_name(request.name));
  SHERD_TRY(ReportWish wish, report_wish(request.store, request.site, request.type, request.spelling));
  wish.issue = request.name;
  SHERD_TRY(const ComposedReport composed, compose_report(wish, environment, progress));
  IssueReportResponse response;
  response.provenance = composed.provenance;
  response.warnings = composed.warnings;
  response.errors = composed.problems;
  response.name = request.name;
  response.figures = std::ssize(figures_of(composed));
  if (response.errors.empty()) SHERD_CHECK(keep_issue(wish, composed, {}, environment));
  return response;
}

Result<ErrataResponse> list_errata(const ErrataRequest& request, Environment& environment, Progress& progress) {
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  SHERD_TRY(const auto changes, session.store->changes(0));
  ErrataResponse response;
  SHERD_TRY(response.provenance, session.provenance(environment));
  response.warnings = session.store->warnings();
  if (request.issue.empty()) {
    SHERD_TRY(const auto names, session.store->document_names(session.site.code, kFolder));
    for (const std::string& name : names) {
      if (!name.ends_with(".json")) continue;
      const std::string issue = name.substr(kFolder.size(), name.size() - kFolder.size() - 5);
      SHERD_TRY(const Kept kept, read_kept(session, issue));
      response.issues.push_back(issued_of(issue, kept, changes));
    }
    std::ranges::stable_sort(response.issues, {}, &IssuedReport::change);
    return response;
  }
  SHERD_TRY(const Kept kept, read_kept(session, request.issue));
  response.issues = {issued_of(request.issue, kept, changes)};
  SHERD_TRY(ReportWish wish,
            report_wish(request.store, request.site, response.issues.front().type, kept.json.value("spelling", "")));
  SHERD_TRY(const ComposedReport composed, compose_report(wish, environment, progress));
  response.errata = compare(kept, figures_of(composed), composed.document.words);
  return response;
}

}  // namespace sherd::desk
