#include "plugins/marks/search.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>
#include <unordered_map>

#include "plugins/marks/alignment.hpp"
#include "plugins/marks/bit_vector.hpp"

namespace lathbook::marks {

namespace {

constexpr std::size_t kMostErrors = 3;         // letters wrong beyond confusions, lost and uncertain ones
constexpr std::size_t kMostCounted = 120'000;  // keys whose errors are counted, one way of reading
constexpr std::size_t kMostCompared = 12'000;  // keys compared letter by letter, one way of reading
constexpr std::size_t kFewKeys = 2'000;        // a list so short is compared whole
constexpr std::size_t kFewest = 3;             // letters read for certain without which nothing is searched
constexpr std::size_t kMostLines = 4;          // of which shorter runs are tried
constexpr float kMargin = 3;                   // further than this behind the best is not worth a search
constexpr float kGood = 4;                     // a reading as cheap as this needs no other way of taking it
constexpr float kTail = 6;                     // costs above the best that still count in the shares

// One way of taking the reading, compared with the list by rising number of errors.
class Pass {
public:
  /// `hopeless` is the cost beyond which a mark is not worth telling of.
  Pass(const ReferenceList& list, const Query& query, float hopeless)
      : list_(list), query_(query), aligner_(query), counter_(query), limit_(hopeless) {
    for (std::size_t i = 1; i < query.positions.size(); ++i) {
      const Position& before = query.positions[i - 1];
      const Position& here = query.positions[i];
      if (before.kind != PositionKind::letter || here.kind != PositionKind::letter) continue;
      wanted_.add(before.code, here.code);
    }
    errors_ = std::min(kMostErrors, query.definite() / 4);
  }

  /// Calls on_key(key index, cost without lines left out) for every key worth it.
  template <typename OnKey>
  void run(OnKey&& on_key) {
    if (list_.keys().size() <= kFewKeys) return run_all(on_key);
    for (std::size_t level = 0; level <= errors_; ++level) {
      scan(level, on_key);
      // What is left has at least level + 1 letters wrong, missing or too many.
      const float next = Costs::missing * static_cast<float>(level + 1);
      if (best_ + kMargin <= next || limit_ <= next || full()) return;
    }
  }

  std::size_t compared() const { return compared_; }

private:
  // A short list is compared whole, so that the next ones can be told of however far behind they are.
  template <typename OnKey>
  void run_all(OnKey& on_key) {
    for (std::uint32_t i = 0; i < list_.keys().size(); ++i, ++compared_) {
      on_key(i, aligner_.cost(list_.codes(list_.keys()[i]), std::numeric_limits<float>::infinity()));
    }
  }

  bool full() const { return compared_ >= kMostCompared || counted_ >= kMostCounted; }

  // Keys that need at least this many errors and perhaps no more, judged by length and by the pairs of
  // letters that they lack: one error takes away at most two pairs.
  template <typename OnKey>
  void scan(std::size_t level, OnKey& on_key) {
    const bool open = query_.has_loop();
    const std::size_t least = query_.least();
    const std::size_t most = open ? list_.longest() : query_.most();
    const std::size_t from = least > level ? least - level : 1;
    const std::size_t to = std::min(open ? most : most + level, list_.longest());
    const auto& pairs = list_.pairs();
    for (std::size_t length = from; length <= to; ++length) {
      const std::size_t off = length < least ? least - length : length > most ? length - most : 0;
      const std::size_t end = list_.first_of(length + 1);
      for (std::size_t i = list_.first_of(length); i < end; ++i) {
        const int lacking =
            std::popcount(wanted_.low & ~pairs[i].low) + std::popcount(wanted_.high & ~pairs[i].high);
        const std::size_t needed = std::max(off, (static_cast<std::size_t>(lacking) + 1) / 2);
        if (needed != level) continue;
        compare(i, on_key);
        if (full()) return;
      }
    }
  }

  template <typename OnKey>
  void compare(std::size_t i, OnKey& on_key) {
    const auto codes = list_.codes(list_.keys()[i]);
    if (counter_.usable()) {
      ++counted_;
      if (Costs::missing * static_cast<float>(counter_.errors(codes)) > limit_) return;
    }
    ++compared_;
    const float cost = aligner_.cost(codes, limit_);
    if (cost > limit_) return;
    best_ = std::min(best_, cost);
    limit_ = std::min(limit_, best_ + kTail);
    on_key(static_cast<std::uint32_t>(i), cost);
  }

  const ReferenceList& list_;
  const Query& query_;
  Aligner aligner_;
  ErrorCounter counter_;
  Pairs wanted_;
  std::size_t errors_ = 0;
  std::size_t counted_ = 0;
  std::size_t compared_ = 0;
  float best_ = std::numeric_limits<float>::infinity();
  float limit_;
};

class Search {
public:
  Search(const ReferenceList& list, const std::vector<std::vector<Position>>& lines, bool mirrored)
      : list_(list), lines_(lines), mirrored_(mirrored) {
    for (const auto& line : lines) surprises_.push_back(surprise_of(line));
    for (const double surprise : surprises_) unlisted_ += surprise;
    const auto marks = static_cast<double>(std::max<std::size_t>(list.marks(), 1));
    prior_ = std::log(1 - kUnlisted) - kCrowding * std::log(marks);
    // A mark dearer than this is less than a fiftieth as likely as one that is not in the list.
    hopeless_ = static_cast<float>(kTemperature * (unlisted_ + prior_ - std::log(kUnlisted) + 4));
    hopeless_ = std::max(hopeless_, Costs::missing);
  }

