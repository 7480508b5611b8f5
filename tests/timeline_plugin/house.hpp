// Small invented houses for the tests of the timeline: said in short words, kept in a real archive.
#pragma once

#include <functional>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "core/analysis/timeline.hpp"
#include "core/plugin/plugin.hpp"
#include "core/storage/archive.hpp"
#include "tests/support/support.hpp"

namespace lathbook::test {

/// One statement in short words. Codes tell the kind by their first letter: E element, F finish, N piece,
/// P source, C campaign, H phase, R place,
/// X examination, A the archive itself. Details: "contact=laps over; placement=1".
struct Said {
  std::string subject;
  std::string property;
  std::string value;
  std::string details = {};
  Confidence confidence = Confidence::certain;
  EvidenceClass evidence = EvidenceClass::physical;
  std::string cites = "P0";
  std::string quote = {};
};

/// Never wants to stop, forgets what it is told.
class QuietServices : public Services {
public:
  void note(Severity, const std::string& text) override { notes.push_back(text); }
  void progress(std::uint64_t, std::uint64_t) override {}
  bool stop_requested() const override { return false; }
  const AnalysisResult* result(std::string_view) const override { return nullptr; }
  std::vector<std::string> notes;
};

class House {
public:
  House();
  explicit House(const std::vector<Said>& statements);

  /// The record of a code, made when it is not there yet.
  Uuid id(const std::string& code);
  Digest say(const Said& said);
  void withdraw(const Digest& statement);
  /// Statements said since the last call are committed first.
  Timeline timeline(Level level = Level::possible, const std::string& scope = {},
                    const std::vector<Digest>& leave_out = {}, const std::string& answer = {});

  bool links = false;  ///< every timeline from now on tells what each link of a reason is worth
  bool tasks = false;  ///< and what would help most

  /// Lends the archive as a plugin would see it.
  void with_snapshot(const std::function<void(const Snapshot&)>& use);

private:
  Writer& writer();

  TempFolder folder_;
  FixedClock clock_;
  std::unique_ptr<Archive> archive_;
  std::unique_ptr<Writer> writer_;
  std::map<std::string, Uuid> codes_;
};

/// The row of a code; fails the test when there is none.
const TimelineItem& item(const Timeline& timeline, const std::string& code, int placement = 1);
/// '1905-01-01..1910-12-31', '-' for an end that is not known.
std::string days(const Span& span);
/// 'B' beginning, 'E' end, 'M' making of an item ("E1", "E1/2"), 'S' beginning of a phase.
std::string days(const Timeline& timeline, const std::string& code, char what);
/// Words of all steps, one a line.
std::string text(const std::vector<ReasonStep>& steps);

}  // namespace lathbook::test
