#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <memory>
#include <optional>
#include <string>

#include "desk/recording/apply_edits.h"
#include "desk/recording/find_text.h"
#include "desk/recording/list_rows.h"
#include "desk_world.h"
#include "http/router.h"

using namespace sherd;

namespace {

/// A workbench of a site with two contexts and two lines, new every few hundred inputs so that it stays small.
struct World {
  desk::MemoryFiles files;
  http::Served served;
  std::optional<http::Router> router;

  World() {
    served.environment = fuzz::environment_in_memory(files);
    served.store = "mill.sherds";
    served.site = "MILL26";
    auto opened = served.environment.open_store("");
    auto writing =
        (*opened)->begin({.uid = "first", .who = "A", .at = "2026-03-02T09:00:00Z", .origin = "", .command = "new"});
    Site site;
    site.code = served.site;
    site.title = "Mill Close";
    if (!writing || !(*writing)->put_site(site) || !(*writing)->commit()) std::abort();
    using desk::EditsRequest, desk::EditsResponse;
    router.emplace(std::vector<http::Route>{http::route_of(desk::UseCase<EditsRequest, EditsResponse>{
                                                "edits", "POST", "/api/edits", "changes", desk::apply_edits, true}),
                                            http::route_of(desk::UseCase<desk::RowsRequest, desk::RowsResponse>{
                                                "rows", "GET", "/api/rows", "lists", desk::list_rows}),
                                            http::route_of(desk::UseCase<desk::FindRequest, desk::FindResponse>{
                                                "find", "GET", "/api/find", "finds", desk::find_text})},
                   served);
    made(
        R"({"change":"00000000000000000000000000000001","steps":[)"
        R"({"do":"add","kind":"contexts","values":{"context":"101"}},)"
        R"({"do":"add","kind":"contexts","values":{"context":"102"}},)"
        R"({"do":"add","kind":"fabrics","values":{"fabric":"grey-1"}},)"
        R"({"do":"add","kind":"sherds","values":{"context":"101","fabric":"grey-1","count":"3","weight_g":"14.5"}}]})");
  }

  void made(std::string body) {
    if (ask("POST", "/api/edits", std::move(body)).status != 200) std::abort();
  }

  http::Response ask(std::string method, std::string target, std::string body) {
    return router->answer({.method = std::move(method),
                           .target = std::move(target),
                           .headers = {{"Content-Type", "application/json"}},
                           .body = std::move(body),
                           .peer = {},
                           .local = {},
                           .stopping = {}});
  }
};

}  // namespace

/// The first byte chooses who is asked; the rest is the body, or what stands behind the question mark. Whatever comes,
/// there is an answer of the contract's form, and none is a fault of ours.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static std::unique_ptr<World> world;
  static int asked = 0;
  constexpr int kLifetime = 500;
  if (size == 0) return 0;
  if (!world || ++asked % kLifetime == 0) world = std::make_unique<World>();
  const std::string rest(data + 1, data + size);
  const http::Response response = [&] {
    switch (data[0] % 5) {
      case 0:
        return world->ask("GET", "/api/rows?" + rest, {});
      case 1:
        return world->ask("GET", "/api/find?" + rest, {});
      case 2:
        return world->ask("POST", "/api/files", rest);
      case 3:
        return world->ask("GET", "/api/" + rest, {});
      default:
        return world->ask("POST", "/api/edits", rest);
    }
  }();
  if (response.status < 200 || response.status >= 500) __builtin_trap();
  if (!response.events && response.body.empty()) __builtin_trap();
  return 0;
}