  /// Adds lines first..last, straight or backwards, as a way of taking the reading.
  void take(std::size_t first, std::size_t last, bool backwards) {
    Query query = join_lines(lines_, first, last);
    if (query.definite() < kFewest) return;
    // Lines left out are as surprising as in any mark.
    double left_out = unlisted_;
    for (std::size_t i = first; i < last; ++i) left_out -= surprises_[i];
    query.surcharge = static_cast<float>(kTemperature * left_out);
    query.surcharge += Costs::line_unmatched * static_cast<float>(lines_.size() - (last - first));
    lines_left_out_.push_back(static_cast<std::uint32_t>(lines_.size() - (last - first)));
    if (backwards) query = turned_round(query);
    if (backwards && mirrored_) query.surcharge -= Costs::backwards;
    answer_.variants.push_back(std::move(query));
  }

  void run_new() {
    for (; done_ < answer_.variants.size(); ++done_) {
      const Query& query = answer_.variants[done_];
      Pass pass(list_, query, std::min(hopeless_, best_ + kTail) - query.surcharge);
      pass.run([&](std::uint32_t key, float cost) { note(key, cost + query.surcharge); });
      answer_.compared += pass.compared();
    }
  }

  float best() const { return best_; }
  bool nothing_to_search() const { return answer_.variants.empty(); }

  Answer finish() {
    for (const auto& [mark, found] : by_mark_) answer_.found.push_back(found);
    std::sort(answer_.found.begin(), answer_.found.end(), [](const Found& a, const Found& b) {
      return a.cost != b.cost ? a.cost < b.cost : a.mark < b.mark;
    });
    weigh();
    return std::move(answer_);
  }

private:
  void note(std::uint32_t index, float cost) {
    const Key& key = list_.keys()[index];
    for (const Owner* owner = list_.owners(key); owner != list_.owners(key) + key.owners; ++owner) {
      // A line of the reading that the mark lacks, where the mark has one that the thing lacks: two texts
      // stand in one place.
      const auto clashes = std::min(owner->left_out, lines_left_out_[done_]);
      const float whole = cost + Costs::line_left_out * static_cast<float>(owner->left_out) +
                          Costs::line_clash * static_cast<float>(clashes);
      best_ = std::min(best_, whole);
      if (whole > best_ + kTail && list_.keys().size() > kFewKeys) continue;
      const Found found{owner->mark, index, done_, whole, 0};
      const auto [at, fresh] = by_mark_.try_emplace(owner->mark, found);
      if (!fresh && whole < at->second.cost) at->second = found;
    }
  }

  // What a line would cost if it were of some mark like these that is not in the list: each letter read as
  // surprising as it is there, the letters that are gone as dear as in any other mark.
  double surprise_of(const std::vector<Position>& line) const {
    double sum = 0;
    Code before = 0;
    for (const Position& position : line) {
      const bool read = position.kind == PositionKind::letter;
      if (read) sum += kLikeness * list_.surprise(before, position.code);
      if (position.kind == PositionKind::uncertain) {
        sum += Costs::doubt_share * kLikeness * list_.surprise(before, position.code);
      }
      if (position.kind == PositionKind::any) sum += Costs::lost / kTemperature;
      before = read ? position.code : Code{0};
    }
    return sum;
  }

  void weigh() {
    const double away = std::log(kUnlisted) - unlisted_;
    double highest = away;
    for (const Found& found : answer_.found) highest = std::max(highest, prior_ - found.cost / kTemperature);
    double sum = std::exp(away - highest);
    for (Found& found : answer_.found) {
      found.share = std::exp(prior_ - found.cost / kTemperature - highest);
      sum += found.share;
    }
    answer_.unlisted = std::exp(away - highest) / sum;
    for (std::size_t i = 0; i < answer_.found.size(); ++i) {
      answer_.found[i].share /= sum;
      if (i >= kMostFound) answer_.others += answer_.found[i].share;
    }
    if (answer_.found.size() > kMostFound) answer_.found.resize(kMostFound);
  }

  const ReferenceList& list_;
  const std::vector<std::vector<Position>>& lines_;
  bool mirrored_;
  std::vector<double> surprises_;              // of the lines
  std::vector<std::uint32_t> lines_left_out_;  // of each variant
  double unlisted_ = 0;                        // their sum
  double prior_ = 0;                           // log of a listed mark's chance before anything is read
  float hopeless_ = 0;
  Answer answer_;
  std::size_t done_ = 0;
  float best_ = std::numeric_limits<float>::infinity();
  std::unordered_map<std::uint32_t, Found> by_mark_;
};

}  // namespace

Answer search(const ReferenceList& list, const std::vector<std::vector<Position>>& lines, bool mirrored) {
  Search search(list, lines, mirrored);
  const std::size_t count = std::min<std::size_t>(lines.size(), kMostLines);
  if (count > 0) search.take(0, lines.size(), false);
  if (count > 0 && mirrored) search.take(0, lines.size(), true);
  search.run_new();
  // Some lines may say what no list holds (a number, a place): then fewer of them, from any line on.
  if (search.best() > kGood) {
    for (std::size_t first = 0; first < count; ++first) {
      for (std::size_t last = first + 1; last <= count; ++last) {
        if (last - first < lines.size()) search.take(first, last, false);
      }
    }
    search.run_new();
  }
  if (search.best() > kGood && !mirrored && count > 0) {
    search.take(0, lines.size(), true);
    search.run_new();
  }
  const bool too_little = search.nothing_to_search();
  Answer answer = search.finish();
  answer.too_little = too_little;
  return answer;
}

}  // namespace lathbook::marks
