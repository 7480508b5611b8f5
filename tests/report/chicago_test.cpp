// Notes and bibliography against the published style's own output for a sample list.
//
// Source: Citation Style Language project, style 'chicago-notes-bibliography-17th-edition' (The Chicago
// Manual of Style, 17th ed., 2017, chapter 14), as rendered in csl/chicago-rendered.txt of the standards
// folder.
#include <boost/property_tree/json_parser.hpp>
#include <boost/property_tree/ptree.hpp>
#include <catch2/catch.hpp>
#include <map>
#include <set>

#include "core/base/calendar.hpp"
#include "core/base/text.hpp"
#include "plugins/report/chicago.hpp"
#include "tests/support/support.hpp"

using namespace lathbook;
using namespace lathbook::report;

namespace {

using Json = boost::property_tree::ptree;

/// Chicago's headline capitals, which the style puts to titles and we do not: a title of an archive stands as
/// it is found. Enough of the rule for the words of the sample.
std::string headline(const std::string& text) {
  static const std::set<std::string> small{"of", "the", "with", "for", "by", "at",
                                           "on", "a",   "an",   "and", "to"};
  std::string out;
  bool begins = true;
  for (std::size_t at = 0; at < text.size(); ++at) {
    const bool letter = std::isalpha(static_cast<unsigned char>(text[at])) != 0;
    std::string word;
    if (letter && begins)
      for (std::size_t end = at; end < text.size() && std::isalpha(static_cast<unsigned char>(text[end]));
           ++end)
        word += text[end];
    out += letter && begins && (small.count(word) == 0 || at == 0)
               ? static_cast<char>(std::toupper(static_cast<unsigned char>(text[at])))
               : text[at];
    begins = text[at] == ' ' || text[at] == '-';
  }
  return out;
}

std::string curly(std::string text) {
  for (std::size_t at = 0; (at = text.find('\'', at)) != std::string::npos;) text.replace(at, 1, "’");
  return text;
}

std::string date_of(const Json& item, bool year_only) {
  const auto parts = item.get_child_optional("issued.date-parts");
  if (!parts) return {};
  std::vector<int> numbers;
  for (const auto& [name, part] : parts->front().second) numbers.push_back(part.get_value<int>());
  const std::string year = std::to_string(numbers[0]);
  if (item.get<std::string>("issued.circa", "") == "true") return "[" + year + "?]";
  if (numbers.size() < 3 || year_only) return year;
  return month_name(numbers[1]) + " " + std::to_string(numbers[2]) + ", " + year;
}

/// Our fields from CSL's. Dates are given as the style writes them; in a report they stand as in its text.
Source source_of(const Json& item) {
  const auto field = [&](const char* name) { return curly(item.get<std::string>(name, "")); };
  const std::map<std::string, Form> forms{{"map", Form::drawing},
                                          {"graphic", Form::picture},
                                          {"document", Form::paper},
                                          {"book", Form::book},
                                          {"article-newspaper", Form::newspaper},
                                          {"interview", Form::interview},
                                          {"event", Form::inspection},
                                          {"motion_picture", Form::video}};
  Source source;
  source.form = forms.at(item.get<std::string>("type"));
  source.genre = field("genre");
  if (source.genre == "physical inspection") source.form = Form::inspection;
  if (const auto authors = item.get_child_optional("author"))
    for (const auto& [none, author] : *authors) {
      const std::string literal = curly(author.get<std::string>("literal", ""));
      const std::string family = author.get<std::string>("family", ""),
                        given = author.get<std::string>("given", "");
      if (literal.empty())
        source.authors.push_back({given + " " + family, family + ", " + given, family});
      else
        source.authors.push_back({literal, literal, literal});
    }
  if (const auto asked = item.get_child_optional("interviewer"))
    source.interviewer = asked->front().second.get<std::string>("given") + " " +
                         asked->front().second.get<std::string>("family");
  source.title = headline(field("title"));
  source.number = field("number");
  source.date = date_of(item, false);
  source.medium = field("medium");
  source.scale = field("scale");
  source.extent = field("dimensions");
  source.edition = field("edition");
  if (!source.edition.empty()) source.edition += source.form == Form::newspaper ? " edition" : "th ed.";
  if (source.form == Form::newspaper) source.edition = headline(source.edition);
  source.section = field("section");
  source.page = field("page").empty() ? "" : "p. " + field("page");
  source.publication = source.form == Form::newspaper ? field("container-title") : field("publisher");
  source.place = source.form == Form::inspection ? field("event-place") : field("publisher-place");
  source.location = field("archive_location");
  source.collection = field("archive_collection");
  source.holder = field("archive");
  source.holder_place = field("archive-place");
  source.address = field("URL");
  return source;
}

/// Where we differ on purpose: what the style writes, what we write, why.
struct Difference {
  std::string of, theirs, ours, why;
};

const std::vector<Difference> kDifferences{
    {"permit", "building permit nos. 1922–417", "building permit no. 1922-417",
     "a hyphen within a number is no range of numbers"},
    {"permit", "Building Permit Nos. 1922–417", "Building permit no. 1922-417",
     "the same; and headline capitals are for titles, not for what sort of paper it is"},
    {"news", "Evening Edition.", "Evening Edition, p. 3.",
     "a newspaper of one known edition is found by its page; the reader must find the spot"},
    {"video", "video, 1987, at", "video, May 10, 1987, at", "the archive knows the day"},
    {"video", "Video. 1987. ", "Video. May 10, 1987. ", "the same"},
    {"inspect-note", "May 3, 2024.", "May 3, 2024, Barn store, rack 4.",
     "what was looked at must be found again: the place is evidence"},
    {"inspect-bibliography", "May 3, 2024.", "May 3, 2024. Barn store, rack 4.", "the same"},
    {"inspect2", "May 3, 2024, field notes.", "May 3, 2024, field notes, Barn store, rack 4.", "the same"},
    {"catalog", "Trade Catalog No. 14.", "Trade catalog no. 14.", "headline capitals are for titles"},
    {"plan", "Architectural Drawing Sheet 3.", "Architectural drawing sheet 3.", "the same"},
    {"video-bibliography", "———.", "Roe, Mary.", "a line must be found without the one above it"},
};

std::string as_we_write(const std::string& id, bool bibliography, std::string line) {
  for (const Difference& one : kDifferences) {
    if (one.of != id && one.of != id + (bibliography ? "-bibliography" : "-note")) continue;
    if (const auto at = line.find(one.theirs); at != std::string::npos)
      line.replace(at, one.theirs.size(), one.ours);
  }
  return line;
}

/// What the standard cites of each source of the sample.
const std::map<std::string, std::string> kPlaces{
    {"directory", "212"}, {"oral", "00:14:10"}, {"video", "00:14:10"}, {"catalog", "57"}};

}  // namespace

