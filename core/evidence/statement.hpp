// The statement: one cited thing said about one record, and the chained header that names it.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/api.hpp"
#include "core/base/clock.hpp"
#include "core/base/digest.hpp"
#include "core/base/identifier.hpp"

namespace lathbook {

/// What a statement does. Stored and digested as these words: never change them.
enum class Act : std::uint8_t {
  state,     ///< says something (and may replace older statements)
  withdraw,  ///< takes other statements back, with a reason
  expunge    ///< destroys the content of other statements for good, with a reason
};

/// What kind of evidence a statement rests on; a separate thing from how sure its author is.
enum class EvidenceClass : std::uint8_t { none, physical, documentary, oral, comparative };

/// How sure the author is. Conjecture is kept and printed but never dates anything.
enum class Confidence : std::uint8_t { none, certain, probable, possible, conjecture };

LATHBOOK_API std::string_view word(Act act);
LATHBOOK_API std::string_view word(EvidenceClass evidence);
LATHBOOK_API std::string_view word(Confidence confidence);
LATHBOOK_API std::optional<Act> act_from_word(std::string_view text);
LATHBOOK_API std::optional<EvidenceClass> class_from_word(std::string_view text);
LATHBOOK_API std::optional<Confidence> confidence_from_word(std::string_view text);

/// A source and the spot in it: page, sheet, frame, time code, place on the wall.
struct Citation {
  Uuid source;
  std::string locator;
  std::string quote;  ///< the words of the source, as they stand
  bool operator==(const Citation&) const = default;
};

/// A named detail of a statement (contact read, placement, period of use, ground). Which are allowed is
/// the registry's business.
struct Qualifier {
  std::string name;
  std::string value;
  bool operator==(const Qualifier&) const = default;
};

/// Why a statement is kept from public output, and until which day (EDTF; empty = for ever).
struct Privacy {
  std::string reason;
  std::string until;
  bool operator==(const Privacy&) const = default;
};

/// Everything a statement says. All of it can be withheld or expunged; the header cannot.
struct LATHBOOK_API Content {
  Act act = Act::state;
  Uuid subject;                ///< nil for withdraw and expunge
  std::uint32_t property = 0;  ///< permanent id from the registry; 0 for withdraw and expunge
  std::string value;           ///< as typed: text, EDTF or words for a date, a record's UUID, a number ...
  std::string edtf;            ///< for a date that was typed in words: the EDTF understood
  std::string language;        ///< BCP 47, for text that is not in the archive's own language
  std::vector<Qualifier> qualifiers;
  std::optional<Uuid> author;    ///< who observed or said it
  std::string said_on;           ///< EDTF day of observing or saying; may be vague; empty when not known
  std::optional<Uuid> recorder;  ///< who entered it (when is in the header)
  EvidenceClass evidence = EvidenceClass::none;
  Confidence confidence = Confidence::none;
  std::vector<Citation> citations;
  std::vector<Digest> targets;  ///< statements it replaces, withdraws or expunges
  std::vector<Digest> grounds;  ///< statements it is concluded from
  std::string why;              ///< reason of a replacement, withdrawal or expunging; remark otherwise
  std::optional<Privacy> privacy;
  std::string proposed_by;  ///< plugin name and version when a plugin drafted it
  bool operator==(const Content&) const = default;

  /// The value of a qualifier, empty when it is not there.
  std::string_view qualifier(std::string_view name) const;
};

using ChainId = std::array<std::uint8_t, 16>;

/// What stays in clear for ever (docs/format.md has the bytes and a worked example).
struct LATHBOOK_API Header {
  ChainId chain{};
  std::uint64_t number = 0;        ///< runs from 1 within its chain
  std::optional<Digest> previous;  ///< absent for the first of a chain
  std::vector<Digest> seen;        ///< sorted heads of other chains, when merged since the last one
  Moment entered;
  Digest content;  ///< SHA-256(salt || content bytes)
  bool operator==(const Header&) const = default;
};

using Salt = std::array<std::uint8_t, 32>;

enum class Presence : std::uint8_t { present = 0, withheld = 1, expunged = 2 };

/// A statement as stored: the header, and the sealed content unless it is withheld or expunged.
struct LATHBOOK_API Sealed {
  Header header;
  Presence presence = Presence::present;
  Salt salt{};
  std::string content;  ///< the digested bytes as written; empty unless present
  /// SHA-256 of the header's bytes: the statement's id.
  Digest id() const;
};

/// The short name of a statement: the first eight hexadecimal digits of its chain, a hyphen, the number.
LATHBOOK_API std::string short_name(const ChainId& chain, std::uint64_t number);
LATHBOOK_API std::string hex(const ChainId& chain);
LATHBOOK_API std::optional<ChainId> chain_from_hex(std::string_view text);

/// A statement read back: who, when and what, with its state in this reading.
struct Statement {
  std::int64_t row = 0;  ///< the number of the statement in this copy only; never printed
  Digest id;
  Header header;
  Presence presence = Presence::present;
  Content content;  ///< empty unless present
  bool current = true;
  std::string name() const { return short_name(header.chain, header.number); }
};

/// Digest of the sorted heads: names the exact state of an archive.
LATHBOOK_API Digest fingerprint_of(std::vector<Digest> heads);

}  // namespace lathbook
