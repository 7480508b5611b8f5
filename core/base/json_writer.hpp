// Streamed JSON (RFC 8259) to an output stream.
#pragma once

#include <cstdint>
#include <memory>
#include <ostream>
#include <string_view>
#include <type_traits>

#include "core/base/api.hpp"

namespace lathbook {

/// Writes one JSON value to a stream that outlives it. Calls in the wrong order, text that is not UTF-8
/// and numbers that are not finite throw Error(invalid); output is gathered in 64 KiB pieces and a failed
/// stream throws Error(io) at the next piece or at finish(). One thread at a time. Setters return the writer,
/// so that a member is `json.key("a").string("b")`.
class LATHBOOK_API JsonWriter {
public:
  enum class Layout { compact, indented };

  explicit JsonWriter(std::ostream& out, Layout layout = Layout::indented);
  ~JsonWriter();
  JsonWriter(const JsonWriter&) = delete;
  JsonWriter& operator=(const JsonWriter&) = delete;

  JsonWriter& begin_object();
  JsonWriter& end_object();
  JsonWriter& begin_array();
  JsonWriter& end_array();
  JsonWriter& key(std::string_view name);
  JsonWriter& string(std::string_view value);
  JsonWriter& number(std::int64_t value);
  JsonWriter& number(double value);
  template <typename Integer>
  requires std::is_integral_v<Integer> JsonWriter& number(Integer value) {
    return number(static_cast<std::int64_t>(value));
  }
  JsonWriter& boolean(bool value);
  JsonWriter& null();
  /// Ends the document with a line feed and flushes; the one value must be complete.
  void finish();

private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace lathbook
