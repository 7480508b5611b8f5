// Writes manifests and the collection.
#include "plugins/iiif/manifest.hpp"

#include "core/base/edtf.hpp"
#include "core/base/json_writer.hpp"
#include "core/base/text.hpp"
#include "core/picture/region.hpp"
#include "core/view/addresses.hpp"

namespace lathbook::iiif {

namespace {

constexpr char kContext[] = "http://iiif.io/api/presentation/3/context.json";

/// A value between < and > would be taken for HTML (Presentation API 3.0, section 4.5); a blank behind it
/// keeps words that somebody typed from being run.
std::string as_words(const std::string& text) {
  return !text.empty() && text.front() == '<' && text.back() == '>' ? text + " " : text;
}

class Writer {
public:
  explicit Writer(std::ostream& out) : json_(out) {}

  JsonWriter& json() { return json_; }

  void field(std::string_view name, std::string_view value) { json_.key(name).string(value); }

  /// A map of one language to one value.
  void words(std::string_view name, std::string_view language, const std::string& value) {
    json_.key(name).begin_object().key(language).begin_array().string(value).end_array().end_object();
  }

  void pair(const char* label, const std::string& value) {
    if (value.empty()) return;
    json_.begin_object();
    words("label", "en", label);
    words("value", "none", as_words(value));
    json_.end_object();
  }

  void provider(const Site& site) {
    json_.key("provider").begin_array().begin_object();
    field("id", site.base);
    field("type", "Agent");
    words("label", "none", site.keeper);
    json_.end_object().end_array();
  }

private:
  JsonWriter json_;
};

std::string language_of(const RecordView& record, std::string_view property) {
  const Statement* one = record.best(property);
  return one == nullptr || one->content.language.empty() ? "none" : one->content.language;
}

/// A licence or rights statement that the API takes, in the form it takes it: http, though both may be typed.
std::string rights_of(const SourceView& source) {
  std::string uri = source.rights;
  if (uri.rfind("https://", 0) == 0) uri = "http://" + uri.substr(8);
  const bool known = uri.rfind("http://creativecommons.org/", 0) == 0 ||
                     uri.rfind("http://rightsstatements.org/vocab/", 0) == 0;
  return known ? uri : std::string();
}

/// The moment of a photograph dated to the day, in UTC for want of a zone.
std::string nav_date(const SourceView& source) {
  const auto date = Edtf::try_parse(source.date);
  if (!date || date->precision() != Precision::day || date->earliest() != date->latest() || !date->earliest())
    return {};
  const CivilDay civil = civil_from_days(*date->earliest());
  return civil.year >= 1 && civil.year <= 9999 ? iso_day(*date->earliest()) + "T00:00:00Z" : std::string();
}

class ManifestWriter {
public:
  ManifestWriter(std::ostream& out, const Site& site, const RecordView& record, ManifestCounts& counts)
      : writer_(out), json_(writer_.json()), site_(site), record_(record), counts_(counts) {}

  void write(const std::vector<Plate>& plates) {
    const std::string id = site_.manifest(record_.info.id);
    json_.begin_object();
    writer_.field("@context", kContext);
    writer_.field("id", id);
    writer_.field("type", "Manifest");
    writer_.words("label", language_of(record_, "name"), display(record_.info));
    if (const auto summary = record_.text("description"); !summary.empty())
      writer_.words("summary", language_of(record_, "description"), as_words(summary));
    writer_.provider(site_);
    json_.key("seeAlso").begin_array().begin_object();
    writer_.field("id", record_address(site_.base, record_.info.id));
    writer_.field("type", "Dataset");
    writer_.words("label", "en", "The record in the archive");
    json_.end_object().end_array();
    json_.key("items").begin_array();
    const std::string stem = id.substr(0, id.size() - 5);
    for (const Plate& plate : plates)
      for (std::size_t i = 0; i < plate.pictures.size(); ++i) canvas(stem, plate, i);
    json_.end_array().end_object();
    json_.finish();
  }

private:
  void canvas(const std::string& stem, const Plate& plate, std::size_t which) {
    const Shown& shown = plate.pictures[which];
    const SourceView& source = plate.source;
    const std::string id = stem + "/canvas/" + source.record.info.id.text() + "-" + std::to_string(which + 1);
    ++counts_.canvases;
    json_.begin_object();
    writer_.field("id", id);
    writer_.field("type", "Canvas");
    const std::string title = source.title.empty() ? display(source.record.info) : source.title;
    writer_.words("label", language_of(source.record, "title"), title);
    json_.key("height").number(shown.picture.height).key("width").number(shown.picture.width);
    json_.key("metadata").begin_array();
    writer_.pair("Number", source.record.info.code);
    writer_.pair("Kind", source.type);
    writer_.pair("Made by", join(source.creators, "; "));
    writer_.pair("Date", source.date_typed.empty() ? source.date : source.date_typed);
    writer_.pair("Held by", source.repository);
    writer_.pair("Shelf mark", source.shelf_mark);
    if (rights_of(source).empty()) writer_.pair("Rights", source.rights);
    json_.end_array();
    if (const auto rights = rights_of(source); !rights.empty()) writer_.field("rights", rights);
    if (const auto date = nav_date(source); !date.empty()) writer_.field("navDate", date);
    painting(id, shown);
    // What is seen is said of the photograph; of several files the first is the whole of it.
    if (which == 0 && !plate.sightings.empty()) annotations(id, plate);
    json_.end_object();
  }

