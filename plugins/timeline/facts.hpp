// Everything in an archive that can bear on a date, read once: statements, records, rulings, settings.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "core/plugin/plugin.hpp"
#include "plugins/timeline/dates.hpp"
#include "plugins/timeline/settings.hpp"

namespace lathbook::timeline {

/// A level past every level that dates: a conjecture.
inline constexpr std::uint8_t kNever = 4;

/// One current statement with what was read from it.
struct Fact {
  Statement statement;
  const Property* property = nullptr;
  std::uint8_t level = kNever;     ///< 1 certain, 2 probable, 3 possible, kNever
  std::optional<Uuid> object;      ///< when the value is a record
  std::optional<DateRange> range;  ///< when the value is a date

  const Content& content() const { return statement.content; }
  const Uuid& subject() const { return statement.content.subject; }
  std::string_view name() const { return property->name; }
  std::string_view rule() const { return property->dating; }
  /// Every qualifier that the registry requires is there, and a contact, where there is one, was read.
  bool is_complete() const;
  /// The first detail that the registry requires and that is not there; empty when none is missing.
  std::string missing_detail() const;
  /// Number of the placement meant by this qualifier ('placement', 'other-placement'); 0 = not said.
  int placement(std::string_view qualifier) const;
};

class Facts {
public:
  /// Statements ruled out by a person or left out by the request are not among the facts. Stops early,
  /// with part of the facts, when the services ask for it.
  Facts(const Snapshot& archive, const AnalysisRequest& request, const Services& services);

  const std::vector<Fact>& all() const { return all_; }
  const Fact& at(std::uint32_t index) const { return all_.at(index); }
  std::uint32_t index_of(const Fact& fact) const { return static_cast<std::uint32_t>(&fact - all_.data()); }
  /// Indexes into all(), ascending.
  const std::vector<std::uint32_t>& about(const Uuid& subject) const;
  const std::vector<std::uint32_t>& naming(const Uuid& object) const;
  /// The best founded statement of a property about a record, of equals the later; null when none.
  const Fact* best(const Uuid& subject, std::string_view property) const;
  /// Its value, or empty.
  std::string text(const Uuid& subject, std::string_view property) const;

  /// Records in natural order of codes; those withheld are not among them.
  const std::vector<RecordInfo>& records() const { return records_; }
  const RecordInfo* record(const Uuid& id) const;

  const Settings& settings() const { return settings_; }
  const std::vector<std::string>& ruled_out() const { return ruled_out_; }

private:
  void gather(const Snapshot& archive, const AnalysisRequest& request, const Services& services);
  void read(Fact& fact) const;

  std::vector<Fact> all_;
  std::unordered_map<Uuid, std::vector<std::uint32_t>> about_;
  std::unordered_map<Uuid, std::vector<std::uint32_t>> naming_;
  std::vector<RecordInfo> records_;
  std::unordered_map<Uuid, std::size_t> record_at_;
  Settings settings_;
  std::vector<std::string> ruled_out_;
};

}  // namespace lathbook::timeline