TEST_CASE("notes and bibliography are the published style's, but where we say why not") {
  if (test::standards().empty()) {
    WARN("no folder of standards: the notes are not compared");
    return;
  }
  Json sample;
  read_json((test::standards() / "csl" / "sources-sample.json").string(), sample);
  const std::string all = test::read_file(test::standards() / "csl" / "chicago-rendered.txt");
  const std::string style = "=== chicago-notes-bibliography-17th-edition\n";
  REQUIRE(all.find(style) != std::string::npos);
  const auto lines = split(all.substr(all.find(style) + style.size()), '\n');
  std::map<std::string, std::string> theirs;
  std::set<std::string> bibliography;
  for (const std::string& line : lines) {
    if (line.starts_with("B: "))
      bibliography.insert(line.substr(3));
    else if (const auto at = line.find(" N: "); at != std::string::npos)
      theirs[line.substr(0, at)] = line.substr(at + 4);
  }
  REQUIRE(theirs.size() == 11);
  REQUIRE(bibliography.size() == 10);
  std::set<std::string> expected, given;
  for (const auto& [none, item] : sample) {
    const std::string id = item.get<std::string>("id");
    const Source source = source_of(item);
    const auto place = kPlaces.find(id);
    CAPTURE(id);
    CHECK(plain(full_note(source, {place == kPlaces.end() ? "" : place->second, {}, {}})) ==
          as_we_write(id, false, theirs.at(id)));
    if (id != "inspect2") given.insert(plain(bibliography_line(source)));
  }
  const std::map<std::string, std::string> marks{{"Tour of the House", "video"}, {"Alteration", "permit"},
                                                 {"New Mansion", "news"},        {"Inspection of", "inspect"},
                                                 {"Illustrated", "catalog"},     {"linen, 1:48", "plan"}};
  for (std::string line : bibliography) {
    // A repeated author is a dash in the style; which author it is, the line above tells.
    if (line.starts_with("———. Second")) line.replace(0, std::string("———.").size(), "Doe, Jane.");
    for (const auto& [mark, id] : marks)
      if (line.find(mark) != std::string::npos) line = as_we_write(id, true, line);
    if (line.find("Evening Edition") != std::string::npos) line.replace(line.find(", p. 3"), 6, ". p. 3");
    expected.insert(line);
  }
  CHECK(given == expected);
}

TEST_CASE("a later note is short and still finds the spot") {
  Source source;
  source.form = Form::picture;
  source.authors = {{"L. Sturgess", "Sturgess, L.", "Sturgess"}};
  source.title = "[Pilots' dinner in the Chart Room]";
  source.code = "S-17";
  CHECK(plain(short_note(source, {"right of the stove pipe", {}, {}})) ==
        "Sturgess, [Pilots' dinner in the Chart Room], right of the stove pipe [S-17].");
  source.form = Form::paper;
  CHECK(plain(short_note(source, {"item 8", {}, "laying ivory tile"})) ==
        "Sturgess, “[Pilots' dinner in the Chart Room],” item 8 [S-17]. “laying ivory tile.”");
}
