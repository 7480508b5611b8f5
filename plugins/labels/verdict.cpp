#include "plugins/labels/verdict.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/text.hpp"

namespace lathbook::labels {

namespace {

constexpr double kMostNone = 0.5;
constexpr double kLeastScore = 0.1;
constexpr double kClearShare = 0.8;
constexpr double kClearLead = 3;
constexpr double kWorthNaming = 0.3;  // of the best

std::string list_of(const std::vector<std::string>& items, const std::string& last) {
  if (items.size() < 2) return join(items, "");
  const std::vector<std::string> front(items.begin(), items.end() - 1);
  return join(front, ", ") + " " + last + " " + items.back();
}

class Judge {
public:
  Judge(const Grounds& on, LabelReading& reading) : on_(on), reading_(reading) {}

  void decide() {
    const Taking& best = likeliest();
    const bool parcel = !best.handling.empty() || !best.carriage.empty();
    const bool no_place = finds_none();
    const auto addresses = no_place || parcel || !on_.carrier.packing.empty()
                               ? addresses_in(on_.archive, unexplained(best))
                               : std::vector<std::string>{};
    if (!on_.carrier.packing.empty() || (no_place && (parcel || !addresses.empty())))
      no_destination(best, addresses, no_place);
    else if (no_place)
      none(best);
    else
      some();
    if (!on_.carrier.reused.empty() && on_.carrier.packing.empty()) {
      reading_.cautions.push_back(on_.carrier.reused +
                                  ": the label says where it was first sent, not where it was found");
    }
    if (!on_.carrier.element.empty()) reading_.hints.push_back(on_.carrier.element);
  }

private:
  const Taking& likeliest() const {
    return on_.takings[on_.ranking.places.empty() ? 0 : on_.ranking.places.front().taking];
  }
  bool finds_none() const {
    return on_.ranking.storey_missing || on_.ranking.places.empty() || on_.ranking.none_share > kMostNone ||
           on_.ranking.places.front().candidate.score < kLeastScore;
  }

  // Words that say no room here: unknown ones, and names of rooms this house has not.
  std::vector<LabelToken> unexplained(const Taking& taking) const {
    std::vector<LabelToken> words;
    for (const TakenWord& word : taking.words) {
      const Sense sense = word.meaning.sense;
      if (sense == Sense::unknown ||
          (sense == Sense::name && on_.house.words().count(word.meaning.means) == 0))
        words.push_back(word.token);
    }
    return words;
  }

  void no_destination(const Taking& best, const std::vector<std::string>& addresses, bool no_place) {
    reading_.verdict = LabelVerdict::not_a_destination;
    std::vector<std::string> parts = addresses;
    std::vector<std::string> how;
    for (const auto* words : {&best.handling, &best.carriage})
      for (const std::string& word : *words) how.push_back(quote(word));
    if (!how.empty()) parts.push_back(list_of(how, "and") + " is said to those who carry a parcel");
    std::string words =
        no_place ? "It names no room of this house" : "It reads like " + reading_.candidates.front().shown;
    for (const std::string& part : parts) words += "; " + part;
    if (on_.carrier.packing.empty()) {
      reading_.words = words + ". It is an address, not a place in the house.";
      return;
    }
    const bool container = on_.carrier.info.kind == Kind::container;
    reading_.words = words + ". It says where a case was sent, not where " +
                     (container ? "its contents belong." : "this piece of it belongs.");
    reading_.cautions.push_back(on_.carrier.packing +
                                ": what is written on packing speaks for the parcel only");
  }

  void none(const Taking& best) {
    reading_.verdict = LabelVerdict::none;
    if (on_.ranking.storey_missing) {
      const std::string way = on_.about.convention == "us" ? "US" : "UK";
      reading_.words = "No room: this house has no such storey as " + quote(best.storey_written) +
                       (on_.about.convention.empty() ? std::string() : " counted the " + way + " way") + ".";
      return;
    }
    std::vector<std::string> odd;
    for (const LabelToken& token : unexplained(best)) odd.push_back(quote(token.written));
    if (!odd.empty()) {
      reading_.words = "No room of this house is called " + list_of(odd, "or") + ".";
    } else if (!best.says_place()) {
      reading_.words = "It says no room and no position in the house.";
    } else if (!on_.ranking.places.empty()) {
      reading_.words = "No room of this house suits it; the nearest is " +
                       on_.ranking.places.front().candidate.shown + ".";
    } else {
      reading_.words = "No room of this house suits it.";
    }
  }

  // Those whose scores are near the best.
  std::vector<std::string> leading() const {
    std::vector<std::string> names;
    const double most = on_.ranking.places.front().candidate.score;
    for (const Ranked& ranked : on_.ranking.places)
      if (ranked.candidate.score >= kWorthNaming * most) names.push_back(ranked.candidate.shown);
    return names;
  }

  bool says_either() const {
    const Taking& best = likeliest();
    if (best.rooms.size() < 2 && best.anchors.size() < 2) return false;
    const auto& places = on_.ranking.places;
    return places.size() > 1 && places[0].alternative != places[1].alternative &&
           places[1].candidate.score >= kWorthNaming * places[0].candidate.score;
  }

  void some() {
    const auto& places = on_.ranking.places;
    const LabelCandidate& first = places.front().candidate;
    const double second = places.size() > 1 ? places[1].candidate.score : 0;
    const std::string name = first.shown;
    if (first.share >= kClearShare && first.score >= kClearLead * second) {
      reading_.verdict = LabelVerdict::clear;
      reading_.words = (places.front().is_storey ? "It says a storey and no room: " : "It means ") + name +
                       (first.score < 0.5 ? ", though not all agrees: see the reasons." : ".");
      return;
    }
    reading_.verdict = LabelVerdict::ambiguous;
    const auto names = leading();
    if (says_either())
      reading_.words = "It says one or the other: " + list_of(names, "or") + ".";
    else if (places.front().is_storey)
      reading_.words = "It says a storey and no room: " + list_of(names, "or") + ".";
    else if (names.size() == 1)
      reading_.words = "It may mean " + name + "; check it, others are not far behind.";
    else
      reading_.words = "It may mean " + list_of(names, "or") + "; the label alone does not decide.";
  }

  const Grounds& on_;
  LabelReading& reading_;
};

}  // namespace

void judge(const Grounds& grounds, LabelReading& reading) {
  Judge(grounds, reading).decide();
}

std::string numeral_words(const std::vector<LabelNumeral>& numerals) {
  std::vector<std::string> said;
  for (const LabelNumeral& numeral : numerals) {
    std::vector<std::string> values;
    for (const int value : numeral.values) values.push_back(std::to_string(value));
    said.push_back(numeral.strokes + " is " + join(values, " or ") +
                   (numeral.tags.empty() ? std::string() : " (with " + quote(numeral.tags) + ")"));
  }
  std::string words =
      "It fits a frame together and names no room: " + list_of(said, "and") + ", strokes added up";
  const bool doubtful = std::any_of(numerals.begin(), numerals.end(),
                                    [](const LabelNumeral& numeral) { return numeral.values.size() > 1; });
  if (doubtful)
    words += "; a carpenter adds in any order, a clerk takes the smaller off, and timbers get turned";
  return words + ".";
}

}  // namespace lathbook::labels
