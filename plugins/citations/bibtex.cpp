// Items as BibTeX.
#include "core/base/error.hpp"
#include "core/base/text.hpp"
#include "core/view/addresses.hpp"
#include "plugins/citations/writers.hpp"

namespace lathbook::citations {

namespace {

/// What TeX reads as a command, and how it is written instead. Braces have commands of their own: BibTeX
/// counts even those behind a backslash.
std::string_view command_for(char c) {
  switch (c) {
    case '\\':
      return "\\textbackslash{}";
    case '{':
      return "\\textbraceleft{}";
    case '}':
      return "\\textbraceright{}";
    case '~':
      return "\\textasciitilde{}";
    case '^':
      return "\\textasciicircum{}";
    case '&':
      return "\\&";
    case '%':
      return "\\%";
    case '$':
      return "\\$";
    case '#':
      return "\\#";
    case '_':
      return "\\_";
    default:
      return {};
  }
}

std::string date_words(const CitedDate& date) {
  return date.words == date.edtf ? date.edtf : date.words + " [" + date.edtf + "]";
}

class BibTex : public Writer {
public:
  BibTex(std::ostream& out, const std::string& base) : out_(out), base_(base) {
    out_ << "% Encoding: UTF-8\n";
  }

  void write(const Item& item) override {
    out_ << "\n@" << entry_of(item) << "{" << item.key;
    authors(item.authors);
    field("title", item.title, true);
    const bool book = item.form->published == Published::publisher;
    if (item.form->entry == "article") {
      field("journal", item.published_in, true);
    } else {
      field(book ? "publisher" : "howpublished", book ? item.published_in : medium(item));
    }
    date(item);
    field("note", note(item));
    address("url", item.web_page);
    address("rights", item.rights);
    address("identifier", record_address(base_, item.record));
    field("abstract", item.abstract);
    field("annote", item.note);
    field("language", item.language);
    out_ << "\n}\n";
    if (!out_) refuse();
  }

  void finish() override {
    if (!out_.flush()) refuse();
  }

private:
  [[noreturn]] static void refuse() {
    fail(ErrorKind::io, "the BibTeX file could not be written to its end; is the disk full?");
  }

  /// A style asks of books and articles what a source may lack; such a one is told as @misc.
  static std::string_view entry_of(const Item& item) {
    const bool whole = !item.authors.empty() && !item.published_in.empty() && !item.issued.parts.empty();
    return whole ? item.form->entry : std::string_view("misc");
  }

  static std::string medium(const Item& item) {
    if (item.published_in.empty()) return item.source_type;
    return item.source_type.empty() ? item.published_in : item.source_type + ", " + item.published_in;
  }

  static std::string note(const Item& item) {
    std::vector<std::string> parts;
    const auto add = [&](const std::string& part) {
      if (!part.empty()) parts.push_back(part);
    };
    add(item.extent);
    add(item.repository);
    add(item.shelf_mark);
    if (!item.issued.edtf.empty()) add("dated " + date_words(item.issued));
    if (!item.interviewers.empty()) add("interviewed by " + join(item.interviewers, ", "));
    return join(parts, "; ");
  }

  void field(const char* name, std::string_view value, bool keep_capitals = false) {
    if (value.empty()) return;
    out_ << ",\n  " << name << " = {" << (keep_capitals ? "{" : "") << bibtex_words(value)
         << (keep_capitals ? "}" : "") << "}";
  }

  /// Addresses are read letter for letter; only what would end the field is escaped, as addresses do it.
  void address(const char* name, const std::string& value) {
    if (!value.empty()) out_ << ",\n  " << name << " = {" << encode_address(value) << "}";
  }

  void authors(const std::vector<std::string>& people) {
    if (people.empty()) return;
    out_ << ",\n  author = {";
    // In braces of its own a name is taken whole: no part of a firm is its family name.
    for (std::size_t i = 0; i < people.size(); ++i)
      out_ << (i == 0 ? "" : " and ") << "{" << bibtex_words(people[i]) << "}";
    out_ << "}";
  }

  void date(const Item& item) {
    if (item.issued.parts.empty()) return;
    const DatePart& first = item.issued.parts.front();
    out_ << ",\n  year = {" << first.year << "}";
    if (first.month != 0 && item.issued.parts.size() == 1) out_ << ",\n  month = {" << first.month << "}";
  }

  std::ostream& out_;
  const std::string base_;
};

}  // namespace

std::string bibtex_words(std::string_view text) {
  std::string words;
  for (const char c : text) {
    const auto command = command_for(c);
    if (!command.empty()) {
      words += command;
    } else {
      words += c == '\n' || c == '\t' || c == '\r' ? ' ' : c;
    }
  }
  return words;
}

std::unique_ptr<Writer> bibtex_writer(std::ostream& out, const std::string& base) {
  return std::make_unique<BibTex>(out, base);
}

}  // namespace lathbook::citations
