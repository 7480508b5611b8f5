// Reads the headers of an ELF file (System V ABI, generic part, chapters 4 and 5) with every number checked
// against the file's size.
#include "core/plugin/library_check.hpp"

#include <elf.h>
#include <link.h>
#include <sys/stat.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdio>
#include <cstring>
#include <fstream>
#include <optional>
#include <vector>

namespace lathbook {

namespace fs = std::filesystem;

namespace {

using ElfHeader = ElfW(Ehdr);
using Segment = ElfW(Phdr);
using Section = ElfW(Shdr);
using Symbol = ElfW(Sym);

/// Tables beyond this are no plugin's; it keeps a false size from taking all memory.
constexpr std::uint64_t kMostTableBytes = 64U << 20;

/// A file of known size, read piece by piece; nothing outside the size is ever asked for.
class Bytes {
public:
  explicit Bytes(const fs::path& file) : in_(file, std::ios::binary) {
    in_.seekg(0, std::ios::end);
    if (in_) size_ = static_cast<std::uint64_t>(in_.tellg());
  }
  bool readable() const { return in_.good(); }
  std::uint64_t size() const { return size_; }
  bool holds(std::uint64_t offset, std::uint64_t length) const {
    return offset <= size_ && length <= size_ - offset;
  }
  template <typename Item>
  std::optional<std::vector<Item>> table(std::uint64_t offset, std::uint64_t count) {
    if (count > kMostTableBytes / sizeof(Item) || !holds(offset, count * sizeof(Item))) return std::nullopt;
    std::vector<Item> items(count);
    in_.seekg(static_cast<std::streamoff>(offset));
    in_.read(reinterpret_cast<char*>(items.data()), static_cast<std::streamsize>(count * sizeof(Item)));
    if (!in_) return std::nullopt;
    return items;
  }
  std::optional<ElfHeader> header() {
    const auto one = table<ElfHeader>(0, 1);
    return one ? std::optional(one->front()) : std::nullopt;
  }

private:
  std::ifstream in_;
  std::uint64_t size_ = 0;
};

bool same_machine(const ElfHeader& a, const ElfHeader& b) {
  return a.e_ident[EI_CLASS] == b.e_ident[EI_CLASS] && a.e_ident[EI_DATA] == b.e_ident[EI_DATA] &&
         a.e_machine == b.e_machine;
}

std::string cut_short(const Bytes& bytes) {
  return "it is cut short or damaged: its own tables reach beyond its " + std::to_string(bytes.size()) +
         " bytes; build or copy it again";
}

/// The entry of an exported variable in the table of symbols that the loader uses.
std::optional<Symbol> find_symbol(Bytes& bytes, const std::vector<Section>& sections,
                                  const std::string& symbol) {
  for (const Section& section : sections) {
    if (section.sh_type != SHT_DYNSYM || section.sh_link >= sections.size()) continue;
    const Section& names = sections[section.sh_link];
    const auto text = bytes.table<char>(names.sh_offset, names.sh_size);
    const auto symbols = bytes.table<Symbol>(section.sh_offset, section.sh_size / sizeof(Symbol));
    if (!text || !symbols) return std::nullopt;
    for (const Symbol& entry : *symbols) {
      const std::uint64_t start = entry.st_name;
      if (entry.st_shndx == SHN_UNDEF || (entry.st_info & 0xfU) != STT_OBJECT) continue;
      if (start >= text->size() || text->size() - start <= symbol.size()) continue;
      if (std::memcmp(text->data() + start, symbol.c_str(), symbol.size() + 1) == 0) return entry;
    }
  }
  return std::nullopt;
}

std::string mode_text(::mode_t mode) {
  std::array<char, 16> text{};
  std::snprintf(text.data(), text.size(), "%04o", static_cast<unsigned>(mode & 07777U));
  return text.data();
}

}  // namespace

std::string why_not_a_library(const fs::path& file) {
  std::error_code error;
  const auto status = fs::status(file, error);
  if (!fs::exists(status)) return "there is no such file";
  if (fs::is_directory(status)) return "it is a folder";
  if (!fs::is_regular_file(status)) return "it is not a regular file";
  Bytes bytes(file);
  if (!bytes.readable()) return "it cannot be read; look at its permissions";
  if (bytes.size() == 0) return "it is empty";

  const auto magic = bytes.table<char>(0, SELFMAG);
  if (!magic || std::memcmp(magic->data(), ELFMAG, SELFMAG) != 0)
    return "it is not a shared library: it does not begin as one";
  const auto header = bytes.header();
  if (!header) return cut_short(bytes);
  const auto own = Bytes("/proc/self/exe").header();
  if (own && !same_machine(*header, *own)) return "it is made for another kind of machine";
  if (header->e_type != ET_DYN) return "it is not a shared library but another kind of object file";
  if (header->e_phentsize != sizeof(Segment) || header->e_shentsize != sizeof(Section))
    return cut_short(bytes);

  const auto segments = bytes.table<Segment>(header->e_phoff, header->e_phnum);
  if (!segments || segments->empty()) return cut_short(bytes);
  for (const Segment& segment : *segments)
    if (!bytes.holds(segment.p_offset, segment.p_filesz)) return cut_short(bytes);
  const auto sections = bytes.table<Section>(header->e_shoff, header->e_shnum);
  if (!sections || sections->empty()) return cut_short(bytes);
  for (const Section& section : *sections)
    if (section.sh_type != SHT_NOBITS && !bytes.holds(section.sh_offset, section.sh_size))
      return cut_short(bytes);
  return {};
}

// Boost.DLL 1.74's library_info would find names too, but in the static symbol table only, so that a stripped
// plugin, as distributions ship them, seems to export nothing.
std::optional<std::string> exported_data(const fs::path& file, const std::string& symbol, std::size_t most) {
  Bytes bytes(file);
  const auto header = bytes.header();
  if (!header) return std::nullopt;
  const auto segments = bytes.table<Segment>(header->e_phoff, header->e_phnum);
  const auto sections = bytes.table<Section>(header->e_shoff, header->e_shnum);
  if (!segments || !sections) return std::nullopt;
  const auto found = find_symbol(bytes, *sections, symbol);
  if (!found) return std::nullopt;
  for (const Segment& segment : *segments) {
    if (segment.p_type != PT_LOAD || found->st_value < segment.p_vaddr) continue;
    const std::uint64_t within = found->st_value - segment.p_vaddr;
    if (within >= segment.p_filesz || found->st_size > segment.p_filesz - within) continue;
    const std::uint64_t length = std::min<std::uint64_t>(found->st_size, most);
    const auto data = bytes.table<char>(segment.p_offset + within, length);
    if (data) return std::string(data->data(), data->size());
  }
  return std::nullopt;
}

std::string why_not_safe(const fs::path& file_or_folder) {
  std::error_code error;
  const fs::path path = fs::canonical(file_or_folder, error);
  if (error) return "there is no such file or folder";
  std::vector<fs::path> looked_at{path};
  if (!fs::is_directory(path, error)) looked_at.push_back(path.parent_path());
  for (const fs::path& one : looked_at) {
    struct ::stat status {};
    if (::stat(one.c_str(), &status) != 0) return "its permissions cannot be read";
    if ((status.st_mode & S_IWOTH) == 0) continue;
    return "anybody may write to '" + one.string() + "' (mode " + mode_text(status.st_mode) +
           "), so anybody could have put code there; take that away with 'chmod o-w'";
  }
  return {};
}

}  // namespace lathbook
