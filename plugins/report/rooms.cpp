// One room: its names and uses, and the order of what is told of it.
#include <algorithm>

#include "core/base/text.hpp"
#include "core/view/english.hpp"
#include "core/view/plain_words.hpp"
#include "plugins/report/build.hpp"

namespace lathbook::report {

namespace {

std::string period(const Statement& said) {
  const std::string words = period_words(said);
  return words.empty() ? words : ", " + words;
}

}  // namespace

// The names a place had, from when to when, and who used them.
void Builder::add_names_of(const Uuid& id, List& list) {
  const PlaceView place(teller_.view(id));
  for (const NameView& name : place.names) {
    const auto said = teller_.statement(name.statement);
    if (!said) continue;
    list.entries.push_back(paragraph({sentence("name",
                                               {{"name", foreign(name.text)},
                                                {"sort", choice(name.sort)},
                                                {"period", period(*said)},
                                                {"who", foreign(name.used_by)},
                                                {"by", std::string(name.used_by.empty() ? "no" : "yes")}},
                                               teller_.cite(*said))}));
  }
}

void Builder::add_room(const Site& site) {
  begin(site.anchor, site.title);
  section(2, "heading.names-and-use", [&] { add_names(site); });
  section(2, "heading.examined", [&] { add_examined(site); });
  section(2, "heading.phases", [&] { add_phases(site); });
  section(2, "heading.elements", [&] { add_elements(site); });
  section(2, "heading.condition", [&] { add_condition(site); });
  section(2, "heading.finishes", [&] { add_finishes(site); });
  add_contradictions(site);
  section(2, "heading.open-ends", [&] { add_open_ends(site); });
  section(2, "heading.done", [&] { add_treatment(site); });
  section(2, "heading.pieces", [&] {
    add_pieces(site);
    add_finds(site);
  });
  section(2, "heading.replaced", [&] { add_replaced(site); });
  section(2, "heading.cautions", [&] { add_cautions(site); });
  if (!site.at_large)
    for (const char* part : {"significance", "character-defining features", "condition assessment",
                             "recommended treatment", "record of treatment"})
      if (!authored(site.place.id, part).empty()) add_authored(site.place.id, part, 2);
  section(2, "heading.photographs", [&] { add_photographs(site); });
  end();
}

void Builder::add_names(const Site& site) {
  if (site.at_large) {
    add_key_plans();
  } else if (const auto storey = teller_.view(site.place.id).record("within")) {
    if (!sites_.front().at_large)
      if (auto plan = key_plan(*storey, site.place.id)) add(std::move(*plan));
  }
  if (!site.at_large) {
    List list;
    add_names_of(site.place.id, list);
    for (const Statement& use : teller_.said(site.place.id, "use")) {
      const std::string who = foreign(use.content.qualifier("used-by"));
      Sentence one = sentence("use",
                              {{"use", foreign(use.content.value)},
                               {"period", period(use)},
                               {"who", who},
                               {"by", std::string(who.empty() ? "no" : "yes")},
                               {"doubt", teller_.doubt(use)}},
                              teller_.cite(use));
      std::vector<Sentence> told{one};
      if (!use.content.why.empty() && use.content.targets.empty())
        told.push_back(as_sentence(foreign(use.content.why), teller_.cite(use)));
      list.entries.push_back(paragraph(std::move(told)));
    }
    add(std::move(list));
  }
  std::vector<Sentence> told;
  for (const char* property :
       {"description", "split-from", "merged-into", "place-began", "place-ended", "note"})
    for (const Statement& said : teller_.said(site.place.id, property))
      told.push_back(sentence("place." + std::string(property),
                              {{"value", teller_.value(said)}, {"doubt", teller_.doubt(said)}},
                              teller_.cite(said)));
  for (const Statement& size : teller_.said(site.place.id, "dimension"))
    told.push_back(
        sentence("place.dimension",
                 {{"value", foreign(size.content.value)}, {"of", foreign(size.content.qualifier("of"))}},
                 teller_.cite(size)));
  add(paragraph(std::move(told)));
  add_bounding(site);
}

void Builder::add_bounding(const Site& site) {
  std::vector<std::string> names;
  std::vector<Statement> said;
  for (const std::size_t at : site.elsewhere) {
    names.push_back(teller_.name(item(at).record.id));
    for (const Statement& stands : teller_.said(item(at).record.id, "stands-in"))
      if (stands.content.value == site.place.id.text()) said.push_back(stands);
  }
  if (!names.empty())
    add(sentence("bounding", {{"names", listing(names)}}, teller_.notes().cite_together(said)));
}

}  // namespace lathbook::report
