// Copies a stream.
#include "core/base/copy_stream.hpp"

#include <string>

#include "core/base/error.hpp"

namespace lathbook {

std::uint64_t copy_stream(std::istream& in, std::ostream& out, const std::string& what,
                          const std::function<void(std::string_view)>& also) {
  std::string piece(std::size_t{1} << 16U, '\0');
  std::uint64_t copied = 0;
  while (in.read(piece.data(), static_cast<std::streamsize>(piece.size())), in.gcount() > 0) {
    const std::string_view bytes(piece.data(), static_cast<std::size_t>(in.gcount()));
    out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    if (also) also(bytes);
    copied += bytes.size();
  }
  if (in.bad()) fail(ErrorKind::io, what + " cannot be read to its end");
  if (!out) fail(ErrorKind::io, what + " cannot be written to its end; is the disk full?");
  return copied;
}

}  // namespace lathbook
