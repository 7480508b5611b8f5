// Reads an exchange document (docs/exchange.md) as a stream; trusts nothing in it.
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/api.hpp"
#include "core/evidence/ledger.hpp"

namespace lathbook {

struct ExchangeLimits {
  std::size_t text_bytes = std::size_t{1} << 20U;       ///< of the words of one element
  std::size_t attribute_bytes = std::size_t{1} << 16U;  ///< of one attribute
  /// Of what must be held before it can be read: a start tag, a comment.
  std::size_t pending_bytes = std::size_t{1} << 20U;
  std::uint64_t media = 10'000'000;  ///< files listed
};

/// What a document held and what became of it.
struct ExchangeSummary {
  Uuid archive;
  Digest fingerprint;  ///< as stated, and as computed from what arrived
  std::uint64_t statements = 0;
  std::uint64_t added = 0;
  std::uint64_t known = 0;
  std::uint64_t filled = 0;
  std::uint64_t expunged = 0;  ///< content offered for a statement that is expunged here
  /// The files listed; `path` is where the file lies beside the document, empty when it is not there (its
  /// bytes are not looked at: the taker checks them).
  std::vector<MediaFile> media;
};

/// Offers every statement of a document to the sink, in exchange order. On any throw the owner rolls back.
/// Every sentence begins with file:line:column. Throws Error(not_found) for a missing file; Error(invalid)
/// for a folder, an empty file, malformed XML, a document type declaration, bytes that are not UTF-8, a wrong
/// element, order, attribute or value form, words over the limits, a count that does not fit; Error(corrupt)
/// for a statement that does not fit its id or its predecessor, and a fingerprint that does not fit;
/// Error(unsupported) for another format or an unknown property.
LATHBOOK_API ExchangeSummary read_exchange(const std::filesystem::path& file, LedgerSink& sink,
                                           const ExchangeLimits& limits = {});

/// The same for bytes that arrive in pieces of any size. After a throw the object is of no more use.
class LATHBOOK_API ExchangeParser {
public:
  /// `name` stands for the file in sentences.
  ExchangeParser(std::string name, LedgerSink& sink, const ExchangeLimits& limits = {});
  ~ExchangeParser();
  ExchangeParser(const ExchangeParser&) = delete;
  ExchangeParser& operator=(const ExchangeParser&) = delete;
  void feed(std::string_view bytes);
  ExchangeSummary finish();

private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace lathbook
