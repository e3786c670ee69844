#include "http/feed_world.h"

#include <filesystem>
#include <sstream>

#include "desk/frame/disk.h"
#include "store/open.h"

namespace sherd::http::testing {

std::vector<Event> events_in(const std::string& text) {
  std::vector<Event> events;
  Event event;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) {
    if (line.starts_with("event: ")) event.name = line.substr(7);
    if (line.starts_with("id: ")) event.id = line.substr(4);
    if (line.starts_with("data: ")) event.data += line.substr(6) + "\n";
    if (!line.empty() || event.data.empty()) continue;
    events.push_back(event);
    event.name.clear();
    event.data.clear();
  }
  return events;
}

std::vector<std::int64_t> numbers(const std::string& text) {
  std::vector<std::int64_t> out;
  for (const Event& event : events_in(text)) {
    if (event.name.empty()) out.push_back(std::stoll(event.id));
  }
  return out;
}

namespace {

/// A real one, whose trouble the test makes.
class Breakable final : public ChangeFeed {
 public:
  Breakable(const World& world, std::unique_ptr<ChangeFeed> real) : world_(world), real_(std::move(real)) {}
  std::int64_t wait(std::int64_t after, milliseconds at_most) override { return real_->wait(after, at_most); }
  std::optional<Error> trouble() const override { return world_.trouble(); }
  void close() override { real_->close(); }

 private:
  const World& world_;
  std::unique_ptr<ChangeFeed> real_;
};

}  // namespace

World::World() : folder_((std::filesystem::path(::testing::TempDir()) / ("feed_" + desk::random_uid())).string()) {
  std::filesystem::create_directories(folder_);
  served.store = folder_ + "/mill.sherds";
  store = store::create(served.store).value();
  served.environment.version = "0.0-test";
  served.environment.new_uid = desk::random_uid;
  served.environment.open_store = store::open;
  served.environment.open_feed = [this](const std::string& at) -> Result<std::unique_ptr<ChangeFeed>> {
    ++feeds_opened;
    if (refuse_feeds) return fail("cannot_open", "the server does not take part", "wait");
    SHERD_TRY(auto real, store::open_feed(at));
    return std::make_unique<Breakable>(*this, std::move(real));
  };
  auto writing = store->begin(note("new")).value();
  writing->put_site({.code = "MILL26", .title = "Mill Close"}).value();
  writing->commit().value();
}

World::~World() {
  store.reset();
  std::filesystem::remove_all(folder_);
}

ChangeNote World::note(const std::string& command) {
  return {desk::random_uid(), "Mary", desk::utc_now(), "test", command};
}

Change World::change(const std::string& form) const {
  auto writing = store->begin(note("import forms " + form)).value();
  Table rows(Kind::forms);
  rows.add("form", CellType::text).push_text(form);
  writing->insert("MILL26", rows).value();
  return writing->commit().value();
}

void World::set_trouble(std::optional<Error> error) {
  const std::lock_guard lock(mutex_);
  trouble_ = std::move(error);
}

std::optional<Error> World::trouble() const {
  const std::lock_guard lock(mutex_);
  return trouble_;
}

RouterSettings quick_feed() {
  return {.jobs = {.between_events = milliseconds(1)},
          .feed = {.shortest_pause = milliseconds(5), .longest_pause = milliseconds(20)}};
}

}  // namespace sherd::http::testing
