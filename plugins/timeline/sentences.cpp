// Joins the steps of a reason; a thing named in the step before is 'it'.
#include "plugins/timeline/sentences.hpp"

#include <array>

#include "core/base/text.hpp"

namespace lathbook::timeline {

namespace {

struct Claimed {
  std::string_view earliest;
  std::string_view latest;
};

// By Event. The subject stands before, the day after.
constexpr std::array<Claimed, 7> kClaimed{{{"was made not before", "was made by"},
                                           {"was not in place before", "was in place by"},
                                           {"was not gone before", "was gone by"},
                                           {"did not begin before", "had begun by"},
                                           {"were not over before", "were over by"},
                                           {"did not open before", "had opened by"},
                                           {"was not made before", "was made by"}}};

std::string level_words(Level level) {
  return level == Level::certain ? "" : level == Level::probable ? " (probable)" : " (possible)";
}

}  // namespace

std::string earliest_words(Day day) {
  const CivilDay civil = civil_from_days(day);
  return civil.month == 1 && civil.day == 1 ? edtf_year(civil.year) : plain_day(day);
}

std::string latest_words(Day day) {
  const CivilDay civil = civil_from_days(day);
  return civil.month == 12 && civil.day == 31 ? "the end of " + edtf_year(civil.year) : plain_day(day);
}

std::string bound_sentence(const Words& words, const RecordInfo& record, Event event, Side side,
                           const Bound& bound, const std::function<const Fact*(const Digest&)>& fact_of) {
  const Claimed& claimed = kClaimed[static_cast<std::size_t>(event)];
  const bool earliest = side == Side::earliest;
  std::string text =
      capital(words.name(record.id)) + " " + std::string(earliest ? claimed.earliest : claimed.latest) + " " +
      (earliest ? earliest_words(bound.day) : latest_words(bound.day)) + level_words(bound.level);
  const Fact* before = nullptr;
  for (std::size_t at = 0; at < bound.reason.size(); ++at) {
    const ReasonStep& step = bound.reason[at];
    const Fact* fact = step.statement == Digest{} ? nullptr : fact_of(step.statement);
    std::string said = step.words;
    if (fact) {
      // What stands before the statement itself ('it cannot have been otherwise, since') is kept.
      const std::string plain = words.of(*fact);
      const auto found = said.rfind(plain);
      if (found != std::string::npos)
        said.replace(found, plain.size(), words.of(*fact, before ? before->subject() : record.id));
    }
    text += (at == 0 ? ": " : "; ") + said + " [" + std::to_string(at + 1) + "]";
    before = fact;
  }
  return text + ".";
}

}  // namespace lathbook::timeline
