#include "plugins/labels/write.hpp"

#include <cmath>

#include "core/base/json_writer.hpp"
#include "core/base/text.hpp"

namespace lathbook::labels {

namespace {

constexpr std::size_t kColumns = 100;
constexpr double kWorthPrinting = 0.02;  // share

std::string percent(double share) {
  return std::to_string(static_cast<int>(std::lround(share * 100))) + " %";
}

// "S-03, sheet 3; S-33, leaf 10": what a factor's statement cites.
std::string citations(const Snapshot& archive, const Digest& id) {
  if (id == Digest{}) return {};
  const auto statement = archive.statements().statement(id);
  if (!statement) return {};
  std::vector<std::string> cited;
  for (const Citation& citation : statement->content.citations) {
    const auto source = archive.statements().record(citation.source);
    if (!source) continue;
    cited.push_back(source->code + (citation.locator.empty() ? "" : ", " + citation.locator));
  }
  return join(cited, "; ");
}

class TextWriter {
public:
  TextWriter(const Snapshot& archive, std::ostream& out) : archive_(archive), out_(out) {}

  void label(const LabelReading& reading, bool brief) {
    line(0, title(reading));
    line(2, reading.text);
    line(2, reading.words);
    if (!brief) candidates(reading);
    if (!reading.part.empty()) line(2, "Part: " + reading.part);
    list("Left open:", reading.left_open);
    list("Take care:", reading.cautions);
    if (brief) return;
    list("Besides:", reading.hints);
    words(reading);
  }

  void conventions(const LabelReadings& readings) { list("How it was read:", readings.conventions, 0); }

private:
  static std::string title(const LabelReading& reading) {
    std::string text = reading.label.id == Uuid{} ? "A label as typed" : display(reading.label);
    if (reading.carrier.id != Uuid{}) text += ", on " + display(reading.carrier);
    if (!reading.when.empty()) text += ", written " + reading.when;
    return text;
  }

  void candidates(const LabelReading& reading) {
    for (const LabelCandidate& candidate : reading.candidates) {
      if (candidate.share < kWorthPrinting) continue;
      line(4, candidate.shown + ", " + percent(candidate.share));
      for (const LabelFactor& factor : candidate.factors) {
        const std::string cited = citations(archive_, factor.statement);
        const std::string weight = factor.weight < 0.995 ? " (x " + fixed(factor.weight) + ")" : "";
        line(6, factor.about + ": " + factor.words + weight + (cited.empty() ? "" : " [" + cited + "]"));
      }
    }
    if (!reading.candidates.empty() && reading.none_share >= kWorthPrinting)
      line(4, "none of them, " + percent(reading.none_share));
  }

  void words(const LabelReading& reading) {
    std::vector<std::string> taken;
    for (const LabelWord& word : reading.taken) {
      if (word.taken_as == "-") continue;
      taken.push_back(word.written + " = " + word.taken_as +
                      (word.ground.empty() ? "" : " (" + word.ground + ")"));
    }
    if (!taken.empty()) line(2, "Words: " + join(taken, "; "));
  }

  void list(const std::string& head, const std::vector<std::string>& items, std::size_t indent = 2) {
    if (items.empty()) return;
    line(indent, head);
    for (const std::string& item : items) line(indent + 2, "- " + item);
  }

  static std::string fixed(double value) {
    const auto hundredths = static_cast<int>(std::lround(value * 100));
    return "0." + std::string(hundredths < 10 ? "0" : "") + std::to_string(hundredths);
  }

  void line(std::size_t indent, const std::string& text) {
    std::size_t hang = indent;
    for (const std::string& part : wrap(safe_display(text), kColumns - indent - 2)) {
      out_ << std::string(hang, ' ') << part << '\n';
      hang = indent + 2;
    }
  }