  void painting(const std::string& canvas, const Shown& shown) {
    json_.key("items").begin_array().begin_object();
    writer_.field("id", canvas + "/page");
    writer_.field("type", "AnnotationPage");
    json_.key("items").begin_array().begin_object();
    writer_.field("id", canvas + "/painting");
    writer_.field("type", "Annotation");
    writer_.field("motivation", "painting");
    json_.key("body").begin_object();
    writer_.field("id", site_.root() + shown.path);
    writer_.field("type", "Image");
    writer_.field("format", shown.picture.media_type);
    json_.key("height").number(shown.picture.height).key("width").number(shown.picture.width);
    json_.end_object();
    writer_.field("target", canvas);
    json_.end_object().end_array().end_object().end_array();
  }

  void annotations(const std::string& canvas, const Plate& plate) {
    json_.key("annotations").begin_array().begin_object();
    writer_.field("id", canvas + "/shown");
    writer_.field("type", "AnnotationPage");
    json_.key("items").begin_array();
    int number = 0;
    for (const Sighting& sighting : plate.sightings) {
      json_.begin_object();
      writer_.field("id", canvas + "/shown/" + std::to_string(++number));
      writer_.field("type", "Annotation");
      writer_.field("motivation", "identifying");
      body(sighting);
      writer_.field("target", canvas + region(sighting, plate.pictures.front().picture));
      json_.end_object();
    }
    json_.end_array().end_object().end_array();
  }

  void body(const Sighting& sighting) {
    json_.key("body").begin_array().begin_object();
    writer_.field("type", "SpecificResource");
    writer_.field("source", record_address(site_.base, sighting.record));
    json_.end_object().begin_object();
    writer_.field("type", "TextualBody");
    writer_.field("value", sighting.words);
    writer_.field("format", "text/plain");
    writer_.field("language", "en");
    json_.end_object().end_array();
  }

  std::string region(const Sighting& sighting, const Picture& picture) {
    if (!names_region(sighting.places)) return {};
    const auto region = read_region(sighting.places, picture.width, picture.height);
    ++(region ? counts_.regions : counts_.bad_regions);
    return region ? "#" + region->text() : std::string();
  }

  Writer writer_;
  JsonWriter& json_;
  const Site& site_;
  const RecordView& record_;
  ManifestCounts& counts_;
};

}  // namespace

void write_manifest(std::ostream& out, const Site& site, const RecordView& record,
                    const std::vector<Plate>& plates, ManifestCounts& counts) {
  ManifestWriter(out, site, record, counts).write(plates);
}

void write_collection(std::ostream& out, const Site& site, const Reading& reading,
                      const std::vector<Listed>& manifests) {
  Writer writer(out);
  JsonWriter& json = writer.json();
  json.begin_object();
  writer.field("@context", kContext);
  writer.field("id", site.root() + "collection.json");
  writer.field("type", "Collection");
  writer.words("label", "none", site.keeper);
  json.key("metadata").begin_array();
  writer.pair("State of the archive", reading.fingerprint.hex());
  writer.pair("Known on", iso_day(reading.known_day));
  json.end_array();
  writer.provider(site);
  json.key("items").begin_array();
  for (const Listed& one : manifests) {
    json.begin_object();
    writer.field("id", site.manifest(one.record));
    writer.field("type", "Manifest");
    writer.words("label", "none", one.label);
    json.end_object();
  }
  json.end_array().end_object();
  json.finish();
}

}  // namespace lathbook::iiif
