#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <utility>

#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/memory_files.h"
#include "desk/frame/opened_store.h"
#include "store/open.h"

/// A desk with nothing real around it for the fuzz targets: files and one store in memory, uids counted up.
namespace sherd::fuzz {

/// `files` outlives what is returned.
inline desk::Environment environment_in_memory(desk::MemoryFiles& files) {
  desk::Environment environment;
  environment.version = "0.0-fuzz";
  environment.user = "recorder";
  environment.now = [] { return std::string("2026-03-02T09:00:00Z"); };
  environment.new_uid = [uids = std::make_shared<std::int64_t>(0)] {
    const std::string number = std::to_string(++*uids);
    return std::string(32 - number.size(), '0') + number;
  };
  environment.files = &files;
  const std::shared_ptr<Store> store = std::move(*store::in_memory());
  const auto opened = [store](const std::string&) -> Result<std::unique_ptr<Store>> {
    return std::make_unique<desk::OpenedStore>(*store);
  };
  environment.create_store = opened;
  environment.open_store = opened;
  return environment;
}

}  // namespace sherd::fuzz
