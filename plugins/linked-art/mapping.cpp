// Where each property stands. What is not named here is told in words.
#include "plugins/linked-art/mapping.hpp"

#include <array>

#include "core/view/rule_table.hpp"

namespace lathbook::linked_art {

namespace {

constexpr std::array kRules{
    Rule{"kind", How::clerical},
    Rule{"code", How::code, "identified_by"},
    Rule{"name", How::name, "identified_by"},
    Rule{"note", How::bare_prose, "referred_to_by"},
    Rule{"description", How::bare_prose, "referred_to_by"},
    Rule{"private-record", How::clerical},
    Rule{"concept", How::address, "classified_as"},
    Rule{"web-page", How::page, "subject_of"},
    Rule{"place-type", How::type, "classified_as"},
    Rule{"within", How::place, "part_of"},
    Rule{"footprint", How::outline},
    Rule{"element-type", How::type, "classified_as"},
    Rule{"element-class", How::type, "classified_as"},
    Rule{"material", How::material, "made_of"},
    Rule{"pigment", How::material, "made_of"},
    Rule{"dimension", How::measure, "dimension"},
    Rule{"weight", How::measure, "dimension"},
    Rule{"part-of", How::whole, "part_of"},
    Rule{"stands-in", How::place, "part_of"},
    Rule{"finish-on", How::whole, "part_of"},
    Rule{"piece-of", How::whole, "part_of"},
    Rule{"fragment-of", How::whole, "part_of"},
    Rule{"in-container", How::support, "held_or_supported_by"},
    Rule{"container-type", How::type, "classified_as"},
    Rule{"piece-type", How::type, "classified_as"},
    Rule{"colour", How::type, "classified_as"},
    Rule{"munsell", How::type, "classified_as"},
    Rule{"layer-role", How::type, "classified_as"},
    Rule{"condition", How::prose, "referred_to_by"},
    Rule{"mark-on", How::carrier},
    Rule{"label-on", How::carrier},
    Rule{"transcription", How::content},
    Rule{"blank-maker", How::about, "about"},
    Rule{"decorator", How::about, "about"},
    Rule{"made", How::made},
    Rule{"made-not-before", How::made},
    Rule{"installed", How::installed},
    Rule{"removed-for-good", How::removed},
    Rule{"of-campaign", How::began},
    Rule{"of-phase", How::began},
    Rule{"removed-in-campaign", How::gone},
    Rule{"gone-in-phase", How::gone},
    Rule{"found-in", How::found},
    Rule{"event-type", How::type, "classified_as"},
    Rule{"event-date", How::time, "timespan"},
    Rule{"examined-on", How::time, "timespan"},
    Rule{"works-began", How::time, "timespan"},
    Rule{"works-ended", How::time, "timespan"},
    Rule{"done-by", How::actor, "carried_out_by"},
    Rule{"examined-by", How::actor, "carried_out_by"},
    Rule{"method", How::technique, "technique"},
    Rule{"campaign-of", How::venue, "took_place_at"},
    Rule{"phase-of", How::venue, "took_place_at"},
    Rule{"of-works", How::occasion, "part_of"},
    Rule{"opened-by", How::opening, "caused_by"},
    Rule{"sample-from", How::sampled},
    Rule{"source-type", How::type, "classified_as"},
    Rule{"title", How::name, "identified_by"},
    Rule{"source-date", How::created},
    Rule{"interviewer", How::teller},
    Rule{"informant", How::teller},
    Rule{"rights", How::right, "subject_to"},
    Rule{"media", How::file},
    Rule{"agent-type", How::type, "classified_as"},
    Rule{"public-name", How::name, "identified_by"},
    Rule{"born", How::birth},
    Rule{"died", How::death},
};

}  // namespace

Rule rule_of(const Property& property) {
  const Rule* rule = rule_in(kRules, property.name);
  return rule != nullptr ? *rule : Rule{property.name};
}

}  // namespace lathbook::linked_art
