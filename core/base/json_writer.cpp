#include "core/base/json_writer.hpp"

#include <array>
#include <charconv>
#include <cmath>
#include <string>
#include <vector>

#include "core/base/error.hpp"
#include "core/base/text.hpp"

namespace lathbook {
namespace {

constexpr std::size_t piece_size = std::size_t{1} << 16;

// RFC 8259 section 7: the quotation mark, the reverse solidus and the control characters; all else may
// stand as it is.
void append_escaped(std::string& out, std::string_view text) {
  static constexpr char digits[] = "0123456789abcdef";
  std::size_t copied = 0;
  for (std::size_t at = 0; at < text.size(); ++at) {
    const auto byte = static_cast<unsigned char>(text[at]);
    if (byte >= 0x20 && byte != '"' && byte != '\\') continue;
    out.append(text, copied, at - copied);
    copied = at + 1;
    out += '\\';
    if (byte == '"' || byte == '\\') {
      out += text[at];
    } else if (byte == '\n') {
      out += 'n';
    } else if (byte == '\t') {
      out += 't';
    } else {
      out += "u00";
      out += digits[byte >> 4];
      out += digits[byte & 15];
    }
  }
  out.append(text, copied);
}

// The shortest digits that are read back as the same number.
template <typename Number>
std::string_view digits_of(Number value, std::array<char, 40>& room) {
  const auto end = std::to_chars(room.data(), room.data() + room.size(), value);
  return {room.data(), static_cast<std::size_t>(end.ptr - room.data())};
}

}  // namespace

// Written by hand: rapidjson 1.1 adds to a null pointer when it starts, which the sanitizers refuse.
struct JsonWriter::Inside {
  struct Open {
    bool object;
    bool empty;
  };

  std::ostream& out;
  bool indented;
  std::string buffer;
  std::vector<Open> open;
  bool key_given = false;
  bool complete = false;

  Inside(std::ostream& sink, Layout layout) : out(sink), indented(layout == Layout::indented) {}

  void new_line() {
    if (!indented) return;
    buffer += '\n';
    buffer.append(2 * open.size(), ' ');
  }

  // A comma where one is due, and the line of its own.
  void next_entry() {
    if (!open.back().empty) buffer += ',';
    open.back().empty = false;
    new_line();
  }

  void before_value() {
    if (open.empty()) {
      if (complete) fail(ErrorKind::invalid, "a JSON document holds one value; a second was written");
    } else if (!open.back().object) {
      next_entry();
    } else if (!key_given) {
      fail(ErrorKind::invalid, "a value was written into a JSON object without its key");
    }
    key_given = false;
  }

  void after_value() {
    complete = open.empty();
    if (buffer.size() >= piece_size) spill();
  }

  void spill() {
    out.write(buffer.data(), static_cast<std::streamsize>(buffer.size()));
    buffer.clear();
    if (!out) fail(ErrorKind::io, "the JSON document could not be written to its end; is the disk full?");
  }

  void plain(std::string_view word) {
    before_value();
    buffer += word;
    after_value();
  }

  void begin(bool object) {
    before_value();
    buffer += object ? '{' : '[';
    open.push_back({object, true});
  }

  void end(bool object) {
    if (open.empty() || open.back().object != object || key_given) {
      fail(ErrorKind::invalid, "a JSON object or array is ended where none can end");
    }
    const bool empty = open.back().empty;
    open.pop_back();
    if (!empty) new_line();
    buffer += object ? '}' : ']';
    after_value();
  }
};

JsonWriter::JsonWriter(std::ostream& out, Layout layout) : inside_(std::make_unique<Inside>(out, layout)) {}
JsonWriter::~JsonWriter() = default;

JsonWriter& JsonWriter::begin_object() {
  inside_->begin(true);
  return *this;
}

JsonWriter& JsonWriter::end_object() {
  inside_->end(true);
  return *this;
}

JsonWriter& JsonWriter::begin_array() {
  inside_->begin(false);
  return *this;
}

JsonWriter& JsonWriter::end_array() {
  inside_->end(false);
  return *this;
}

JsonWriter& JsonWriter::key(std::string_view name) {
  Inside& in = *inside_;
  require_utf8(name, "a JSON key");
  if (in.open.empty() || !in.open.back().object || in.key_given) {
    fail(ErrorKind::invalid, "the JSON key " + quote(name) + " stands where no key can stand");
  }
  in.next_entry();
  in.buffer += '"';
  append_escaped(in.buffer, name);
  in.buffer += in.indented ? "\": " : "\":";
  in.key_given = true;
  return *this;
}

JsonWriter& JsonWriter::string(std::string_view value) {
  Inside& in = *inside_;
  require_utf8(value, "a JSON text");
  in.before_value();
  in.buffer += '"';
  append_escaped(in.buffer, value);
  in.buffer += '"';
  in.after_value();
  return *this;
}

JsonWriter& JsonWriter::number(std::int64_t value) {
  std::array<char, 40> room{};
  inside_->plain(digits_of(value, room));
  return *this;
}

JsonWriter& JsonWriter::number(double value) {
  if (!std::isfinite(value)) fail(ErrorKind::invalid, "JSON has no number for infinity or for no number");
  std::array<char, 40> room{};
  inside_->plain(digits_of(value, room));
  return *this;
}

JsonWriter& JsonWriter::boolean(bool value) {
  inside_->plain(value ? "true" : "false");
  return *this;
}

JsonWriter& JsonWriter::null() {
  inside_->plain("null");
  return *this;
}

void JsonWriter::finish() {
  Inside& in = *inside_;
  if (!in.complete) fail(ErrorKind::invalid, "the JSON document is not complete");
  in.buffer += '\n';
  in.spill();
  in.out.flush();
  if (!in.out) fail(ErrorKind::io, "the JSON document could not be written to its end; is the disk full?");
}

}  // namespace lathbook
