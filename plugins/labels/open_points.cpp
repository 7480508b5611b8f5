#include "plugins/labels/open_points.hpp"

#include <algorithm>

#include "core/base/text.hpp"

namespace lathbook::labels {

namespace {

constexpr double kWorthAsking = 0.3;

bool same_phrases(const std::vector<RoomPhrase>& a, const std::vector<RoomPhrase>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](const RoomPhrase& one, const RoomPhrase& other) { return one.words == other.words; });
}

std::string sense_name(const Meaning& meaning) {
  switch (meaning.sense) {
    case Sense::hand:
      return "the " + meaning.means + " hand";
    case Sense::tip:
      return "the " + meaning.means;
    case Sense::end:
      return meaning.means == "side" ? "a side" : "the " + meaning.means;
    case Sense::floor:
      return "a floor";
    case Sense::unknown:
      return "a word nothing explains";
    default:
      return meaning.means;
  }
}

class Points {
public:
  Points(const House& house, const std::vector<Taking>& takings, const Ranking& ranking, const Ranked& ranked,
         const Carrier& carrier)
      : house_(house),
        takings_(takings),
        ranking_(ranking),
        ranked_(ranked),
        carrier_(carrier),
        best_(takings[ranked.taking]) {}

  std::vector<std::string> all(const Circumstances& about) {
    senses();
    guesses();
    numbers();
    which_fitting();
    hands();
    if (!best_.wall.empty() && best_.fitting.empty() && best_.face.empty() && carrier_.fitting.empty())
      points_.push_back("what stands on its " + best_.wall + " side");
    if (!ranked_.candidate.convention.empty() && about.convention.empty()) counting();
    if (ranked_.is_storey) points_.push_back("which room of the storey");
    for (const std::string& job : best_.jobs)
      points_.push_back(quote(job) + " is a maker's or carrier's number; it says no place");
    return std::move(points_);
  }

private:
  // Other ways of taking the same words for the same room.
  void senses() {
    for (std::size_t word = 0; word < best_.words.size(); ++word) {
      std::vector<std::string> senses = {sense_name(best_.words[word].meaning)};
      for (const Taking& other : takings_) {
        if (other.weight < kWorthAsking * best_.weight) continue;
        if (!same_phrases(other.rooms, best_.rooms) || !same_phrases(other.anchors, best_.anchors)) continue;
        const Meaning& meaning = other.words[word].meaning;
        if (meaning.sense == Sense::idle) continue;
        const std::string name = sense_name(meaning);
        if (std::find(senses.begin(), senses.end(), name) == senses.end()) senses.push_back(name);
      }
      if (senses.size() > 1)
        points_.push_back(quote(best_.words[word].token.written) + " may be " + join(senses, " or "));
    }
  }

  // Guesses are said, so that a person can disagree.
  void guesses() {
    for (const TakenWord& word : best_.words) {
      if (!word.meaning.ground.empty())
        points_.push_back(quote(word.token.written) + " is taken for " + quote(word.meaning.means) + ": " +
                          word.meaning.ground);
      if (word.meaning.sense == Sense::unknown)
        points_.push_back("nothing explains " + quote(word.token.written));
    }
  }

  void numbers() {
    for (const std::string& number : best_.bare_numbers) {
      points_.push_back(quote(number) + " may be the number of the piece or of " +
                        (fitting().empty() ? "something else" : "the " + fitting()));
    }
  }

  // The best place by each way of counting.
  void counting() {
    std::vector<std::string> ways;
    for (const std::string way : {"us", "uk"}) {
      const auto by_it = std::find_if(ranking_.places.begin(), ranking_.places.end(),
                                      [&](const Ranked& one) { return one.candidate.convention == way; });
      if (by_it != ranking_.places.end())
        ways.push_back(by_it->candidate.shown + (way == "us" ? " the US way" : " the UK way"));
    }
    points_.push_back("how the writer counted storeys: " + join(ways, ", "));
  }

  const std::string& fitting() const { return best_.fitting.empty() ? carrier_.fitting : best_.fitting; }

  void which_fitting() {
    if (fitting().empty() || ranked_.is_storey) return;
    std::vector<std::string> there;
    std::vector<std::string> on_wall;
    for (const Fitting& one : house_.fittings(house_.rooms()[ranked_.room], fitting())) {
      if (one.element.id == carrier_.info.id || !one.itself) continue;
      there.push_back(display(one.element) + (one.face.empty() ? "" : " (" + one.face + ")"));
      const auto words = plain_words(one.face);
      if (!best_.wall.empty() && std::find(words.begin(), words.end(), best_.wall) != words.end())
        on_wall.push_back(there.back());
    }
    if (there.size() < 2) return;
    std::string point =
        "which of the room's " + std::to_string(there.size()) + " " + fitting() + "s: " + join(there, " or ");
    if (on_wall.size() == 1 && !best_.wall.empty())
      point += "; " + quote(best_.wall) + ", if that is meant, leaves " + on_wall.front();
    points_.push_back(point);
  }

  void hands() {
    if (best_.hand.empty() || !best_.fitting.empty()) return;
    points_.push_back("from where the " + best_.hand + " hand is seen: the piece's own, or as one faces " +
                      (carrier_.fitting.empty() ? std::string("it") : "the " + carrier_.fitting) +
                      " from inside the room");
  }

  const House& house_;
  const std::vector<Taking>& takings_;
  const Ranking& ranking_;
  const Ranked& ranked_;
  const Carrier& carrier_;
  const Taking& best_;
  std::vector<std::string> points_;
};

// Facing it from inside the room; a stair as one goes up.
std::string hand_words(const Taking& taking) {
  if (taking.fitting == "stair") return taking.hand + " (as one goes up)";
  if (!taking.fitting.empty())
    return taking.hand + " (as one faces the " + taking.fitting + " from inside the room)";
  return taking.hand;
}

}  // namespace

std::string part_words(const Taking& taking) {
  std::vector<std::string> parts;
  if (!taking.fitting.empty()) parts.push_back(taking.fitting);
  if (!taking.wall.empty())
    parts.push_back(taking.wall + " " + (taking.face.empty() ? std::string("side") : taking.face));
  else if (!taking.face.empty())
    parts.push_back(taking.face);
  if (!taking.hand.empty()) parts.push_back(hand_words(taking));
  if (!taking.end.empty()) parts.push_back(taking.end);
  if (!taking.tip.empty()) parts.push_back(taking.tip);
  for (const std::string& number : taking.piece_numbers) parts.push_back("piece No. " + number);
  return join(parts, ", ");
}

std::vector<std::string> open_points(const House& house, const std::vector<Taking>& takings,
                                     const Ranking& ranking, const Ranked& ranked, const Carrier& carrier,
                                     const Circumstances& about) {
  return Points(house, takings, ranking, ranked, carrier).all(about);
}

}  // namespace lathbook::labels
