// Walks through a transcription once and makes its tokens. Internal to core/base.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/transcription.hpp"
#include "core/base/transcription_signs.hpp"

namespace lathbook {

/// One reading of one text. Every step moves forward; what it looks ahead is bounded.
class TranscriptionReader {
public:
  explicit TranscriptionReader(std::string_view text, TranscriptionOptions options);

  /// Thrown by read(), caught by the functions of transcription.hpp.
  struct Broken {
    TranscriptionFault fault;
  };
  Transcription read();

private:
  struct Character {
    char32_t c = 0;
    std::uint32_t at = 0;
    std::uint32_t number = 0;  ///< code points of the text before it
  };
  struct Open {
    const Bracket* bracket = nullptr;
    std::size_t character = 0;  ///< index of the opening sign
    std::size_t first = 0;      ///< index of the first token inside
    bool empty = true;
  };

  static constexpr std::size_t kMostMarks = 8;  ///< combining marks on one letter
  static bool is_word(char32_t c);
  static bool is_digit(char32_t c) { return c >= '0' && c <= '9'; }
  static bool is_blank(char32_t c);

  void gather(std::string_view text);
  char32_t peek(std::size_t ahead = 0) const;
  char32_t before() const { return at_ == 0 ? U' ' : characters_[at_ - 1].c; }
  bool next_is(std::u32string_view sign) const;
  std::uint32_t byte(std::size_t character) const;
  [[noreturn]] void fault(std::size_t character, const std::string& reason) const;
  std::string place(std::size_t character) const;
  std::string named(std::size_t character, std::size_t count) const;
  std::u32string inside(std::size_t from, std::u32string_view close, std::u32string_view stop) const;

  void step();
  bool open_bracket();
  bool take_whole_gap(const Bracket& bracket);
  bool take_whole_note();
  bool take_mirrored_letter();
  bool close_bracket();
  void take_blanks();
  void take_line_end();
  bool slash_is_a_sign() const;
  void take_dots();
  bool take_dashes();
  void take_question();
  void take_letter(bool literal);
  void take_marks(std::u32string& cluster, std::u32string_view own, Token& token);
  void take_sign(char32_t c);
  void take_note(Token token, std::size_t characters);
  void remark(const std::string& sentence);

  std::uint32_t standing() const;
  void add(Token token, std::size_t from);
  void join_neighbours();
  Token* last_adjacent(TokenKind kind);

  TranscriptionOptions options_;
  Transcription done_;
  std::vector<Character> characters_;
  std::size_t at_ = 0;
  std::vector<Open> open_;
  bool cyrillic_ = false;  ///< the text is Cyrillic, so И and Я are no mirrored N and R
  bool mirror_next_ = false;
  std::size_t hidden_ = 0;
};

}  // namespace lathbook