  const Snapshot& archive_;
  std::ostream& out_;
};

void write_record(JsonWriter& json, const RecordInfo& info) {
  if (info.id == Uuid{}) {
    json.null();
    return;
  }
  json.begin_object().key("code").string(info.code).key("name").string(info.name).end_object();
}

void write_texts(JsonWriter& json, const char* key, const std::vector<std::string>& texts) {
  json.key(key).begin_array();
  for (const std::string& text : texts) json.string(text);
  json.end_array();
}

void write_candidate(JsonWriter& json, const Snapshot& archive, const LabelCandidate& candidate) {
  json.begin_object().key("place");
  write_record(json, candidate.place);
  json.key("called").string(candidate.called).key("storeys_counted").string(candidate.convention);
  json.key("score").number(candidate.score).key("share").number(candidate.share);
  json.key("reasons").begin_array();
  for (const LabelFactor& factor : candidate.factors) {
    json.begin_object().key("about").string(factor.about).key("weight").number(factor.weight);
    json.key("words").string(factor.words);
    const auto statement =
        factor.statement == Digest{} ? std::nullopt : archive.statements().statement(factor.statement);
    if (statement) {
      json.key("statement").string(statement->name());
      json.key("cites").string(citations(archive, factor.statement));
    }
    json.end_object();
  }
  json.end_array();
  write_texts(json, "left_open", candidate.left_open);
  json.end_object();
}

void write_reading(JsonWriter& json, const Snapshot& archive, const LabelReading& reading) {
  json.begin_object().key("label");
  write_record(json, reading.label);
  json.key("on");
  write_record(json, reading.carrier);
  json.key("text").string(reading.text).key("written").string(reading.when);
  if (const auto transcription = archive.statements().statement(reading.transcription))
    json.key("transcription").string(transcription->name());
  json.key("verdict").string(word(reading.verdict)).key("words").string(reading.words);
  json.key("part").string(reading.part);
  json.key("places").begin_array();
  for (const LabelCandidate& candidate : reading.candidates) write_candidate(json, archive, candidate);
  json.end_array().key("none_share").number(reading.none_share);
  write_texts(json, "left_open", reading.left_open);
  write_texts(json, "cautions", reading.cautions);
  write_texts(json, "hints", reading.hints);
  write_texts(json, "unknown_words", reading.unknown);
  json.key("taken").begin_array();
  for (const LabelWord& one : reading.taken) {
    json.begin_object().key("written").string(one.written).key("as").string(one.taken_as);
    json.key("ground").string(one.ground).end_object();
  }
  json.end_array().key("assembly_numbers").begin_array();
  for (const LabelNumeral& numeral : reading.numerals) {
    json.begin_object().key("strokes").string(numeral.strokes).key("values").begin_array();
    for (const int value : numeral.values) json.number(value);
    json.end_array().key("tags").string(numeral.tags).end_object();
  }
  json.end_array().end_object();
}

}  // namespace

void write_text(const Snapshot& archive, const LabelReadings& readings, bool brief, std::ostream& out) {
  TextWriter writer(archive, out);
  bool first = true;
  for (const LabelReading& reading : readings.labels) {
    if (!first) out << '\n';
    first = false;
    writer.label(reading, brief);
  }
  if (readings.labels.empty()) out << "no label to read\n";
  if (!brief) {
    out << '\n';
    writer.conventions(readings);
  }
  const Reading& reading = readings.reading;
  if (reading.withheld != 0)
    out << reading.withheld << " statements withheld; the private archive may say more\n";
}

void write_json(const Snapshot& archive, const LabelReadings& readings, std::ostream& out) {
  JsonWriter json(out);
  json.begin_object().key("fingerprint").string(readings.reading.fingerprint.hex());
  json.key("withheld").number(readings.reading.withheld);
  write_texts(json, "conventions", readings.conventions);
  json.key("labels").begin_array();
  for (const LabelReading& reading : readings.labels) write_reading(json, archive, reading);
  json.end_array().end_object().finish();
}

}  // namespace lathbook::labels
