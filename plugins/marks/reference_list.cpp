#include "plugins/marks/reference_list.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace lathbook::marks {

namespace {

constexpr std::size_t kLongest = 200;
constexpr double kSmoothing = 20;  // how many letters of experience the plain frequencies are worth

}  // namespace

void Pairs::add(Code first, Code second) {
  const std::uint64_t pair = std::uint64_t{class_of(first)} * kCodes + class_of(second);
  const std::uint64_t bit = (pair * 0x9e3779b97f4a7c15U) >> 57U;  // the upper seven bits
  (bit < 64 ? low : high) |= std::uint64_t{1} << (bit & 63U);
}

void ReferenceList::add(std::string_view text, bool short_name) {
  Spelling spelling = spell(text);
  if (spelling.codes.size() > kLongest) spelling.codes.resize(kLongest);
  Run run;
  run.owner.mark = static_cast<std::uint32_t>(marks_++);
  run.at = static_cast<std::uint32_t>(codes_.size());
  codes_ += spelling.codes;
  // The whole, and each run of lines from the first: a thing often bears only the name.
  auto ends = spelling.line_ends;
  ends.push_back(static_cast<std::uint32_t>(spelling.codes.size()));
  std::vector<std::uint32_t> lengths;
  for (const std::uint32_t end : ends) {
    const auto length = std::min<std::uint32_t>(end, static_cast<std::uint32_t>(spelling.codes.size()));
    if (length > 0 && (lengths.empty() || length > lengths.back())) lengths.push_back(length);
  }
  for (std::size_t i = 0; i < lengths.size(); ++i) {
    run.length = lengths[i];
    run.owner.left_out = static_cast<std::uint32_t>(lengths.size() - 1 - i);
    runs_.push_back(run);
  }
  if (!short_name || lengths.empty()) return;
  const auto first = spell(text.substr(0, text.find(' '))).codes.size();
  if (first < 6 || first >= lengths.front()) return;
  run.length = static_cast<std::uint32_t>(first);
  run.owner.left_out = static_cast<std::uint32_t>(lengths.size() + 1);
  runs_.push_back(run);
}

void ReferenceList::make_ready() {
  const auto text = [this](const Run& run) { return std::string_view(codes_.data() + run.at, run.length); };
  std::sort(runs_.begin(), runs_.end(), [&](const Run& a, const Run& b) {
    if (a.length != b.length) return a.length < b.length;
    if (const int order = text(a).compare(text(b)); order != 0) return order < 0;
    return a.owner.mark < b.owner.mark;
  });
  gather_keys();
  const std::size_t longest = keys_.empty() ? 0 : keys_.back().length;
  starts_.assign(longest + 2, 0);
  for (const Key& key : keys_) ++starts_[key.length + 1U];
  std::partial_sum(starts_.begin(), starts_.end(), starts_.begin());
  learn();
}

// Equal texts become one key; the texts are put in the order of the keys, so that neighbours are compared
// from memory that lies together.
void ReferenceList::gather_keys() {
  std::string ordered;
  ordered.reserve(codes_.size());
  owners_.reserve(runs_.size());
  for (const Run& run : runs_) {
    const std::string_view text(codes_.data() + run.at, run.length);
    if (keys_.empty() || std::string_view(ordered.data() + keys_.back().at, keys_.back().length) != text) {
      Pairs pairs;
      for (std::size_t i = 1; i < text.size(); ++i) {
        pairs.add(static_cast<Code>(text[i - 1]), static_cast<Code>(text[i]));
      }
      pairs_.push_back(pairs);
      keys_.push_back({static_cast<std::uint32_t>(ordered.size()), static_cast<std::uint32_t>(owners_.size()),
                       0, run.length});
      ordered += text;
    }
    owners_.push_back(run.owner);
    ++keys_.back().owners;
  }
  codes_.swap(ordered);
  runs_.clear();
  runs_.shrink_to_fit();
}

std::size_t ReferenceList::first_of(std::size_t length) const {
  return length < starts_.size() ? starts_[length] : keys_.size();
}

void ReferenceList::learn() {
  std::array<double, kCodes> single{};
  std::vector<std::array<double, kCodes>> follows(kCodes);
  for (auto& row : follows) row.fill(0);
  // Every letter may occur, whatever the list holds; letters and figures of a plain alphabet first of all.
  for (std::size_t code = 1; code < kCodes; ++code) single[code] = code <= 26 ? 4 : code <= 37 ? 1 : 0.02;
  for (const Key& key : keys_) {
    // The first lines of longer marks are learnt from those.
    const Owner* const end = owners(key) + key.owners;
    const auto wholes =
        std::count_if(owners(key), end, [](const Owner& owner) { return owner.left_out == 0; });
    if (wholes == 0) continue;
    Code before = 0;
    for (const char c : codes(key)) {
      const auto code = static_cast<Code>(c);
      single[code] += static_cast<double>(wholes);
      follows[before][code] += static_cast<double>(wholes);
      before = code;
    }
  }
  const double total = std::accumulate(single.begin(), single.end(), 0.0);
  for (std::size_t before = 0; before < kCodes; ++before) {
    const double seen = std::accumulate(follows[before].begin(), follows[before].end(), 0.0);
    for (std::size_t code = 1; code < kCodes; ++code) {
      const double chance = (follows[before][code] + kSmoothing * single[code] / total) / (seen + kSmoothing);
      surprise_[before][code] = static_cast<float>(-std::log(chance));
    }
  }
}

}  // namespace lathbook::marks
