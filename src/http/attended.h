#pragma once

#include <chrono>
#include <memory>
#include <mutex>
#include <utility>

#include "http/handler.h"

namespace sherd::http {

/// Whether anybody is there: a page that listens, or a request lately.
class Attendance {
 public:
  using Clock = std::chrono::steady_clock;

  void touch() {
    const std::scoped_lock lock(mutex_);
    last_ = Clock::now();
  }
  void listen(int more) {
    const std::scoped_lock lock(mutex_);
    listeners_ += more;
    last_ = Clock::now();
  }
  /// How long nobody has been there; nothing while a page listens.
  Clock::duration alone() const {
    const std::scoped_lock lock(mutex_);
    return listeners_ > 0 ? Clock::duration::zero() : Clock::now() - last_;
  }

 private:
  mutable std::mutex mutex_;
  int listeners_ = 0;
  Clock::time_point last_ = Clock::now();
};

/// Hands every request on and remembers that somebody asked.
class Attended final : public Handler {
 public:
  explicit Attended(Handler& inner) : inner_(inner) {}

  Response handle(const Request& request) override {
    attendance_->touch();
    Response response = inner_.handle(request);
    if (response.events) response.events = std::make_shared<Listener>(std::move(response.events), attendance_);
    return response;
  }
  Attendance::Clock::duration alone() const { return attendance_->alone(); }

 private:
  class Listener final : public EventStream {
   public:
    Listener(std::shared_ptr<EventStream> events, std::shared_ptr<Attendance> attendance)
        : events_(std::move(events)), attendance_(std::move(attendance)) {
      attendance_->listen(1);
    }
    ~Listener() override { attendance_->listen(-1); }
    Listener(const Listener&) = delete;
    Listener& operator=(const Listener&) = delete;
    News poll() override { return events_->poll(); }
    void on_news(std::function<void()> wake) override { events_->on_news(std::move(wake)); }

   private:
    std::shared_ptr<EventStream> events_;
    std::shared_ptr<Attendance> attendance_;
  };

  Handler& inner_;
  std::shared_ptr<Attendance> attendance_ = std::make_shared<Attendance>();
};

}  // namespace sherd::http
