#include "core/base/digest.hpp"

#include <fcntl.h>
#include <openssl/evp.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <memory>
#include <system_error>
#include <utility>
#include <vector>

#include "core/base/error.hpp"
#include "core/base/text.hpp"

namespace lathbook {
namespace {

struct FreeContext {
  void operator()(EVP_MD_CTX* context) const { EVP_MD_CTX_free(context); }
};
using Context = std::unique_ptr<EVP_MD_CTX, FreeContext>;

void need(bool worked) {
  if (!worked)
    fail(ErrorKind::io, "libcrypto refuses to compute a digest; check the installation of OpenSSL");
}

// Looking the algorithm up costs more than digesting a statement, so it is done once.
const EVP_MD* algorithm() {
  static const EVP_MD* const found = EVP_MD_fetch(nullptr, "SHA256", nullptr);
  need(found != nullptr);
  return found;
}

Context new_context() {
  Context context(EVP_MD_CTX_new());
  need(context != nullptr);
  return context;
}

void begin(EVP_MD_CTX* context) {
  need(EVP_DigestInit_ex2(context, algorithm(), nullptr) == 1);
}

Digest end(EVP_MD_CTX* context) {
  Digest digest;
  unsigned length = 0;
  need(EVP_DigestFinal_ex(context, digest.bytes.data(), &length) == 1 && length == digest.bytes.size());
  return digest;
}

std::string hex_of(const std::uint8_t* bytes, std::size_t size) {
  static constexpr char digits[] = "0123456789abcdef";
  std::string text;
  text.reserve(2 * size);
  for (std::size_t i = 0; i < size; ++i) {
    text += digits[bytes[i] >> 4];
    text += digits[bytes[i] & 15];
  }
  return text;
}

struct OpenFile {
  int handle;
  explicit OpenFile(int opened) : handle(opened) {}
  ~OpenFile() {
    if (handle >= 0) ::close(handle);
  }
  OpenFile(const OpenFile&) = delete;
  OpenFile& operator=(const OpenFile&) = delete;
};

[[noreturn]] void refuse_file(const std::filesystem::path& path, int reason) {
  const bool missing = reason == ENOENT || reason == ENOTDIR;
  fail(missing ? ErrorKind::not_found : ErrorKind::io,
       safe_display(path.string()) +
           (missing ? ": there is no such file"
                    : ": cannot be read (" + std::generic_category().message(reason) + ")"));
}

}  // namespace

std::string Digest::hex() const {
  return hex_of(bytes.data(), bytes.size());
}

std::optional<Digest> Digest::from_hex(std::string_view text) {
  Digest digest;
  if (text.size() != 2 * digest.bytes.size()) return std::nullopt;
  for (std::size_t i = 0; i < digest.bytes.size(); ++i) {
    const int high = hex_value(text[2 * i]);
    const int low = hex_value(text[2 * i + 1]);
    if (high < 0 || low < 0) return std::nullopt;
    digest.bytes[i] = static_cast<std::uint8_t>(high * 16 + low);
  }
  return digest;
}

Digest sha256(std::string_view bytes) {
  thread_local const Context context = new_context();
  begin(context.get());
  need(EVP_DigestUpdate(context.get(), bytes.data(), bytes.size()) == 1);
  return end(context.get());
}

Sha256::Sha256() {
  Context context = new_context();
  begin(context.get());
  context_ = context.release();
}

Sha256::~Sha256() {
  EVP_MD_CTX_free(static_cast<EVP_MD_CTX*>(context_));
}

Sha256::Sha256(Sha256&& other) noexcept : context_(std::exchange(other.context_, nullptr)) {}

Sha256& Sha256::operator=(Sha256&& other) noexcept {
  std::swap(context_, other.context_);
  return *this;
}

void Sha256::add(std::string_view bytes) {
  need(EVP_DigestUpdate(static_cast<EVP_MD_CTX*>(context_), bytes.data(), bytes.size()) == 1);
}

Digest Sha256::finish() {
  EVP_MD_CTX* const context = static_cast<EVP_MD_CTX*>(context_);
  const Digest digest = end(context);
  begin(context);
  return digest;
}

bool NamedHash::knows(std::string_view name) {
  static constexpr std::array<std::string_view, 6> known{"md5",    "sha1",   "sha224",
                                                         "sha256", "sha384", "sha512"};
  return std::find(known.begin(), known.end(), name) != known.end();
}

NamedHash::NamedHash(std::string_view name) {
  if (!knows(name))
    fail(ErrorKind::unsupported, "the digest algorithm " + quote(name) + " is not known here");
  // Asked for by name and not by function: MD5 may be switched off in the system's library.
  const EVP_MD* found = EVP_get_digestbyname(std::string(name).c_str());
  Context context = new_context();
  if (found == nullptr || EVP_DigestInit_ex(context.get(), found, nullptr) != 1)
    fail(ErrorKind::unsupported, "this machine's OpenSSL does not compute " + std::string(name));
  context_ = context.release();
}

NamedHash::~NamedHash() {
  EVP_MD_CTX_free(static_cast<EVP_MD_CTX*>(context_));
}

NamedHash::NamedHash(NamedHash&& other) noexcept : context_(std::exchange(other.context_, nullptr)) {}

NamedHash& NamedHash::operator=(NamedHash&& other) noexcept {
  std::swap(context_, other.context_);
  return *this;
}

void NamedHash::add(std::string_view bytes) {
  need(EVP_DigestUpdate(static_cast<EVP_MD_CTX*>(context_), bytes.data(), bytes.size()) == 1);
}

std::string NamedHash::finish() {
  std::array<std::uint8_t, EVP_MAX_MD_SIZE> bytes{};
  unsigned length = 0;
  need(EVP_DigestFinal_ex(static_cast<EVP_MD_CTX*>(context_), bytes.data(), &length) == 1);
  return hex_of(bytes.data(), length);
}

Digest sha256_file(const std::filesystem::path& path) {
  // Non-blocking, or a named pipe in the media folder would hold the check for ever.
  const OpenFile file(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
  if (file.handle < 0) refuse_file(path, errno);
  struct stat facts {};
  if (::fstat(file.handle, &facts) != 0) refuse_file(path, errno);
  if (!S_ISREG(facts.st_mode)) {
    fail(ErrorKind::io, safe_display(path.string()) + ": is not a file, so it has no digest");
  }
  Sha256 sum;
  std::vector<char> buffer(std::size_t{1} << 20);
  while (true) {
    const ssize_t got = ::read(file.handle, buffer.data(), buffer.size());
    if (got == 0) return sum.finish();
    if (got > 0) {
      sum.add({buffer.data(), static_cast<std::size_t>(got)});
    } else if (errno != EINTR) {
      refuse_file(path, errno);
    }
  }
}

}  // namespace lathbook
