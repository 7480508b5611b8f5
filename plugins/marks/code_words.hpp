// A transcription cut into words for finding dated codes: capitals, figures, '#' for each one not read.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "core/base/transcription.hpp"

namespace lathbook::marks {

struct CodeWord {
  std::string text;         ///< "RD", "101774", "1463,2##", "-", "<>" for a drawn diamond
  std::uint32_t first = 0;  ///< first and last token it was read from
  std::uint32_t last = 0;
  bool loose = false;  ///< the number of figures or letters not read is not known
  bool figures() const;
};

/// At most the first 500 words.
std::vector<CodeWord> code_words(const Transcription& transcription);
/// The raw text of words first..last.
std::string text_of(const Transcription& transcription, const CodeWord& first, const CodeWord& last);

}  // namespace lathbook::marks
