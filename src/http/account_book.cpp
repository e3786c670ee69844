#include "http/account_book.h"

namespace sherd::http {

Result<void> AccountBook::read(bool now) {
  const std::int64_t time = clock_();
  if (!now && read_at_ && time == *read_at_) return {};
  read_at_.reset();
  SHERD_TRY(const std::string text, files_.read(file_));
  SHERD_TRY(accounts_, access::Accounts::read(text));
  read_at_ = time;
  return {};
}

Result<std::optional<access::Account>> AccountBook::find(const std::string& name) {
  const std::scoped_lock lock(mutex_);
  SHERD_CHECK(read(false));
  const access::Account* account = accounts_.find(name);
  return account == nullptr ? std::nullopt : std::optional(*account);
}

Result<void> AccountBook::put(access::Account account) {
  const std::scoped_lock lock(mutex_);
  SHERD_CHECK(read(true));
  SHERD_CHECK(accounts_.put(std::move(account)));
  return files_.write_private(file_, accounts_.text());
}

Result<std::vector<access::Account>> AccountBook::all() {
  const std::scoped_lock lock(mutex_);
  SHERD_CHECK(read(true));
  return accounts_.all();
}

Result<std::string> AccountBook::change(const std::function<Result<std::string>(access::Accounts&)>& alter) {
  const std::scoped_lock lock(mutex_);
  SHERD_CHECK(read(true));
  access::Accounts altered = accounts_;
  SHERD_TRY(std::string said, alter(altered));
  SHERD_CHECK(files_.write_private(file_, altered.text()));
  accounts_ = std::move(altered);
  return said;
}

Result<void> AccountBook::look_at() {
  const std::scoped_lock lock(mutex_);
  SHERD_CHECK(read(true));
  if (accounts_.all().empty())
    return fail("no_accounts", "there is no account in " + file_, "add one: sherdwright account " + file_ + " NAME");
  return {};
}

}  // namespace sherd::http
