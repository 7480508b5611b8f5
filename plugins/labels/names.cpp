#include "plugins/labels/names.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/text.hpp"

namespace lathbook::labels {

namespace {

constexpr double kOutOfUse = 0.6;
constexpr double kLeastOutOfUse = 0.15;
constexpr double kFadeYears = 30;
constexpr double kOtherCountry = 0.5;  // or another time, for what the table says stood for what
constexpr double kBesideTheVeryName = 0.3;
constexpr double kOneWordForChamber = 0.9;
constexpr double kNumberOfAnotherKind = 0.1;

// Chamber and bedroom are one word for matching; what differs is told apart by the weight.
std::string folded_generic(const std::string& word) {
  return word == "bedroom" ? "chamber" : word;
}

std::vector<std::string> without_room(const std::vector<std::string>& words) {
  std::vector<std::string> kept;
  std::copy_if(words.begin(), words.end(), std::back_inserter(kept),
               [](const std::string& word) { return word != "room"; });
  return kept;
}

// Twice the weight in common over the weight of both, rare words counting more (Dice 1945, weighted).
double agreement(const House& house, const std::vector<std::string>& a, std::vector<std::string> b) {
  double all = 0;
  double common = 0;
  for (const std::string& word : b) all += house.rarity(word);
  for (const std::string& word : a) {
    all += house.rarity(word);
    const auto same = std::find_if(b.begin(), b.end(), [&](const std::string& other) {
      return folded_generic(word) == folded_generic(other);
    });
    if (same == b.end()) continue;
    common +=
        (word == *same ? 2 : 2 * kOneWordForChamber) * std::min(house.rarity(word), house.rarity(*same));
    b.erase(same);
  }
  return all > 0 ? common / all : 0;
}

bool same_words(std::vector<std::string> a, std::vector<std::string> b) {
  for (auto* words : {&a, &b}) {
    for (std::string& word : *words) word = folded_generic(word);
    std::sort(words->begin(), words->end());
  }
  return a == b;
}

std::string period_words(const RoomName& name) {
  std::string words = name.sort;
  if (!name.period.words.empty()) words += (words.empty() ? "" : ", ") + name.period.words;
  return words.empty() ? std::string() : " (" + words + ")";
}

class Matcher {
public:
  Matcher(const House& house, const RoomPhrase& phrase, const Circumstances& about)
      : house_(house), phrase_(phrase), about_(about), core_(without_room(phrase.words)) {}

  NameMatch match(const Room& room) const {
    NameMatch best;
    if (!phrase_.hand.empty()) return best;  // 'front room left' is a position, and no name
    for (const RoomName& name : room.names) consider(best, own_name(name));
    if (!best.full)
      for (const RoomName& name : room.names) consider(best, stands_for(name));
    if (best.words > 0) add_room_time(best, room);
    return best;
  }

private:
  static void consider(NameMatch& best, NameMatch other) {
    if (other.weight() > best.weight()) best = std::move(other);
  }

  NameMatch own_name(const RoomName& name) const {
    NameMatch match;
    const auto words = without_room(name.words);
    if (core_.empty() || words.empty()) return match;
    match.words = agreement(house_, core_, words);
    if (match.words <= 0) return match;
    match.full = same_words(core_, words);
    // 'Hall' is no part of 'Hall Chamber': what a name ends in is what it says.
    if (!match.full && folded_generic(core_.back()) != folded_generic(words.back())) match.words *= 0.5;
    if (!match.full && only_numbers() && folded_generic(phrase_.generic) != generic_of(words))
      match.words *= kNumberOfAnotherKind;
    match.called = name.text;
    const std::string how = match.full ? " is the name " : " shares words with the name ";
    match.factors.push_back({"name", match.words,
                             quote(phrase_.written) + how + quote(name.text) + period_words(name),
                             name.statement});
    add_time(match, name);
    return match;
  }

