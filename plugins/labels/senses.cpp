#include "plugins/labels/senses.hpp"

#include <algorithm>

#include "core/base/text.hpp"
#include "plugins/labels/numerals.hpp"

namespace lathbook::labels {

namespace {

constexpr std::size_t kLongestWord = 40;

bool all_digits(const std::string& key) {
  return !key.empty() && key.find_first_not_of("0123456789") == std::string::npos;
}

// "11th" and its kin; the table has the usual ones.
std::string ordinal_in(const std::string& key) {
  const auto digits = key.find_first_not_of("0123456789");
  if (digits == 0 || digits == std::string::npos || digits > 2) return {};
  const std::string tail = key.substr(digits);
  if (tail != "st" && tail != "nd" && tail != "rd" && tail != "th" && tail != "d") return {};
  return key.substr(0, digits);
}

// Words that are read as parts of a phrase by the table already: as a name they would say it twice.
bool said_otherwise(const std::string& key) {
  return is_generic(key) || bearing_of(key) || key == "front" || key == "back";
}

bool begins(const std::string& word, const std::string& start) {
  return word.size() > start.size() && word.compare(0, start.size(), start) == 0;
}

// "dnng" for dining: first and last letter stand, the others follow in order.
bool contracts(const std::string& word, const std::string& key) {
  if (key.size() < 3 || key.size() >= word.size() || key.front() != word.front() || key.back() != word.back())
    return false;
  std::size_t at = 0;
  for (const char c : word)
    if (at < key.size() && key[at] == c) ++at;
  return at == key.size();
}

std::size_t letters_allowed(std::size_t length) {
  return length >= 8 ? 2 : length >= 5 ? 1 : 0;
}

class Finder {
public:
  Finder(const LabelToken& token, const HouseWords& house) : token_(token), house_(house) {}

  std::vector<Meaning> find() {
    const std::string& key = token_.key;
    const bool whole = key.find_first_of("?*") == std::string::npos;
    if (whole) {
      if (all_digits(key)) add({Sense::figure, key, 1, {}});
      if (const auto ordinal = ordinal_in(key); !ordinal.empty()) add({Sense::ordinal, ordinal, 1, {}});
      for (const Meaning& meaning : Vocabulary::standard().meanings(key)) add(meaning);
      if (house_.words.count(key) != 0 && !said_otherwise(key)) add({Sense::name, key, 1, {}});
      for (const std::string& word : Vocabulary::standard().canonical(key))
        if (house_.words.count(word) != 0 && word != key && found_.empty()) add({Sense::name, word, 1, {}});
      initials();
    }
    const bool known = std::any_of(found_.begin(), found_.end(),
                                   [](const Meaning& meaning) { return meaning.weight >= 0.5; });
    if (!known && key.size() <= kLongestWord) guess(whole);
    numeral(known);
    if (found_.empty()) found_.push_back({Sense::unknown, key, 1, {}});
    std::stable_sort(found_.begin(), found_.end(),
                     [](const Meaning& a, const Meaning& b) { return a.weight > b.weight; });
    return std::move(found_);
  }

private:
  void add(Meaning meaning) {
    for (const Meaning& known : found_)
      if (known.sense == meaning.sense && known.means == meaning.means) return;
    found_.push_back(std::move(meaning));
  }

  // Two or three letters with points, or none but capitals, that begin the words of a name of this house.
  void initials() {
    if (!token_.initials || token_.key.size() < 2 || token_.key.size() > 3) return;
    for (const auto& name : house_.names) {
      if (name.size() != token_.key.size()) continue;
      bool fits = true;
      for (std::size_t i = 0; i < name.size(); ++i) fits = fits && name[i].front() == token_.key[i];
      if (fits) add({Sense::name, join(name, " "), 0.7, "initials of a name in this house"});
    }
  }

  void guess(bool whole) {
    std::set<std::string> candidates = house_.words;
    candidates.insert(Vocabulary::standard().name_words().begin(), Vocabulary::standard().name_words().end());
    for (const std::string& word : candidates) {
      const double here = house_.words.count(word) != 0 ? 1 : 0.7;
      if (!whole) {
        if (fits_pattern(token_.key, word))
          add({Sense::name, word, 0.6 * here, "by the letters that are left"});
      } else if (token_.key.size() >= 3 && begins(word, token_.key)) {
        add({Sense::name, word, (token_.point ? 0.8 : 0.6) * here, "as its beginning"});
      } else if (contracts(word, token_.key)) {
        add({Sense::name, word, (token_.point ? 0.6 : 0.5) * here, "as its contraction"});
      } else if (const auto allowed = letters_allowed(token_.key.size());
                 allowed > 0 && edit_distance(token_.key, word) <= allowed) {
        // A room's word that is no room here is right all the same.
        add({Sense::name, word, 0.7 * here, word == token_.key ? "" : "misspelt or misread"});
      }
    }
    std::stable_sort(found_.begin(), found_.end(),
                     [](const Meaning& a, const Meaning& b) { return a.weight > b.weight; });
    if (found_.size() > 6) found_.resize(6);
    // Words of the table that are no names can be misspelt too ("cieling").
    if (whole && found_.empty() && letters_allowed(token_.key.size()) > 0) misspelt_generic();
  }

  void misspelt_generic() {
    for (const char* word : {"chamber", "bedroom", "closet"})
      if (edit_distance(token_.key, word) <= letters_allowed(token_.key.size()))
        add({Sense::generic, word, 0.7, "misspelt or misread"});
    for (const char* word : {"window", "mantel", "ceiling", "corner"}) {
      if (edit_distance(token_.key, word) > letters_allowed(token_.key.size())) continue;
      for (Meaning meaning : Vocabulary::standard().meanings(word)) {
        meaning.weight *= 0.7;
        meaning.ground = "misspelt or misread";
        add(std::move(meaning));
      }
    }
  }

  void numeral(bool known) {
    const auto numeral = read_numeral(token_.key);
    if (!numeral || (numeral->strokes.size() < 2 && known)) return;
    add({Sense::numeral, numeral->strokes, known ? 0.4 : 0.9, {}});
  }

  const LabelToken& token_;
  const HouseWords& house_;
  std::vector<Meaning> found_;
};

}  // namespace

std::vector<Meaning> meanings_of(const LabelToken& token, const HouseWords& house) {
  return Finder(token, house).find();
}

bool fits_pattern(const std::string& pattern, const std::string& word) {
  const auto known = static_cast<std::size_t>(
      std::count_if(pattern.begin(), pattern.end(), [](char c) { return c != '?' && c != '*'; }));
  if (known < 2) return false;
  std::size_t p = 0;
  std::size_t w = 0;
  std::size_t star = std::string::npos;
  std::size_t retry = 0;
  while (w < word.size()) {
    if (p < pattern.size() && (pattern[p] == '?' || pattern[p] == word[w])) {
      ++p;
      ++w;
    } else if (p < pattern.size() && pattern[p] == '*') {
      star = p++;
      retry = w;
    } else if (star != std::string::npos) {
      p = star + 1;
      w = ++retry;
    } else {
      return false;
    }
  }
  while (p < pattern.size() && pattern[p] == '*') ++p;
  return p == pattern.size();
}

}  // namespace lathbook::labels
