#include "desk/archive/read_archive.h"

#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <set>
#include <utility>

#include "base/csv.h"
#include "base/hash.h"
#include "base/text.h"
#include "desk/archive/archive_folder.h"
#include "exchange/zip_folder.h"

namespace sherd::desk {

namespace {

using Json = nlohmann::json;

constexpr std::uint64_t kMostBytes = std::uint64_t{64} << 30;  // that a zip file may unpack to
constexpr std::size_t kHash = 64;

std::unexpected<Error> not_an_archive(const std::string& path, std::string message) {
  Error error{.code = "not_an_archive",
              .message = std::move(message),
              .hint = "archives are made with: sherdwright archive STORE FOLDER"};
  error.where.file = path;
  return fail(std::move(error));
}

bool is_hash(std::string_view text) {
  return text.size() == kHash && text.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

bool is_inside(std::string_view path) {
  if (path.empty() || path.front() == '/') return false;
  const auto parts = split(path, '/');
  return std::ranges::none_of(parts, [](std::string_view part) { return part.empty() || part == "." || part == ".."; });
}

}  // namespace

bool ReadArchive::is_archive(Environment& environment, const std::string& path) {
  return lower(path).ends_with(".zip") || environment.files->is_folder(path);
}

ReadArchive::ReadArchive(ReadArchive&& other) noexcept
    : site(std::move(other.site)),
      last_change(std::move(other.last_change)),
      changes(other.changes),
      next_record(other.next_record),
      environment_(other.environment_),
      folder_(std::move(other.folder_)),
      unpacked_(std::exchange(other.unpacked_, {})),
      seal_(std::move(other.seal_)),
      hashes_(std::move(other.hashes_)),
      resources_(std::move(other.resources_)) {}

ReadArchive::~ReadArchive() {
  if (!unpacked_.empty()) (void)environment_->files->remove_folder(unpacked_);
}

Result<ReadArchive> ReadArchive::open(Environment& environment, const std::string& path) {
  ReadArchive archive(environment);
  archive.folder_ = path;
  while (archive.folder_.size() > 1 && archive.folder_.ends_with('/')) archive.folder_.pop_back();
  if (!environment.files->is_folder(path)) {
    std::error_code ignored;
    archive.unpacked_ = (std::filesystem::temp_directory_path(ignored) / ("sherds-" + environment.new_uid())).string();
    SHERD_CHECK(environment.files->make_folder(archive.unpacked_));
    SHERD_TRY(const std::string top, exchange::unzip_folder(path, archive.unpacked_, kMostBytes));
    archive.folder_ = archive.unpacked_ + "/" + top;
  }
  SHERD_CHECK(archive.read_manifest());
  SHERD_CHECK(archive.read_package());
  return archive;
}

Result<std::string> ReadArchive::read(const std::string& path) const {
  return environment_->files->read(folder_ + "/" + path);
}

Result<void> ReadArchive::read_manifest() {
  const auto text = read(std::string(kManifest));
  if (!text) return not_an_archive(folder_, "there is no " + std::string(kManifest) + " in it");
  seal_ = sha256(*text);
  for (const auto line : split(*text, '\n')) {
    if (line.empty()) continue;
    const bool sound = line.size() > kHash + 2 && is_hash(line.substr(0, kHash)) && line.substr(kHash, 2) == "  ";
    if (!sound || !is_inside(line.substr(kHash + 2)))
      return not_an_archive(folder_, "its list of checksums cannot be read");
    hashes_[std::string(line.substr(kHash + 2))] = line.substr(0, kHash);
  }
  return {};
}

Result<void> ReadArchive::read_package() {
  const auto text = read("datapackage.json");
  const Json json = text ? Json::parse(*text, nullptr, false) : Json();
  const auto ours = json.is_object() ? json.find("sherdwright") : json.end();
  if (!json.is_object() || ours == json.end() || !ours->is_object() || !json.contains("resources"))
    return not_an_archive(folder_, "its datapackage.json is missing or cannot be read");
  try {
    site = ours->value("site", "");
    last_change = ours->value("last_change", "");
    changes = ours->value("changes", std::int64_t{0});
    next_record = ours->value("next_record", std::int64_t{1});
    for (const Json& one : json["resources"]) {
      Resource resource{one.value("path", ""), one.value("hash", ""), one.value("rows", std::int64_t{-1})};
      resources_.push_back(std::move(resource));
    }
  } catch (const Json::exception&) {
    return not_an_archive(folder_, "its datapackage.json is not of the right form");
  }
  return {};
}

Result<std::vector<ArchiveFault>> ReadArchive::faults(Progress& progress) {
  std::vector<ArchiveFault> out;
  double done = 0;
  for (const auto& [path, hash] : hashes_) {
    if (!progress.step(done++ / static_cast<double>(hashes_.size()), "reading " + path))
      return fail(ErrorKind::stopped, "stopped", "stopped");
    const auto bytes = read(path);
    if (!bytes) {
      out.push_back({path, bytes.error().code == "no_file" ? "missing" : "unreadable"});
    } else if (sha256(*bytes) != hash) {
      out.push_back({path, "changed"});
    }
  }
  SHERD_TRY(const auto there, environment_->files->list(folder_));
  for (const std::string& path : there) {
    if (path != kManifest && !hashes_.contains(path)) out.push_back({path, "added"});
  }
  std::ranges::sort(out, {}, &ArchiveFault::path);
  return out;
}

Result<std::vector<std::string>> ReadArchive::contradictions() {
  std::vector<std::string> out;
  for (const Resource& resource : resources_) {
    const auto listed = hashes_.find(resource.path);
    if (listed == hashes_.end()) {
      out.push_back("datapackage.json names " + resource.path + ", which the list of checksums does not have");
      continue;
    }
    if (resource.hash != "sha256:" + listed->second)
      out.push_back("the two checksums of " + resource.path + " differ between datapackage.json and the list");
    const auto text = read(resource.path);
    if (!text) continue;
    CsvCursor cursor(*text);
    std::vector<std::string> cells;
    std::int64_t rows = -1;
    auto more = cursor.next(cells);
    for (; more && *more; more = cursor.next(cells)) ++rows;
    if (!more) {
      out.push_back(resource.path + " is not a table any more: " + more.error().message);
    } else if (rows != resource.rows) {
      out.push_back(resource.path + " has " + counted(rows, "row") + ", not " + std::to_string(resource.rows));
    }
  }
  return out;
}

std::string ReadArchive::with_hash(const std::string& wanted) const {
  for (const auto& [path, hash] : hashes_) {
    if (hash == wanted) return path;
  }
  return {};
}

}  // namespace sherd::desk
