#include "http/front_end.h"

#include "web_folder.h"

namespace sherd::http {

const AssetTable& front_end() {
  static const AssetTable kTable = [] {
    AssetTable table;
    for (const EmbeddedFile& file : web) table.emplace(std::string(file.path), Asset{file.bytes});
    return table;
  }();
  return kTable;
}

}  // namespace sherd::http
