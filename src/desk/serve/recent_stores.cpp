#include "desk/serve/recent_stores.h"

#include "desk/frame/json.h"
#include "desk/frame/json_read.h"

namespace sherd::desk {

namespace {

struct RecentList {
  std::vector<RecentStore> stores;

  template <class V>
  static void fields(V& v) {
    v.field("stores", &RecentList::stores, option("newest first"));
  }
};

}  // namespace

std::vector<RecentStore> RecentStores::all() const {
  const auto bytes = files_.read(folder_ + "/recent.json");
  if (!bytes) return {};
  const auto given = Given::json(*bytes);
  if (!given) return {};
  auto list = read_request<RecentList>(*given);
  return list ? std::move(list->stores) : std::vector<RecentStore>{};
}

Result<void> RecentStores::note(const RecentStore& store) {
  if (store.path.find("://") != std::string::npos) return {};
  std::vector<RecentStore> stores = all();
  std::erase_if(stores, [&](const RecentStore& known) { return known.path == store.path; });
  stores.insert(stores.begin(), store);
  if (stores.size() > kMost) stores.resize(kMost);
  return write(stores);
}

Result<void> RecentStores::forget(const std::string& path) {
  std::vector<RecentStore> stores = all();
  std::erase_if(stores, [&](const RecentStore& known) { return known.path == path; });
  return write(stores);
}

Result<void> RecentStores::write(const std::vector<RecentStore>& stores) {
  SHERD_CHECK(files_.make_folder(folder_));
  JsonWriter json;
  write_json(json, RecentList{stores});
  return files_.write_private(folder_ + "/recent.json", json.text() + "\n");
}

}  // namespace sherd::desk
