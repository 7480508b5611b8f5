#include "plugins/labels/rank.hpp"

#include <algorithm>
#include <map>
#include <tuple>

#include "core/base/text.hpp"
#include "plugins/labels/names.hpp"
#include "plugins/labels/position.hpp"

namespace lathbook::labels {

namespace {

constexpr double kNone = 0.05;  // weight of 'none of them'
constexpr double kOffStorey = 0.02;
constexpr double kStoreyNotKnown = 0.3;
constexpr double kBesideAName = 0.04;  // a position, where another room bears the very name
constexpr double kFewerWordsNamed = 0.3;
constexpr double kAgainstTheCount = 0.5;
constexpr double kFittingElsewhere = 0.4;
constexpr double kFittingOtherWall = 0.7;
constexpr double kWorthShowing = 0.001;

const std::vector<std::string> kBothWays = {"us", "uk"};

double product(const std::vector<LabelFactor>& factors) {
  double all = 1;
  for (const LabelFactor& factor : factors) all *= factor.weight;
  return all;
}

// What one phrase says of every room, worked out once.
struct SaidOfRoom {
  std::vector<LabelFactor> factors;
  std::string called;
  double weight = 0;
  bool full = false;  // the room bears the very name
};
using SaidOfRooms = std::vector<SaidOfRoom>;

class Ranker {
public:
  Ranker(const House& house, const std::vector<Taking>& takings, const Circumstances& about)
      : house_(house), takings_(takings), about_(about) {}

  Ranking rank() {
    count_by_names();
    count_named();
    for (std::size_t i = 0; i < takings_.size(); ++i) weigh(i);
    settle_fittings();
    return finish();
  }

private:
  // Do dated names of storeys count the ground as the first ("First floor" for the ground storey) or not?
  void count_by_names() {
    static const std::map<std::string, int> kOrdinals = {
        {"first", 1}, {"second", 2}, {"third", 3}, {"fourth", 4}};
    for (const Storey& storey : house_.storeys()) {
      for (const RoomName& name : storey.names) {
        if (name.words.size() != 2 || (name.words[1] != "floor" && name.words[1] != "story")) continue;
        const auto ordinal = kOrdinals.find(name.words[0]);
        if (ordinal == kOrdinals.end() || name.sort == "in use now") continue;
        for (const std::string& way : kBothWays) {
          if (storey_number(ordinal->second, way) != storey.number) continue;
          named_ways_[way] = {quote(name.text) + " is a name of " + display(storey.info) +
                                  (name.period.words.empty() ? "" : ", " + name.period.words),
                              name.statement};
        }
      }
    }
    if (named_ways_.size() != 1) return;
    const auto& [way, evidence] = *named_ways_.begin();
    evidence_ = evidence.first + ": counted the " + (way == "us" ? "US" : "UK") + " way";
  }

  // How many of the label's words each way of taking it spends on names that rooms here bear in full.
  void count_named() {
    for (const Taking& taking : takings_) {
      std::size_t words = 0;
      for (const auto* phrases : {&taking.rooms, &taking.anchors}) {
        for (const RoomPhrase& phrase : *phrases) {
          const auto& rooms = said(phrase);
          const auto in_full = [](const SaidOfRoom& one) { return one.full; };
          if (phrase.specific && std::any_of(rooms.begin(), rooms.end(), in_full))
            words += phrase.words.size();
        }
      }
      named_.push_back(words);
      most_named_ = std::max(most_named_, words);
    }
  }

  std::vector<std::string> ways(const Taking& taking) const {
    if (taking.ordinal == 0) return {""};
    if (!about_.convention.empty()) return {about_.convention};
    return kBothWays;
  }

  void weigh(std::size_t index) {
    const Taking& taking = takings_[index];
    if (!taking.says_place()) return;
    for (const std::string& way : ways(taking)) {
      if (!storey_exists(taking, way)) {
        missing_ = true;
        continue;
      }
      existing_ = true;
      if (taking.rooms.empty() && taking.anchors.empty()) {
        weigh_storeys(index, way);
        continue;
      }
      for (std::size_t room = 0; room < house_.rooms().size(); ++room) weigh_room(index, way, room);
    }
  }

  bool storey_exists(const Taking& taking, const std::string& way) const {
    if (taking.ordinal == 0 && taking.storey.empty()) return true;
    if (house_.storeys().empty()) return true;  // none on record is no evidence that there is none
    return std::any_of(house_.storeys().begin(), house_.storeys().end(),
                       [&](const Storey& storey) { return storey_factor(taking, way, storey).weight >= 1; });
  }

