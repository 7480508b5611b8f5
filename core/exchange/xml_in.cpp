#include "core/exchange/xml_in.hpp"

#include <libxml/SAX2.h>
#include <libxml/parser.h>
#include <libxml/parserInternals.h>

#include <algorithm>
#include <cstring>
#include <exception>
#include <fstream>
#include <mutex>
#include <system_error>

#include "core/base/error.hpp"
#include "core/base/progress.hpp"
#include "core/base/text.hpp"
#include "core/exchange/exchange_builder.hpp"
#include "core/exchange/utf8_gate.hpp"
#include "core/exchange/xml_out.hpp"

namespace lathbook {

namespace {

constexpr std::size_t kPiece = std::size_t{1} << 16U;

std::string_view view(const xmlChar* text) {
  return text == nullptr ? std::string_view() : reinterpret_cast<const char*>(text);
}

std::string megabytes(std::size_t bytes) {
  return bytes >= (1U << 20U) ? std::to_string(bytes >> 20U) + " MiB" : std::to_string(bytes >> 10U) + " KiB";
}

bool is_blank(std::string_view text) {
  return text.find_first_not_of(" \t\r\n") == std::string_view::npos;
}

// Length of the next piece for the parser, which must not be cut inside a character.
std::size_t whole_characters(std::string_view bytes) {
  auto length = std::min(bytes.size(), kPiece);
  while (length < bytes.size() && (static_cast<unsigned char>(bytes[length]) & 0xC0U) == 0x80U) --length;
  return length;
}

struct FreeParser {
  void operator()(xmlParserCtxt* context) const { xmlFreeParserCtxt(context); }
};

}  // namespace

// The state machine between libxml2's events and the builder. No exception passes through C: the first fault
// is kept, the parser stopped, and the fault thrown once we are out again.
struct ExchangeParser::Inside {
  Inside(std::string file, LedgerSink& sink, const ExchangeLimits& most)
      : name(std::move(file)), limits(most), builder(sink, limits) {
    static std::once_flag once;
    std::call_once(once, [] { xmlInitParser(); });
    xmlSAXHandler sax{};
    sax.initialized = XML_SAX2_MAGIC;
    sax.internalSubset = on_doctype;
    sax.getEntity = on_entity;
    sax.reference = on_reference;
    sax.startElementNs = on_start;
    sax.endElementNs = on_end;
    sax.characters = on_text;
    sax.ignorableWhitespace = on_text;
    sax.cdataBlock = on_text;
    sax.serror = on_error;
    context.reset(xmlCreatePushParserCtxt(&sax, this, nullptr, 0, nullptr));
    if (!context) fail(ErrorKind::io, "the XML reader could not be started; is memory short?");
    // NOENT makes '&' in attributes arrive as itself. There are no other entities: a document type is
    // refused. Without XML_PARSE_HUGE the parser's own limits on depth and sizes hold besides ours.
    xmlCtxtUseOptions(context.get(), XML_PARSE_NONET | XML_PARSE_NOENT);
  }

  static Inside& self(void* data) { return *static_cast<Inside*>(data); }

  template <typename Work>
  static void guarded(void* data, Work work) {
    auto& inside = self(data);
    if (inside.fault) return;
    try {
      work(inside);
    } catch (const Error& error) {
      inside.keep(error.kind(), error.what());
    } catch (...) {
      inside.fault = std::current_exception();
    }
    if (inside.fault) xmlStopParser(inside.context.get());
  }

  static void on_doctype(void* data, const xmlChar*, const xmlChar*, const xmlChar*) {
    guarded(data, [](Inside&) {
      fail(ErrorKind::invalid, "a document type declaration (DOCTYPE) is not allowed here; take it out");
    });
  }
  static xmlEntity* on_entity(void*, const xmlChar* entity) { return xmlGetPredefinedEntity(entity); }
  static void on_reference(void* data, const xmlChar* entity) {
    guarded(data, [&](Inside&) {
      fail(ErrorKind::invalid, "the entity " + quote(view(entity)) + " is not known here");
    });
  }
  static void on_start(void* data, const xmlChar* local, const xmlChar*, const xmlChar* uri, int,
                       const xmlChar**, int count, int, const xmlChar** attributes) {
    guarded(data, [&](Inside& inside) { inside.start(view(local), view(uri), count, attributes); });
  }
  static void on_end(void* data, const xmlChar*, const xmlChar*, const xmlChar*) {
    guarded(data, [](Inside& inside) { inside.end(); });
  }
  static void on_text(void* data, const xmlChar* text, int length) {
    guarded(data, [&](Inside& inside) {
      inside.text({reinterpret_cast<const char*>(text), static_cast<std::size_t>(length)});
    });
  }
  static void on_error(void* data, xmlError* error) {
    auto& inside = self(data);
    // Warnings and namespace remarks included: a document that this program wrote has none.
    if (inside.fault || error == nullptr) return;
    auto message = std::string(trim(error->message == nullptr ? "" : error->message));
    std::replace(message.begin(), message.end(), '\n', ' ');
    inside.keep(ErrorKind::invalid, "this is not well-formed XML: " + safe_display(message));
    xmlStopParser(inside.context.get());
  }

