#include "plugins/labels/taking.hpp"

#include <algorithm>

#include "core/base/text.hpp"

namespace lathbook::labels {

namespace {

using Chosen = std::vector<const Meaning*>;

// Lays out one choice of senses as rooms, positions and parts.
class Layer {
public:
  Layer(const std::vector<LabelToken>& tokens, const Chosen& chosen) : tokens_(tokens), chosen_(chosen) {}

  Taking lay() {
    for (at_ = 0; at_ < tokens_.size(); ++at_) {
      taking_.words.push_back({tokens_[at_], *chosen_[at_]});
      word(*chosen_[at_]);
    }
    close();
    if (taking_.fitting.empty()) taking_.fitting = named_fitting_;
    hand_over();
    return std::move(taking_);
  }
  double likelihood() const { return likelihood_; }

private:
  Sense sense(std::size_t i) const { return i < tokens_.size() ? chosen_[i]->sense : Sense::unknown; }
  bool beside(std::initializer_list<Sense> wanted) const {
    const auto is = [&](Sense one) { return std::find(wanted.begin(), wanted.end(), one) != wanted.end(); };
    return (at_ > 0 && is(sense(at_ - 1))) || (at_ + 1 < tokens_.size() && is(sense(at_ + 1)));
  }
  bool phrase_goes_on() const {
    return at_ + 1 < tokens_.size() && !tokens_[at_ + 1].line_start &&
           (sense(at_ + 1) == Sense::name || sense(at_ + 1) == Sense::generic ||
            sense(at_ + 1) == Sense::end || sense(at_ + 1) == Sense::compass);
  }

  void word(const Meaning& meaning) {
    if (tokens_[at_].line_start && !phrase_.empty() && meaning.sense == Sense::name) close();
    switch (meaning.sense) {
      case Sense::name:
        name(meaning);
        break;
      case Sense::generic:
        generic(meaning);
        break;
      case Sense::relation:
        relation(meaning);
        break;
      case Sense::compass:
        compass(meaning);
        break;
      case Sense::storey:
        close();
        if (!taking_.storey.empty()) likelihood_ *= 0.5;
        taking_.storey = meaning.means;
        taking_.storey_written = tokens_[at_].written;
        break;
      case Sense::floor:
        floor();
        break;
      case Sense::ordinal:
      case Sense::figure:
        figure(meaning);
        break;
      case Sense::fitting:
        close();
        if (!taking_.fitting.empty() && taking_.fitting != meaning.means) likelihood_ *= 0.7;
        if (taking_.fitting.empty()) taking_.fitting = meaning.means;
        break;
      case Sense::face:
        close();
        taking_.face = meaning.means;
        break;
      case Sense::hand:
        hand(meaning);
        break;
      case Sense::end:
        end(meaning);
        break;
      case Sense::tip:
        close();
        taking_.tip = meaning.means;
        break;
      default:
        other(meaning);
    }
  }

  void other(const Meaning& meaning) {
    switch (meaning.sense) {
      case Sense::either:
        close();
        either_ = true;
        break;
      case Sense::handling:
        close();
        taking_.handling.push_back(tokens_[at_].written);
        // THIS SIDE (UP) is one remark.
        if (tokens_[at_].key == "this" && at_ + 1 < tokens_.size() && tokens_[at_ + 1].key == "side") {
          ++at_;
          taking_.words.push_back({tokens_[at_], {Sense::handling, "this side up", 1, {}}});
          taking_.handling.back() += ' ' + tokens_[at_].written;
        }
        break;
      case Sense::carriage:
        close();
        taking_.carriage.push_back(tokens_[at_].written);
        break;
      case Sense::numeral:
        close();
        taking_.bare_numbers.push_back(meaning.means);
        break;
      case Sense::unknown:
        close();
        taking_.unknown.push_back(tokens_[at_].written);
        break;
      default:
        break;  // No., job: the figure after them looks back; joiners and idle words say nothing
    }
  }

  void grow(const std::string& words) {
    for (const std::string& part : split(words, ' ')) phrase_.words.push_back(part);
    if (!phrase_.written.empty()) phrase_.written += ' ';
    phrase_.written += tokens_[at_].written;
  }

  void name(const Meaning& meaning) {
    grow(meaning.means);
    // 'Hall stair' names the Stair Hall and a stair at once.
    named_fitting_.clear();
    for (const Meaning& other : Vocabulary::standard().meanings(tokens_[at_].key))
      if (other.sense == Sense::fitting && phrase_.words.size() > 1) named_fitting_ = other.means;
    for (const std::string& part : split(meaning.means, ' ')) {
      if (is_generic(part))
        phrase_.generic = part;
      else
        phrase_.specific = true;
    }
  }

  void generic(const Meaning& meaning) {
    // A single R is a room after what could name one, else rather the right hand.
    if (tokens_[at_].key == "r" && phrase_.empty()) likelihood_ *= 0.3;
    if (!phrase_.words.empty() && phrase_.words.back() == "bed" && meaning.means == "room") {
      phrase_.words.back() = "bedroom";
      phrase_.generic = "bedroom";
      phrase_.written += ' ' + tokens_[at_].written;
      const auto named = [](const std::string& word) {
        return !is_generic(word) && !bearing_of(word) && word != "front" && word != "back";
      };
      phrase_.specific = std::any_of(phrase_.words.begin(), phrase_.words.end(), named);
      return;
    }
    grow(meaning.means);
    phrase_.generic = meaning.means;
  }

