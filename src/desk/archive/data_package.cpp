#include <algorithm>
#include <nlohmann/json.hpp>

#include "base/text.h"
#include "desk/archive/archive_metadata.h"

namespace sherd::desk {

namespace {

using Json = nlohmann::ordered_json;

Json field_json(const ArchivedField& field) {
  Json out{{"name", field.name}, {"type", field.type}, {"description", field.description}};
  if (!field.unit.empty()) out["unit"] = field.unit;
  Json constraints = Json::object();
  if (field.required) constraints["required"] = true;
  if (!field.codes.empty()) {
    Json words = Json::array();
    for (const auto word : split(field.codes, '|')) words.push_back(std::string(word));
    constraints["enum"] = std::move(words);
  }
  if (!constraints.empty()) out["constraints"] = std::move(constraints);
  return out;
}

Json schema_json(const ArchivedTable& table) {
  Json fields = Json::array(), keys = Json::array(), foreign = Json::array();
  for (const ArchivedField& field : table.fields) {
    fields.push_back(field_json(field));
    if (field.key) keys.push_back(field.name);
    if (field.refers.empty()) continue;
    const auto parts = split(field.refers, '.');
    const std::string to = std::string(parts[0]) == table.name ? std::string() : std::string(parts[0]);
    foreign.push_back({{"fields", field.name}, {"reference", {{"resource", to}, {"fields", std::string(parts[1])}}}});
  }
  Json out{{"fields", std::move(fields)}, {"missingValues", {""}}};
  if (!keys.empty()) out["primaryKey"] = std::move(keys);
  if (!foreign.empty()) out["foreignKeys"] = std::move(foreign);
  return out;
}

/// "former_site_sheet" is a name already; names are lower-case letters, figures and -, _, . alone.
Json resource_json(const ArchivedTable& table, const std::vector<ArchivedFile>& files) {
  const auto file = std::ranges::find(files, table.path, &ArchivedFile::path);
  Json out{{"name", table.name},
           {"path", table.path},
           {"profile", "tabular-data-resource"},
           {"title", "Table " + replace_all(table.name, "_", " ")},
           {"description", table.description},
           {"format", "csv"},
           {"mediatype", "text/csv"},
           {"encoding", "utf-8"}};
  if (file != files.end()) {
    out["bytes"] = file->bytes;
    out["hash"] = "sha256:" + file->sha256;
  }
  out["rows"] = table.rows;
  out["schema"] = schema_json(table);
  return out;
}

}  // namespace

std::string data_package(const ArchiveAbout& about, const std::vector<ArchivedTable>& tables,
                         const std::vector<ArchivedFile>& files, std::int64_t next_record) {
  Json out{{"profile", "tabular-data-package"},
           {"name", lower(safe_stem(about.site.code))},
           {"id", about.site.code + "@" + about.last.uid},
           {"title", about.title()}};
  if (!about.last.at.empty()) out["created"] = about.last.at;
  Json contributors = Json::array();
  for (const std::string& name : about.creators) contributors.push_back({{"title", name}, {"role", "author"}});
  if (!contributors.empty()) out["contributors"] = std::move(contributors);
  if (!about.licence.empty()) out["licenses"] = {{{"name", safe_stem(about.licence)}, {"title", about.licence}}};
  out["keywords"] = {"pottery", "archaeology"};
  out["sherdwright"] = {{"archive", 1},
                        {"version", about.version},
                        {"site", about.site.code},
                        {"next_record", next_record},
                        {"last_change", about.last.uid},
                        {"changes", about.last.seq}};
  Json resources = Json::array();
  for (const ArchivedTable& table : tables) resources.push_back(resource_json(table, files));
  out["resources"] = std::move(resources);
  return out.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace sherd::desk