  LabelFactor storey_factor(const Taking& taking, const std::string& way, const Storey& storey) const {
    LabelFactor factor{"storey", 1, {}, Digest{}};
    if (taking.ordinal != 0) {
      const int wanted = storey_number(taking.ordinal, way);
      const bool here = storey.number == wanted;
      factor.weight = here ? 1 : kOffStorey;
      factor.words = quote(taking.storey_written) + (here ? " is " : " is not ") + display(storey.info) +
                     " counted the " +
                     (way == "us" ? "US way (ground is first)" : "UK way (first is above the ground)");
      factor.statement = about_.convention_statement;
    } else if (!taking.storey.empty()) {
      const bool here = is_storey_word(taking.storey, storey);
      factor.weight = here ? 1 : kOffStorey;
      factor.words = quote(taking.storey_written) + (here ? " is " : " is not ") + display(storey.info);
    }
    return factor;
  }

  bool is_storey_word(const std::string& word, const Storey& storey) const {
    if (word == "ground") return storey.number == 0;
    if (word == "cellar") return storey.number < 0;
    if (word == "upper") return storey.number > 0;
    const auto called = [&](const Storey& one) {
      return std::any_of(one.names.begin(), one.names.end(), [](const RoomName& name) {
        return !name.words.empty() && (name.words.front() == "attic" || name.words.front() == "garret");
      });
    };
    if (std::any_of(house_.storeys().begin(), house_.storeys().end(), called)) return called(storey);
    return std::none_of(house_.storeys().begin(), house_.storeys().end(),
                        [&](const Storey& other) { return other.number > storey.number; });
  }

  // 'Top 2nd fl.' says a storey and no more.
  void weigh_storeys(std::size_t index, const std::string& way) {
    const Taking& taking = takings_[index];
    for (std::size_t i = 0; i < house_.storeys().size(); ++i) {
      const Storey& storey = house_.storeys()[i];
      LabelFactor factor = storey_factor(taking, way, storey);
      if (factor.weight < 1) continue;
      Ranked ranked;
      ranked.candidate.place = storey.info;
      ranked.candidate.convention = way;
      ranked.candidate.factors.push_back(std::move(factor));
      ranked.taking = index;
      ranked.is_storey = true;
      add_sense_and_count(ranked, index, way);
      keep(std::move(ranked));
    }
  }

  const SaidOfRooms& said(const RoomPhrase& phrase) {
    const std::string key = join(phrase.words, " ") + '\n' + phrase.hand + '\n' + phrase.written;
    const auto [place, fresh] = said_.try_emplace(key);
    if (!fresh) return place->second;
    const auto names = match_names(house_, phrase, about_);
    const bool borne =
        std::any_of(names.begin(), names.end(), [](const NameMatch& match) { return match.borne(); });
    for (std::size_t room = 0; room < names.size(); ++room) {
      place->second.push_back(of_room(phrase, house_.rooms()[room], names[room], borne));
      place->second.back().weight = product(place->second.back().factors);
      place->second.back().full = names[room].borne();
    }
    return place->second;
  }

  // What a phrase says of a room: by its name, or by its position and kind when it has no word of its own.
  SaidOfRoom of_room(const RoomPhrase& phrase, const Room& room, const NameMatch& name, bool borne) const {
    SaidOfRoom by_name;
    if (name.words > 0) by_name = {name.factors, name.called, 0, false};
    LabelFactor side = side_factor(house_, room, phrase, about_);
    if (name.full && side.weight >= 0.5 && !side.words.empty()) {
      by_name.factors.push_back(side);
      by_name.factors.back().weight = 1;  // the name says it; that it lies there agrees
    }
    if (phrase.specific) {
      if (by_name.factors.empty())
        by_name.factors.push_back({"name", 0, "no name of it is like " + quote(phrase.written), Digest{}});
      return by_name;
    }
    SaidOfRoom by_position;
    if (!side.words.empty()) by_position.factors.push_back(std::move(side));
    if (LabelFactor kind = kind_factor(house_, room, phrase.generic);
        !phrase.generic.empty() && !kind.words.empty())
      by_position.factors.push_back(std::move(kind));
    const bool has_side = !phrase.compass.empty() || !phrase.end.empty();
    if (borne && has_side) {
      by_position.factors.push_back({"name", kBesideAName,
                                     "taken by its position only, while another room bears the very name",
                                     Digest{}});
    }
    const bool named = has_side && !by_name.factors.empty();
    return named && product(by_name.factors) >= product(by_position.factors) ? by_name : by_position;
  }

