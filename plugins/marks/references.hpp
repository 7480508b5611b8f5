// The marks that readings are compared with: this archive's own firms, and the lists it has taken in.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "core/analysis/mark_reading.hpp"
#include "core/plugin/plugin.hpp"
#include "core/view/snapshot.hpp"
#include "plugins/marks/reference_list.hpp"

namespace lathbook::marks {

/// All references of one state of an archive, ready to search. Numbers of marks are those of `list`.
class References {
public:
  /// `only` limits to the list of one source (by id); nil for all. A list that cannot be read is told in
  /// lists() and passed over. `files` may be null: then only the archive's own firms are known.
  References(const Snapshot& archive, const ArchiveFiles* files, const Uuid& only);

  const ReferenceList& list() const { return list_; }
  const std::vector<MarkListInfo>& lists() const { return lists_; }
  /// What is known of a mark: a candidate without letters and shares.
  MarkCandidate tell(std::uint32_t mark) const;

private:
  struct File {
    std::size_t info = 0;  ///< index into lists_
    std::uint32_t first = 0;
    std::string bytes;
    std::vector<std::uint32_t> lines;  ///< where each mark's line begins
  };

  void add_own(const Snapshot& archive);
  void add_own_form(const RecordView& agent, const Statement& statement, const std::string& form);
  void add_files(const Snapshot& archive, const ArchiveFiles* files, const Uuid& only);
  void add_lines(File file);

  ReferenceList list_;
  std::vector<MarkListInfo> lists_;
  std::vector<MarkCandidate> own_;
  std::vector<File> files_;
  std::map<std::string, std::pair<Uuid, std::string>> firms_;  ///< by folded name: id and code
};

}  // namespace lathbook::marks
