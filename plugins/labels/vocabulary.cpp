#include "plugins/labels/vocabulary.hpp"

#include <algorithm>
#include <array>

#include "core/base/embedded.hpp"
#include "core/base/error.hpp"
#include "core/base/number.hpp"
#include "core/base/text.hpp"

namespace lathbook::labels {

namespace {

constexpr std::array<std::pair<std::string_view, Sense>, 19> kSenses = {{{"name", Sense::name},
                                                                         {"generic", Sense::generic},
                                                                         {"relation", Sense::relation},
                                                                         {"compass", Sense::compass},
                                                                         {"storey", Sense::storey},
                                                                         {"floor", Sense::floor},
                                                                         {"ordinal", Sense::ordinal},
                                                                         {"fitting", Sense::fitting},
                                                                         {"face", Sense::face},
                                                                         {"hand", Sense::hand},
                                                                         {"end", Sense::end},
                                                                         {"tip", Sense::tip},
                                                                         {"number", Sense::number},
                                                                         {"job", Sense::job},
                                                                         {"handling", Sense::handling},
                                                                         {"carriage", Sense::carriage},
                                                                         {"or", Sense::either},
                                                                         {"and", Sense::joiner},
                                                                         {"idle", Sense::idle}}};

std::vector<std::vector<std::string>> rows_of(std::string_view table, std::size_t columns) {
  std::vector<std::vector<std::string>> rows;
  for (const std::string& line : split(embedded_table(table), '\n')) {
    if (line.empty() || line.front() == '#') continue;
    auto cells = split(line, '\t');
    if (cells.front() == "kind" ? cells.size() != 4 : cells.size() != columns)
      fail(ErrorKind::corrupt, "the table " + std::string(table) + " has a broken row: " + quote(line));
    rows.push_back(std::move(cells));
  }
  return rows;
}

double weight_in(const std::string& cell) {
  const auto weight = number_in<double>(cell);
  if (!weight || *weight <= 0 || *weight > 1)
    fail(ErrorKind::corrupt, "a table of label words has a weight that is none: " + quote(cell));
  return *weight;
}

std::optional<Day> year_in(const std::string& cell, bool last) {
  if (cell == "-") return std::nullopt;
  const auto year = number_in<int>(cell);
  if (!year) fail(ErrorKind::corrupt, "the table of room names has a year that is none: " + quote(cell));
  return last ? days_from_civil(*year, 12, 31) : days_from_civil(*year, 1, 1);
}

RoomKind kind_in(const std::string& word) {
  if (word == "chamber") return RoomKind::chamber;
  if (word == "closet") return RoomKind::closet;
  if (word == "passage") return RoomKind::passage;
  fail(ErrorKind::corrupt, "the table of room names knows no kind " + quote(word));
}

bool kept_whole(Sense sense) {
  return sense == Sense::name || sense == Sense::generic || sense == Sense::compass || sense == Sense::end;
}

}  // namespace

const Vocabulary& Vocabulary::standard() {
  static const Vocabulary words;
  return words;
}

Vocabulary::Vocabulary() {
  read_words();
  read_rooms();
}

void Vocabulary::read_words() {
  for (const auto& row : rows_of("label-words", 5)) {
    const auto sense = std::find_if(kSenses.begin(), kSenses.end(),
                                    [&](const auto& known) { return known.first == row[1]; });
    if (sense == kSenses.end())
      fail(ErrorKind::corrupt, "the table of label words knows no kind " + quote(row[1]));
    words_[row[0]].push_back({sense->second, row[2], weight_in(row[3]), {}});
    if (sense->second != Sense::name) continue;
    for (const std::string& word : split(row[2], ' '))
      if (!is_generic(word)) name_words_.push_back(word);
  }
  std::sort(name_words_.begin(), name_words_.end());
  name_words_.erase(std::unique(name_words_.begin(), name_words_.end()), name_words_.end());
}

void Vocabulary::read_rooms() {
  for (const auto& row : rows_of("room-names", 8)) {
    if (row[0] == "kind") {
      kinds_[row[1]] = kind_in(row[2]);
    } else {
      same_.push_back(
          {row[1], row[2], year_in(row[3], false), year_in(row[4], true), weight_in(row[5]), row[7]});
    }
  }
}

const std::vector<Meaning>& Vocabulary::meanings(const std::string& key) const {
  static const std::vector<Meaning> none;
  const auto found = words_.find(key);
  return found == words_.end() ? none : found->second;
}

std::optional<RoomKind> Vocabulary::kind_of_word(const std::string& word) const {
  const auto found = kinds_.find(word);
  if (found == kinds_.end()) return std::nullopt;
  return found->second;
}

std::vector<std::string> Vocabulary::canonical(std::string_view name) const {
  std::vector<std::string> words;
  for (const std::string& word : plain_words(name)) {
    const auto& known = meanings(word);
    if (word == "and" || word == "the") continue;
    const auto best = std::find_if(known.begin(), known.end(), [](const Meaning& meaning) {
      return kept_whole(meaning.sense) && meaning.weight >= 0.9;
    });
    if (best == known.end()) {
      words.push_back(word);
      continue;
    }
    for (const std::string& part : split(best->means, ' ')) words.push_back(part);
  }
  for (std::size_t i = 0; i + 1 < words.size(); ++i) {
    if (words[i] != "bed" || words[i + 1] != "room") continue;
    words[i] = "bedroom";
    words.erase(words.begin() + static_cast<std::ptrdiff_t>(i) + 1);
  }
  return words;
}

std::vector<std::string> plain_words(std::string_view text) {
  std::vector<std::string> words;
  std::string word;
  const auto end = [&] {
    if (!word.empty()) words.push_back(std::move(word));
    word.clear();
  };
  // 'N.E. Chamber' keeps its two letters together.
  const std::string folded = fold(text);
  for (std::size_t i = 0; i < folded.size(); ++i) {
    const char c = folded[i];
    const bool part = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || (c & 0x80) != 0;
    if (part) {
      word += c;
    } else if (c == '&') {
      end();
      words.emplace_back("and");
    } else if (c == '.' && word.size() == 1 && i + 1 < folded.size() && folded[i + 1] != ' ') {
      continue;
    } else if (c != '\'') {
      end();
    }
  }
  end();
  return words;
}

bool is_generic(const std::string& word) {
  return word == "room" || word == "chamber" || word == "bedroom" || word == "closet";
}

std::optional<double> bearing_of(const std::string& word) {
  static constexpr std::array<std::string_view, 8> kPoints = {"north", "north-east", "east", "south-east",
                                                              "south", "south-west", "west", "north-west"};
  const auto found = std::find(kPoints.begin(), kPoints.end(), word);
  if (found == kPoints.end()) return std::nullopt;
  return 45.0 * static_cast<double>(found - kPoints.begin());
}

}  // namespace lathbook::labels
