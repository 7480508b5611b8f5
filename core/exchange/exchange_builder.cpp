#include "core/exchange/exchange_builder.hpp"

#include <algorithm>

#include "core/base/base64.hpp"
#include "core/base/error.hpp"
#include "core/base/number.hpp"
#include "core/base/text.hpp"
#include "core/evidence/encoding.hpp"
#include "core/evidence/validation.hpp"
#include "core/exchange/xml_out.hpp"

namespace lathbook {

namespace {

[[noreturn]] void refuse_value(std::string_view attribute, std::string_view value, const char* wanted) {
  fail(ErrorKind::invalid, "the attribute '" + std::string(attribute) + "' holds " + quote(value) +
                               " where " + wanted + " is wanted");
}

Digest digest(const PartAttributes& attributes, std::string_view name) {
  const auto text = attributes.get(name);
  const auto value = Digest::from_hex(text);
  if (!value) refuse_value(name, text, "a SHA-256 of 64 hexadecimal digits");
  return *value;
}

Uuid uuid(const PartAttributes& attributes, std::string_view name) {
  const auto text = attributes.get(name);
  const auto value = Uuid::parse(text);
  if (!value) refuse_value(name, text, "a UUID");
  return *value;
}

std::uint64_t number(const PartAttributes& attributes, std::string_view name) {
  const auto text = attributes.get(name);
  const auto value = number_in<std::uint64_t>(text);
  if (!value) refuse_value(name, text, "a whole number");
  return *value;
}

}  // namespace

void ChainFollower::close(std::vector<Link>& links) {
  for (const auto& link : links) {
    if (!link.named) ends_.push_back(link.id);
  }
  links.clear();
}

void ChainFollower::follow(const Header& header, const Digest& id) {
  const auto name = short_name(header.chain, header.number);
  const bool same_chain = started_ && header.chain == chain_;
  if (started_ && (header.chain < chain_ || (same_chain && header.number < number_) ||
                   (same_chain && header.number == number_ && id <= now_.back().id))) {
    fail(ErrorKind::invalid,
         "statement " + name + " is out of order: statements come by chain, number and id, each once");
  }
  if (!same_chain) {
    close(before_);
    close(now_);
  } else if (header.number != number_) {
    close(before_);
    before_.swap(now_);
  }
  const auto expected = same_chain ? (header.number == number_ ? number_ : number_ + 1) : 1;
  if (header.number != expected) {
    fail(ErrorKind::corrupt,
         "statement " + short_name(header.chain, expected) + " is missing before " + name);
  }
  if (header.previous) {
    const auto found =
        std::lower_bound(before_.begin(), before_.end(), *header.previous,
                         [](const Link& link, const Digest& wanted) { return link.id < wanted; });
    if (found == before_.end() || found->id != *header.previous) {
      fail(ErrorKind::corrupt, "statement " + name + " follows a statement that is not in this document");
    }
    found->named = true;
  }
  started_ = true;
  chain_ = header.chain;
  number_ = header.number;
  now_.push_back({id, false});
  seen_.insert(header.seen.begin(), header.seen.end());
}

std::vector<Digest> ChainFollower::heads() {
  close(before_);
  close(now_);
  std::erase_if(ends_, [this](const Digest& id) { return seen_.contains(id); });
  return std::move(ends_);
}

ExchangeBuilder::ExchangeBuilder(LedgerSink& sink, const ExchangeLimits& limits)
    : sink_(sink), limits_(limits), registry_(Registry::standard()) {}

std::string ExchangeBuilder::name() const {
  return short_name(sealed_.header.chain, sealed_.header.number);
}

void ExchangeBuilder::start_document(const PartAttributes& attributes) {
  const auto format = attributes.get("format");
  if (format != kExchangeFormat) {
    fail(ErrorKind::unsupported,
         "the document is of format " + quote(format) +
             ", this program reads format 1; use the program that wrote it, or a newer one");
  }
  summary_.archive = uuid(attributes, "archive");
  summary_.fingerprint = digest(attributes, "fingerprint");
  count_stated_ = number(attributes, "statements");
}

void ExchangeBuilder::start_statement(const PartAttributes& attributes) {
  sealed_ = {};
  content_ = {};
  has_content_ = false;
  auto& header = sealed_.header;
  const auto chain = chain_from_hex(attributes.get("chain"));
  if (!chain) refuse_value("chain", attributes.get("chain"), "a chain of 32 small hexadecimal digits");
  header.chain = *chain;
  header.number = number(attributes, "n");
  id_stated_ = digest(attributes, "id");
  if (attributes.find("previous") != nullptr) header.previous = digest(attributes, "previous");
  if (header.number == 0 || (header.number == 1) == header.previous.has_value()) {
    fail(ErrorKind::invalid,
         "statement " + name() +
             ": the first of a chain has the number 1 and no predecessor, every other has one");
  }
  const auto entered = Moment::parse(attributes.get("entered"));
  if (!entered) refuse_value("entered", attributes.get("entered"), "a moment like 2026-05-03T10:15:00+02:00");
  header.entered = *entered;
  const auto presence = attributes.get("presence");
  if (presence == "withheld") {
    sealed_.presence = Presence::withheld;
  } else if (presence == "expunged") {
    sealed_.presence = Presence::expunged;
  } else if (!presence.empty() && presence != "present") {
    refuse_value("presence", presence, "present, withheld or expunged");
  }
  has_salt_ = attributes.find("salt") != nullptr;
  const bool present = sealed_.presence == Presence::present;
  if (has_salt_ != present || (attributes.find("content") != nullptr) == present) {
    fail(
        ErrorKind::invalid,
        "statement " + name() +
            ": one with content has a salt, one without has the digest of its content, and neither has both");
  }
  if (present) {
    sealed_.salt = digest(attributes, "salt").bytes;
  } else {
    header.content = digest(attributes, "content");
  }
}

void ExchangeBuilder::set_property(const PartAttributes& attributes) {
  if (content_.act != Act::state) {
    if (attributes.find("property-id") != nullptr || attributes.find("subject") != nullptr) {
      fail(ErrorKind::invalid,
           "statement " + name() + " takes others back and yet says something of a record");
    }
    return;
  }
  content_.subject = uuid(attributes, "subject");
  const auto id = number(attributes, "property-id");
  const auto* property = id <= UINT32_MAX ? registry_.find(static_cast<std::uint32_t>(id)) : nullptr;
  if (property == nullptr) {
    fail(ErrorKind::unsupported, "statement " + name() + " has the property " +
                                     quote(attributes.get("property")) + " (" + std::to_string(id) +
                                     "), which this program does not know; a newer one may");
  }
  content_.property = property->id;
}

void ExchangeBuilder::start_says(const PartAttributes& attributes) {
  has_content_ = true;
  if (const auto* text = attributes.find("act")) {
    const auto act = act_from_word(*text);
    if (!act) refuse_value("act", *text, "state, withdraw or expunge");
    content_.act = *act;
  }
  set_property(attributes);
  content_.edtf = attributes.get("edtf");
  content_.language = attributes.get("language");
  if (attributes.find("author") != nullptr) content_.author = uuid(attributes, "author");
  content_.said_on = attributes.get("said-on");
  if (attributes.find("recorder") != nullptr) content_.recorder = uuid(attributes, "recorder");
  if (const auto* text = attributes.find("class")) {
    const auto evidence = class_from_word(*text);
    if (!evidence || text->empty())
      refuse_value("class", *text, "physical, documentary, oral or comparative");
    content_.evidence = *evidence;
  }
  if (const auto* text = attributes.find("confidence")) {
    const auto confidence = confidence_from_word(*text);
    if (!confidence || text->empty())
      refuse_value("confidence", *text, "certain, probable, possible or conjecture");
    content_.confidence = *confidence;
  }
  content_.proposed_by = attributes.get("proposed-by");
}

void ExchangeBuilder::start_media(const PartAttributes& attributes) {
  MediaFile file;
  file.digest = digest(attributes, "sha256");
  file.bytes = number(attributes, "bytes");
  // The path is told for people; nothing is ever opened by it.
  if (attributes.get("path") != media_path(file.digest)) {
    refuse_value("path", attributes.get("path"), "the path that goes with the digest");
  }
  if (!summary_.media.empty() && file.digest <= summary_.media.back().digest) {
    fail(ErrorKind::invalid, "the media are out of order: they come by digest, each once");
  }
  if (summary_.media.size() >= limits_.media)
    fail(ErrorKind::invalid, "the document lists more media than are allowed");
  summary_.media.push_back(std::move(file));
}

void ExchangeBuilder::start(Part part, const PartAttributes& attributes) {
  switch (part) {
    case Part::document:
      return start_document(attributes);
    case Part::statement:
      return start_statement(attributes);
    case Part::says:
      return start_says(attributes);
    case Part::media:
      return start_media(attributes);
    case Part::seen:
      sealed_.header.seen.push_back(digest(attributes, "id"));
      return;
    case Part::target:
      content_.targets.push_back(digest(attributes, "id"));
      return;
    case Part::ground:
      content_.grounds.push_back(digest(attributes, "id"));
      return;
    case Part::qualifier:
      content_.qualifiers.push_back({std::string(attributes.get("name")), {}});
      return;
    case Part::citation:
      content_.citations.push_back({uuid(attributes, "source"), std::string(attributes.get("locator")), {}});
      return;
    case Part::privacy:
      content_.privacy = Privacy{{}, std::string(attributes.get("until"))};
      return;
    case Part::bytes:
    case Part::value:
    case Part::why:
      return;
  }
}

void ExchangeBuilder::end(Part part, const std::string& words) {
  switch (part) {
    case Part::statement:
      return end_statement();
    case Part::value:
      content_.value = words;
      return;
    case Part::qualifier:
      content_.qualifiers.back().value = words;
      return;
    case Part::citation:
      content_.citations.back().quote = words;
      return;
    case Part::why:
      content_.why = words;
      return;
    case Part::privacy:
      content_.privacy->reason = words;
      return;
    case Part::bytes: {
      const auto bytes = from_base64(words);
      if (!bytes)
        fail(ErrorKind::invalid,
             "statement " + name() + ": its bytes are not base64 as this format writes it");
      content_ = decode_content(*bytes);
      has_content_ = true;
      return;
    }
    case Part::document:
    case Part::seen:
    case Part::says:
    case Part::target:
    case Part::ground:
    case Part::media:
      return;
  }
}

// Forms only: whether the records exist and the rules across statements hold is for the archive to say.
void ExchangeBuilder::check_content() {
  if (content_.act != Act::state) return;
  const auto* property = registry_.find(content_.property);
  if (property == nullptr) {
    fail(ErrorKind::unsupported, "statement " + name() + " has the property " +
                                     std::to_string(content_.property) +
                                     ", which this program does not know; a newer one may");
  }
  std::string why;
  const bool dated_in_words = property->type == ValueType::date && !content_.edtf.empty();
  const auto& value = dated_in_words ? content_.edtf : content_.value;
  const bool good = property->type == ValueType::date
                        ? is_date(value, why)
                        : well_formed(property->type, property->choices, value, registry_, why);
  if (!good) fail(ErrorKind::invalid, "statement " + name() + ": '" + property->name + "' " + why);
  if (!content_.said_on.empty() && !is_date(content_.said_on, why)) {
    fail(ErrorKind::invalid, "statement " + name() + ": the day of saying " + why);
  }
}

// Whole days of survey carry one date, so those read before are remembered.
bool ExchangeBuilder::is_date(const std::string& text, std::string& why) {
  constexpr std::size_t kMostRemembered = 4096;
  if (dates_.contains(text)) return true;
  if (!well_formed(ValueType::date, "", text, registry_, why)) return false;
  if (dates_.size() >= kMostRemembered) dates_.clear();
  dates_.insert(text);
  return true;
}

void ExchangeBuilder::end_statement() {
  if (has_content_ != (sealed_.presence == Presence::present)) {
    fail(ErrorKind::invalid, has_content_
                                 ? "statement " + name() + " is withheld or expunged and yet has content"
                                 : "statement " + name() + " has no content");
  }
  auto& header = sealed_.header;
  if (has_content_) {
    sealed_.content = encode_content(content_);
    header.content = content_digest(sealed_.salt, sealed_.content);
  }
  const auto id = sealed_.id();
  if (id != id_stated_) {
    fail(ErrorKind::corrupt, "statement " + name() + " has been changed: what it says does not fit its id");
  }
  if (has_content_) check_content();
  chains_.follow(header, id);
  ++summary_.statements;
  switch (sink_.take(sealed_)) {
    case Taken::added:
      ++summary_.added;
      break;
    case Taken::known:
      ++summary_.known;
      break;
    case Taken::filled:
      ++summary_.filled;
      break;
    case Taken::expunged:
      ++summary_.expunged;
      break;
  }
}

ExchangeSummary ExchangeBuilder::finish() {
  if (summary_.statements != count_stated_) {
    fail(ErrorKind::invalid, "the document states " + std::to_string(count_stated_) +
                                 " statements and holds " + std::to_string(summary_.statements));
  }
  const auto fingerprint = fingerprint_of(chains_.heads());
  if (fingerprint != summary_.fingerprint) {
    fail(ErrorKind::corrupt, "the document states the fingerprint " + summary_.fingerprint.hex() +
                                 ", but what it holds has " + fingerprint.hex() +
                                 "; statements at an end are missing or were added");
  }
  return std::move(summary_);
}

}  // namespace lathbook