  // 'Room 2' is not yet 'Chamber 2'.
  bool only_numbers() const {
    return std::all_of(core_.begin(), core_.end(), [](const std::string& word) {
      return is_generic(word) || word.find_first_not_of("0123456789") == std::string::npos;
    });
  }

  static std::string generic_of(const std::vector<std::string>& words) {
    const auto found = std::find_if(words.begin(), words.end(), is_generic);
    return found == words.end() ? std::string("room") : folded_generic(*found);
  }

  // The table speaks for the whole name only: a parlour may be the sitting room, a front parlour need not.
  NameMatch stands_for(const RoomName& name) const {
    NameMatch match;
    const std::string mine = join(core_, " ");
    const std::string theirs = join(without_room(name.words), " ");
    for (const SameName& same : Vocabulary::standard().same_names()) {
      const bool fits = (same.a == mine && same.b == theirs) || (same.b == mine && same.a == theirs);
      if (!fits) continue;
      Period period;
      period.first = same.from;
      period.last = same.to;
      const bool in_time = !about_.dated() || period.years_from(about_.when) <= 0;
      const double weight = same.weight * (in_time ? 1 : kOtherCountry);
      if (weight <= match.words) continue;
      match = {};
      match.words = weight;
      match.called = name.text;
      match.factors.push_back({"name", weight,
                               quote(phrase_.written) + ", taken as " + mine + ", may stand for " +
                                   quote(name.text) + period_words(name) +
                                   " (table of room names: " + same.source + ")",
                               name.statement});
      add_time(match, name);
    }
    return match;
  }

  void add_time(NameMatch& match, const RoomName& name) const {
    if (!about_.dated()) return;
    if (name.sort == "in use now" && !name.period.first) {
      match.time = kOutOfUse;
      match.factors.push_back(
          {"time", match.time, "a name of today; nobody says that it was in use then", name.statement});
      return;
    }
    match.time = time_weight(name.period, about_.when);
    const double gap = name.period.years_from(about_.when);
    if (gap <= 0) return;
    const auto years = static_cast<int>(std::lround(std::max(1.0, gap)));
    const bool later = name.period.first && about_.when.last && *name.period.first > *about_.when.last;
    match.factors.push_back({"time", match.time,
                             "the name is known " + name.period.words + " only, " + std::to_string(years) +
                                 (years == 1 ? " year" : " years") + (later ? " later" : " earlier") +
                                 " than the label",
                             name.statement});
  }

  void add_room_time(NameMatch& match, const Room& room) const {
    if (!about_.dated()) return;
    const double gap = room.stood.years_from(about_.when);
    if (gap <= 0) return;
    const double weight = time_weight(room.stood, about_.when);
    match.time *= weight;
    match.factors.push_back(
        {"time", weight, "the room itself is known " + room.stood.words + " only", Digest{}});
  }

  const House& house_;
  const RoomPhrase& phrase_;
  const Circumstances& about_;
  std::vector<std::string> core_;
};

}  // namespace

double time_weight(const Period& period, const Period& when) {
  const double gap = period.years_from(when);
  if (gap <= 0) return 1;
  return std::max(kLeastOutOfUse, kOutOfUse * std::exp(-gap / kFadeYears));
}

std::vector<NameMatch> match_names(const House& house, const RoomPhrase& phrase, const Circumstances& about) {
  const Matcher matcher(house, phrase, about);
  std::vector<NameMatch> matches;
  matches.reserve(house.rooms().size());
  bool borne = false;
  for (const Room& room : house.rooms()) {
    matches.push_back(matcher.match(room));
    borne = borne || matches.back().borne();
  }
  if (!borne) return matches;
  for (NameMatch& match : matches) {
    if (match.full || match.words <= 0) continue;
    match.words *= kBesideTheVeryName;
    match.factors.push_back({"name", kBesideTheVeryName, "another room bears the very name", Digest{}});
  }
  return matches;
}

}  // namespace lathbook::labels
