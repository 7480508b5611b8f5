// Puts values into patterns with ICU.
#include "core/base/message.hpp"

#include <unicode/fmtable.h>
#include <unicode/locid.h>
#include <unicode/msgfmt.h>
#include <unicode/unistr.h>

#include "core/base/error.hpp"

namespace lathbook {

namespace {

icu::UnicodeString unicode(std::string_view text) {
  return icu::UnicodeString::fromUTF8(icu::StringPiece(text.data(), static_cast<std::int32_t>(text.size())));
}

icu::Formattable formattable(const MessageValue& value) {
  if (const auto* number = std::get_if<std::int64_t>(&value)) return icu::Formattable(*number);
  return icu::Formattable(unicode(std::get<std::string>(value)));
}

}  // namespace

std::string message(std::string_view language, std::string_view pattern, const MessageValues& values) {
  UErrorCode code = U_ZERO_ERROR;
  const icu::MessageFormat format(unicode(pattern), icu::Locale(std::string(language).c_str()), code);
  std::vector<icu::UnicodeString> names;
  std::vector<icu::Formattable> arguments;
  for (const auto& [name, value] : values) {
    names.push_back(unicode(name));
    arguments.push_back(formattable(value));
  }
  icu::UnicodeString out;
  if (U_SUCCESS(code))
    format.format(names.data(), arguments.data(), static_cast<std::int32_t>(names.size()), out, code);
  if (U_FAILURE(code))
    fail(ErrorKind::corrupt, "the pattern \"" + std::string(pattern) + "\" cannot be used (" +
                                 u_errorName(code) + "); mend the table of words");
  std::string bytes;
  out.toUTF8String(bytes);
  return bytes;
}

}  // namespace lathbook
