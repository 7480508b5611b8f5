// Reference marks, held so that a damaged reading finds its near ones among a million in milliseconds.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "plugins/marks/spelling.hpp"

namespace lathbook::marks {

/// Which two letters, by class, follow each other somewhere in a text: one bit a pair, pairs sharing bits.
struct Pairs {
  std::uint64_t low = 0;
  std::uint64_t high = 0;
  void add(Code first, Code second);
};

/// A text that marks bear, each once: the whole of some, the first lines of others.
struct Key {
  std::uint32_t at = 0;  ///< in the gathered codes
  std::uint32_t first_owner = 0;
  std::uint32_t owners = 0;
  std::uint32_t length = 0;  ///< codes
};

/// A mark that begins with a key's text.
struct Owner {
  std::uint32_t mark = 0;      ///< number of the mark, in the order of add()
  std::uint32_t left_out = 0;  ///< lines of it after those of the key
};

/// Marks are added, then made ready once; after that it does not change. Texts longer than 200 codes are cut.
class ReferenceList {
public:
  /// Adds a mark; its number is the count of those before it. With `short_name` its first word alone, of six
  /// letters or more, may stand for it, as dear as two lines left out.
  void add(std::string_view text, bool short_name = false);
  void make_ready();

  std::size_t marks() const { return marks_; }
  /// Keys by length; those of length n are [first_of(n), first_of(n + 1)).
  const std::vector<Key>& keys() const { return keys_; }
  std::size_t first_of(std::size_t length) const;
  std::size_t longest() const { return starts_.size() < 2 ? 0 : starts_.size() - 2; }
  const std::vector<Pairs>& pairs() const { return pairs_; }
  std::string_view codes(const Key& key) const { return {codes_.data() + key.at, key.length}; }
  const Owner* owners(const Key& key) const { return owners_.data() + key.first_owner; }

  /// How likely one letter is after another in marks like these, as -log: what a reading would cost if it
  /// were of a mark that is not in the list. `before` nought at the beginning.
  float surprise(Code before, Code code) const { return surprise_[before][code]; }

private:
  /// As added: a run of lines from the first.
  struct Run {
    std::uint32_t at = 0;
    std::uint32_t length = 0;
    Owner owner;
  };
  void gather_keys();
  void learn();

  std::size_t marks_ = 0;
  std::string codes_;
  std::vector<Run> runs_;
  std::vector<Owner> owners_;
  std::vector<Key> keys_;
  std::vector<std::uint32_t> starts_;
  std::vector<Pairs> pairs_;
  std::array<std::array<float, kCodes>, kCodes> surprise_{};
};

}  // namespace lathbook::marks
