#include "plugins/marks/query.hpp"

#include <algorithm>

namespace lathbook::marks {

namespace {

constexpr std::size_t kMostPositions = 400;
constexpr std::int32_t kMostGap = 40;

// Gathers one line; a word read whole is put in its short form.
class LineMaker {
public:
  void letter(const Token& token, std::uint32_t index) {
    const auto codes = codes_of(token.letter);
    constexpr std::uint32_t doubted = kUncertain | kErased | kSupplied | kCorrected | kAdded;
    const bool restored = token.is(kRestored);
    const bool uncertain = (token.standing & doubted) != 0;
    for (const char code : codes) {
      const auto kind = restored    ? PositionKind::any
                        : uncertain ? PositionKind::uncertain
                                    : PositionKind::letter;
      put({kind, static_cast<Code>(code), index});
    }
  }

  void gap(const Token& token, std::uint32_t index) {
    end_word();
    if (token.least < 0 || token.is(kWholeLine) || token.most > kMostGap) {
      put({PositionKind::loop, 0, index});
    } else {
      for (std::int32_t i = 0; i < token.most; ++i) {
        put({i < token.least ? PositionKind::any : PositionKind::optional, 0, index});
      }
    }
    word_ = line_.size();
    broken_ = true;
  }

  void end_word() {
    const auto first = line_.begin() + static_cast<std::ptrdiff_t>(word_);
    const bool whole = !broken_ && std::all_of(first, line_.end(), [](const Position& position) {
      return position.kind == PositionKind::letter;
    });
    if (whole && word_ < line_.size()) {
      std::string word;
      for (auto position = first; position != line_.end(); ++position)
        word += static_cast<char>(position->code);
      const auto brief = short_form(word);
      if (brief != word) {
        line_.resize(word_ + brief.size());
        for (std::size_t i = 0; i < brief.size(); ++i) line_[word_ + i].code = static_cast<Code>(brief[i]);
      }
    }
    word_ = line_.size();
    broken_ = false;
  }

  std::vector<Position> take() {
    end_word();
    word_ = 0;
    return std::move(line_);
  }

private:
  void put(const Position& position) {
    if (made_++ < kMostPositions) line_.push_back(position);
  }

  std::vector<Position> line_;
  std::size_t word_ = 0;  // where the word begins
  bool broken_ = false;   // a gap touches the word
  std::size_t made_ = 0;
};

}  // namespace

std::size_t Query::definite() const {
  return static_cast<std::size_t>(
      std::count_if(positions.begin(), positions.end(),
                    [](const Position& position) { return position.kind == PositionKind::letter; }));
}

bool Query::has_loop() const {
  return std::any_of(positions.begin(), positions.end(),
                     [](const Position& position) { return position.kind == PositionKind::loop; });
}

std::size_t Query::least() const {
  return static_cast<std::size_t>(
      std::count_if(positions.begin(), positions.end(), [](const Position& position) {
        return position.kind != PositionKind::loop && position.kind != PositionKind::optional;
      }));
}

std::size_t Query::most() const {
  return static_cast<std::size_t>(
      std::count_if(positions.begin(), positions.end(),
                    [](const Position& position) { return position.kind != PositionKind::loop; }));
}

std::vector<std::vector<Position>> positions_by_line(const Transcription& transcription,
                                                     const std::vector<bool>& spoken_for) {
  std::vector<std::vector<Position>> lines;
  LineMaker maker;
  const auto end_line = [&] {
    auto line = maker.take();
    const bool says_something = std::any_of(line.begin(), line.end(), [](const Position& position) {
      return position.kind == PositionKind::letter || position.kind == PositionKind::uncertain;
    });
    if (says_something) lines.push_back(std::move(line));
  };
  for (std::uint32_t i = 0; i < transcription.tokens.size(); ++i) {
    const Token& token = transcription.tokens[i];
    if (i < spoken_for.size() && spoken_for[i]) continue;
    switch (token.kind) {
      case TokenKind::letter:
        if (!token.is(kExpanded) && !token.is(kSuperfluous)) maker.letter(token, i);
        break;
      case TokenKind::gap:
        if (!token.is(kExpanded)) maker.gap(token, i);
        break;
      case TokenKind::sign:
        maker.end_word();
        if (token.letter == '&') {
          maker.letter(token, i);
          maker.end_word();
        }
        break;
      case TokenKind::line_end:
        if (token.is(kTight)) break;
        end_line();
        break;
      case TokenKind::part_end:
        end_line();
        break;
      case TokenKind::space:
      case TokenKind::blank:
        maker.end_word();
        break;
      case TokenKind::note:
        break;
    }
  }
  end_line();
  return lines;
}

Query join_lines(const std::vector<std::vector<Position>>& lines, std::size_t first, std::size_t last) {
  Query query;
  for (std::size_t i = first; i < last; ++i) {
    query.positions.insert(query.positions.end(), lines[i].begin(), lines[i].end());
  }
  return query;
}

Query turned_round(const Query& query) {
  Query turned = query;
  std::reverse(turned.positions.begin(), turned.positions.end());
  turned.backwards = true;
  turned.surcharge += Costs::backwards;
  return turned;
}

std::vector<CostRow> cost_rows(const Query& query) {
  std::vector<CostRow> rows(query.positions.size());
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const Position& position = query.positions[i];
    for (std::size_t code = 0; code < kCodes; ++code) {
      const auto other = static_cast<Code>(code);
      const bool same = other == position.code;
      const float plain = same                                         ? Costs::same
                          : class_of(other) == class_of(position.code) ? Costs::confused
                                                                       : Costs::other;
      switch (position.kind) {
        case PositionKind::letter:
          rows[i][code] = plain;
          break;
        case PositionKind::uncertain:
          rows[i][code] = same ? Costs::uncertain : Costs::doubt_share * plain + Costs::doubt;
          break;
        case PositionKind::any:
        case PositionKind::optional:
          rows[i][code] = Costs::lost;
          break;
        case PositionKind::loop:
          rows[i][code] = Costs::gap_letter;
          break;
      }
    }
  }
  return rows;
}

}  // namespace lathbook::marks
