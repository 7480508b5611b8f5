// Puts statements into sentences.
#include "plugins/timeline/reasons_words.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>

#include "core/base/text.hpp"
#include "core/view/english.hpp"
#include "core/view/plain_words.hpp"
#include "core/view/record_view.hpp"

namespace lathbook::timeline {

namespace {

// What is said better than by the registry's label, between subject and value; a date stands after some with
// its own small word (in 1911, on 12 June 1924).
struct Phrase {
  std::string_view property;
  std::string_view words;
  bool when = false;
};

constexpr std::array<Phrase, 30> kPhrases{{{"absent-from", "is not to be seen in"},
                                           {"as-built-in", "is shown standing in"},
                                           {"begun", "was begun", true},
                                           {"billed-in", "is billed or recorded as done in"},
                                           {"covers", "is laid over"},
                                           {"element-class", "is of the class"},
                                           {"fills", "fills"},
                                           {"gone-in-phase", "was taken away during"},
                                           {"gone-on", "was gone", true},
                                           {"installed", "was installed", true},
                                           {"layer", "is layer"},
                                           {"longest-duration", "lasted at most"},
                                           {"made", "was made", true},
                                           {"made-not-before", "was made not before"},
                                           {"not-yet-in", "was not yet there in"},
                                           {"not-yet-on", "was not yet there", true},
                                           {"of-campaign", "was put in during"},
                                           {"of-phase", "was put in during"},
                                           {"phase-number", "is number"},
                                           {"printed-on", "was printed", true},
                                           {"published-on", "was published", true},
                                           {"removed-for-good", "was removed for good", true},
                                           {"removed-in-campaign", "was taken away during"},
                                           {"seen-in", "is seen, this very one, in"},
                                           {"seen-on", "was seen in place", true},
                                           {"source-date", "is dated"},
                                           {"standing-by", "stood by"},
                                           {"uncovered-on", "was seen uncovered", true},
                                           {"works-began", "began", true},
                                           {"works-ended", "ended", true}}};

Phrase phrase_of(const Fact& fact) {
  for (const Phrase& phrase : kPhrases)
    if (phrase.property == fact.name()) return phrase;
  return {fact.property->name, fact.property->label};
}

// 'was put in' of several things: 'were put in'.
std::string plural(std::string_view phrase) {
  const std::string_view verb = phrase.substr(0, phrase.find(' '));
  const std::string rest(phrase.substr(verb.size()));
  if (verb == "is") return "are" + rest;
  if (verb == "was") return "were" + rest;
  if (verb == "goes" || verb.ends_with("ches") || verb.ends_with("shes"))
    return std::string(verb.substr(0, verb.size() - 2)) + rest;
  return std::string(verb.ends_with('s') ? verb.substr(0, verb.size() - 1) : verb) + rest;
}

// 'The Chart Room plaster'; a name that begins with whose it is takes no article.
std::string with_article(const std::string& name) {
  std::string text = inside(name);
  if (text.starts_with("The ")) text[0] = 't';
  if (text.starts_with("the ")) return text;
  const std::vector<std::string> words = split(text, ' ');
  for (std::size_t at = 0; at < std::min<std::size_t>(words.size(), 3); ++at)
    if (text == name && (words[at].ends_with("'s") || words[at].ends_with("s'") || words[at].ends_with("’s")))
      return text;
  return "the " + text;
}

// 'Photograph of the Dining Room' takes an article, a title like 'The Signal' or 'Views of Port Ellery' does
// not.
bool begins_with_its_sort(std::string_view name) {
  static constexpr std::array<std::string_view, 12> kSorts{"Photograph", "Snapshot", "Interview", "Letter",
                                                           "Plan",       "Sheet",    "Drawing",   "Survey",
                                                           "Notebook",   "Report",   "Inventory", "Contract"};
  return std::any_of(kSorts.begin(), kSorts.end(), [&](std::string_view sort) {
    return name.starts_with(sort) && (name.size() == sort.size() || name[sort.size()] == ' ');
  });
}

void append(std::string& list, const std::string& part) {
  if (part.empty()) return;
  if (!list.empty()) list += "; ";
  list += part;
}

// What stands before the ground why a thing could, or could not, have been hidden.
std::string_view hiding_words(std::string_view hidden) {
  if (hidden == "no") return "it could not have been hidden, for ";
  if (hidden.empty() || hidden == "yes") return "it could have been hidden: ";
  return "only what is recorded in front of it could have hidden it, for ";
}

constexpr std::array<const char*, 13> kNumbers{"no",    "one",   "two",  "three", "four",   "five",  "six",
                                               "seven", "eight", "nine", "ten",   "eleven", "twelve"};

std::string count_words(Day number, const std::string& unit) {
  return number_words(number) + " " + unit + (number == 1 ? "" : "s");
}

}  // namespace

std::string number_words(Day number) {
  return number >= 0 && number < static_cast<Day>(kNumbers.size())
             ? std::string(kNumbers[static_cast<std::size_t>(number)])
             : std::to_string(number);
}

std::string span_words(Day days) {
  if (days < 1) return "less than a day";
  if (days < 60) return count_words(days, "day");
  const double years = static_cast<double>(days) / 365.2425;
  if (years < 0.95) return "about " + count_words(std::llround(years * 12), "month");
  const double whole = std::floor(years);
  const double part = years - whole;
  const Day count = static_cast<Day>(whole);
  if (part >= 0.95) return "about " + count_words(count + 1, "year");
  if (part >= 0.75) return "just short of " + count_words(count + 1, "year");
  if (part <= 0.2) return "about " + count_words(count, "year");
  return "more than " + count_words(count, "year");
}

std::string Words::name(const Uuid& id) const {
  const RecordInfo* record = facts_.record(id);
  if (!record) return "a record that is not to be seen";
  if (record->name.empty()) return record->code.empty() ? record->id.text() : record->code;
  std::string name = record->name;
  const bool is_thing = record->kind == Kind::element || record->kind == Kind::finish ||
                        record->kind == Kind::piece || record->kind == Kind::find ||
                        record->kind == Kind::campaign || record->kind == Kind::place;
  if (is_thing || (record->kind == Kind::source && inside(name) != name))
    name = with_article(name);
  else if (record->kind == Kind::source && begins_with_its_sort(name))
    name = "the " + to_lower_ascii(name.substr(0, 1)) + name.substr(1);
  return record->code.empty() ? name : name + " (" + record->code + ")";
}

bool Words::is_several(const Uuid& id) const {
  const RecordInfo* record = facts_.record(id);
  return record && is_plural(record->name);
}

std::string Words::value_of(const Fact& fact, const Uuid& it) const {
  const Content& content = fact.content();
  if (fact.object)
    return it == Uuid{} || *fact.object != it ? name(*fact.object) : is_several(it) ? "them" : "it";
  if (fact.range) return phrase_of(fact).when ? fact.range->when : fact.range->words;
  if (fact.name() == "longest-duration") return content.value + " years";
  return content.value;
}

std::string Words::details_of(const Fact& fact) const {
  const Content& content = fact.content();
  const auto detail = [&](std::string_view qualifier, std::string_view before) {
    const std::string text = spot_in_words(trim(content.qualifier(qualifier)));
    return text.empty() ? text : std::string(before) + text;
  };
  std::string details;
  append(details, detail("years", "years: "));
  append(details, detail("contact", "contact read: "));
  append(details, detail("how", ""));
  append(details, detail("feature", "known by "));
  append(details, detail("spot", "spot: "));
  append(details, detail("where", "where: "));
  append(details, detail("share", "share: "));
  append(details, detail("extent", "over "));
  append(details, detail("ground", hiding_words(content.qualifier("could-be-hidden"))));
  append(details, detail("grounds", "grounds: "));
  append(details, detail("basis", ""));
  append(details, detail("runs-onto", "the coat runs unbroken onto "));
  append(details, detail("says", "it says: "));
  if (const std::string_view day = content.qualifier("put-in"); !day.empty())
    append(details, "if so, put in " + detail_range(day, facts_.settings()).value_or(DateRange{}).when);
  append(details, detail("placement", "setting "));
  append(details, detail("other-placement", "of the other, setting "));
  return details;
}

std::string Words::of(const Fact& fact) const {
  return of(fact, {});
}

std::string Words::of(const Fact& fact, const Uuid& it) const {
  const bool is_it = it != Uuid{} && fact.subject() == it;
  const bool many = is_several(fact.subject());
  const std::string verb = many ? plural(phrase_of(fact).words) : std::string(phrase_of(fact).words);
  const std::string who = !is_it ? name(fact.subject()) : many ? "they" : "it";
  std::string words = who + " " + verb + " " + value_of(fact, it);
  const std::string details = details_of(fact);
  if (!details.empty()) words += " (" + details + ")";
  for (const Citation& citation : fact.content().citations) {
    if (trim(citation.quote).empty()) continue;
    words += ", in the words “" + std::string(trim(citation.quote)) + "”";
    break;
  }
  return words;
}

ReasonStep Words::whole(const Fact& fact, std::size_t members) const {
  return {fact.statement.id, "all " + number_words(static_cast<Day>(members)) + " statements that rest on " +
                                 name(fact.subject()) + " alone, which stands or falls as a whole"};
}

std::string Words::said(const Fact& fact) const {
  const Content& content = fact.content();
  if (content.evidence != EvidenceClass::oral || !content.author) return of(fact);
  const RecordInfo* speaker = facts_.record(*content.author);
  if (!speaker || speaker->name.empty()) return of(fact);
  return speaker->name + " says that " + of(fact);
}

}  // namespace lathbook::timeline
