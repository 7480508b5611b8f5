// The only file that includes rapidjson.
#include "core/base/json_writer.hpp"

#include <rapidjson/ostreamwrapper.h>
#include <rapidjson/prettywriter.h>
#include <rapidjson/writer.h>

#include <cmath>
#include <string>
#include <vector>

#include "core/base/error.hpp"
#include "core/base/text.hpp"

namespace lathbook {
namespace {

using Stream = rapidjson::BasicOStreamWrapper<std::ostream>;
using Pretty = rapidjson::PrettyWriter<Stream>;

}  // namespace

// rapidjson chooses the layout by type, the caller by value, so both writers stand ready and one is used.
struct JsonWriter::Inside {
  enum class Place { object, array };

  std::ostream& out;
  Stream stream;
  rapidjson::Writer<Stream> compact;
  Pretty pretty;
  bool indented;
  std::vector<Place> open;
  bool key_given = false;
  bool complete = false;

  Inside(std::ostream& sink, Layout layout)
      : out(sink), stream(sink), compact(stream), pretty(stream), indented(layout == Layout::indented) {
    pretty.SetIndent(' ', 2);
  }

  template <typename Work>
  void write(const Work& work) {
    if (indented) {
      work(pretty);
    } else {
      work(compact);
    }
  }

  // Called before every value; refuses what rapidjson would only assert on.
  void expect_value() {
    if (open.empty()) {
      if (complete) fail(ErrorKind::invalid, "a JSON document holds one value; a second was written");
    } else if (open.back() == Place::object && !key_given) {
      fail(ErrorKind::invalid, "a value was written into a JSON object without its key");
    }
    key_given = false;
  }
  void value_done() { complete = open.empty(); }

  template <typename Work>
  void value(const Work& work) {
    expect_value();
    write(work);
    value_done();
  }

  void close(Place place) {
    if (open.empty() || open.back() != place || key_given) {
      fail(ErrorKind::invalid, "a JSON object or array is ended where none can end");
    }
    open.pop_back();
    write([place](auto& writer) { place == Place::object ? writer.EndObject() : writer.EndArray(); });
    value_done();
  }
};

namespace {

rapidjson::SizeType size_of(std::string_view text) {
  if (text.size() > 0xffffffffU)
    fail(ErrorKind::invalid, "a text of more than 4 GB cannot be written as JSON");
  return static_cast<rapidjson::SizeType>(text.size());
}

// rapidjson wants a pointer even for nothing.
const char* data_of(std::string_view text) {
  return text.empty() ? "" : text.data();
}

}  // namespace

JsonWriter::JsonWriter(std::ostream& out, Layout layout) : inside_(std::make_unique<Inside>(out, layout)) {}
JsonWriter::~JsonWriter() = default;

JsonWriter& JsonWriter::begin_object() {
  inside_->expect_value();
  inside_->open.push_back(Inside::Place::object);
  inside_->write([](auto& writer) { writer.StartObject(); });
  return *this;
}

JsonWriter& JsonWriter::end_object() {
  inside_->close(Inside::Place::object);
  return *this;
}

JsonWriter& JsonWriter::begin_array() {
  inside_->expect_value();
  inside_->open.push_back(Inside::Place::array);
  inside_->write([](auto& writer) { writer.StartArray(); });
  return *this;
}

JsonWriter& JsonWriter::end_array() {
  inside_->close(Inside::Place::array);
  return *this;
}

JsonWriter& JsonWriter::key(std::string_view name) {
  require_utf8(name, "the key of a JSON object");
  if (inside_->open.empty() || inside_->open.back() != Inside::Place::object || inside_->key_given) {
    fail(ErrorKind::invalid, "the JSON key " + quote(name) + " stands where no key can stand");
  }
  inside_->write([name](auto& writer) { writer.Key(data_of(name), size_of(name)); });
  inside_->key_given = true;
  return *this;
}

JsonWriter& JsonWriter::string(std::string_view value) {
  require_utf8(value, "a JSON text");
  inside_->value([value](auto& writer) { writer.String(data_of(value), size_of(value)); });
  return *this;
}

JsonWriter& JsonWriter::number(std::int64_t value) {
  inside_->value([value](auto& writer) { writer.Int64(value); });
  return *this;
}

JsonWriter& JsonWriter::number(double value) {
  if (!std::isfinite(value)) fail(ErrorKind::invalid, "JSON has no number for infinity or for no number");
  inside_->value([value](auto& writer) { writer.Double(value); });
  return *this;
}

JsonWriter& JsonWriter::boolean(bool value) {
  inside_->value([value](auto& writer) { writer.Bool(value); });
  return *this;
}

JsonWriter& JsonWriter::null() {
  inside_->value([](auto& writer) { writer.Null(); });
  return *this;
}

void JsonWriter::finish() {
  if (!inside_->complete) fail(ErrorKind::invalid, "the JSON document is not complete");
  inside_->out << '\n';
  inside_->out.flush();
  if (!inside_->out)
    fail(ErrorKind::io, "the JSON document could not be written to its end; is the disk full?");
}

}  // namespace lathbook
