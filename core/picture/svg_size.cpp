// Measures SVG drawings; the only source of this room that knows libxml2.
#include <libxml/xmlreader.h>

#include <cmath>
#include <memory>

#include "core/base/number.hpp"
#include "core/base/text.hpp"
#include "core/picture/picture.hpp"

namespace lathbook {

namespace {

struct FreeReader {
  void operator()(xmlTextReader* reader) const { xmlFreeTextReader(reader); }
};

std::string attribute(xmlTextReader* reader, const char* name) {
  xmlChar* value = xmlTextReaderGetAttribute(reader, reinterpret_cast<const xmlChar*>(name));
  if (value == nullptr) return {};
  std::string text(reinterpret_cast<const char*>(value));
  xmlFree(value);
  return text;
}

/// A length in user units: "640", "640px"; nothing for millimetres, percent and the like.
std::optional<double> length(std::string_view text) {
  text = trim(text);
  if (text.size() > 2 && text.substr(text.size() - 2) == "px") text.remove_suffix(2);
  return number_in<double>(text);
}

std::optional<std::pair<double, double>> view_box(std::string text) {
  for (char& c : text)
    if (c == ',') c = ' ';
  std::vector<double> numbers;
  for (const auto& part : split(text, ' ')) {
    if (trim(part).empty()) continue;
    const auto number = length(part);
    if (!number) return std::nullopt;
    numbers.push_back(*number);
  }
  if (numbers.size() != 4) return std::nullopt;
  return std::make_pair(numbers[2], numbers[3]);
}

bool usable(double side) {
  return std::isfinite(side) && side >= 1 && side <= 1'000'000;
}

}  // namespace

std::optional<Picture> look_at_svg(std::string_view bytes) {
  constexpr int kOptions = XML_PARSE_NONET | XML_PARSE_NOERROR | XML_PARSE_NOWARNING;
  const std::unique_ptr<xmlTextReader, FreeReader> reader(
      xmlReaderForMemory(bytes.data(), static_cast<int>(bytes.size()), nullptr, nullptr, kOptions));
  if (!reader) return std::nullopt;
  while (xmlTextReaderRead(reader.get()) == 1) {
    if (xmlTextReaderNodeType(reader.get()) != XML_READER_TYPE_ELEMENT) continue;
    const auto* name = reinterpret_cast<const char*>(xmlTextReaderConstLocalName(reader.get()));
    if (name == nullptr || std::string_view(name) != "svg") return std::nullopt;
    auto width = length(attribute(reader.get(), "width"));
    auto height = length(attribute(reader.get(), "height"));
    if (!width || !height) {
      const auto box = view_box(attribute(reader.get(), "viewBox"));
      if (!box) return std::nullopt;
      width = box->first;
      height = box->second;
    }
    if (!usable(*width) || !usable(*height)) return std::nullopt;
    return Picture{"image/svg+xml", "svg", static_cast<int>(std::lround(*width)),
                   static_cast<int>(std::lround(*height))};
  }
  return std::nullopt;
}

}  // namespace lathbook
