#include "core/view/gathered.hpp"

#include "core/evidence/registry.hpp"

namespace lathbook {

namespace {

// Most records have as many facts or fewer; more are taken in as well.
constexpr std::size_t kUsual = 5;

}  // namespace

std::unordered_map<Uuid, RecordView> gathered(const Snapshot& archive, Kind kind,
                                              const std::vector<std::string_view>& properties,
                                              const std::function<bool(std::uint64_t)>& goes_on) {
  std::unordered_map<Uuid, RecordView> views;
  archive.statements().each_record(kind, [&](const RecordInfo& info) {
    views[info.id].info = info;
    return true;
  });
  Query query;
  query.kind = kind;
  for (const auto name : properties) query.properties.push_back(Registry::standard().named(name).id);
  std::uint64_t read = 0;
  // What was entered together stands together: mostly the record is the one of the statement before.
  auto at = views.end();
  archive.statements().each_statement(query, [&](const Statement& statement) {
    const Uuid& subject = statement.content.subject;
    if (at == views.end() || at->first != subject) at = views.find(subject);
    if (at != views.end() && statement.presence == Presence::present) {
      auto& facts = at->second.facts;
      if (facts.empty()) facts.reserve(kUsual);
      facts.push_back(statement);
    }
    return ++read % 4096 != 0 || !goes_on || goes_on(read);
  });
  return views;
}

}  // namespace lathbook
