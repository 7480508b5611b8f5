// The part of text.hpp that asks ICU: normal forms, folding, collation, properties and names.
#include <unicode/coll.h>
#include <unicode/locid.h>
#include <unicode/normalizer2.h>
#include <unicode/uchar.h>
#include <unicode/ucnv.h>
#include <unicode/unistr.h>

#include <array>
#include <cstdio>
#include <limits>
#include <memory>

#include "core/base/charset.hpp"
#include "core/base/error.hpp"
#include "core/base/text.hpp"
#include "core/base/text_scan.hpp"

namespace lathbook {
namespace {

void need(UErrorCode code) {
  if (U_FAILURE(code)) {
    fail(ErrorKind::io, std::string("the Unicode library refuses (") + u_errorName(code) +
                            "); check that the data files of ICU are installed");
  }
}

struct CloseConverter {
  void operator()(UConverter* converter) const { ucnv_close(converter); }
};
using Converter = std::unique_ptr<UConverter, CloseConverter>;

icu::StringPiece piece(std::string_view text) {
  if (text.size() > static_cast<std::size_t>(std::numeric_limits<std::int32_t>::max())) {
    fail(ErrorKind::invalid, "a text of more than 2 GB cannot be compared");
  }
  return {text.data(), static_cast<std::int32_t>(text.size())};
}

bool is_ascii(std::string_view text) {
  for (const char c : text) {
    if (static_cast<unsigned char>(c) >= 0x80) return false;
  }
  return true;
}

std::string to_utf8(const icu::UnicodeString& text) {
  std::string bytes;
  text.toUTF8String(bytes);
  return bytes;
}

using Instance = const icu::Normalizer2* (*)(UErrorCode&);

icu::UnicodeString normalised(const icu::UnicodeString& text, Instance instance) {
  UErrorCode code = U_ZERO_ERROR;
  const icu::Normalizer2* const form = instance(code);
  need(code);
  icu::UnicodeString result = form->normalize(text, code);
  need(code);
  return result;
}

// Most texts are ASCII, and searching folds all of them.
std::string fold_ascii(std::string_view text) {
  std::string folded;
  folded.reserve(text.size());
  bool gap = false;
  for (const char c : text) {
    if (c == ' ' || (c >= '\t' && c <= '\r')) {
      gap = true;
      continue;
    }
    if (gap && !folded.empty()) folded += ' ';
    gap = false;
    folded += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  return folded;
}

// Marks that a typist has one key for; a search must find "Lee's" whichever apostrophe was typed.
char32_t plain_mark(char32_t c) {
  switch (c) {
    case 0x2018:
    case 0x2019:
    case 0x201a:
    case 0x201b:
    case 0x02bc:
    case 0x2032:
      return '\'';
    case 0x201c:
    case 0x201d:
    case 0x201e:
    case 0x201f:
      return '"';
    case 0x2212:
      return '-';
    default:
      return u_charType(static_cast<UChar32>(c)) == U_DASH_PUNCTUATION ? U'-' : c;
  }
}

const icu::Collator& collator() {
  static const std::unique_ptr<const icu::Collator> opened = [] {
    UErrorCode code = U_ZERO_ERROR;
    std::unique_ptr<icu::Collator> made(icu::Collator::createInstance(icu::Locale::getRoot(), code));
    need(code);
    made->setAttribute(UCOL_NUMERIC_COLLATION, UCOL_ON, code);
    made->setAttribute(UCOL_NORMALIZATION_MODE, UCOL_ON, code);
    need(code);
    return made;
  }();
  return *opened;
}

std::string number_of(char32_t c) {
  std::array<char, 16> line{};
  std::snprintf(line.data(), line.size(), "U+%04X", static_cast<unsigned>(c));
  return line.data();
}

bool must_be_written_out(char32_t c) {
  const auto code = static_cast<UChar32>(c);
  switch (u_charType(code)) {
    case U_CONTROL_CHAR:
    case U_FORMAT_CHAR:
    case U_SURROGATE:
    case U_PRIVATE_USE_CHAR:
    case U_UNASSIGNED:
    case U_LINE_SEPARATOR:
    case U_PARAGRAPH_SEPARATOR:
      return true;
    default:
      return u_hasBinaryProperty(code, UCHAR_DEFAULT_IGNORABLE_CODE_POINT) != 0;
  }
}

// How one step of a text is shown, line feeds included.
std::string shown(std::string_view text, std::size_t at, const Scanned& step) {
  if (!step.valid) {
    std::array<char, 16> line{};
    std::snprintf(line.data(), line.size(), "<byte %02X>",
                  static_cast<unsigned>(static_cast<unsigned char>(text[at])));
    return line.data();
  }
  if (step.code_point >= 0x20 && step.code_point < 0x7f) return std::string(1, text[at]);
  if (must_be_written_out(step.code_point)) return "<" + number_of(step.code_point) + ">";
  return std::string(text.substr(at, step.length));
}

std::size_t width_of(char32_t c) {
  if (c >= 0x20 && c < 0x7f) return 1;
  const auto code = static_cast<UChar32>(c);
  switch (u_charType(code)) {
    case U_NON_SPACING_MARK:
    case U_ENCLOSING_MARK:
    case U_FORMAT_CHAR:
    case U_CONTROL_CHAR:
      return 0;
    default:
      break;
  }
  const int syllable = u_getIntPropertyValue(code, UCHAR_HANGUL_SYLLABLE_TYPE);
  if (syllable == U_HST_VOWEL_JAMO || syllable == U_HST_TRAILING_JAMO) return 0;  // drawn into the lead
  const int east_asian = u_getIntPropertyValue(code, UCHAR_EAST_ASIAN_WIDTH);
  return east_asian == U_EA_WIDE || east_asian == U_EA_FULLWIDTH ? 2 : 1;
}

std::string kind_of_nameless(char32_t c) {
  switch (u_charType(static_cast<UChar32>(c))) {
    case U_CONTROL_CHAR:
      return " (control character)";
    case U_PRIVATE_USE_CHAR:
      return " (private use)";
    case U_SURROGATE:
      return " (surrogate)";
    case U_UNASSIGNED:
      return " (unassigned)";
    default:
      return "";
  }
}

}  // namespace

std::string nfc(std::string_view text) {
  if (is_ascii(text)) return std::string(text);
  return to_utf8(normalised(icu::UnicodeString::fromUTF8(piece(text)), &icu::Normalizer2::getNFCInstance));
}

std::string fold(std::string_view text) {
  if (is_ascii(text)) return fold_ascii(text);
  icu::UnicodeString key = icu::UnicodeString::fromUTF8(piece(text));
  // NFKC_Casefold also drops what is drawn as nothing: soft hyphens, joiners, selectors.
  key = normalised(key, &icu::Normalizer2::getNFKCCasefoldInstance);
  key = normalised(key, &icu::Normalizer2::getNFKDInstance);
  std::string folded;
  folded.reserve(text.size());
  bool gap = false;
  for (std::int32_t at = 0; at < key.length(); at = key.moveIndex32(at, 1)) {
    const UChar32 c = key.char32At(at);
    const auto type = u_charType(c);
    if (type == U_NON_SPACING_MARK || type == U_ENCLOSING_MARK) continue;
    if (u_isUWhiteSpace(c)) {
      gap = true;
      continue;
    }
    if (gap && !folded.empty()) folded += ' ';
    gap = false;
    append_utf8(folded, plain_mark(static_cast<char32_t>(c)));
  }
  return folded;
}

int compare_for_people(std::string_view a, std::string_view b) {
  UErrorCode code = U_ZERO_ERROR;
  const UCollationResult order = collator().compareUTF8(piece(a), piece(b), code);
  need(code);
  if (order != UCOL_EQUAL) return order == UCOL_LESS ? -1 : 1;
  const int bytes = a.compare(b);
  return bytes < 0 ? -1 : (bytes > 0 ? 1 : 0);
}

std::string sort_key(std::string_view text) {
  const icu::UnicodeString words = icu::UnicodeString::fromUTF8(piece(text));
  const std::int32_t size = collator().getSortKey(words, nullptr, 0);
  if (size <= 0) fail(ErrorKind::io, "the Unicode library makes no sort key");
  std::string key(static_cast<std::size_t>(size), '\0');
  collator().getSortKey(words, reinterpret_cast<std::uint8_t*>(key.data()), size);
  key.pop_back();  // ICU ends a key with a NUL, which std::string does not need
  return key;
}

std::string safe_display(std::string_view text) {
  std::string safe;
  safe.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    const Scanned step = scan_utf8(text, at);
    if (step.code_point == U'\n') {
      safe += '\n';
    } else {
      safe += shown(text, at, step);
    }
    at += step.length;
  }
  return safe;
}

std::size_t display_width(std::string_view text) {
  std::size_t width = 0;
  for (std::size_t at = 0; at < text.size();) {
    const Scanned step = scan_utf8(text, at);
    width += width_of(step.code_point);
    at += step.length;
  }
  return width;
}

CharacterKind character_kind(char32_t c) {
  if (c < 0x80) {
    if (c == ' ' || (c >= '\t' && c <= '\r')) return CharacterKind::space;
    if (c < 0x20 || c == 0x7f) return CharacterKind::hidden;
    if (c >= '0' && c <= '9') return CharacterKind::digit;
    const char32_t lower = c | 0x20;
    return lower >= 'a' && lower <= 'z' ? CharacterKind::letter : CharacterKind::sign;
  }
  const auto code = static_cast<UChar32>(c);
  if (u_isUWhiteSpace(code)) return CharacterKind::space;
  switch (u_charType(code)) {
    case U_NON_SPACING_MARK:
    case U_ENCLOSING_MARK:
    case U_COMBINING_SPACING_MARK:
      return CharacterKind::mark;
    case U_DECIMAL_DIGIT_NUMBER:
    case U_LETTER_NUMBER:
    case U_OTHER_NUMBER:
      return CharacterKind::digit;
    default:
      break;
  }
  if (u_isalpha(code)) return CharacterKind::letter;
  return must_be_written_out(c) ? CharacterKind::hidden : CharacterKind::sign;
}

std::u32string decomposed(char32_t c) {
  if (c < 0x80) return std::u32string(1, c);
  UErrorCode code = U_ZERO_ERROR;
  const icu::Normalizer2* const form = icu::Normalizer2::getNFDInstance(code);
  need(code);
  icu::UnicodeString parts;
  if (!form->getDecomposition(static_cast<UChar32>(c), parts)) return std::u32string(1, c);
  return code_points(to_utf8(parts));
}

std::string describe_code_point(char32_t code_point) {
  std::string text = number_of(code_point);
  if (code_point > 0x10ffff) return text + " (beyond Unicode)";
  std::array<char, 256> name{};
  UErrorCode code = U_ZERO_ERROR;
  u_charName(static_cast<UChar32>(code_point), U_UNICODE_CHAR_NAME, name.data(),
             static_cast<std::int32_t>(name.size()), &code);
  if (U_FAILURE(code) || name[0] == '\0') return text + kind_of_nameless(code_point);
  return text + " " + name.data();
}

std::string quote(std::string_view text) {
  constexpr std::size_t most = 60;
  std::string inner;
  std::size_t length = 0;   // code points so far
  std::string before_last;  // what fits when an ellipsis must follow
  for (std::size_t at = 0; at < text.size();) {
    const Scanned step = scan_utf8(text, at);
    const std::string unit = shown(text, at, step);
    const std::size_t unit_length = unit.size() == step.length ? 1 : unit.size();
    if (length < most && length + unit_length >= most) before_last = inner;
    if (length + unit_length > most) return "“" + before_last + "…”";
    inner += unit;
    length += unit_length;
    at += step.length;
  }
  return "“" + inner + "”";
}

bool knows_encoding(const std::string& name) {
  UErrorCode code = U_ZERO_ERROR;
  const Converter converter(ucnv_open(name.c_str(), &code));
  // An empty name would be the machine's own encoding.
  return !name.empty() && U_SUCCESS(code) && converter != nullptr;
}

std::optional<std::string> to_utf8(std::string_view bytes, const std::string& encoding) {
  UErrorCode code = U_ZERO_ERROR;
  const Converter converter(encoding.empty() ? nullptr : ucnv_open(encoding.c_str(), &code));
  if (U_FAILURE(code) || converter == nullptr) return std::nullopt;
  ucnv_setToUCallBack(converter.get(), UCNV_TO_U_CALLBACK_STOP, nullptr, nullptr, nullptr, &code);
  const auto source = piece(bytes);
  icu::UnicodeString text;
  // One code unit a byte is the most that any encoding makes, but for a few; ICU says when it is not enough.
  std::int32_t room = source.length() + 16;
  for (int tries = 0; tries < 3; ++tries, room *= 2) {
    code = U_ZERO_ERROR;
    ucnv_resetToUnicode(converter.get());
    char16_t* buffer = text.getBuffer(room);
    if (buffer == nullptr) return std::nullopt;
    const std::int32_t length =
        ucnv_toUChars(converter.get(), buffer, room, source.data(), source.length(), &code);
    text.releaseBuffer(U_SUCCESS(code) ? length : 0);
    if (code != U_BUFFER_OVERFLOW_ERROR) break;
  }
  if (U_FAILURE(code)) return std::nullopt;
  if (!text.isEmpty() && text.charAt(0) == 0xfeff) text.remove(0, 1);
  std::string out;
  text.toUTF8String(out);
  return out;
}

}  // namespace lathbook
