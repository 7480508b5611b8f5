// Files of a bag as they are written: every byte is counted and digested on its way.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <ostream>
#include <streambuf>
#include <string>
#include <vector>

#include "core/base/digest.hpp"
#include "core/plugin/plugin.hpp"

namespace lathbook::bag {

/// Hands bytes on to a stream and digests them. The stream outlives it.
class DigestingBuffer : public std::streambuf {
public:
  explicit DigestingBuffer(std::ostream& out) : out_(out), hash_("sha512") {}
  std::uint64_t bytes() const { return bytes_; }
  /// SHA-512 of everything written, hexadecimal. To be called once.
  std::string finish() { return hash_.finish(); }

protected:
  int_type overflow(int_type c) override;
  std::streamsize xsputn(const char* text, std::streamsize size) override;
  int sync() override;

private:
  std::ostream& out_;
  NamedHash hash_;
  std::uint64_t bytes_ = 0;
};

/// What a manifest says of a file.
struct Packed {
  std::string path;
  std::string sha512;
  std::uint64_t bytes = 0;
};

/// Writes one file of the bag and gives its line of the manifest.
Packed pack(FolderSink& out, const std::string& path, const std::function<void(std::ostream&)>& write);
/// The text of a manifest: digest, two blanks, path, ordered by path.
std::string manifest_text(std::vector<Packed> files);

}  // namespace lathbook::bag
