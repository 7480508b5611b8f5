// What a person may accept after a reading: the maker, the reading in words, the 'not before' of the piece,
// and, as a judgement of its own, that the piece is original to the laying.
#include <algorithm>

#include "core/base/text.hpp"
#include "core/evidence/registry.hpp"
#include "core/view/record_view.hpp"
#include "plugins/marks/analysis.hpp"

namespace lathbook::marks {

namespace {

constexpr double kEnough = 0.5;     // a likelier-than-not maker is proposed
constexpr double kProbable = 0.95;  // and called probable from here

class Proposer {
public:
  Proposer(const Snapshot& archive, MarkReading& result) : archive_(archive), result_(result) {}

  void propose(const ReadMark& read) {
    const auto mark = archive_.find(read.mark.id);
    const auto said = archive_.statements().statement(read.statement);
    if (!mark || !said || !read.fault.empty()) return;
    propose_maker(read, *mark, *said);
    for (const DatedCode& code : read.codes) propose_not_before(read, code, *said);
  }

private:
  static std::uint32_t id_of(std::string_view property) { return Registry::standard().named(property).id; }

  Draft draft(const Uuid& subject, std::string_view property, std::string value,
              const Statement& said) const {
    Draft made;
    made.content.subject = subject;
    made.content.property = id_of(property);
    made.content.value = std::move(value);
    made.content.citations = said.content.citations;
    made.content.grounds = {said.id};
    return made;
  }

  void offer(Draft made) {
    const auto same = [&](const Draft& one) {
      return one.content.subject == made.content.subject && one.content.property == made.content.property &&
             one.content.value == made.content.value;
    };
    if (std::none_of(result_.proposals.begin(), result_.proposals.end(), same))
      result_.proposals.push_back(std::move(made));
  }

  bool is_said(const RecordView& record, std::string_view property, std::string_view value) const {
    const auto all = record.all(property);
    return std::any_of(all.begin(), all.end(),
                       [&](const Statement* one) { return fold(one->content.value) == fold(value); });
  }

  // A mark moulded, pressed or cast in the body is its maker's; one on the glaze or a ticket may be the
  // seller's.
  static bool of_seller(const MarkCandidate& candidate, const RecordView& mark) {
    if (candidate.role == "decorator or seller") return true;
    if (candidate.role == "blank maker") return false;
    const auto method = mark.text("mark-method");
    return method == "printed" || method == "painted" || method == "paper";
  }

  void propose_maker(const ReadMark& read, const RecordView& mark, const Statement& said) {
    if (read.candidates.empty() || read.candidates.front().share < kEnough) return;
    const MarkCandidate& best = read.candidates.front();
    const Confidence confidence = best.share >= kProbable ? Confidence::probable : Confidence::possible;
    if (!is_said(mark, "reading", best.form)) {
      Draft reading = draft(mark.info.id, "reading", best.form, said);
      reading.content.qualifiers.push_back({"of", "maker's name"});
      finish(reading, best, confidence);
      reading.words = display(mark.info) + " reads “" + best.form + "” (" + best.words + ")";
      offer(std::move(reading));
    }
    const char* property = of_seller(best, mark) ? "decorator" : "blank-maker";
    if (best.agent == Uuid{} || is_said(mark, property, best.agent.text())) return;
    Draft maker = draft(mark.info.id, property, best.agent.text(), said);
    finish(maker, best, confidence);
    maker.words = of_seller(best, mark)
                      ? display(mark.info) + " names " + best.maker +
                            " as decorator or seller; who made the blank it does not say"
                      : display(mark.info) + " names " + best.maker +
                            " as maker of the blank; who decorated or sold it, it does not say";
    offer(std::move(maker));
  }

  static void finish(Draft& made, const MarkCandidate& best, Confidence confidence) {
    made.content.evidence = EvidenceClass::comparative;
    made.content.confidence = confidence;
    if (best.source != Uuid{})
      made.content.citations.push_back({best.source, "no. " + best.entry, best.form});
  }

  // The printed table, when the archive has it among its sources.
  void cite_table(Content& content, const DatedCode& code) const {
    const std::string_view wanted = code.kind == "US patent" ? "patent" : "registered";
    bool found = false;
    archive_.each(Kind::source, [&](const RecordView& source) {
      if (found || source.text("source-type") != "table" || source.best("mark-list") != nullptr) return;
      if (fold(source.info.name + " " + source.text("title")).find(wanted) == std::string::npos) return;
      content.citations.push_back({source.info.id, "year " + code.not_before.substr(0, 4), ""});
      found = true;
    });
  }

  void propose_not_before(const ReadMark& read, const DatedCode& code, const Statement& said) {
    if (read.carrier.id == Uuid{} || code.not_before.empty()) return;
    const auto carrier = archive_.find(read.carrier.id);
    if (!carrier) return;
    if (!is_said(*carrier, "made-not-before", code.not_before)) {
      Draft made = draft(carrier->info.id, "made-not-before", code.not_before, said);
      std::string basis = code.kind + " " + std::string(trim(code.text)) + ", " + code.readings.front().words;
      made.content.qualifiers.push_back({"basis", basis});
      made.content.evidence = EvidenceClass::comparative;
      made.content.confidence = code.hint                   ? Confidence::possible
                                : code.readings.size() == 1 ? Confidence::certain
                                                            : Confidence::probable;
      if (!code.table.empty()) cite_table(made.content, code);
      made.words = display(carrier->info) + " was made not before " + code.not_before + " (" + basis +
                   "); this dates the piece itself, not when it was put in";
      offer(std::move(made));
    }
    const auto element = carrier->record("piece-of");
    if (!element || is_said(*carrier, "original-to", element->text())) return;
    const auto whole = archive_.statements().record(*element);
    if (!whole) return;
    // Its grounds are not for a program to give: accepting it asks for them.
    Draft original = draft(carrier->info.id, "original-to", element->text(), said);
    original.content.evidence = EvidenceClass::physical;
    original.content.confidence = Confidence::probable;
    original.words = "a second judgement, yours alone: " + display(carrier->info) + " is original to " +
                     display(*whole) +
                     " and no later replacement; accept it only with --with grounds=\"same bed, same joint, "
                     "same wear ...\"";
    offer(std::move(original));
  }

  const Snapshot& archive_;
  MarkReading& result_;
};

}  // namespace

void propose(const Snapshot& archive, MarkReading& result) {
  Proposer proposer(archive, result);
  // Of several readings of a mark the one whose maker is likeliest speaks.
  for (const ReadMark& read : result.marks) {
    const bool best = std::none_of(result.marks.begin(), result.marks.end(), [&](const ReadMark& other) {
      if (other.mark.id != read.mark.id || &other == &read) return false;
      const auto share = [](const ReadMark& one) {
        return one.candidates.empty() ? 0 : one.candidates.front().share;
      };
      return share(other) > share(read) || (share(other) == share(read) && &other < &read);
    });
    if (best) proposer.propose(read);
  }
}

}  // namespace lathbook::marks
