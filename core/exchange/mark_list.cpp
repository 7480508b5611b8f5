#include "core/exchange/mark_list.hpp"

#include <libxml/xmlreader.h>

#include <algorithm>
#include <array>
#include <limits>
#include <memory>
#include <optional>

#include "core/base/edtf.hpp"
#include "core/base/error.hpp"
#include "core/base/text.hpp"
#include "core/exchange/csv.hpp"

namespace lathbook {

namespace {

constexpr std::array<std::string_view, 7> kColumns = {"entry", "maker", "mark", "place",
                                                      "role",  "from",  "to"};
constexpr std::size_t kMark = 2;
constexpr std::size_t kMostMarks = 2'000'000;
constexpr std::size_t kLongestCell = 2000;
using Cells = std::array<std::string, kColumns.size()>;

class Maker {
public:
  explicit Maker(std::string name) : name_(std::move(name)) {}

  [[noreturn]] void refuse(std::uint64_t line, const std::string& why) const {
    fail(ErrorKind::invalid, name_ + ":" + std::to_string(line) + ": " + why);
  }

  void add(Cells cells, std::uint64_t line) {
    for (std::string& cell : cells) {
      if (cell.size() > kLongestCell) refuse(line, "a cell is longer than 2,000 bytes; that is no mark");
      // Line ends of a mark are kept as the sign for them; tabs part the cells.
      std::replace(cell.begin(), cell.end(), '\t', ' ');
      std::string one_line;
      for (const char c : cell)
        one_line += c == '\n' ? std::string(" / ") : c == '\r' ? "" : std::string(1, c);
      cell = trim(one_line);
    }
    if (cells[1].empty() && cells[kMark].empty()) return;
    if (cells[1].empty()) refuse(line, "the mark " + quote(cells[kMark]) + " has no maker");
    if (cells[kMark].empty()) cells[kMark] = cells[1];
    if (cells[0].empty()) cells[0] = std::to_string(line);
    for (const std::size_t date : {5U, 6U}) {
      if (!cells[date].empty() && !Edtf::try_parse(cells[date])) {
        refuse(line, quote(cells[date]) + " is no date in EDTF, like 1884 or 1884~");
      }
    }
    if (!cells[4].empty() && cells[4] != "blank maker" && cells[4] != "decorator or seller" &&
        cells[4] != "not told") {
      refuse(line, "a role is 'blank maker', 'decorator or seller' or 'not told', not " + quote(cells[4]));
    }
    if (++list_.marks > kMostMarks) refuse(line, "the list has more than 2,000,000 marks");
    for (std::size_t i = 0; i < cells.size(); ++i) list_.text += (i == 0 ? "" : "\t") + cells[i];
    list_.text += '\n';
  }