  void relation(const Meaning& meaning) {
    close();
    if (!taking_.relation.empty()) {
      taking_.unknown.push_back(tokens_[at_].written);
      likelihood_ *= 0.5;
      return;
    }
    taking_.relation = meaning.means;
    in_anchor_ = true;
  }

  void compass(const Meaning& meaning) {
    const bool of_a_part = beside({Sense::fitting, Sense::face});
    const bool after_a_name = phrase_.specific || !phrase_.compass.empty() || !phrase_.end.empty();
    const bool closed_room = phrase_.empty() && !slot().empty() && !phrase_goes_on();
    if (of_a_part || after_a_name || closed_room) {
      close();
      if (!taking_.wall.empty()) likelihood_ *= 0.5;
      taking_.wall = meaning.means;
      return;
    }
    grow(meaning.means);
    phrase_.compass = meaning.means;
  }

  void end(const Meaning& meaning) {
    if (meaning.means == "side" || beside({Sense::fitting, Sense::face}) ||
        (!phrase_.words.empty() && phrase_.specific)) {
      close();
      taking_.end = meaning.means == "side" ? taking_.end : meaning.means;
      if (meaning.means == "side" && taking_.face.empty()) taking_.face = "side";
      return;
    }
    grow(meaning.means);
    phrase_.end = meaning.means;
  }

  void floor() {
    close();
    const bool counted = taking_.ordinal != 0 || !taking_.storey.empty();
    if (counted || sense(at_ + 1) == Sense::ordinal) return;
    if (at_ > 0 && (sense(at_ - 1) == Sense::ordinal || sense(at_ - 1) == Sense::figure)) return;
    if (tokens_[at_].key == "f") likelihood_ *= 0.3;
    taking_.face = "floor";
  }

  // 2nd, 2: a storey beside the word floor, a piece after No., a job after order, else a bare number.
  void figure(const Meaning& meaning) {
    close();
    const bool beside_floor = beside({Sense::floor});
    if (beside_floor && taking_.ordinal == 0 && meaning.means.size() <= 2) {
      taking_.ordinal = std::stoi(meaning.means);
      taking_.storey_written = tokens_[at_].written;
      return;
    }
    if (at_ > 0 && sense(at_ - 1) == Sense::number) {
      taking_.piece_numbers.push_back(meaning.means);
    } else if (at_ > 0 && sense(at_ - 1) == Sense::job) {
      taking_.jobs.push_back(tokens_[at_ - 1].written + " " + tokens_[at_].written);
    } else {
      taking_.bare_numbers.push_back(tokens_[at_].written);
    }
  }

  void hand(const Meaning& meaning) {
    if (tokens_[at_].key == "r" && !beside({Sense::fitting, Sense::face})) likelihood_ *= 0.4;
    if (taking_.hand.empty()) taking_.hand = meaning.means;
  }

  // 'Front room left' is a side of the house, 'window left' a hand of the window.
  void hand_over() {
    if (taking_.hand.empty() || !taking_.fitting.empty() || taking_.rooms.size() != 1) return;
    RoomPhrase& room = taking_.rooms.front();
    const bool by_position = !room.specific && !room.end.empty();
    if (!by_position) return;
    room.hand = taking_.hand;
    taking_.hand.clear();
  }

  std::vector<RoomPhrase>& slot() { return in_anchor_ ? taking_.anchors : taking_.rooms; }

  void close() {
    if (phrase_.empty()) return;
    // Two rooms one after the other with no 'or' between: read as one or the other, and less likely.
    if (!slot().empty() && !either_) likelihood_ *= 0.6;
    slot().push_back(std::move(phrase_));
    phrase_ = {};
    either_ = false;
  }

  const std::vector<LabelToken>& tokens_;
  const Chosen& chosen_;
  Taking taking_;
  std::string named_fitting_;
  RoomPhrase phrase_;
  std::size_t at_ = 0;
  bool in_anchor_ = false;
  bool either_ = false;
  double likelihood_ = 1;
};

struct Partial {
  Chosen chosen;
  double weight = 1;
};

}  // namespace

bool Taking::says_place() const {
  return !rooms.empty() || !anchors.empty() || ordinal != 0 || !storey.empty();
}

std::vector<Taking> takings_of(const std::vector<LabelToken>& tokens, const HouseWords& house) {
  std::vector<std::vector<Meaning>> meanings;
  meanings.reserve(tokens.size());
  for (const LabelToken& token : tokens) meanings.push_back(meanings_of(token, house));
  std::vector<Partial> partials(1);
  for (const auto& choices : meanings) {
    std::vector<Partial> longer;
    for (const Partial& partial : partials) {
      for (const Meaning& meaning : choices) {
        longer.push_back(partial);
        longer.back().chosen.push_back(&meaning);
        longer.back().weight *= meaning.weight;
      }
    }
    std::stable_sort(longer.begin(), longer.end(),
                     [](const Partial& a, const Partial& b) { return a.weight > b.weight; });
    if (longer.size() > kMostTakings) longer.resize(kMostTakings);
    partials = std::move(longer);
  }
  std::vector<Taking> takings;
  double most = 0;
  for (const Partial& partial : partials) {
    Layer layer(tokens, partial.chosen);
    takings.push_back(layer.lay());
    takings.back().weight = partial.weight * layer.likelihood();
    most = std::max(most, takings.back().weight);
  }
  for (Taking& taking : takings) taking.weight = most > 0 ? taking.weight / most : 1;
  std::stable_sort(takings.begin(), takings.end(),
                   [](const Taking& a, const Taking& b) { return a.weight > b.weight; });
  return takings;
}

}  // namespace lathbook::labels
