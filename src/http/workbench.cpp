#include "http/workbench.h"

#include <exception>

#include "http/status.h"

namespace sherd::http {

namespace {

std::unique_ptr<SignIns> sign_ins_of(const WorkbenchSettings& settings, const desk::Environment& environment) {
  if (!settings.sign_in) return nullptr;
  return std::make_unique<SignIns>(*settings.sign_in, environment.version, *environment.files, environment.new_uid);
}

/// News for as long as whoever asked for them is signed in.
class NewsOfSession final : public EventStream {
 public:
  NewsOfSession(std::shared_ptr<EventStream> all, std::function<bool()> goes_on)
      : all_(std::move(all)), goes_on_(std::move(goes_on)) {}
  News poll() override { return goes_on_() ? all_->poll() : News{{}, true}; }
  void on_news(std::function<void()> wake) override { all_->on_news(std::move(wake)); }

 private:
  std::shared_ptr<EventStream> all_;
  std::function<bool()> goes_on_;
};

}  // namespace

Workbench::Workbench(WorkbenchSettings settings, std::vector<Route> routes, Served served, const AssetTable& assets)
    : version_(served.environment.version),
      sign_ins_(sign_ins_of(settings, served.environment)),
      guard_(settings.guard, version_, served.environment.new_uid,
             Visitor{"", served.environment.user, access::Role::owner, false}, sign_ins_.get()),
      encrypted_(settings.guard.encrypted),
      assets_(assets),
      router_(std::move(routes), std::move(served), settings.router) {}

Response Workbench::answer(const Request& request) {
  Guard::Admission admission = guard_.admit(request);
  if (admission.answer) return std::move(*admission.answer);
  const std::string_view path = request.path();
  if (path != "/api" && !path.starts_with("/api/")) return assets_.answer(request);
  Response response = router_.answer(request, admission.visitor);
  if (response.events && sign_ins_) {
    Request asked = request;
    asked.body.clear();
    response.events = std::make_shared<NewsOfSession>(
        std::move(response.events), [this, asked = std::move(asked)] { return sign_ins_->is_still_in(asked); });
  }
  return response;
}

Response Workbench::handle(const Request& request) {
  Response response;
  try {
    response = answer(request);
  } catch (const std::exception& error) {
    response = error_response(500,
                              {.kind = ErrorKind::internal,
                               .code = "internal",
                               .message = std::string("internal error: ") + error.what(),
                               .where = {},
                               .hint = "this is our fault; please report what you did"},
                              version_);
  }
  add_security_headers(response, encrypted_);
  return response;
}

}  // namespace sherd::http
