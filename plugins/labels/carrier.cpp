#include "plugins/labels/carrier.hpp"

#include <algorithm>
#include <array>
#include <map>

#include "core/base/text.hpp"
#include "plugins/labels/house.hpp"
#include "plugins/labels/senses.hpp"

namespace lathbook::labels {

namespace {

constexpr std::size_t kShortestName = 4;

bool says_packing(const std::string& text) {
  const auto words = plain_words(text);
  for (std::size_t i = 0; i < words.size(); ++i) {
    const std::string& word = words[i];
    if (word == "crate" || word == "crates" || word == "packing") return true;
    const bool of_a_box = i + 1 < words.size() && (words[i + 1] == "board" || words[i + 1] == "boards");
    if (of_a_box && (word == "box" || word == "crate" || word == "case")) return true;
  }
  return false;
}

std::string packing_in(const RecordView& record) {
  for (const char* property :
       {"reused-from", "material", "description", "element-type", "piece-type", "name"}) {
    for (const Statement* statement : record.all(property)) {
      if (!says_packing(statement->content.value)) continue;
      return "its record says " + quote(statement->content.value);
    }
  }
  return {};
}

std::string reused_in(const Snapshot& archive, const RecordView& record) {
  if (const Statement* from = record.best("reused-from"))
    return "it is recorded as reused from " + quote(from->content.value);
  Query query;
  query.object = record.info.id;
  query.properties = {Registry::standard().named("reused-in").id};
  std::string words;
  archive.statements().each_statement(query, [&](const Statement& statement) {
    const auto older = archive.statements().record(statement.content.subject);
    words = "it is made of what was " + (older ? display(*older) : std::string("something else"));
    return false;
  });
  if (words.empty() && record.best("reused-in") != nullptr) words = "it was reused elsewhere";
  return words;
}

// The fixture it is a part of: a casing belongs to a window or door, a stile to a door.
std::string fitting_in(const std::string& words) {
  static constexpr std::array<const char*, 12> kWholes = {"window", "door",  "mantel", "stair",
                                                          "hearth", "stove", "niche",  "press",
                                                          "shelf",  "dado",  "grille", "casing"};
  for (const char* whole : kWholes)
    if (says_fitting(words, whole)) return whole;
  return {};
}

std::string rooms_of(const Snapshot& archive, const ElementView& element) {
  std::vector<std::string> rooms;
  for (const StandingView& standing : element.places)
    if (standing.role == "stands in")
      if (const auto place = archive.statements().record(standing.place)) rooms.push_back(display(*place));
  return join(rooms, " and ");
}

std::string element_hint(const Snapshot& archive, const RecordView& piece, Carrier& carrier) {
  const auto id = piece.record("piece-of");
  const auto record = id ? archive.find(*id) : std::nullopt;
  if (!record) return {};
  const ElementView element(*record);
  if (carrier.reused.empty()) carrier.reused = reused_in(archive, *record);
  if (carrier.packing.empty()) carrier.packing = packing_in(*record);
  const std::string rooms = rooms_of(archive, element);
  if (rooms.empty()) return {};
  return "it is kept as a piece of " + display(record->info) + ", recorded in " + rooms;
}

struct Known {
  std::string word;
  std::string whose;
};

void add_words(std::vector<Known>& known, const std::string& text, const std::string& whose) {
  for (const std::string& word : plain_words(text))
    if (word.size() >= kShortestName) known.push_back({word, whose});
}

std::vector<Known> known_names(const Snapshot& archive) {
  std::vector<Known> known;
  archive.each(Kind::agent, [&](const RecordView& agent) {
    for (const Statement* name : agent.all("name"))
      add_words(known, name->content.value, "is like the name of " + display(agent.info));
    for (const Statement* town : agent.all("place-of-business")) {
      add_words(known, town->content.value,
                "is like the town of " + display(agent.info) + ", " + quote(town->content.value));
    }
  });
  archive.each(Kind::archive, [&](const RecordView& own) {
    add_words(known, own.text("archive-name"),
              "is in the archive's own name, " + quote(own.text("archive-name")));
  });
  return known;
}

}  // namespace

Carrier carrier_of(const Snapshot& archive, const std::optional<Uuid>& id) {
  Carrier carrier;
  const auto record = id ? archive.find(*id) : std::nullopt;
  if (!record) return carrier;
  carrier.info = record->info;
  const Kind kind = record->info.kind;
  carrier.can_be_meant_for = kind == Kind::element || kind == Kind::piece || kind == Kind::find;
  if (kind == Kind::container) carrier.packing = "it is a container";
  if (carrier.packing.empty()) carrier.packing = packing_in(*record);
  carrier.reused = reused_in(archive, *record);
  carrier.fitting = fitting_in(record->info.name + " " +
                               record->text(kind == Kind::element ? "element-type" : "piece-type"));
  if (kind == Kind::piece) carrier.element = element_hint(archive, *record, carrier);
  return carrier;
}

std::vector<std::string> addresses_in(const Snapshot& archive, const std::vector<LabelToken>& words) {
  std::vector<std::string> found;
  if (words.empty()) return found;
  const auto known = known_names(archive);
  const auto like = [](const LabelToken& token, const Known& one) {
    const bool damaged = token.key.find_first_of("?*") != std::string::npos;
    return damaged ? token.key.size() >= kShortestName && fits_pattern(token.key, one.word)
                   : token.key == one.word;
  };
  // Who is met by most words of the label goes first.
  std::map<std::string, std::size_t> met;
  for (const LabelToken& token : words)
    for (const Known& one : known)
      if (like(token, one)) ++met[one.whose];
  for (const LabelToken& token : words) {
    const Known* best = nullptr;
    for (const Known& one : known)
      if (like(token, one) && (best == nullptr || met[one.whose] > met[best->whose])) best = &one;
    if (best == nullptr) continue;
    std::string sentence = quote(token.written) + " " + best->whose;
    if (std::find(found.begin(), found.end(), sentence) == found.end()) found.push_back(std::move(sentence));
  }
  return found;
}

}  // namespace lathbook::labels
