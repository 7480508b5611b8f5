#include "plugins/labels/reading.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/text.hpp"
#include "core/base/typed_date.hpp"
#include "plugins/labels/carrier.hpp"
#include "plugins/labels/numerals.hpp"
#include "plugins/labels/open_points.hpp"
#include "plugins/labels/proposals.hpp"
#include "plugins/labels/rank.hpp"
#include "plugins/labels/verdict.hpp"

namespace lathbook::labels {

namespace {

constexpr std::size_t kMostCandidates = 12;

struct Wanted {
  std::string text;
  std::string carrier;
  std::string date;
  std::string storeys;
  bool left_from_outside = true;
};

Wanted wanted_in(const Settings& settings) {
  Wanted wanted;
  for (const auto& [name, value] : settings) {
    if (name == "text") wanted.text = value;
    if (name == "carrier") wanted.carrier = value;
    if (name == "date") wanted.date = value.empty() ? value : read_typed_date(value).edtf.text();
    if (name == "storeys") {
      if (value != "us" && value != "uk" && !value.empty())
        fail(ErrorKind::invalid,
             "setting 'storeys' is us (the ground storey is the first) or uk, not " + quote(value));
      wanted.storeys = value;
    }
    if (name == "left") {
      if (value != "outside" && value != "inside")
        fail(ErrorKind::invalid, "setting 'left' is outside or inside, not " + quote(value));
      wanted.left_from_outside = value == "outside";
    }
  }
  return wanted;
}

HouseWords words_of(const House& house) {
  HouseWords words;
  words.words = house.words();
  for (const Room& room : house.rooms())
    for (const RoomName& name : room.names) words.names.push_back(name.words);
  return words;
}

// All that is the same for every label of a request.
class Reader {
public:
  Reader(const Snapshot& archive, const AnalysisRequest& request, Services& services)
      : archive_(archive),
        services_(services),
        wanted_(wanted_in(request.settings)),
        place_(place_in(archive, request.scope)),
        house_(archive, place_),
        words_(words_of(house_)) {}

  LabelReadings read(const Uuid& scope) {
    LabelReadings readings;
    readings.reading = archive_.reading();
    if (!wanted_.text.empty()) {
      const auto carrier = carrier_typed();
      readings.labels.push_back(one(wanted_.text, carrier, circumstances(nullptr), {}));
    } else {
      labels(scope, readings);
    }
    conventions(readings);
    return readings;
  }

private:
  // Rooms are looked for in the place asked about, else in the whole archive.
  static Uuid place_in(const Snapshot& archive, const Uuid& scope) {
    const auto record = scope == Uuid{} ? std::nullopt : archive.statements().record(scope);
    return record && record->kind == Kind::place ? scope : Uuid{};
  }

  std::optional<Uuid> carrier_typed() const {
    if (wanted_.carrier.empty()) return std::nullopt;
    const auto record = archive_.statements().record_by_code(wanted_.carrier);
    if (!record) fail(ErrorKind::not_found, "there is no record with the code " + quote(wanted_.carrier));
    return record->id;
  }

  void labels(const Uuid& scope, LabelReadings& readings) {
    const auto asked = scope == Uuid{} ? std::nullopt : archive_.statements().record(scope);
    std::uint64_t done = 0;
    archive_.each(Kind::label, [&](const RecordView& record) {
      if (services_.stop_requested()) return;
      const LabelView label(record);
      const bool all = !asked || asked->kind == Kind::place;
      if (!all && record.info.id != scope && label.carrier != scope) return;
      for (const ReadingView& transcription : label.transcriptions) {
        LabelReading reading = one(transcription.text, label.carrier, circumstances(&record), label.tool);
        reading.label = record.info;
        reading.transcription = transcription.statement;
        if (reading.when.empty()) reading.when = record.edtf("written-on");
        add_proposals(archive_, reading, readings.proposals);
        readings.labels.push_back(std::move(reading));
      }
      services_.progress(++done, 0);
    });
  }

