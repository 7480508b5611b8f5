#include "plugins/finishes/proposals.hpp"

#include <algorithm>
#include <cstdio>
#include <initializer_list>

#include "plugins/finishes/compare.hpp"

namespace lathbook::finishes {

namespace {

constexpr double kSameCoat = 0.9;
constexpr std::size_t kMostCitations = 12;

class Drafting {
public:
  Drafting(const Snapshot& archive, const ReadSequence& reference, const ReadSequence& sequence,
           const FinishAlignment& alignment)
      : archive_(archive), a_(reference), b_(sequence), alignment_(alignment) {}

  std::vector<Draft> run() {
    if (alignment_.concluded) {
      place();
    }
    if (alignment_.refusal == FinishRefusal::none && alignment_.matched_colours >= 2)
      for (const CoatMatch& match : alignment_.matches) same_coat(match);
    return std::move(out_);
  }

private:
  void place() {
    const FinishCoat& below = a_.told.coats[a_.compared[static_cast<std::size_t>(alignment_.k) - 1]];
    const CoatMatch& first = alignment_.matches.front();
    const FinishCoat& with = a_.told.coats[first.reference];
    const FinishCoat& own = b_.told.coats[first.coat];
    const std::string sure = " (" + std::string(word(alignment_.confidence)) + ")";
    Draft after = draft(b_.told.element, "put-in-after-coat", below.record, alignment_.confidence);
    rest_on(after, {&below, &with, &own});
    substrate(after);
    after.words = thing_words(b_.told.element) + " was put in after " + coat_words(below) + ", of " +
                  thing_words(a_.told.element) + sure;
    keep(std::move(after), {"put-in-after-coat"}, false);
    Draft by = draft(b_.told.element, "in-place-by-coat", with.record, alignment_.confidence);
    rest_on(by, {&with, &own});
    by.words = thing_words(b_.told.element) + " stood when " + coat_words(with) + ", was put on " +
               thing_words(a_.told.element) + sure;
    keep(std::move(by), {"in-place-by-coat"}, false);
  }

  void same_coat(const CoatMatch& match) {
    const FinishCoat& other = a_.told.coats[match.reference];
    const FinishCoat& own = b_.told.coats[match.coat];
    if (match.probability < kSameCoat || own.white || other.white) return;
    const Confidence sure = most_of(a_, b_);
    Draft one = draft(own.record, "same-coat-as", other.record, sure);
    rest_on(one, {&other, &own});
    one.words = thing_words(own.record) + " is the same coat as " + thing_words(other.record) + " (" +
                std::string(word(sure)) + ")";
    keep(std::move(one), {"same-coat-as", "once-continuous-with", "same-as"}, true);
  }

  Draft draft(const RecordInfo& subject, const char* property, const RecordInfo& object,
              Confidence sure) const {
    Draft out;
    out.content.subject = subject.id;
    out.content.property = Registry::standard().named(property).id;
    out.content.value = object.id.text();
    out.content.evidence = EvidenceClass::physical;
    out.content.confidence = sure;
    out.content.why = alignment_.words;
    return out;
  }

  // The statements that give these coats, and what they cite.
  void rest_on(Draft& out, std::initializer_list<const FinishCoat*> coats) const {
    for (const FinishCoat* coat : coats)
      for (const Digest& id : coat->said) {
        const auto statement = archive_.statements().statement(id);
        if (!statement) continue;
        ground(out, id);
        for (const Citation& citation : statement->content.citations) cite(out, citation);
      }
  }

  void substrate(Draft& out) const {
    for (const ReasonStep& step : b_.told.substrate) ground(out, step.statement);
    for (const Citation& citation : b_.citations) cite(out, citation);
  }

  static void ground(Draft& out, const Digest& id) {
    auto& grounds = out.content.grounds;
    if (std::find(grounds.begin(), grounds.end(), id) == grounds.end()) grounds.push_back(id);
  }

  static void cite(Draft& out, const Citation& citation) {
    auto& cited = out.content.citations;
    if (cited.size() < kMostCitations && std::find(cited.begin(), cited.end(), citation) == cited.end())
      cited.push_back(citation);
  }

  void keep(Draft one, std::initializer_list<const char*> said_by, bool both_ways) {
    for (const char* property : said_by) {
      if (said(one.content.subject, property, one.content.value)) return;
      const auto object = Uuid::parse(one.content.value);
      if (both_ways && object && said(*object, property, one.content.subject.text())) return;
    }
    out_.push_back(std::move(one));
  }

  bool said(const Uuid& subject, const char* property, const std::string& value) const {
    Query query;
    query.subject = subject;
    query.properties = {Registry::standard().named(property).id};
    bool found = false;
    archive_.statements().each_statement(query, [&](const Statement& one) {
      found = found || one.content.value == value;
      return !found;
    });
    return found;
  }

  const Snapshot& archive_;
  const ReadSequence& a_;
  const ReadSequence& b_;
  const FinishAlignment& alignment_;
  std::vector<Draft> out_;
};

}  // namespace

std::vector<Draft> proposals_from(const Snapshot& archive, const std::vector<ReadSequence>& sequences,
                                  const FinishAlignment& alignment) {
  return Drafting(archive, sequences[alignment.reference], sequences[alignment.sequence], alignment).run();
}

}  // namespace lathbook::finishes
