#include "read_table.h"

#include <zip.h>

namespace sherd::exchange {

std::string zip_of(const std::vector<std::pair<std::string, std::string>>& parts) {
  zip_error_t error;
  zip_error_init(&error);
  zip_source_t* const target = zip_source_buffer_create(nullptr, 0, 0, &error);
  zip_source_keep(target);
  zip_t* const archive = zip_open_from_source(target, ZIP_CREATE | ZIP_TRUNCATE, &error);
  for (const auto& [name, content] : parts) {
    zip_source_t* const part = zip_source_buffer(archive, content.data(), content.size(), 0);
    const zip_int64_t index = zip_file_add(archive, name.c_str(), part, ZIP_FL_OVERWRITE);
    zip_set_file_compression(archive, static_cast<zip_uint64_t>(index), ZIP_CM_STORE, 0);
  }
  zip_close(archive);
  std::string bytes;
  std::string chunk(65536, '\0');
  zip_source_open(target);
  for (zip_int64_t got = 0; (got = zip_source_read(target, chunk.data(), chunk.size())) > 0;)
    bytes.append(chunk, 0, static_cast<std::size_t>(got));
  zip_source_close(target);
  zip_source_free(target);
  return bytes;
}

}  // namespace sherd::exchange
