#include "core/evidence/encoding.hpp"

#include <algorithm>
#include <cstring>
#include <functional>

#include "core/base/error.hpp"

namespace lathbook {

namespace {

constexpr std::string_view kHeaderMagic = "LBH1";
constexpr std::string_view kContentMagic = "LBC1";
constexpr std::size_t kMostContent = 64U << 20U;

// Field numbers of a content, in the order in which they are written. On disk: never change.
enum Field : std::uint8_t {
  kAct = 1,
  kSubject = 2,
  kProperty = 3,
  kValue = 4,
  kEdtf = 5,
  kLanguage = 6,
  kQualifierName = 7,  // followed by kQualifierValue
  kQualifierValue = 8,
  kAuthor = 9,
  kSaidOn = 10,
  kRecorder = 11,
  kEvidence = 12,
  kConfidence = 13,
  kCitationSource = 14,  // followed by kCitationLocator and kCitationQuote
  kCitationLocator = 15,
  kCitationQuote = 16,
  kTarget = 17,
  kGround = 18,
  kWhy = 19,
  kPrivacyReason = 20,  // followed by kPrivacyUntil
  kPrivacyUntil = 21,
  kProposedBy = 22
};

void put_number(std::string& out, std::uint64_t value, unsigned bytes) {
  for (unsigned i = 0; i < bytes; ++i) out += static_cast<char>((value >> (8U * i)) & 0xffU);
}

template <std::size_t size>
void put_bytes(std::string& out, const std::array<std::uint8_t, size>& bytes) {
  out.append(reinterpret_cast<const char*>(bytes.data()), bytes.size());
}

void put_field(std::string& out, Field field, std::string_view bytes) {
  out += static_cast<char>(field);
  put_number(out, bytes.size(), 4);
  out += bytes;
}

void put_text(std::string& out, Field field, std::string_view bytes) {
  if (!bytes.empty()) put_field(out, field, bytes);
}

template <std::size_t size>
std::string_view view(const std::array<std::uint8_t, size>& bytes) {
  return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

// Takes bytes from the front and refuses to run past the end.
class Cursor {
public:
  Cursor(std::string_view bytes, const char* what) : bytes_(bytes), what_(what) {}
  bool at_end() const { return position_ == bytes_.size(); }
  std::string_view take(std::size_t count) {
    if (count > bytes_.size() - position_) refuse("ends too early");
    const auto part = bytes_.substr(position_, count);
    position_ += count;
    return part;
  }
  std::uint64_t number(unsigned bytes) {
    const auto part = take(bytes);
    std::uint64_t value = 0;
    for (unsigned i = bytes; i-- > 0;) value = (value << 8U) | static_cast<std::uint8_t>(part[i]);
    return value;
  }
  template <std::size_t size>
  std::array<std::uint8_t, size> array() {
    std::array<std::uint8_t, size> out{};
    std::memcpy(out.data(), take(size).data(), size);
    return out;
  }
  [[noreturn]] void refuse(const std::string& why) const {
    fail(ErrorKind::corrupt, std::string("the bytes of a statement's ") + what_ + " are damaged at offset " +
                                 std::to_string(position_) + ": " + why);
  }

private:
  std::string_view bytes_;
  const char* what_;
  std::size_t position_ = 0;
};

template <std::size_t size>
std::array<std::uint8_t, size> exact(const Cursor& cursor, std::string_view bytes) {
  if (bytes.size() != size) cursor.refuse("a field has the wrong length");
  std::array<std::uint8_t, size> out{};
  std::memcpy(out.data(), bytes.data(), size);
  return out;
}

std::uint32_t property_number(const Cursor& cursor, std::string_view bytes) {
  if (bytes.size() != 4) cursor.refuse("a property id has the wrong length");
  std::uint32_t value = 0;
  for (std::size_t i = 4; i-- > 0;) value = (value << 8U) | static_cast<std::uint8_t>(bytes[i]);
  if (value == 0) cursor.refuse("a property id is nought");
  return value;
}

void read_field(Content& content, const Cursor& cursor, std::uint8_t field, std::string_view bytes) {
  const auto text = [&](std::string& into) {
    if (bytes.empty()) cursor.refuse("an empty field is written out");
    into = bytes;
  };
  switch (field) {
    case kAct: {
      const auto act = act_from_word(bytes);
      if (!act) cursor.refuse("an unknown act");
      content.act = *act;
      return;
    }
    case kSubject:
      content.subject.bytes = exact<16>(cursor, bytes);
      if (content.subject == Uuid{}) cursor.refuse("an empty field is written out");
      return;
    case kProperty:
      content.property = property_number(cursor, bytes);
      return;
    case kValue:
      return text(content.value);
    case kEdtf:
      return text(content.edtf);
    case kLanguage:
      return text(content.language);
    case kQualifierName:
      content.qualifiers.push_back({std::string(bytes), {}});
      return;
    case kQualifierValue:
      content.qualifiers.back().value = bytes;
      return;
    case kAuthor:
      content.author = Uuid{exact<16>(cursor, bytes)};
      return;
    case kSaidOn:
      return text(content.said_on);
    case kRecorder:
      content.recorder = Uuid{exact<16>(cursor, bytes)};
      return;
    case kEvidence: {
      const auto evidence = class_from_word(bytes);
      if (!evidence || bytes.empty()) cursor.refuse("an unknown class of evidence");
      content.evidence = *evidence;
      return;
    }
    case kConfidence: {
      const auto confidence = confidence_from_word(bytes);
      if (!confidence || bytes.empty()) cursor.refuse("an unknown confidence");
      content.confidence = *confidence;
      return;
    }
    case kCitationSource:
      content.citations.push_back({Uuid{exact<16>(cursor, bytes)}, {}, {}});
      return;
    case kCitationLocator:
      content.citations.back().locator = bytes;
      return;
    case kCitationQuote:
      content.citations.back().quote = bytes;
      return;
    case kTarget:
      content.targets.push_back(Digest{exact<32>(cursor, bytes)});
      return;
    case kGround:
      content.grounds.push_back(Digest{exact<32>(cursor, bytes)});
      return;
    case kWhy:
      return text(content.why);
    case kPrivacyReason:
      content.privacy = Privacy{std::string(bytes), {}};
      return;
    case kPrivacyUntil:
      content.privacy->until = bytes;
      return;
    case kProposedBy:
      return text(content.proposed_by);
    default:
      cursor.refuse("an unknown field " + std::to_string(field));
  }
}

// The field that must follow, where a group has been begun; nought elsewhere.
std::uint8_t owed_after(std::uint8_t field) {
  switch (field) {
    case kQualifierName:
    case kCitationSource:
    case kCitationLocator:
    case kPrivacyReason:
      return static_cast<std::uint8_t>(field + 1);
    default:
      return 0;
  }
}

// Groups are written whole and may repeat, but for privacy; lists may repeat; all else goes upward.
bool may_follow(std::uint8_t before, std::uint8_t field) {
  if (const auto owed = owed_after(before); owed != 0) return field == owed;
  switch (field) {
    case kQualifierName:
      return before <= kQualifierValue;
    case kCitationSource:
      return before <= kCitationQuote;
    case kQualifierValue:
    case kCitationLocator:
    case kCitationQuote:
    case kPrivacyUntil:
      return false;
    case kTarget:
    case kGround:
      return before <= field;
    default:
      return before < field;
  }
}

}  // namespace

std::string encode_header(const Header& header) {
  if (!std::is_sorted(header.seen.begin(), header.seen.end()) ||
      std::adjacent_find(header.seen.begin(), header.seen.end()) != header.seen.end()) {
    fail(ErrorKind::invalid, "the heads seen by a statement must be sorted and named once");
  }
  std::string out(kHeaderMagic);
  put_bytes(out, header.chain);
  put_number(out, header.number, 8);
  out += header.previous ? '\1' : '\0';
  if (header.previous) put_bytes(out, header.previous->bytes);
  put_number(out, header.seen.size(), 4);
  for (const auto& head : header.seen) put_bytes(out, head.bytes);
  put_number(out, static_cast<std::uint64_t>(header.entered.seconds), 8);
  put_number(out, static_cast<std::uint16_t>(header.entered.offset_minutes), 2);
  put_bytes(out, header.content.bytes);
  return out;
}

Header decode_header(std::string_view bytes) {
  Cursor cursor(bytes, "header");
  Header header;
  if (cursor.take(kHeaderMagic.size()) != kHeaderMagic) {
    cursor.refuse("it is of a format that this program does not know");
  }
  header.chain = cursor.array<16>();
  header.number = cursor.number(8);
  const auto has_previous = cursor.number(1);
  if (has_previous > 1) cursor.refuse("a flag is neither 0 nor 1");
  if (has_previous == 1) header.previous = Digest{cursor.array<32>()};
  const auto seen = cursor.number(4);
  for (std::uint64_t i = 0; i < seen; ++i) header.seen.push_back(Digest{cursor.array<32>()});
  if (std::adjacent_find(header.seen.begin(), header.seen.end(), std::greater_equal<>{}) !=
      header.seen.end()) {
    cursor.refuse("the heads it has seen are not sorted or not named once");
  }
  header.entered.seconds = static_cast<std::int64_t>(cursor.number(8));
  header.entered.offset_minutes = static_cast<std::int16_t>(cursor.number(2));
  header.content.bytes = cursor.array<32>();
  if (!cursor.at_end()) cursor.refuse("there is more than a header");
  if (header.number == 0 || (header.number == 1) == header.previous.has_value()) {
    cursor.refuse("its running number does not fit its predecessor");
  }
  return header;
}

std::string encode_content(const Content& content) {
  std::string out(kContentMagic);
  out.reserve(256 + content.value.size() + content.why.size());
  put_field(out, kAct, word(content.act));
  if (content.subject != Uuid{}) put_field(out, kSubject, view(content.subject.bytes));
  if (content.property != 0) {
    std::string number;
    put_number(number, content.property, 4);
    put_field(out, kProperty, number);
  }
  put_text(out, kValue, content.value);
  put_text(out, kEdtf, content.edtf);
  put_text(out, kLanguage, content.language);
  for (const auto& qualifier : content.qualifiers) {
    put_field(out, kQualifierName, qualifier.name);
    put_field(out, kQualifierValue, qualifier.value);
  }
  if (content.author) put_field(out, kAuthor, view(content.author->bytes));
  put_text(out, kSaidOn, content.said_on);
  if (content.recorder) put_field(out, kRecorder, view(content.recorder->bytes));
  put_text(out, kEvidence, word(content.evidence));
  put_text(out, kConfidence, word(content.confidence));
  for (const auto& citation : content.citations) {
    put_field(out, kCitationSource, view(citation.source.bytes));
    put_field(out, kCitationLocator, citation.locator);
    put_field(out, kCitationQuote, citation.quote);
  }
  for (const auto& target : content.targets) put_field(out, kTarget, view(target.bytes));
  for (const auto& ground : content.grounds) put_field(out, kGround, view(ground.bytes));
  put_text(out, kWhy, content.why);
  if (content.privacy) {
    put_field(out, kPrivacyReason, content.privacy->reason);
    put_field(out, kPrivacyUntil, content.privacy->until);
  }
  put_text(out, kProposedBy, content.proposed_by);
  if (out.size() > kMostContent) fail(ErrorKind::invalid, "a statement may hold at most 64 MiB");
  return out;
}

Content decode_content(std::string_view bytes) {
  Content content;
  decode_content(bytes, content);
  return content;
}

void decode_content(std::string_view bytes, Content& into) {
  Cursor cursor(bytes, "content");
  if (bytes.size() > kMostContent) cursor.refuse("it is larger than 64 MiB");
  if (cursor.take(kContentMagic.size()) != kContentMagic) {
    cursor.refuse("it is of a format that this program does not know");
  }
  Content content;
  content.value.swap(into.value);
  content.qualifiers.swap(into.qualifiers);
  content.citations.swap(into.citations);
  content.value.clear();
  content.qualifiers.clear();
  content.citations.clear();
  std::uint8_t before = 0;
  while (!cursor.at_end()) {
    const auto field = static_cast<std::uint8_t>(cursor.number(1));
    const auto length = cursor.number(4);
    const auto value = cursor.take(static_cast<std::size_t>(length));
    if (before == 0 && field != kAct) cursor.refuse("it does not begin with what it does");
    if (!may_follow(before, field)) cursor.refuse("field " + std::to_string(field) + " is out of order");
    read_field(content, cursor, field, value);
    before = field;
  }
  if (before == 0 || owed_after(before) != 0) cursor.refuse("it stops in the middle of a group");
  into = std::move(content);
}

Digest content_digest(const Salt& salt, std::string_view content) {
  std::string both(view(salt));
  both += content;
  return sha256(both);
}

Sealed seal(const Content& content, Header header, const Salt& salt) {
  Sealed sealed;
  sealed.salt = salt;
  sealed.content = encode_content(content);
  header.content = content_digest(salt, sealed.content);
  sealed.header = std::move(header);
  return sealed;
}

Sealed seal(const Content& content, Header header) {
  Salt salt{};
  random_bytes(salt.data(), salt.size());
  return seal(content, std::move(header), salt);
}

void require_sound(const Sealed& sealed) {
  if (sealed.presence != Presence::present) return;
  if (content_digest(sealed.salt, sealed.content) != sealed.header.content) {
    fail(ErrorKind::corrupt, "statement " + short_name(sealed.header.chain, sealed.header.number) +
                                 " has been changed: its content does not fit its digest");
  }
}

}  // namespace lathbook
