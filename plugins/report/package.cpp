// Packs with libzip, in memory.
#include "plugins/report/package.hpp"

#include <zip.h>

#include <array>
#include <memory>

#include "core/base/error.hpp"

namespace lathbook::report {

namespace {

[[noreturn]] void refuse(const char* why) {
  fail(ErrorKind::io,
       std::string("the text document could not be packed (") + why + "); is there memory left?");
}

struct FreeSource {
  void operator()(zip_source_t* source) const { zip_source_free(source); }
};

}  // namespace

void write_package(const std::vector<Member>& members, std::ostream& out) {
  zip_error_t error;
  zip_error_init(&error);
  const std::unique_ptr<zip_source_t, FreeSource> buffer(zip_source_buffer_create(nullptr, 0, 0, &error));
  if (!buffer) refuse("no buffer");
  zip_source_keep(buffer.get());  // zip_open_from_source takes one reference, we read with the other
  zip_t* archive = zip_open_from_source(buffer.get(), ZIP_TRUNCATE, &error);
  if (archive == nullptr) {
    zip_source_free(buffer.get());
    refuse(zip_error_strerror(&error));
  }
  const auto give_up = [&](const char* why) {
    const std::string words = why;
    zip_discard(archive);
    refuse(words.c_str());
  };
  for (std::size_t at = 0; at < members.size(); ++at) {
    const Member& one = members[at];
    zip_source_t* source = zip_source_buffer(archive, one.bytes.data(), one.bytes.size(), 0);
    if (source == nullptr) give_up(zip_strerror(archive));
    const zip_int64_t index = zip_file_add(archive, one.path.c_str(), source, ZIP_FL_ENC_UTF_8);
    if (index < 0) {
      zip_source_free(source);
      give_up(zip_strerror(archive));
    }
    const auto place = static_cast<zip_uint64_t>(index);
    zip_set_file_compression(archive, place, at == 0 ? ZIP_CM_STORE : ZIP_CM_DEFLATE, 0);
    // 1 January 1980, midnight: DOS time knows no zone, so it is the same everywhere.
    zip_file_set_dostime(archive, place, 0, 0x21, 0);
    zip_file_set_external_attributes(archive, place, 0, ZIP_OPSYS_DOS, 0);
  }
  if (zip_close(archive) != 0) give_up(zip_strerror(archive));
  if (zip_source_open(buffer.get()) != 0) refuse("the finished package cannot be read");
  std::array<char, 65536> piece{};
  for (zip_int64_t read = 0; (read = zip_source_read(buffer.get(), piece.data(), piece.size())) > 0;)
    out.write(piece.data(), static_cast<std::streamsize>(read));
  zip_source_close(buffer.get());
  if (!out) fail(ErrorKind::io, "the report could not be written; is there room on the disk?");
}

}  // namespace lathbook::report