  // Of phrases joined by 'or' the one that speaks best for the room.
  const SaidOfRoom& best_phrase(const std::vector<RoomPhrase>& phrases, std::size_t room,
                                std::size_t& which) {
    const SaidOfRoom* best = nullptr;
    for (std::size_t i = 0; i < phrases.size(); ++i) {
      const SaidOfRoom& one = said(phrases[i])[room];
      if (best != nullptr && one.weight <= best->weight) continue;
      best = &one;
      which = i;
    }
    return *best;
  }

  const LabelFactor& relation(const std::string& word, std::size_t room, std::size_t anchor) {
    const auto [place, fresh] = relations_.try_emplace({word, room, anchor});
    if (fresh)
      place->second = relation_factor(house_, house_.rooms()[room], word, house_.rooms()[anchor], about_);
    return place->second;
  }

  // The anchor that holds best: its name and the geometry together.
  std::vector<LabelFactor> best_anchor(const Taking& taking, std::size_t room, std::size_t& which) {
    std::vector<LabelFactor> best;
    double most = kWorthShowing;
    for (std::size_t i = 0; i < taking.anchors.size(); ++i) {
      const SaidOfRooms& anchors = said(taking.anchors[i]);
      for (std::size_t anchor = 0; anchor < anchors.size(); ++anchor) {
        if (anchors[anchor].weight <= most) continue;
        const LabelFactor& lies = relation(taking.relation, room, anchor);
        if (anchors[anchor].weight * lies.weight <= most) continue;
        most = anchors[anchor].weight * lies.weight;
        best = anchors[anchor].factors;
        for (LabelFactor& factor : best)
          if (factor.about == "name" || factor.about == "time") factor.about = "name of the other room";
        best.push_back(lies);
        which = i;
      }
    }
    if (best.empty()) {
      best.push_back({"position", 0, "it does not lie " + taking.relation + " any room so called", Digest{}});
    }
    return best;
  }

  void weigh_room(std::size_t index, const std::string& way, std::size_t room) {
    const Taking& taking = takings_[index];
    const Room& here = house_.rooms()[room];
    Ranked ranked;
    ranked.candidate.place = here.info;
    ranked.candidate.convention = way;
    ranked.taking = index;
    ranked.room = room;
    auto& factors = ranked.candidate.factors;
    if (!taking.rooms.empty()) {
      const SaidOfRoom& best = best_phrase(taking.rooms, room, ranked.alternative);
      if (best.weight < kWorthShowing) return;
      factors = best.factors;
      ranked.candidate.called = best.called;
    }
    const bool says_more = !taking.anchors.empty() || taking.ordinal != 0 || !taking.storey.empty();
    const bool only_generic = !taking.rooms.empty() && !taking.rooms[ranked.alternative].specific &&
                              taking.rooms[ranked.alternative].compass.empty() &&
                              taking.rooms[ranked.alternative].end.empty();
    if (only_generic && !says_more) return;  // 'room 2' says nothing
    if (!taking.anchors.empty()) {
      std::size_t anchor = 0;
      for (LabelFactor& factor : best_anchor(taking, room, anchor)) factors.push_back(std::move(factor));
      if (taking.anchors.size() > 1) ranked.alternative = anchor;
    }
    if (taking.ordinal != 0 || !taking.storey.empty()) {
      if (here.storey)
        factors.push_back(storey_factor(taking, way, house_.storeys()[*here.storey]));
      else
        factors.push_back({"storey", kStoreyNotKnown, "its storey is not on record", Digest{}});
    }
    add_sense_and_count(ranked, index, way);
    keep(std::move(ranked));
  }

  void add_sense_and_count(Ranked& ranked, std::size_t index, const std::string& way) const {
    const Taking& taking = takings_[index];
    if (named_[index] < most_named_) {
      ranked.candidate.factors.push_back({"sense of the words", kFewerWordsNamed,
                                          "taken otherwise, more words of the label name a room here",
                                          Digest{}});
    }
    if (!way.empty() && about_.convention.empty() && named_ways_.size() == 1 && named_ways_.count(way) == 0) {
      ranked.candidate.factors.push_back({"storey", kAgainstTheCount,
                                          "not as this house's own names count: " + evidence_,
                                          named_ways_.begin()->second.second});
    }
    if (taking.weight < 1)
      ranked.candidate.factors.push_back(
          {"sense of the words", taking.weight, sense_words(taking), Digest{}});
  }

