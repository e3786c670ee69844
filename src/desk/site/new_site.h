#pragma once

#include <optional>
#include <string>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"

namespace sherd::desk {

struct NewRequest {
  std::string store, site, title, counting_rule, counted, box_limit_g;

  template <class V>
  static void fields(V& v) {
    v.field("store", &NewRequest::store, argument("the store to make: a file such as tanyard.sherds"));
    v.field("site", &NewRequest::site, required_option("the site's code, such as SAL26"));
    v.field("title", &NewRequest::title, option("the project's title"));
    v.field("counting_rule", &NewRequest::counting_rule,
            option("how vessels are counted where in doubt: minimum, maximum or rims"));
    v.field("counted", &NewRequest::counted, option("when sherds are counted: before_joining or after_joining"));
    v.field("box_limit_g", &NewRequest::box_limit_g, option("the most a box may weigh, in g (10000 unless said)"));
  }
};

struct NewResponse : Reply {
  std::string site, title;

  template <class V>
  static void fields(V& v) {
    v.field("site", &NewResponse::site);
    v.field("title", &NewResponse::title);
  }
};

/// An empty store with one project sheet. Errors: `store_exists`, `bad_site_code`, `unknown_word`, those of the store.
Result<NewResponse> make_site(const NewRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
