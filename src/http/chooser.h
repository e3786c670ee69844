#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/result.h"
#include "desk/frame/reply.h"
#include "desk/serve/recent_stores.h"
#include "http/route.h"

/// What the page of stores asks: at this machine alone, for its user.
namespace sherd::http {

struct StoresResponse : desk::Reply {
  struct Listed {
    std::string path, name, folder, code, title, opened_at;
    bool there = false;

    template <class V>
    static void fields(V& v) {
      v.field("path", &Listed::path);
      v.field("name", &Listed::name);
      v.field("folder", &Listed::folder);
      v.field("code", &Listed::code);
      v.field("title", &Listed::title);
      v.field("opened_at", &Listed::opened_at);
      v.field("there", &Listed::there);
    }
  };
  std::vector<Listed> stores;  ///< newest first
  std::string folder;          ///< where a new one goes unless said
  std::string problem;         ///< of the store that was to be opened, "" where none was or all went well

  template <class V>
  static void fields(V& v) {
    v.field("stores", &StoresResponse::stores);
    v.field("folder", &StoresResponse::folder);
    v.field("problem", &StoresResponse::problem);
  }
};

/// What lies in a folder of this machine: folders and stores, hidden ones left out.
struct FolderResponse : desk::Reply {
  std::string folder, above;  ///< above: "" at the top
  std::vector<std::string> folders, stores;

  template <class V>
  static void fields(V& v) {
    v.field("folder", &FolderResponse::folder);
    v.field("above", &FolderResponse::above);
    v.field("folders", &FolderResponse::folders);
    v.field("stores", &FolderResponse::stores);
  }
};

struct OpenedResponse : desk::Reply {
  std::string url;  ///< where the workbench is; good for one browser, once

  template <class V>
  static void fields(V& v) {
    v.field("url", &OpenedResponse::url);
  }
};

/// The page's hands.
struct Chooser {
  desk::RecentStores* recent = nullptr;
  desk::Files* files = nullptr;
  std::string folder;   ///< where new stores go unless said
  std::string problem;  ///< to be shown at the top
  /// Opens the store at an absolute path and says where. Errors: those of opening it.
  std::function<Result<std::string>(const std::string& path, desk::Environment&)> open;
};

/// GET /api/recent, GET /api/recent/folder, and by POST /api/recent/open, new, demo and forget. `chooser` outlives
/// them.
std::vector<Route> chooser_routes(const Chooser& chooser);

}  // namespace sherd::http
