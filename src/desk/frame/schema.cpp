#include <algorithm>
#include <stdexcept>

#include "base/text.h"
#include "desk/frame/job.h"
#include "desk/frame/schema_shape.h"
#include "desk/recording/keep_file.h"
#include "desk/use_cases.h"

namespace sherd::desk {

std::string Definitions::name_of(std::string_view full_name) {
  std::vector<std::string> parts;
  for (const std::string_view part : split(full_name, ':')) {
    if (!part.empty()) parts.emplace_back(part);
  }
  std::string name = parts.back();
  for (std::size_t i = parts.size() - 1; i > 0; --i) {
    const auto [known, fresh] = full_names_.try_emplace(name, full_name);
    if (fresh || known->second == full_name) return name;
    name.insert(0, camel_case("-" + parts[i - 1]));
  }
  full_names_.try_emplace(name, full_name);
  return name;
}

bool Definitions::begin(const std::string& name) {
  if (std::find(begun_.begin(), begun_.end(), name) != begun_.end()) return false;
  begun_.push_back(name);
  return true;
}

void Definitions::add(Definition definition) { all_.push_back(std::move(definition)); }

std::string camel_case(std::string_view name) {
  std::string out;
  bool capital = false;
  for (const char c : name) {
    if (c == '-' || c == '_') {
      capital = true;
    } else {
      out += capital && c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
      capital = false;
    }
  }
  return out;
}

namespace {

/// The request without the fields that the server fills.
template <class Request>
std::string request_definition(Definitions& definitions) {
  const std::string name = definitions.name_of(type_name<Request>());
  Definition definition{name, {}, {}};
  detail::PropertyFields fields{definitions, definition};
  Request::fields(fields);
  for (Property& property : definition.properties) {
    if (property.required) property.shape.nullable = false;
  }
  std::erase_if(definition.properties, [](const Property& property) { return property.name == "store"; });
  if (definitions.begin(name)) definitions.add(std::move(definition));
  return name;
}

}  // namespace

Schema whole_schema() {
  Schema schema;
  shape_of<Provenance>(schema.definitions);
  for_each_use_case([&]<class UseCase>(const UseCase& use_case) {
    if (use_case.path.empty()) return;
    Operation operation{std::string(use_case.name),
                        std::string(use_case.verb),
                        std::string(use_case.path),
                        std::string(use_case.help),
                        {},
                        {},
                        use_case.from_page};
    operation.request = request_definition<typename UseCase::Request>(schema.definitions);
    operation.response = shape_of<typename UseCase::Response>(schema.definitions).name;
    schema.operations.push_back(std::move(operation));
  });
  shape_of<JobState>(schema.definitions);
  shape_of<FileResponse>(schema.definitions);
  return schema;
}

}  // namespace sherd::desk
