#include "http/chooser.h"

#include <algorithm>
#include <filesystem>

#include "base/text.h"
#include "desk/demo/make_demo.h"
#include "desk/frame/json.h"
#include "desk/site/new_site.h"

namespace sherd::http {

namespace fs = std::filesystem;

namespace {

struct NoRequest {
  template <class V>
  static void fields(V&) {}
};

struct PathRequest {
  std::string path;

  template <class V>
  static void fields(V& v) {
    v.field("path", &PathRequest::path, required_option("a store, by its whole path"));
  }
};

struct FolderRequest {
  std::string folder;

  template <class V>
  static void fields(V& v) {
    v.field("folder", &FolderRequest::folder, option("a folder, by its whole path"));
  }
};

struct NewStoreRequest {
  std::string folder, code, title;

  template <class V>
  static void fields(V& v) {
    v.field("folder", &NewStoreRequest::folder, required_option("the folder"));
    v.field("code", &NewStoreRequest::code, required_option("the site's code, such as SAL26"));
    v.field("title", &NewStoreRequest::title, option("the project's title"));
  }
};

std::unexpected<Error> refused(std::string column, std::string code, std::string message, std::string hint) {
  return fail(Error{.kind = ErrorKind::data,
                    .code = std::move(code),
                    .message = std::move(message),
                    .where = {.column = std::move(column)},
                    .hint = std::move(hint)});
}

Result<void> check_absolute(const std::string& column, const std::string& path) {
  if (path.starts_with("/")) return {};
  return refused(column, "not_a_path", "\"" + shortened(path, 80) + "\" is not a whole path", "begin with /");
}

Result<void> check_folder(const Chooser& chooser, const std::string& folder) {
  SHERD_CHECK(check_absolute("folder", folder));
  if (chooser.files->is_folder(folder)) return {};
  return refused("folder", "no_folder", "there is no folder " + shortened(folder, 80), "choose one that is there");
}

StoresResponse list_stores(const Chooser& chooser) {
  StoresResponse response;
  response.folder = chooser.folder;
  response.problem = chooser.problem;
  for (const desk::RecentStore& store : chooser.recent->all()) {
    const fs::path path(store.path);
    response.stores.push_back({store.path, path.filename(), path.parent_path(), store.code, store.title,
                               store.opened_at, chooser.files->exists(store.path)});
  }
  return response;
}

Result<FolderResponse> list_folder(const Chooser& chooser, const FolderRequest& request) {
  const std::string folder = request.folder.empty() ? chooser.folder : request.folder;
  SHERD_CHECK(check_folder(chooser, folder));
  FolderResponse response;
  const fs::path here = fs::path(folder).lexically_normal();
  response.folder = here;
  if (here.has_relative_path()) response.above = here.parent_path();
  std::error_code error;
  fs::directory_iterator each(here, fs::directory_options::skip_permission_denied, error);
  for (; !error && each != fs::directory_iterator(); each.increment(error)) {
    const std::string name = each->path().filename();
    std::error_code unreadable;
    if (name.starts_with(".")) continue;
    if (each->is_directory(unreadable)) response.folders.push_back(name);
    if (each->is_regular_file(unreadable) && name.ends_with(".sherds")) response.stores.push_back(name);
  }
  if (error)
    return refused("folder", "not_readable", "the folder cannot be read: " + error.message(), "choose another");
  std::ranges::sort(response.folders);
  std::ranges::sort(response.stores);
  return response;
}

Result<OpenedResponse> opened(const Chooser& chooser, const std::string& path, desk::Environment& environment) {
  SHERD_CHECK(check_absolute("path", path));
  OpenedResponse response;
  SHERD_TRY(response.url, chooser.open(path, environment));
  return response;
}

/// "SAL26" -> "SAL26.sherds"; what no file's name should hold becomes a hyphen.
std::string file_name(const std::string& code) {
  std::string name = code;
  for (char& c : name) {
    if (c == '/' || c == ' ' || static_cast<unsigned char>(c) < 32) c = '-';
  }
  while (name.starts_with(".")) name.erase(0, 1);
  return name + ".sherds";
}

Result<OpenedResponse> make_store(const Chooser& chooser, const NewStoreRequest& request,
                                  desk::Environment& environment, Progress& progress) {
  SHERD_CHECK(check_folder(chooser, request.folder));
  const std::string path = (fs::path(request.folder) / file_name(request.code)).lexically_normal();
  desk::NewRequest wanted;
  wanted.store = path;
  wanted.site = request.code;
  wanted.title = request.title;
  SHERD_CHECK(desk::make_site(wanted, environment, progress));
  return opened(chooser, path, environment);
}

/// One that is there is opened as it is: what was tried on it stays.
Result<OpenedResponse> open_demo(const Chooser& chooser, const FolderRequest& request, desk::Environment& environment,
                                 Progress& progress) {
  const std::string within = request.folder.empty() ? chooser.folder : request.folder;
  SHERD_CHECK(check_folder(chooser, within));
  const std::string folder = (fs::path(within) / "sherdwright-demo").lexically_normal();
  std::string store = folder + "/tanyard.sherds";
  if (!chooser.files->exists(store)) {
    desk::DemoRequest wanted;
    wanted.folder = folder;
    SHERD_TRY(const desk::DemoResponse made, desk::make_demo(wanted, environment, progress));
    store = made.store;
  }
  return opened(chooser, store, environment);
}

template <class Request, class Run>
std::function<Result<Work>(const desk::Given&, const std::vector<desk::Preset>&)> prepared(Run run, bool writes) {
  return [run, writes](const desk::Given& given, const std::vector<desk::Preset>& presets) -> Result<Work> {
    SHERD_TRY(Request request, desk::read_request<Request>(given, presets));
    Work work;
    work.run = [run, request = std::move(request)](desk::Environment& environment, Progress& progress) -> Answer {
      SHERD_TRY(auto response, run(request, environment, progress));
      response.provenance.version = environment.version;
      return desk::envelope(response);
    };
    if (writes) {
      work.write = [answer = work.run](desk::Environment& environment, Progress& progress) -> Result<Written> {
        SHERD_TRY(std::string document, answer(environment, progress));
        return Written{std::move(document), {}};
      };
    }
    return work;
  };
}

}  // namespace

std::vector<Route> chooser_routes(const Chooser& chooser) {
  using desk::Environment;
  const Chooser* const its = &chooser;
  const auto list = [its](const NoRequest&, Environment&, Progress&) -> Result<StoresResponse> {
    return list_stores(*its);
  };
  const auto folder = [its](const FolderRequest& request, Environment&, Progress&) {
    return list_folder(*its, request);
  };
  const auto open = [its](const PathRequest& request, Environment& environment, Progress&) {
    return opened(*its, request.path, environment);
  };
  const auto make = [its](const NewStoreRequest& request, Environment& environment, Progress& progress) {
    return make_store(*its, request, environment, progress);
  };
  const auto demo = [its](const FolderRequest& request, Environment& environment, Progress& progress) {
    return open_demo(*its, request, environment, progress);
  };
  const auto forget = [its](const PathRequest& request, Environment&, Progress&) -> Result<StoresResponse> {
    SHERD_CHECK(its->recent->forget(request.path));
    return list_stores(*its);
  };
  return {{"stores", "GET", "/api/recent", prepared<NoRequest>(list, false), false},
          {"folder", "GET", "/api/recent/folder", prepared<FolderRequest>(folder, false), false},
          {"open", "POST", "/api/recent/open", prepared<PathRequest>(open, true), true},
          {"new", "POST", "/api/recent/new", prepared<NewStoreRequest>(make, true), true},
          {"demo", "POST", "/api/recent/demo", prepared<FolderRequest>(demo, true), true},
          {"forget", "POST", "/api/recent/forget", prepared<PathRequest>(forget, true), true}};
}

}  // namespace sherd::http
