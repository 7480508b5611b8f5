// Digests what is written.
#include "plugins/bag/packed_file.hpp"

#include <algorithm>

#include "core/base/error.hpp"

namespace lathbook::bag {

DigestingBuffer::int_type DigestingBuffer::overflow(int_type c) {
  if (traits_type::eq_int_type(c, traits_type::eof())) return traits_type::not_eof(c);
  const char one = traits_type::to_char_type(c);
  return xsputn(&one, 1) == 1 ? c : traits_type::eof();
}

std::streamsize DigestingBuffer::xsputn(const char* text, std::streamsize size) {
  if (!out_.write(text, size)) return 0;
  hash_.add({text, static_cast<std::size_t>(size)});
  bytes_ += static_cast<std::uint64_t>(size);
  return size;
}

int DigestingBuffer::sync() {
  return out_.flush() ? 0 : -1;
}

Packed pack(FolderSink& out, const std::string& path, const std::function<void(std::ostream&)>& write) {
  DigestingBuffer buffer(out.file(path));
  std::ostream stream(&buffer);
  stream.imbue(std::locale::classic());
  write(stream);
  if (!stream.flush())
    fail(ErrorKind::io,
         "the file " + path + " of the bag could not be written to its end; is the disk full?");
  return {path, buffer.finish(), buffer.bytes()};
}

std::string manifest_text(std::vector<Packed> files) {
  std::sort(files.begin(), files.end(), [](const Packed& a, const Packed& b) { return a.path < b.path; });
  std::string text;
  // Paths are ours: letters, digits, '/', '.', so that nothing needs the percent sign of RFC 8493, 2.1.3.
  for (const Packed& file : files) text += file.sha512 + "  " + file.path + "\n";
  return text;
}

}  // namespace lathbook::bag
