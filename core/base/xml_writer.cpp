#include "core/base/xml_writer.hpp"

#include <algorithm>

#include "core/base/error.hpp"
#include "core/base/text.hpp"
#include "core/base/text_scan.hpp"

namespace lathbook {
namespace {

constexpr std::size_t piece_size = std::size_t{1} << 16;

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
}
bool is_name_part(char c) {
  return is_letter(c) || (c >= '0' && c <= '9') || c == '-' || c == '.';
}

bool is_simple_name(std::string_view name) {
  return !name.empty() && is_letter(name[0]) && std::all_of(name.begin(), name.end(), is_name_part);
}

bool is_name(std::string_view name) {
  const std::size_t colon = name.find(':');
  if (colon == std::string_view::npos) return is_simple_name(name);
  return is_simple_name(name.substr(0, colon)) && is_simple_name(name.substr(colon + 1));
}

void require_name(std::string_view name) {
  if (!is_name(name))
    fail(ErrorKind::invalid, quote(name) + " cannot be the name of an XML element or attribute");
}

// XML 1.0 fifth edition, production 2 (Char); surrogates are no UTF-8 in the first place.
bool is_allowed(char32_t c) {
  if (c < 0x20) return c == '\t' || c == '\n' || c == '\r';
  return c != 0xfffe && c != 0xffff;
}

// Bytes that can be copied as they are wherever they stand; everything else is looked at.
bool is_plain(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return byte >= 0x20 && byte < 0x80 && c != '&' && c != '<' && c != '>' && c != '"';
}

/// Nothing when all of the text can be held, else the offset of what cannot.
std::optional<std::size_t> first_refused(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    if (is_plain(text[at])) {
      ++at;
      continue;
    }
    const Scanned step = scan_utf8(text, at);
    if (!step.valid || !is_allowed(step.code_point)) return at;
    at += step.length;
  }
  return std::nullopt;
}

// The sentence is put together only when it is needed: this runs for every text.
void require_holdable(std::string_view text, const char* place, std::string_view name) {
  const std::optional<std::size_t> at = first_refused(text);
  if (!at) return;
  const std::string where = place + quote(name);
  const Scanned step = scan_utf8(text, *at);
  if (!step.valid) require_utf8(text, where);
  fail(ErrorKind::invalid, where + ": at offset " + std::to_string(*at) + ", " +
                               describe_code_point(step.code_point) + " cannot stand in an XML document");
}

// The reference for a byte, or nothing when it is copied. Line ends and tabs in attributes would be
// turned into spaces by any reader (XML 1.0 section 3.3.3), a carriage return in text into a line feed
// (section 2.11), so these are written as numbers.
std::string_view reference(char c, bool in_attribute) {
  switch (c) {
    case '&':
      return "&amp;";
    case '<':
      return "&lt;";
    case '>':
      return "&gt;";
    case '\r':
      return "&#13;";
    case '"':
      return in_attribute ? "&quot;" : "";
    case '\t':
      return in_attribute ? "&#9;" : "";
    case '\n':
      return in_attribute ? "&#10;" : "";
    default:
      return "";
  }
}

void append_escaped(std::string& out, std::string_view text, bool in_attribute) {
  std::size_t copied = 0;
  for (std::size_t at = 0; at < text.size(); ++at) {
    if (is_plain(text[at])) continue;
    const std::string_view instead = reference(text[at], in_attribute);
    if (instead.empty()) continue;
    out.append(text, copied, at - copied);
    out.append(instead);
    copied = at + 1;
  }
  out.append(text, copied);
}

}  // namespace

XmlWriter::XmlWriter(std::ostream& out, Layout layout) : out_(out), layout_(layout) {
  buffer_.reserve(2 * piece_size);
  buffer_ = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
}

XmlWriter::~XmlWriter() = default;

bool XmlWriter::can_hold(std::string_view text) {
  return !first_refused(text);
}

void XmlWriter::spill() {
  if (buffer_.size() < piece_size && !finished_) return;
  out_.write(buffer_.data(), static_cast<std::streamsize>(buffer_.size()));
  buffer_.clear();
  if (finished_) out_.flush();
  if (!out_) fail(ErrorKind::io, "the XML document could not be written to its end; is the disk full?");
}

void XmlWriter::close_tag() {
  if (!tag_open_) return;
  buffer_ += '>';
  tag_open_ = false;
}

void XmlWriter::new_line(std::size_t depth) {
  if (layout_ == Layout::compact) return;
  buffer_ += '\n';
  buffer_.append(2 * depth, ' ');
}

XmlWriter& XmlWriter::start(std::string_view name) {
  require_name(name);
  if (root_done_ && open_.empty()) {
    fail(ErrorKind::invalid,
         "an XML document has one outermost element; " + quote(name) + " would be a second");
  }
  close_tag();
  if (!open_.empty()) {
    if (!open_.back().has_text) new_line(open_.size());
    open_.back().has_children = true;
  }
  buffer_ += '<';
  buffer_ += name;
  // Inside mixed text, added white space would change the words.
  const bool mixed = !open_.empty() && open_.back().has_text;
  open_.push_back({std::string(name), mixed, false});
  attributes_.clear();
  tag_open_ = true;
  root_done_ = true;
  spill();
  return *this;
}

XmlWriter& XmlWriter::attribute(std::string_view name, std::string_view value) {
  require_name(name);
  if (!tag_open_) {
    fail(ErrorKind::invalid,
         "the attribute " + quote(name) + " comes too late: its element has content already");
  }
  if (std::find(attributes_.begin(), attributes_.end(), name) != attributes_.end()) {
    fail(ErrorKind::invalid,
         "the attribute " + quote(name) + " is given twice to " + quote(open_.back().name));
  }
  require_holdable(value, "attribute ", name);
  attributes_.emplace_back(name);
  buffer_ += ' ';
  buffer_ += name;
  buffer_ += "=\"";
  append_escaped(buffer_, value, true);
  buffer_ += '"';
  spill();
  return *this;
}

XmlWriter& XmlWriter::text(std::string_view value) {
  if (open_.empty()) fail(ErrorKind::invalid, "text cannot stand outside the elements of an XML document");
  require_holdable(value, "text of element ", open_.back().name);
  close_tag();
  open_.back().has_text = true;
  append_escaped(buffer_, value, false);
  spill();
  return *this;
}

XmlWriter& XmlWriter::end() {
  if (open_.empty()) fail(ErrorKind::invalid, "an XML element is ended that was never started");
  const Open& last = open_.back();
  if (tag_open_) {
    buffer_ += "/>";
    tag_open_ = false;
  } else {
    if (last.has_children && !last.has_text) new_line(open_.size() - 1);
    buffer_ += "</";
    buffer_ += last.name;
    buffer_ += '>';
  }
  open_.pop_back();
  spill();
  return *this;
}

XmlWriter& XmlWriter::element(std::string_view name, std::string_view value) {
  require_name(name);
  require_holdable(value, "text of element ", name);
  return start(name).text(value).end();
}

XmlWriter& XmlWriter::empty(std::string_view name) {
  return start(name).end();
}

void XmlWriter::finish() {
  if (!open_.empty())
    fail(ErrorKind::invalid, "the XML element " + quote(open_.back().name) + " is still open");
  if (!root_done_) fail(ErrorKind::invalid, "an XML document needs an element");
  if (finished_) fail(ErrorKind::invalid, "the XML document was finished before");
  buffer_ += '\n';
  finished_ = true;
  spill();
}

}  // namespace lathbook
