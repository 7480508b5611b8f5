#include "core/exchange/schema.hpp"

#include <libxml/SAX2.h>
#include <libxml/xmlschemas.h>

#include <algorithm>
#include <memory>
#include <system_error>

#include "core/base/text.hpp"

namespace lathbook {

namespace {

constexpr std::size_t kMostFindings = 100;

template <auto function>
struct Free {
  template <typename T>
  void operator()(T* pointer) const {
    function(pointer);
  }
};
using SchemaParser = std::unique_ptr<xmlSchemaParserCtxt, Free<xmlSchemaFreeParserCtxt>>;
using Schema = std::unique_ptr<xmlSchema, Free<xmlSchemaFree>>;
using Validation = std::unique_ptr<xmlSchemaValidCtxt, Free<xmlSchemaFreeValidCtxt>>;

struct Gathered {
  std::string file;
  Findings findings;
  void add(int line, std::string text) {
    if (findings.size() >= kMostFindings) return;
    const auto place = file + ":" + std::to_string(std::max(line, 1));
    findings.push_back({Severity::fault, "exchange.schema", place + ": " + std::move(text), place});
  }
};

void on_error(void* data, xmlError* error) {
  auto message = std::string(trim(error->message == nullptr ? "" : error->message));
  std::replace(message.begin(), message.end(), '\n', ' ');
  static_cast<Gathered*>(data)->add(error->line, safe_display(message));
}

void on_doctype(void* data, const xmlChar*, const xmlChar*, const xmlChar*) {
  static_cast<Gathered*>(data)->add(1, "a document type declaration (DOCTYPE) is not allowed");
}

xmlEntity* on_entity(void*, const xmlChar* entity) {
  return xmlGetPredefinedEntity(entity);
}

Schema compile() {
  const auto text = exchange_schema(Registry::standard());
  const SchemaParser parser(xmlSchemaNewMemParserCtxt(text.data(), static_cast<int>(text.size())));
  Schema schema(parser ? xmlSchemaParse(parser.get()) : nullptr);
  if (!schema) fail(ErrorKind::corrupt, "the XML Schema of the exchange document cannot be compiled");
  return schema;
}

}  // namespace

Findings validate_against_schema(const std::filesystem::path& file) {
  std::error_code error;
  const auto status = std::filesystem::status(file, error);
  if (!std::filesystem::exists(status)) {
    fail(ErrorKind::not_found, "there is no file " + quote(file.string()));
  }
  if (!std::filesystem::is_regular_file(status)) {
    fail(ErrorKind::invalid, quote(file.string()) + " is no file");
  }
  const auto schema = compile();
  const Validation validation(xmlSchemaNewValidCtxt(schema.get()));
  auto* input = xmlParserInputBufferCreateFilename(file.c_str(), XML_CHAR_ENCODING_NONE);
  if (!validation || input == nullptr)
    fail(ErrorKind::io, "the file " + quote(file.string()) + " cannot be read");
  Gathered gathered{file.string(), {}};
  xmlSchemaSetValidStructuredErrors(validation.get(), on_error, &gathered);
  // Our own handler knows no declared entity and no outer document type, so nothing is ever fetched or blown
  // up.
  xmlSAXHandler sax{};
  sax.initialized = XML_SAX2_MAGIC;
  sax.internalSubset = on_doctype;
  sax.getEntity = on_entity;
  sax.serror = on_error;
  const int result =
      xmlSchemaValidateStream(validation.get(), input, XML_CHAR_ENCODING_NONE, &sax, &gathered);
  if (result != 0 && gathered.findings.empty()) gathered.add(1, "the document is not valid");
  return std::move(gathered.findings);
}

}  // namespace lathbook
