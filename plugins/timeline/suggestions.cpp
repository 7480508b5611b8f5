// Stabs the intervals of beginnings and drafts what would say that each group is one course of works.
#include "plugins/timeline/suggestions.hpp"

#include <algorithm>

#include "core/base/text.hpp"

namespace lathbook::timeline {

namespace {

constexpr Day kNarrow = 3653;
constexpr std::size_t kFewest = 3;

struct Group {
  std::vector<const TimelineItem*> items;
  Day first = INT64_MIN;  ///< days on which all of them may have begun
  Day last = INT64_MAX;
};

bool has_works(const Facts& facts, const Uuid& item) {
  const auto& about = facts.about(item);
  return std::any_of(about.begin(), about.end(), [&](std::uint32_t index) {
    const Fact& fact = facts.at(index);
    return fact.rule() == "of-campaign" || fact.name() == "phase-part";
  });
}

std::vector<const TimelineItem*> candidates(const Facts& facts, const Timeline& timeline) {
  std::vector<const TimelineItem*> found;
  for (const TimelineItem& item : timeline.items) {
    const bool both = item.begins.earliest.known && item.begins.latest.known;
    if (item.placement != 1 || item.placements != 1 || !both || has_works(facts, item.record.id)) continue;
    if (item.begins.latest.day - item.begins.earliest.day <= kNarrow) found.push_back(&item);
  }
  std::stable_sort(found.begin(), found.end(), [](const TimelineItem* a, const TimelineItem* b) {
    return a->begins.latest.day < b->begins.latest.day;
  });
  return found;
}

std::vector<Group> stab(const std::vector<const TimelineItem*>& items) {
  std::vector<Group> groups;
  for (const TimelineItem* item : items) {
    if (groups.empty() || item->begins.earliest.day > groups.back().last) {
      groups.push_back({{}, INT64_MIN, item->begins.latest.day});
    }
    Group& group = groups.back();
    group.items.push_back(item);
    group.first = std::max(group.first, item->begins.earliest.day);
  }
  return groups;
}

// Some named works of the place may have been going on then.
bool is_named(const Group& group, const Timeline& timeline) {
  return std::any_of(timeline.works.begin(), timeline.works.end(), [&](const TimelineWorks& works) {
    const bool over = works.ends.latest.known && works.ends.latest.day < group.first;
    const bool to_come = works.begins.earliest.known && works.begins.earliest.day > group.last;
    return !over && !to_come;
  });
}

void cite(Content& content, const Facts& facts, const TimelineItem& item) {
  for (const Bound* bound : {&item.begins.earliest, &item.begins.latest})
    for (const ReasonStep& step : bound->reason) {
      if (step.statement == Digest{} ||
          std::find(content.grounds.begin(), content.grounds.end(), step.statement) != content.grounds.end())
        continue;
      content.grounds.push_back(step.statement);
      for (const Fact& fact : facts.all()) {
        if (fact.statement.id != step.statement) continue;
        for (const Citation& one : fact.content().citations)
          if (std::find(content.citations.begin(), content.citations.end(), one) == content.citations.end())
            content.citations.push_back(one);
      }
    }
}

Draft draft(const Uuid& subject, std::string_view property, std::string value) {
  Draft made;
  made.content.subject = subject;
  const Property& row = Registry::standard().named(property);
  made.content.property = row.id;
  made.content.value = std::move(value);
  made.content.proposed_by = "timeline 1.0";
  if (row.cites == Cites::none) return made;
  made.content.evidence = EvidenceClass::comparative;
  made.content.confidence = Confidence::possible;
  return made;
}

void add(std::vector<Draft>& drafts, const Facts& facts, const Words& words, const Scope& scope,
         const Group& group) {
  const std::string when = range_words(group.first, group.last);
  std::string key = scope.record.id.text();
  std::vector<std::string> names;
  for (const TimelineItem* item : group.items) {
    key += item->record.id.text();
    names.push_back(words.name(item->record.id));
  }
  const Uuid works = uuid_from_name("suggested works " + key);
  const std::string title = "Suggested works, " + when;
  Draft maker = draft(works, "kind", "campaign");
  maker.words = "a course of works in " + words.name(scope.record.id) + ", " + when +
                ", suggested by shared dates only: it would hold " + join(names, ", ");
  drafts.push_back(std::move(maker));
  drafts.push_back(draft(works, "code", "C"));
  Draft named = draft(works, "name", title);
  Draft placed = draft(works, "campaign-of", scope.record.id.text());
  for (const TimelineItem* item : group.items) {
    cite(named.content, facts, *item);
    cite(placed.content, facts, *item);
  }
  drafts.push_back(std::move(named));
  drafts.push_back(std::move(placed));
  for (const TimelineItem* item : group.items) {
    Draft member = draft(item->record.id, "of-campaign", works.text());
    cite(member.content, facts, *item);
    member.content.why = "suggested by dates that others in the same place share";
    member.words = words.name(item->record.id) + " may belong to works of " + when;
    drafts.push_back(std::move(member));
  }
}

}  // namespace

std::vector<Draft> suggested_works(const Claims& claims, const Words& words, const Scope& scope,
                                   const Timeline& timeline) {
  std::vector<Draft> drafts;
  if (scope.places.empty()) return drafts;
  for (const Group& group : stab(candidates(claims.facts(), timeline)))
    if (group.items.size() >= kFewest && !is_named(group, timeline))
      add(drafts, claims.facts(), words, scope, group);
  return drafts;
}

}  // namespace lathbook::timeline
