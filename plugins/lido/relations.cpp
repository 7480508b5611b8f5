// What a record is part of, lies over, replaces, is billed in: related works with their relation and sources.
#include "core/view/addresses.hpp"
#include "core/view/words.hpp"
#include "plugins/lido/record.hpp"
#include "plugins/lido/terms.hpp"

namespace lathbook::lido {

void RecordWriter::relations() {
  const auto facts = facts_of(record_, Part::related_work);
  int order = 0;
  for (const Statement* one : facts) {
    const auto id = Uuid::parse(one->content.value);
    const auto info = id ? reader_.record(*id) : std::nullopt;
    if (!info) continue;
    if (order == 0) xml_.start("lido:objectRelationWrap").start("lido:relatedWorksWrap");
    const std::string& label = Registry::standard().find(one->content.property)->label;
    const std::string grounds = ground_in_words(one->content);
    xml_.start("lido:relatedWorkSet").attribute("lido:sortorder", std::to_string(++order));
    xml_.element("lido:displayRelatedWork",
                 label + " " + display(*info) + (grounds.empty() ? "" : " (" + grounds + ")"));
    xml_.start("lido:relatedWork").start("lido:object");
    identifier("lido:objectID", term::uri_id, record_address(ground_.base, *id));
    xml_.end().end();
    concept_of("lido:relatedWorkRelType", "", label);
    const std::string sources = citations_in_words(reader_, one->content);
    if (!sources.empty()) xml_.element("lido:sourceRelatedWorkSet", sources);
    xml_.end();
  }
  if (order != 0) xml_.end().end();
}

}  // namespace lathbook::lido