  void keep(ErrorKind kind, const std::string& sentence) {
    std::uint64_t line = 1;
    std::uint64_t column = 1;
    if (context && context->input != nullptr) {
      line = static_cast<std::uint64_t>(std::max(context->input->line, 1));
      column = static_cast<std::uint64_t>(std::max(context->input->col, 1));
    }
    fault = std::make_exception_ptr(
        Error(kind, name + ":" + std::to_string(line) + ":" + std::to_string(column) + ": " + sentence));
  }

  void start(std::string_view local, std::string_view uri, int count, const xmlChar** attributes) {
    if (open.empty()) check_encoding();
    if (uri != kExchangeNamespace) refuse_namespace(local, uri);
    const auto part = part_from_name(local);
    if (!part) fail(ErrorKind::invalid, "there is no element " + quote(local) + " in an exchange document");
    const auto& form = form_of(*part);
    if (open.empty() != (*part == Part::document)) {
      fail(ErrorKind::invalid, open.empty()
                                   ? "the outermost element is " + quote(local) + ", not 'lathbook-exchange'"
                                   : "'lathbook-exchange' stands inside another element");
    }
    if (!open.empty()) {
      auto& parent = open.back();
      if (form.parent != parent.part || parent.part == *part) {
        fail(ErrorKind::invalid, "the element '" + std::string(local) + "' does not belong into '" +
                                     std::string(form_of(parent.part).name) + "'");
      }
      if (form.stage < parent.stage || (form.stage == parent.stage && !form.repeats)) {
        fail(ErrorKind::invalid,
             "the element '" + std::string(local) + "' is out of order, or there once too often");
      }
      parent.stage = form.stage;
    }
    read_attributes(form, count, attributes);
    words.clear();
    open.push_back({*part, 0});
    builder.start(*part, found);
  }

  [[noreturn]] static void refuse_namespace(std::string_view local, std::string_view uri) {
    if (uri.starts_with(kExchangeNamespaceStem)) {
      fail(ErrorKind::unsupported, "the document is of the format " + quote(uri) + ", this program reads " +
                                       std::string(kExchangeNamespace) +
                                       "; use the program that wrote it, or a newer one");
    }
    fail(ErrorKind::invalid, "the element " + quote(local) + " is not of the namespace " +
                                 std::string(kExchangeNamespace) + "; this is no exchange document");
  }

  void check_encoding() const {
    const auto* declared = context->encoding != nullptr ? context->encoding : context->input->encoding;
    if (declared == nullptr) return;
    if (to_lower_ascii(view(declared)) != "utf-8") {
      fail(ErrorKind::invalid,
           "the document declares the encoding " + quote(view(declared)) + "; only UTF-8 is read");
    }
  }

  void read_attributes(const PartForm& form, int count, const xmlChar** attributes) {
    found.clear();
    for (int i = 0; i < count; ++i) {
      const auto** attribute = attributes + 5 * static_cast<std::ptrdiff_t>(i);
      const auto attribute_name = view(attribute[0]);
      const auto length = static_cast<std::size_t>(attribute[4] - attribute[3]);
      const std::string_view value(reinterpret_cast<const char*>(attribute[3]), length);
      const bool known = attribute[1] == nullptr &&
                         std::any_of(form.attributes.begin(), form.attributes.end(),
                                     [&](const AttributeForm& a) { return a.name == attribute_name; });
      if (!known) {
        fail(ErrorKind::invalid,
             "the element '" + std::string(form.name) + "' has no attribute " + quote(attribute_name));
      }
      if (length > limits.attribute_bytes) {
        fail(ErrorKind::invalid, "the attribute '" + std::string(attribute_name) + "' is longer than " +
                                     megabytes(limits.attribute_bytes));
      }
      found.add(attribute_name, value);
    }
    for (const auto& attribute : form.attributes) {
      if (attribute.required && found.find(attribute.name) == nullptr) {
        fail(ErrorKind::invalid, "the element '" + std::string(form.name) + "' needs the attribute '" +
                                     std::string(attribute.name) + "'");
      }
    }
  }

