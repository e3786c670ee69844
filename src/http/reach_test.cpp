#include <gmock/gmock.h>

#include <concepts>
#include <nlohmann/json.hpp>
#include <set>

#include "base/child_process.h"
#include "desk/use_cases.h"
#include "http/router.h"
#include "http/store_on_disk.h"
#include "http/testing.h"

namespace sherd::http {
namespace {

using nlohmann::json;

constexpr const char* kElsewhere = "/elsewhere/accounts.csv";

/// The disk, with a note of every path that was asked for.
class WatchedFiles final : public desk::Files {
 public:
  explicit WatchedFiles(desk::Files& inner) : inner_(inner) {}

  Result<std::string> read(const std::string& path) override { return inner_.read(seen(path)); }
  Result<void> write(const std::string& path, std::string_view bytes) override {
    return inner_.write(seen(path), bytes);
  }
  Result<void> write_private(const std::string& path, std::string_view bytes) override {
    return inner_.write_private(seen(path), bytes);
  }
  bool exists(const std::string& path) override { return inner_.exists(seen(path)); }
  Result<void> make_folder(const std::string& path) override { return inner_.make_folder(seen(path)); }
  Result<void> remove(const std::string& path) override { return inner_.remove(seen(path)); }
  bool is_folder(const std::string& path) override { return inner_.is_folder(seen(path)); }
  Result<std::vector<std::string>> list(const std::string& folder) override { return inner_.list(seen(folder)); }
  Result<void> move(const std::string& from, const std::string& to) override {
    return inner_.move(seen(from), seen(to));
  }
  Result<void> remove_folder(const std::string& folder) override { return inner_.remove_folder(seen(folder)); }

  bool strayed() const { return strayed_; }
  void forget() { strayed_ = false; }

 private:
  const std::string& seen(const std::string& path) {
    strayed_ = strayed_ || path.find("elsewhere") != std::string::npos;
    return path;
  }

  desk::Files& inner_;
  bool strayed_ = false;
};

/// The fields of a request: what makes it complete, and each with a value that a stranger would try.
struct Asked {
  json needed = json::object();
  std::vector<std::pair<std::string, json>> tried;

  template <class M, class B>
  void field(std::string_view name, M B::*, const Note& note) {
    const std::string key(name);
    if constexpr (std::same_as<M, std::string>) {
      tried.emplace_back(key, kElsewhere);
      if (note.required) needed[key] = "x";
    } else if constexpr (std::same_as<M, std::vector<std::string>>) {
      tried.emplace_back(key, json::array({kElsewhere}));
    } else if constexpr (std::same_as<M, bool>) {
      tried.emplace_back(key, true);
    } else if (note.required) {
      needed[key] = json::array();
    }
  }
};

class Reach : public testing::StoreOnDisk {
 protected:
  void SetUp() override {
    StoreOnDisk::SetUp();
    environment_.files = &watched_;
    environment_.processes = &processes_;
    environment_.open_feed = {};
    served_.environment = environment_;
    served_.store = store_;
    served_.site = "MILL26";
  }
  Request asking(const std::string& verb, const std::string& path, const json& body) const {
    if (verb == "POST") return testing::post(path, body.dump());
    std::string query;
    for (const auto& [name, value] : body.items()) {
      const json& one = value.is_array() && !value.empty() ? value[0] : value;
      query += (query.empty() ? "?" : "&") + name + "=" + (one.is_string() ? one.get<std::string>() : one.dump());
    }
    return testing::get(path + query);
  }
  std::int64_t newest() const {
    desk::Environment environment = environment_;
    const auto store = environment.open_store(store_);
    return store ? (*(*store)->newest_change())->seq : -1;
  }
  /// Every request that HTTP takes, with one field after the other.
  template <class Try>
  void for_each_request(const Try& attempt) {
    desk::for_each_use_case([&]<class UseCase>(const UseCase& use_case) {
      if (use_case.path.empty() || (use_case.verb != "GET" && !use_case.from_page)) return;
      Asked asked;
      UseCase::Request::fields(asked);
      for (const auto& [name, value] : asked.tried) {
        json body = asked.needed;
        for (const char* ours : {"store", "in", "site"}) body.erase(ours);
        body[name] = value;
        attempt(std::string(use_case.name), std::string(use_case.verb), std::string(use_case.path), name, body);
      }
    });
  }

  SystemProcess processes_;
  WatchedFiles watched_{files_};
  Served served_;
};

TEST_F(Reach, no_request_makes_the_program_touch_a_file_that_it_names) {
  Router router(all_routes(), served_);
  std::size_t asked = 0;
  for_each_request([&](const std::string& use_case, const std::string& verb, const std::string& path,
                       const std::string& name, const json& body) {
    watched_.forget();
    const Response response = router.answer(asking(verb, path, body));
    EXPECT_FALSE(watched_.strayed()) << use_case << " by " << name;
    EXPECT_NE(response.status, 500) << use_case << " by " << name << ": " << response.body;
    ++asked;
  });
  EXPECT_GT(asked, 200U);
}

TEST_F(Reach, reading_changes_nothing_and_a_reader_keeps_nothing_by_a_job_either) {
  Router router(all_routes(), served_);
  const Visitor reader{"rita", "R", access::Role::reader, false};
  const std::int64_t before = newest();
  for_each_request([&](const std::string& use_case, const std::string& verb, const std::string& path,
                       const std::string& name, const json& body) {
    const Response response = router.answer(asking(verb, path, body), reader);
    EXPECT_EQ(newest(), before) << use_case << " by " << name << ": " << response.body;
  });
  const auto job = testing::post("/api/jobs", R"({"use_case":"date","request":{"keep":true}})");
  const Response refused = router.answer(job, reader);
  EXPECT_EQ(refused.status, 403) << refused.body;
  EXPECT_EQ(json::parse(refused.body)["errors"][0]["code"], "not_allowed");
}

TEST_F(Reach, dates_are_kept_by_a_job_under_the_name_of_whoever_asked) {
  import("dates", "fabric,earliest,latest,basis,reference\ngrey-1,120,250,made,test\nshell-3,100,200,made,test\n");
  Router router(all_routes(), served_);
  const Visitor recorder{"ben", "BE", access::Role::recorder, false};
  const Response plain = router.answer(testing::get("/api/dates?keep=true"), recorder);
  EXPECT_EQ(plain.status, 405);
  const auto started = router.answer(
      testing::post("/api/jobs", R"({"use_case":"date","request":{"keep":true,"draws":200,"chains":2}})"), recorder);
  ASSERT_EQ(started.status, 200) << started.body;
  const std::string id = json::parse(started.body)["id"];
  ASSERT_TRUE(testing::wait_until(
      [&] { return json::parse(router.answer(testing::get("/api/jobs/" + id)).body)["state"] != "running"; }));
  const auto store = environment_.open_store(store_);
  ASSERT_TRUE(store);
  const auto change = (*store)->newest_change();
  ASSERT_TRUE(change && *change);
  EXPECT_EQ((*change)->who, "BE") << (*change)->command << "\n"
                                  << router.answer(testing::get("/api/jobs/" + id + "/result")).body;
}

}  // namespace
}  // namespace sherd::http
