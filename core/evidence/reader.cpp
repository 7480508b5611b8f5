#include "core/evidence/reader.hpp"

#include <utility>

namespace lathbook {

StatementReader::~StatementReader() = default;

void StatementReader::each_record_with(Kind kind, const std::vector<std::uint32_t>& properties,
                                       const OnRecordWith& on_record) const {
  Query query;
  query.properties = properties;
  std::vector<Statement> facts;
  each_record(kind, [&](const RecordInfo& info) {
    query.subject = info.id;
    facts.clear();
    each_statement(query, [&](Statement& statement) {
      if (statement.presence == Presence::present) facts.push_back(std::move(statement));
      return true;
    });
    return on_record(info, facts);
  });
}

}  // namespace lathbook