  static std::string sense_words(const Taking& taking) {
    std::string words;
    for (const TakenWord& word : taking.words) {
      if (word.meaning.weight >= 1) continue;
      words += (words.empty() ? "" : ", ") + quote(word.token.written) + " taken as " + word.meaning.means;
    }
    return words.empty() ? "a less likely way to take it" : words;
  }

  void keep(Ranked ranked) {
    ranked.candidate.score = product(ranked.candidate.factors);
    auto [place, fresh] = best_.try_emplace(ranked.candidate.place.id, ranked);
    if (!fresh && ranked.candidate.score > place->second.candidate.score) place->second = std::move(ranked);
  }

  // Does the fitting stand in the room? Only where it is on record in some of the rooms meant does its
  // absence from another tell anything.
  void settle_fittings() {
    std::map<std::string, bool> known;
    for (const auto& [id, ranked] : best_) {
      const std::string& fitting = takings_[ranked.taking].fitting;
      if (fitting.empty() || ranked.is_storey || ranked.candidate.score < 0.02) continue;
      if (!house_.fittings(house_.rooms()[ranked.room], fitting).empty()) known[fitting] = true;
    }
    for (auto& [id, ranked] : best_) {
      const Taking& taking = takings_[ranked.taking];
      if (ranked.is_storey || known.count(taking.fitting) == 0 || ranked.candidate.score < 0.02) continue;
      ranked.candidate.factors.push_back(fitting_factor(house_.rooms()[ranked.room], taking));
      ranked.candidate.score = product(ranked.candidate.factors);
    }
  }

  LabelFactor fitting_factor(const Room& room, const Taking& taking) const {
    const auto& there = house_.fittings(room, taking.fitting);
    if (there.empty())
      return {"fitting", kFittingElsewhere, "no " + taking.fitting + " is recorded in it, as in other rooms",
              Digest{}};
    const auto on_wall = std::find_if(there.begin(), there.end(), [&](const Fitting& fitting) {
      return taking.wall.empty() || says_word(fitting.face, taking.wall);
    });
    if (on_wall == there.end())
      return {"fitting", kFittingOtherWall,
              "it has a " + taking.fitting + ", but none recorded on the " + taking.wall + " side", Digest{}};
    const std::string side = taking.wall.empty() ? "" : " on its " + taking.wall + " side";
    return {"fitting", 1, display(on_wall->element) + " is recorded in it" + side, Digest{}};
  }

  static bool says_word(const std::string& text, const std::string& word) {
    const auto words = plain_words(text);
    return std::find(words.begin(), words.end(), word) != words.end();
  }

  // By the name the label knows it by, and the one that other answers show beside it.
  static std::string shown(const LabelCandidate& candidate) {
    const RecordInfo& place = candidate.place;
    if (candidate.called.empty() || candidate.called == place.name || place.code.empty())
      return display(place);
    return place.code + " " + candidate.called + (place.name.empty() ? "" : " (also " + place.name + ")");
  }

  Ranking finish() {
    Ranking ranking;
    ranking.storey_missing = missing_ && !existing_;
    ranking.evidence_of_counting = evidence_;
    double sum = kNone;
    for (auto& [id, ranked] : best_) {
      sum += ranked.candidate.score;
      ranking.places.push_back(std::move(ranked));
    }
    std::sort(ranking.places.begin(), ranking.places.end(), [](const Ranked& a, const Ranked& b) {
      if (a.candidate.score != b.candidate.score) return a.candidate.score > b.candidate.score;
      return compare_for_people(a.candidate.place.code, b.candidate.place.code) < 0;
    });
    while (!ranking.places.empty() &&
           ranking.places.back().candidate.score < kWorthShowing * ranking.places.front().candidate.score)
      ranking.places.pop_back();
    for (Ranked& ranked : ranking.places) {
      ranked.candidate.share = ranked.candidate.score / sum;
      ranked.candidate.shown = shown(ranked.candidate);
    }
    ranking.none_share = kNone / sum;
    return ranking;
  }

  const House& house_;
  const std::vector<Taking>& takings_;
  const Circumstances& about_;
  std::map<std::string, std::pair<std::string, Digest>> named_ways_;
  std::string evidence_;
  std::vector<std::size_t> named_;
  std::size_t most_named_ = 0;
  std::map<std::string, SaidOfRooms> said_;
  std::map<std::tuple<std::string, std::size_t, std::size_t>, LabelFactor> relations_;
  std::map<Uuid, Ranked> best_;
  bool missing_ = false;
  bool existing_ = false;
};

}  // namespace

Ranking rank(const House& house, const std::vector<Taking>& takings, const Circumstances& about) {
  return Ranker(house, takings, about).rank();
}

}  // namespace lathbook::labels
