#include "exchange/sheets/zip_file.h"

#include <fmt/format.h>
#include <zip.h>

#include <algorithm>

#include "base/text.h"

namespace sherd::exchange {

/// What all entries of a file share.
struct ZipFileState {
  ReadLimits limits;
  std::uint64_t unzipped = 0;
  std::uint64_t file_bytes = 0;
};

namespace {

std::unexpected<Error> too_large(std::string message) {
  return fail("unzipped_too_large", std::move(message),
              "Save only the sheet that is needed, as XLSX or CSV, and read that.");
}

std::unexpected<Error> entry_error(const std::string& name, zip_error_t* error) {
  const int code = zip_error_code_zip(error);
  if (code == ZIP_ER_NOPASSWD || code == ZIP_ER_WRONGPASSWD || code == ZIP_ER_ENCRNOTSUPP)
    return fail("encrypted_file", "The spreadsheet is protected by a password.",
                "Save it without a password and read that.");
  return damaged(
      fmt::format("The file is damaged: its part {} cannot be unpacked ({}).", name, zip_error_strerror(error)));
}

}  // namespace

std::unexpected<Error> damaged(std::string message) {
  return fail("damaged_file", std::move(message), "Open it in a spreadsheet program, save it again, and read that.");
}

void ZipEntry::Close::operator()(zip_file* file) const { zip_fclose(file); }
void ZipFile::Discard::operator()(zip* archive) const { zip_discard(archive); }
void ZipFile::Free::operator()(ZipFileState* state) const { delete state; }

Result<std::size_t> ZipEntry::read(std::span<char> buffer) {
  const zip_int64_t got = zip_fread(file_.get(), buffer.data(), buffer.size());
  if (got < 0) return entry_error(name_, zip_file_get_error(file_.get()));
  const auto bytes = static_cast<std::uint64_t>(got);
  const ReadLimits& limits = state_->limits;
  unzipped_ += bytes;
  state_->unzipped += bytes;
  if (state_->unzipped > limits.max_unzipped_bytes) {
    return too_large(fmt::format("The file unpacks to more than {} bytes.",
                                 grouped(static_cast<long long>(limits.max_unzipped_bytes))));
  }
  if (unzipped_ > limits.ratio_free_bytes && unzipped_ / std::max<std::uint64_t>(zipped_, 1) > limits.max_ratio) {
    return too_large(fmt::format("The part {} unpacks to more than {} times its size.", name_, limits.max_ratio));
  }
  return static_cast<std::size_t>(bytes);
}

Result<ZipFile> ZipFile::open(std::string_view bytes, const ReadLimits& limits) {
  zip_error_t error;
  zip_error_init(&error);
  ZipFile file;
  file.state_.reset(new ZipFileState{limits, 0, bytes.size()});
  zip_source_t* const source = zip_source_buffer_create(bytes.data(), bytes.size(), 0, &error);
  if (source != nullptr) file.archive_.reset(zip_open_from_source(source, ZIP_RDONLY, &error));
  if (file.archive_ == nullptr) {
    if (source != nullptr) zip_source_free(source);
    std::string message = fmt::format("The file is damaged: it cannot be unpacked ({}).", zip_error_strerror(&error));
    zip_error_fini(&error);
    return damaged(std::move(message));
  }
  zip_error_fini(&error);
  return file;
}

bool ZipFile::has(const std::string& name) const {
  return zip_name_locate(archive_.get(), name.c_str(), ZIP_FL_NOCASE) >= 0;
}

Result<ZipEntry> ZipFile::entry(const std::string& name) {
  const zip_int64_t index = zip_name_locate(archive_.get(), name.c_str(), ZIP_FL_NOCASE);
  if (index < 0) return damaged(fmt::format("The file is damaged: its part {} is missing.", name));
  ZipEntry entry;
  entry.name_ = name;
  entry.state_ = state_.get();
  zip_stat_t stat;
  zip_stat_init(&stat);
  if (zip_stat_index(archive_.get(), static_cast<zip_uint64_t>(index), 0, &stat) == 0 &&
      (stat.valid & ZIP_STAT_COMP_SIZE) != 0)
    entry.zipped_ = std::min(stat.comp_size, state_->file_bytes);
  entry.file_.reset(zip_fopen_index(archive_.get(), static_cast<zip_uint64_t>(index), 0));
  if (entry.file_ == nullptr) return entry_error(name, zip_get_error(archive_.get()));
  return entry;
}

Result<std::string> ZipFile::beginning(const std::string& name, std::size_t max_bytes) {
  SHERD_TRY(ZipEntry part, entry(name));
  std::string text(max_bytes, '\0');
  std::size_t size = 0;
  while (size < max_bytes) {
    SHERD_TRY(const std::size_t got, part.read(std::span(text).subspan(size)));
    if (got == 0) break;
    size += got;
  }
  text.resize(size);
  return text;
}

}  // namespace sherd::exchange