  MarkList done() {
    if (list_.marks == 0) fail(ErrorKind::invalid, name_ + ": has no marks; nothing was taken in");
    return std::move(list_);
  }

private:
  std::string name_;
  MarkList list_;
};

std::optional<std::size_t> column_of(std::string_view name) {
  if (name == "form") return kMark;
  const auto found = std::find(kColumns.begin(), kColumns.end(), name);
  if (found == kColumns.end()) return std::nullopt;
  return static_cast<std::size_t>(found - kColumns.begin());
}

void read_csv(std::string_view bytes, Maker& maker) {
  CsvReader reader(bytes);
  CsvRow row;
  if (!reader.next(row)) maker.refuse(1, reader.fault() ? reader.fault()->reason : "the sheet is empty");
  std::vector<std::size_t> columns;
  for (const auto& cell : row.cells) {
    const auto column = column_of(fold(cell.text));
    if (!column) {
      maker.refuse(row.line, "there is no column " + quote(cell.text) +
                                 " in a list of marks; it has entry, maker, mark, place, role, from and to");
    }
    columns.push_back(*column);
  }
  for (const std::size_t wanted : {std::size_t{1}, kMark}) {
    if (std::find(columns.begin(), columns.end(), wanted) == columns.end()) {
      maker.refuse(row.line, "the header has no column '" + std::string(kColumns[wanted]) + "'");
    }
  }
  while (reader.next(row)) {
    if (row.cells.size() > columns.size()) maker.refuse(row.line, "the row has more cells than the header");
    Cells cells;
    for (std::size_t i = 0; i < row.cells.size(); ++i) cells[columns[i]] = row.cells[i].text;
    maker.add(std::move(cells), row.line);
  }
  if (reader.fault()) maker.refuse(reader.fault()->line, reader.fault()->reason);
}

struct FreeReader {
  void operator()(xmlTextReader* reader) const { xmlFreeTextReader(reader); }
};

std::string words(const xmlChar* text) {
  return text == nullptr ? std::string() : reinterpret_cast<const char*>(text);
}

void no_words(void*, const char*, xmlParserSeverities, xmlTextReaderLocatorPtr) {}

void read_xml(std::string_view bytes, Maker& maker) {
  if (bytes.size() > static_cast<std::size_t>(std::numeric_limits<int>::max()))
    maker.refuse(1, "is larger than 2 GB");
  const std::unique_ptr<xmlTextReader, FreeReader> reader(
      xmlReaderForMemory(bytes.data(), static_cast<int>(bytes.size()), nullptr, nullptr, XML_PARSE_NONET));
  if (!reader) fail(ErrorKind::io, "the XML library refuses to start");
  xmlTextReaderSetErrorHandler(reader.get(), no_words, nullptr);
  std::optional<Cells> cells;
  std::string* into = nullptr;  // the cell that text goes into
  int state = 0;
  const auto line = [&] {
    return static_cast<std::uint64_t>(std::max(xmlTextReaderGetParserLineNumber(reader.get()), 1));
  };
  while ((state = xmlTextReaderRead(reader.get())) == 1) {
    const int type = xmlTextReaderNodeType(reader.get());
    const int depth = xmlTextReaderDepth(reader.get());
    const std::string name = words(xmlTextReaderConstLocalName(reader.get()));
    if (type == XML_READER_TYPE_DOCUMENT_TYPE)
      maker.refuse(line(), "has a document type, which lists of marks do not need");
    if (type == XML_READER_TYPE_ELEMENT && depth == 1) {
      if (name != "mark") maker.refuse(line(), "an entry is an element 'mark', not " + quote(name));
      cells.emplace();
      const bool empty = xmlTextReaderIsEmptyElement(reader.get()) == 1;
      while (xmlTextReaderMoveToNextAttribute(reader.get()) == 1) {
        const auto column = column_of(words(xmlTextReaderConstLocalName(reader.get())));
        if (column) (*cells)[*column] = words(xmlTextReaderConstValue(reader.get()));
      }
      if (empty) {
        maker.add(std::move(*cells), line());
        cells.reset();
      }
    } else if (type == XML_READER_TYPE_ELEMENT && depth == 2) {
      const auto column = column_of(name);
      if (!column) maker.refuse(line(), "there is no " + quote(name) + " in an entry of a list of marks");
      const bool empty = xmlTextReaderIsEmptyElement(reader.get()) == 1;
      into = cells && !empty ? &(*cells)[*column] : nullptr;
    } else if ((type == XML_READER_TYPE_TEXT || type == XML_READER_TYPE_CDATA) && into != nullptr) {
      *into += words(xmlTextReaderConstValue(reader.get()));
    } else if (type == XML_READER_TYPE_END_ELEMENT && depth == 2) {
      into = nullptr;
    } else if (type == XML_READER_TYPE_END_ELEMENT && depth == 1 && cells) {
      maker.add(std::move(*cells), line());
      cells.reset();
    }
  }
  if (state != 0) maker.refuse(line(), "is no well-formed XML; nothing was taken in");
}

}  // namespace

MarkList read_mark_list(std::string_view bytes, const std::string& name) {
  require_utf8(bytes, name);
  Maker maker(name);
  constexpr std::string_view mark_of_order = "\xef\xbb\xbf";
  std::string_view start = bytes;
  if (start.substr(0, 3) == mark_of_order) start.remove_prefix(3);
  if (trim(start.substr(0, 200)).substr(0, 1) == "<") {
    read_xml(start, maker);
  } else {
    read_csv(bytes, maker);
  }
  return maker.done();
}

}  // namespace lathbook