  // The writer's time and way of counting: what was asked, else the label's own, else the house's.
  Circumstances circumstances(const RecordView* label) const {
    Circumstances about;
    about.left_from_outside = wanted_.left_from_outside;
    const std::string date =
        !wanted_.date.empty() || label == nullptr ? wanted_.date : label->edtf("written-on");
    about.when = period_of(date, date);
    about.when.words = date;
    if (!wanted_.storeys.empty()) {
      about.convention = wanted_.storeys;
      about.convention_ground = "as asked";
      return about;
    }
    if (label != nullptr &&
        (own_convention(*label, "as recorded for the label", about) || batch_convention(*label, about)))
      return about;
    house_convention(about);
    return about;
  }

  static bool own_convention(const RecordView& label, const std::string& ground, Circumstances& about) {
    const Statement* own = label.best("storey-convention");
    if (own == nullptr) return false;
    about.convention = own->content.value;
    about.convention_ground = ground;
    about.convention_statement = own->id;
    return true;
  }

  // What is recorded for one label of a batch holds for its fellows.
  bool batch_convention(const RecordView& label, Circumstances& about) const {
    const std::string batch = label.text("label-batch");
    if (batch.empty()) return false;
    Query query;
    query.properties = {Registry::standard().named("label-batch").id};
    bool found = false;
    archive_.statements().each_statement(query, [&](const Statement& statement) {
      if (statement.content.value != batch) return true;
      const auto fellow = archive_.find(statement.content.subject);
      found =
          fellow &&
          own_convention(*fellow, "as recorded for " + display(fellow->info) + " of the same batch", about);
      return !found;
    });
    return found;
  }

  // Only where every building that says one says the same.
  void house_convention(Circumstances& about) const {
    for (const Building& building : house_.buildings()) {
      if (building.convention.empty()) continue;
      if (!about.convention.empty() && about.convention != building.convention) {
        about.convention.clear();
        return;
      }
      about.convention = building.convention;
      about.convention_ground = "as recorded for " + display(building.info);
      about.convention_statement = building.convention_statement;
    }
  }

  LabelReading one(const std::string& raw, const std::optional<Uuid>& carrier_id, const Circumstances& about,
                   const std::string& tool) {
    LabelReading reading;
    const Carrier carrier = carrier_of(archive_, carrier_id);
    reading.carrier = carrier.info;
    reading.when = about.when.words;
    LabelText text;
    try {
      text = tokens_of(raw);
    } catch (const Error& error) {
      reading.text = quote(raw);
      reading.words = error.what();
      if (wanted_.text.empty()) return reading;
      throw;
    }
    reading.text = text.shown;
    if (text.too_long) {
      reading.words =
          "It has more than " + std::to_string(kMostWords) + " words: no destination label; it was not read.";
      return reading;
    }
    if (read_numerals(text, tool, reading)) return reading;
    read_places(text, carrier, about, reading);
    return reading;
  }

  static bool read_numerals(const LabelText& text, const std::string& tool, LabelReading& reading) {
    std::string loose;
    for (const LabelToken& token : text.tokens) {
      auto numeral = read_numeral(token.key);
      const bool tag = token.key == "tag" || token.key == "flag" || token.key == "stroke" ||
                       token.key == "strokes" || token.key == "l" || token.key == "r" ||
                       token.key == "left" || token.key == "right";
      const bool cut = tool == "carved" || token.key.size() > 1;
      if (numeral && cut && !token.damaged) {
        reading.numerals.push_back({numeral->strokes, numeral->values, token.signs});
      } else if (tag && !reading.numerals.empty()) {
        std::string& tags = reading.numerals.back().tags;
        tags += (tags.empty() ? "" : " ") + token.written;
      } else {
        loose = token.written;
      }
    }
    if (reading.numerals.empty() || !loose.empty()) {
      reading.numerals.clear();
      return false;
    }
    reading.verdict = LabelVerdict::assembly_number;
    reading.words = numeral_words(reading.numerals);
    return true;
  }

