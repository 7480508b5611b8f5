#include "core/view/gathered.hpp"

#include "core/evidence/registry.hpp"

namespace lathbook {

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
  archive.statements().each_statement(query, [&](const Statement& statement) {
    if (statement.presence == Presence::present)
      if (const auto found = views.find(statement.content.subject); found != views.end())
        found->second.facts.push_back(statement);
    return ++read % 4096 != 0 || !goes_on || goes_on(read);
  });
  return views;
}

}  // namespace lathbook
