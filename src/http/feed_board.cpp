#include "http/feed_board.h"

#include <algorithm>

#include "desk/frame/json.h"
#include "http/event_text.h"

namespace sherd::http {

namespace {

constexpr std::size_t kAtOnce = 64;  ///< changes in one piece: a slow listener holds no more than that

std::string document_of(const auto& value) {
  desk::JsonWriter json;
  desk::write_json(json, value);
  return json.text();
}

}  // namespace

std::string event_of(const desk::ChangeNews& change) {
  return event_text({}, std::to_string(change.seq), document_of(change));
}

std::string reset_event(std::int64_t newest) {
  const std::string seq = std::to_string(newest);
  return event_text("reset", seq, "{\"seq\": " + seq + "}");
}

void FeedBoard::start(std::int64_t newest) {
  const std::lock_guard lock(mutex_);
  if (begun_) return;
  begun_ = true;
  newest_ = gone_ = newest;
}

void FeedBoard::begin(std::int64_t newest) {
  start(newest);
  {
    const std::lock_guard lock(mutex_);
    if (newest >= newest_) return;  // what came meanwhile will be published
    ++resets_;
    kept_.clear();
    newest_ = gone_ = newest;
  }
  wakes_.call_all();
}

void FeedBoard::publish(const std::vector<Change>& changes) {
  {
    const std::lock_guard lock(mutex_);
    for (const Change& one : changes) {
      if (one.seq <= newest_) continue;
      auto news = desk::ChangeNews::of(one);
      std::string text = event_of(news);
      newest_ = one.seq;
      kept_.push_back({std::move(news), std::move(text)});
    }
    for (; kept_.size() > most_kept_; kept_.pop_front()) gone_ = kept_.front().change.seq;
  }
  wakes_.call_all();
}

void FeedBoard::set_trouble(const std::optional<Error>& trouble) {
  {
    const std::lock_guard lock(mutex_);
    if (trouble == trouble_) return;
    trouble_ = trouble;
    ++troubles_;
  }
  wakes_.call_all();
}

std::int64_t FeedBoard::newest() const {
  const std::lock_guard lock(mutex_);
  return newest_;
}

std::optional<desk::ChangeNews> FeedBoard::first_after(std::int64_t seq) const {
  const std::lock_guard lock(mutex_);
  const auto found = std::find_if(kept_.begin(), kept_.end(), [&](const Kept& one) { return one.change.seq > seq; });
  if (found == kept_.end()) return std::nullopt;
  return found->change;
}

void FeedBoard::tell_trouble(Place& place, std::string& text) const {
  const bool told_before = place.troubles >= 0;
  if (place.troubles == troubles_) return;
  place.troubles = troubles_;
  if (trouble_ || told_before) text += event_text("trouble", {}, document_of(trouble_));
}

FeedBoard::Sheet FeedBoard::read(Place& place, std::size_t most) const {
  const std::lock_guard lock(mutex_);
  Sheet sheet;
  tell_trouble(place, sheet.text);
  if (place.reset < 0) place.reset = resets_;
  if (place.reset != resets_) {
    place.reset = resets_;
    place.seen = newest_;
    sheet.text += reset_event(newest_);
    return sheet;
  }
  sheet.missed = place.seen < gone_;
  if (sheet.missed) return sheet;
  auto next = std::upper_bound(kept_.begin(), kept_.end(), place.seen,
                               [](std::int64_t seen, const Kept& one) { return seen < one.change.seq; });
  for (std::size_t told = 0; next != kept_.end() && told < most; ++next, ++told) {
    sheet.text += next->text;
    place.seen = next->change.seq;
  }
  sheet.more = next != kept_.end();
  return sheet;
}

namespace {

class FeedEvents final : public EventStream {
 public:
  FeedEvents(std::shared_ptr<FeedBoard> board, std::int64_t seen, std::string first, bool ends)
      : board_(std::move(board)), first_(std::move(first)), ends_(ends) {
    place_.seen = seen;
  }
  ~FeedEvents() override {
    if (key_) board_->wakes().remove(*key_);
  }

  News poll() override {
    News news{std::exchange(first_, {}), ends_};
    if (ends_) return news;
    FeedBoard::Sheet sheet = board_->read(place_, kAtOnce);
    news.text += sheet.text;
    news.over = ends_ = sheet.missed;
    if (sheet.more && wake_) wake_();
    return news;
  }

  void on_news(std::function<void()> wake) override {
    wake_ = wake;
    key_ = board_->wakes().add(std::move(wake));
  }

 private:
  std::shared_ptr<FeedBoard> board_;
  FeedBoard::Place place_;
  std::string first_;
  bool ends_;
  std::function<void()> wake_;
  std::optional<int> key_;
};

}  // namespace

std::shared_ptr<EventStream> events_of(std::shared_ptr<FeedBoard> board, std::int64_t seen, std::string first,
                                       bool ends) {
  return std::make_shared<FeedEvents>(std::move(board), seen, std::move(first), ends);
}

}  // namespace sherd::http