  void read_places(const LabelText& text, const Carrier& carrier, const Circumstances& about,
                   LabelReading& reading) {
    const auto takings = takings_of(text.tokens, words_);
    Ranking ranking = rank(house_, takings, about);
    const Taking& best = takings[ranking.places.empty() ? 0 : ranking.places.front().taking];
    for (const TakenWord& word : best.words)
      reading.taken.push_back({word.token.written, taken_as(word.meaning), word.meaning.ground});
    reading.none_share = ranking.none_share;
    reading.part = part_words(best);
    reading.unknown = best.unknown;
    for (Ranked& ranked : ranking.places) {
      if (reading.candidates.size() == kMostCandidates) break;
      ranked.candidate.left_open = open_points(house_, takings, ranking, ranked, carrier, about);
      reading.candidates.push_back(ranked.candidate);
    }
    if (!ranking.places.empty()) reading.left_open = ranking.places.front().candidate.left_open;
    if (ranking.storey_missing || counted_both_ways(ranking)) other_count(takings, about, ranking, reading);
    judge({archive_, house_, text, takings, ranking, carrier, about}, reading);
  }

  static bool counted_both_ways(const Ranking& ranking) {
    return ranking.places.size() > 1 &&
           ranking.places[0].candidate.convention != ranking.places[1].candidate.convention;
  }

  // What the label would mean if its writer counted storeys the other way.
  void other_count(const std::vector<Taking>& takings, Circumstances about, const Ranking& ranking,
                   LabelReading& reading) {
    if (!about.convention.empty()) {
      about.convention = about.convention == "us" ? "uk" : "us";
      const Ranking other = rank(house_, takings, about);
      if (other.places.empty() || other.places.front().candidate.score < 0.1) return;
      reading.hints.push_back("counted the " + std::string(about.convention == "us" ? "US" : "UK") +
                              " way it would be " + other.places.front().candidate.shown);
      return;
    }
    std::string hint =
        "how this house is counted can be settled: lathbook say BUILDING storey-convention us (or uk)";
    if (!ranking.evidence_of_counting.empty()) hint = ranking.evidence_of_counting + "; " + hint;
    reading.hints.push_back(hint);
  }

  static std::string taken_as(const Meaning& meaning) {
    switch (meaning.sense) {
      case Sense::idle:
        return "-";
      case Sense::unknown:
        return "not explained";
      case Sense::ordinal:
        return "number " + meaning.means;
      case Sense::figure:
        return "number " + meaning.means;
      case Sense::numeral:
        return "assembly numeral";
      default:
        return meaning.means;
    }
  }

  void conventions(LabelReadings& readings) const {
    const Circumstances about = circumstances(nullptr);
    auto& said = readings.conventions;
    if (about.convention.empty())
      said.push_back("storeys are counted both ways, as nobody has said which the writers used");
    else
      said.push_back(std::string(about.convention == "us"
                                     ? "storeys: the ground storey is the first (US)"
                                     : "storeys: the first is above the ground storey (UK)") +
                     ", " + about.convention_ground);
    for (const Building& building : house_.buildings()) {
      if (building.info.id == Uuid{}) continue;
      if (!building.front.empty())
        said.push_back("the front of " + display(building.info) + " looks " + building.front);
    }
    said.push_back(
        about.left_from_outside
            ? "left and right: of the house, facing its front from outside; of a fitting, facing it from "
              "inside the room; of a stair, going up"
            : "left and right: of the house, looking out of its front from inside; of a fitting, facing it "
              "from inside the room; of a stair, going up");
    if (about.when.words.empty())
      said.push_back("labels without a day of writing are held against the names of all times");
  }

  const Snapshot& archive_;
  Services& services_;
  Wanted wanted_;
  Uuid place_;
  House house_;
  HouseWords words_;
};

}  // namespace

LabelReadings read_labels(const Snapshot& archive, const AnalysisRequest& request, Services& services) {
  return Reader(archive, request, services).read(request.scope);
}

}  // namespace lathbook::labels
