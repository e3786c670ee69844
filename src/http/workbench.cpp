#include "http/workbench.h"

#include <exception>

#include "http/status.h"

namespace sherd::http {

namespace {

std::unique_ptr<SignIns> sign_ins_of(const WorkbenchSettings& settings, const desk::Environment& environment) {
  if (!settings.sign_in) return nullptr;
  SignInSettings sign_in = *settings.sign_in;
  sign_in.audit = settings.audit;
  return std::make_unique<SignIns>(std::move(sign_in), environment.version, *environment.files, environment.new_uid);
}

GuardSettings guard_of(const WorkbenchSettings& settings) {
  GuardSettings guard = settings.guard;
  guard.audit = settings.audit;
  return guard;
}

/// What signing in refuses is noted there, with the name that was tried; and a page may ask who is signed in.
bool is_refusal(const Request& request, const Response& response) {
  if (response.error == "wrong_password") return false;
  if (response.error == "not_signed_in" && request.path() == "/api/session") return false;
  return response.status == 401 || response.status == 403 || response.status == 421;
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

Workbench::Workbench(const WorkbenchSettings& settings, std::vector<Route> routes, Served served,
                     const AssetTable& assets)
    : version_(served.environment.version),
      audit_(settings.audit),
      sign_ins_(sign_ins_of(settings, served.environment)),
      guard_(guard_of(settings), version_, served.environment.new_uid,
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

void Workbench::note_refusal(const Request& request, const Response& response) {
  if (!audit_ || !is_refusal(request, response)) return;
  const std::string account = sign_ins_ ? sign_ins_->account_at(request) : std::string();
  const std::string asked = request.method + " " + std::string(request.path());  // the query may hold the token
  audit_({.event = "request",
          .outcome = "refused",
          .account = account,
          .address = request.peer,
          .asked = asked,
          .reason = response.error});
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
  note_refusal(request, response);
  add_security_headers(response, encrypted_);
  return response;
}

}  // namespace sherd::http
