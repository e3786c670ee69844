#include "access/sessions.h"

#include <algorithm>

#include "base/hash.h"

namespace sherd::access {

bool Sessions::is_over(const SessionState& session, std::int64_t now) const {
  return now - session.seen >= limits_.idle || now - session.began >= limits_.longest;
}

void Sessions::sweep(std::int64_t now) {
  std::erase_if(by_digest_, [&](const auto& one) { return is_over(one.second, now); });
}

std::string Sessions::begin(std::string account, std::string peer, std::int64_t not_before) {
  const std::scoped_lock lock(mutex_);
  const std::int64_t now = clock_();
  sweep(now);
  std::size_t has = 0;
  auto idlest = by_digest_.end();
  for (auto one = by_digest_.begin(); one != by_digest_.end(); ++one) {
    if (one->second.account != account) continue;
    ++has;
    if (idlest == by_digest_.end() || one->second.seen < idlest->second.seen) idlest = one;
  }
  if (has >= limits_.most_each) by_digest_.erase(idlest);
  std::string secret = new_secret_() + new_secret_();
  by_digest_[sha256(secret)] = {sha256("id of " + secret).substr(0, 16),
                                std::move(account),
                                std::move(peer),
                                std::max(now, not_before),
                                now,
                                now};
  return secret;
}

std::optional<SessionState> Sessions::peek(std::string_view secret) {
  const std::string digest = sha256(secret);
  const std::scoped_lock lock(mutex_);
  const auto found = by_digest_.find(digest);
  if (found == by_digest_.end() || is_over(found->second, clock_())) return std::nullopt;
  return found->second;
}

std::optional<SessionState> Sessions::find(std::string_view secret) {
  const std::string digest = sha256(secret);
  const std::scoped_lock lock(mutex_);
  const auto found = by_digest_.find(digest);
  if (found == by_digest_.end()) return std::nullopt;
  const std::int64_t now = clock_();
  if (is_over(found->second, now)) {
    by_digest_.erase(found);
    return std::nullopt;
  }
  found->second.seen = now;
  return found->second;
}

void Sessions::prove(std::string_view secret) {
  const std::string digest = sha256(secret);
  const std::scoped_lock lock(mutex_);
  if (const auto found = by_digest_.find(digest); found != by_digest_.end()) found->second.proved = clock_();
}

void Sessions::end(std::string_view secret) {
  const std::string digest = sha256(secret);
  const std::scoped_lock lock(mutex_);
  by_digest_.erase(digest);
}

Result<void> Sessions::end_by_id(std::string_view id) {
  const std::scoped_lock lock(mutex_);
  if (std::erase_if(by_digest_, [&](const auto& one) { return one.second.id == id; }) == 0)
    return fail("no_session", "that session is over already", "read the list of sessions again");
  return {};
}

void Sessions::end_of(std::string_view account, std::string_view but) {
  const std::string kept = but.empty() ? std::string() : sha256(but);
  const std::scoped_lock lock(mutex_);
  std::erase_if(by_digest_, [&](const auto& one) { return one.second.account == account && one.first != kept; });
}

std::vector<SessionState> Sessions::all() {
  const std::scoped_lock lock(mutex_);
  sweep(clock_());
  std::vector<SessionState> sessions;
  for (const auto& [digest, session] : by_digest_) sessions.push_back(session);
  std::ranges::sort(sessions, [](const SessionState& a, const SessionState& b) {
    return std::pair(b.began, b.id) < std::pair(a.began, a.id);
  });
  return sessions;
}

}  // namespace sherd::access
