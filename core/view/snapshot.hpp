// One consistent, privacy-filtered reading of the archive: what a plugin is given.
#pragma once

#include <functional>
#include <optional>
#include <string_view>
#include <vector>

#include "core/base/api.hpp"
#include "core/evidence/reader.hpp"
#include "core/view/views.hpp"

namespace lathbook {

/// Cursors over one reading; nothing is copied beyond the record in hand. Borrowed: the reader outlives
/// the snapshot. Not for several threads at once.
class LATHBOOK_API Snapshot {
public:
  explicit Snapshot(const StatementReader& reader) : reader_(reader) {}

  Reading reading() const { return reader_.reading(); }
  /// The generic cursors, for what the typed views do not cover.
  const StatementReader& statements() const { return reader_; }

  /// Every record of the kind, in natural order of codes.
  void each(Kind kind, const std::function<void(RecordView&)>& on_record) const { each(kind, {}, on_record); }
  /// The same with what is said of these properties only (of all when none is named). The view may be kept
  /// by moving from it.
  void each(Kind kind, const std::vector<std::string_view>& properties,
            const std::function<void(RecordView&)>& on_record) const;
  std::optional<RecordView> find(const Uuid& id) const;
  std::optional<RecordView> find_code(std::string_view code) const;

  /// A place and every place within it, any depth, parents first.
  std::vector<Uuid> places_within(const Uuid& place) const;
  /// Elements standing in, bounding, passing through, serving or showing in any of these places, in any
  /// role, and those that a fit puts there; then parts of these that have no place said of their own.
  std::vector<Uuid> elements_in(const std::vector<Uuid>& places) const;
  /// Finishes on any of these elements, by element and layer.
  std::vector<Uuid> finishes_on(const std::vector<Uuid>& elements) const;

private:
  const StatementReader& reader_;
};

}  // namespace lathbook
