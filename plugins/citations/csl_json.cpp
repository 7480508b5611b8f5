// Items as CSL-JSON.
#include "core/view/addresses.hpp"
#include "plugins/citations/writers.hpp"

namespace lathbook::citations {

namespace {

class CslJson : public Writer {
public:
  CslJson(std::ostream& out, const std::string& base) : json_(out), base_(base) { json_.begin_array(); }

  void write(const Item& item) override {
    json_.begin_object();
    field("id", record_address(base_, item.record));
    field("citation-key", item.key);
    field("type", item.form->csl_type);
    field("genre", item.form->genre);
    field("title", item.title);
    names("author", item.authors);
    names("interviewer", item.interviewers);
    issued(item.issued);
    field("archive", item.repository);
    field("archive_location", item.shelf_mark);
    field("dimensions", item.extent);
    field(item.form->published == Published::publisher ? "publisher" : "container-title", item.published_in);
    field("URL", item.web_page);
    field("abstract", item.abstract);
    field("note", item.note);
    field("language", item.language);
    custom(item);
    json_.end_object();
  }

  void finish() override {
    json_.end_array();
    json_.finish();
  }

private:
  void field(std::string_view name, std::string_view value) {
    if (!value.empty()) json_.key(name).string(value);
  }

  void names(std::string_view name, const std::vector<std::string>& people) {
    if (people.empty()) return;
    json_.key(name).begin_array();
    // As the citation writes them: a firm has no family name, and an old form of a name is not to be parsed.
    for (const auto& person : people) json_.begin_object().key("literal").string(person).end_object();
    json_.end_array();
  }

  void issued(const CitedDate& date) {
    if (date.edtf.empty()) return;
    json_.key("issued").begin_object();
    if (date.parts.empty()) {
      json_.key("literal").string(date.words);
    } else {
      json_.key("date-parts").begin_array();
      for (const auto& part : date.parts) {
        json_.begin_array().number(part.year);
        if (part.month != 0) json_.number(part.month);
        if (part.day != 0) json_.number(part.day);
        json_.end_array();
      }
      json_.end_array();
      if (date.parts.front().season != 0) json_.key("season").number(date.parts.front().season);
      if (date.circa) json_.key("circa").boolean(true);
    }
    json_.end_object();
  }

  void custom(const Item& item) {
    json_.key("custom").begin_object();
    field("source-type", item.source_type);
    field("edtf", item.issued.edtf);
    if (item.issued.words != item.issued.edtf) field("date-as-typed", item.issued.words);
    field("rights", item.rights);
    if (!item.media.empty()) {
      json_.key("files").begin_array();
      for (const auto& digest : item.media) json_.string(media_address(base_, digest));
      json_.end_array();
    }
    json_.end_object();
  }

  JsonWriter json_;
  const std::string base_;
};

}  // namespace

std::unique_ptr<Writer> csl_json_writer(std::ostream& out, const std::string& base) {
  return std::make_unique<CslJson>(out, base);
}

}  // namespace lathbook::citations