  void text(std::string_view piece) {
    if (open.empty()) return;
    const auto& form = form_of(open.back().part);
    if (!form.text) {
      if (is_blank(piece)) return;
      fail(ErrorKind::invalid, "the words " + quote(piece) + " stand where only elements may");
    }
    if (words.size() + piece.size() > limits.text_bytes) {
      fail(ErrorKind::invalid, "the element '" + std::string(form.name) + "' holds more than " +
                                   megabytes(limits.text_bytes) + " of words");
    }
    words += piece;
  }

  void end() {
    const auto part = open.back().part;
    open.pop_back();
    builder.end(part, words);
  }

  void push(std::string_view bytes, bool last) {
    while (!fault && !bytes.empty()) {
      const auto piece = bytes.substr(0, whole_characters(bytes));
      bytes.remove_prefix(piece.size());
      xmlParseChunk(context.get(), piece.data(), static_cast<int>(piece.size()), 0);
      const auto* input = context->input;
      if (!fault && input != nullptr &&
          input->end - input->cur > static_cast<std::ptrdiff_t>(limits.pending_bytes)) {
        keep(ErrorKind::invalid,
             "a start tag or comment goes on for more than " + megabytes(limits.pending_bytes));
      }
    }
    if (!fault && last && !open.empty()) {
      keep(ErrorKind::invalid, "the document ends before '" + std::string(form_of(open.back().part).name) +
                                   "' is closed; the file is cut off");
    }
    if (!fault && last) xmlParseChunk(context.get(), nullptr, 0, 1);
    if (fault) std::rethrow_exception(fault);
  }

  struct Open {
    Part part;
    int stage;
  };

  std::string name;
  ExchangeLimits limits;
  ExchangeBuilder builder;
  Utf8Gate gate;
  std::unique_ptr<xmlParserCtxt, FreeParser> context;
  std::vector<Open> open;
  PartAttributes found;
  std::string words;
  std::exception_ptr fault;
  bool any = false;
};

ExchangeParser::ExchangeParser(std::string name, LedgerSink& sink, const ExchangeLimits& limits)
    : inside_(std::make_unique<Inside>(std::move(name), sink, limits)) {}
ExchangeParser::~ExchangeParser() = default;

void ExchangeParser::feed(std::string_view bytes) {
  inside_->any = inside_->any || !bytes.empty();
  const auto bad = inside_->gate.pass(bytes, [this](std::string_view good) { inside_->push(good, false); });
  if (bad) fail(ErrorKind::invalid, inside_->name + bad->text());
}

ExchangeSummary ExchangeParser::finish() {
  auto& inside = *inside_;
  if (!inside.any)
    fail(ErrorKind::invalid, inside.name + ":1:1: the file is empty; an exchange document is wanted");
  if (const auto bad = inside.gate.finish()) fail(ErrorKind::invalid, inside.name + bad->text());
  inside.push({}, true);
  try {
    return inside.builder.finish();
  } catch (const Error& error) {
    inside.keep(error.kind(), error.what());
  }
  std::rethrow_exception(inside.fault);
}

ExchangeSummary read_exchange(const std::filesystem::path& file, LedgerSink& sink,
                              const ExchangeLimits& limits) {
  const auto name = file.string();
  std::error_code error;
  const auto status = std::filesystem::status(file, error);
  if (!std::filesystem::exists(status)) fail(ErrorKind::not_found, "there is no file " + quote(name));
  if (std::filesystem::is_directory(status)) {
    fail(ErrorKind::invalid, quote(name) + " is a folder; an exchange document is one file");
  }
  std::ifstream in(file, std::ios::binary);
  if (!in) fail(ErrorKind::denied, "the file " + quote(name) + " may not be read");
  ExchangeParser parser(name, sink, limits);
  std::string piece(kPiece, '\0');
  std::uint64_t pieces = 0;
  const auto size = std::filesystem::file_size(file, error);
  Progress progress("reading the exchange document (KiB)", error ? 0 : size / 1024);
  while (in.read(piece.data(), static_cast<std::streamsize>(piece.size())), in.gcount() > 0) {
    if (++pieces % 16 == 0) stop_if_requested("the restore");
    parser.feed({piece.data(), static_cast<std::size_t>(in.gcount())});
    progress.tick(static_cast<std::uint64_t>(in.gcount()) / 1024);
  }
  if (in.bad()) fail(ErrorKind::io, "the file " + quote(name) + " cannot be read to its end");
  auto summary = parser.finish();
  const auto folder = media_folder_of(file);
  for (auto& medium : summary.media) {
    auto path = folder / media_path(medium.digest);
    if (std::filesystem::is_regular_file(path, error)) medium.path = std::move(path);
  }
  return summary;
}

}  // namespace lathbook
