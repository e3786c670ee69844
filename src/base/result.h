#pragma once

#include <cstdint>
#include <expected>
#include <optional>
#include <string>
#include <utility>

namespace sherd {

/// What an error means for whoever called: the exit code of the program follows from it.
enum class ErrorKind {
  data,      ///< the data or the request is wrong: exit 1
  usage,     ///< the command was used wrongly: exit 2
  internal,  ///< our own fault: exit 3
  stopped,   ///< the user stopped the work: exit 130
};

/// The place an error speaks of. Every part may be absent.
struct Where {
  std::string file;
  std::string sheet;
  std::optional<std::int64_t> row;   ///< the spreadsheet's row; the header is row 1
  std::optional<std::int64_t> line;  ///< the text file's line, from 1
  std::string column;
  std::string id;  ///< the record, context, fabric ... it is about

  friend bool operator==(const Where&, const Where&) = default;
};

/// An error is a value: a stable code, one sentence for a person, the place, and the way out.
struct Error {
  ErrorKind kind = ErrorKind::data;
  std::string code;
  std::string message;
  Where where;
  std::string hint;

  friend bool operator==(const Error&, const Error&) = default;
};

template <class T>
using Result = std::expected<T, Error>;

inline std::unexpected<Error> fail(ErrorKind kind, std::string code, std::string message, std::string hint = {}) {
  return std::unexpected(Error{kind, std::move(code), std::move(message), {}, std::move(hint)});
}
inline std::unexpected<Error> fail(std::string code, std::string message, std::string hint = {}) {
  return fail(ErrorKind::data, std::move(code), std::move(message), std::move(hint));
}
inline std::unexpected<Error> fail(Error error) { return std::unexpected(std::move(error)); }

}  // namespace sherd

#define SHERD_JOIN_(a, b) a##b
#define SHERD_JOIN(a, b) SHERD_JOIN_(a, b)

/// SHERD_TRY(auto rows, read(...)); takes the value of a Result or hands its error to the caller.
#define SHERD_TRY(declaration, expression) SHERD_TRY_(SHERD_JOIN(sherd_try_, __LINE__), declaration, expression)
#define SHERD_TRY_(temporary, declaration, expression)                  \
  auto temporary = (expression);                                        \
  if (!temporary) return std::unexpected(std::move(temporary).error()); \
  declaration = std::move(*temporary)

/// SHERD_CHECK(store.commit()); hands the error of a Result<void> to the caller.
#define SHERD_CHECK(expression)                                                                                \
  do {                                                                                                         \
    if (auto sherd_check = (expression); !sherd_check) return std::unexpected(std::move(sherd_check).error()); \
  } while (false)
