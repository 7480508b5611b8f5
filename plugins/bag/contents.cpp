// One walk over the statements.
#include "plugins/bag/contents.hpp"

namespace lathbook::bag {

Contents contents_of(const StatementReader& reader) {
  Contents contents;
  Query query;
  query.current_only = false;
  reader.each_statement(query, [&](const Statement& statement) {
    if (statement.presence != Presence::present) return true;
    ++contents.statements;
    const Content& said = statement.content;
    const std::string entered = statement.header.entered.text();
    if (said.act == Act::expunge)
      contents.expunged.push_back({statement.id, entered, said.recorder, said.targets.size(), said.why});
    if (said.act != Act::state || said.property != property::media) return true;
    if (const auto digest = Digest::from_hex(said.value))
      contents.files[*digest].push_back({statement.id, entered, said.recorder, said.subject,
                                         std::string(said.qualifier("file-name")),
                                         std::string(said.qualifier("media-type"))});
    return true;
  });
  return contents;
}

}  // namespace lathbook::bag
