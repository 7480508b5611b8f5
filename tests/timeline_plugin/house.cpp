// Builds the archives and reads the timelines of them.
#include "tests/timeline_plugin/house.hpp"

#include <cstdlib>

#include <catch2/catch.hpp>

#include "core/base/text.hpp"
#include "plugins/timeline/result.hpp"

namespace lathbook::test {

namespace {

const std::map<char, Kind> kKinds{{'E', Kind::element}, {'F', Kind::finish},   {'N', Kind::piece},
                                  {'P', Kind::source},  {'C', Kind::campaign}, {'H', Kind::phase},
                                  {'R', Kind::place},   {'A', Kind::archive},  {'X', Kind::examination}};

// Noon of 31 December 2024, Greenwich.
constexpr Moment kNow{1'735'646'400, 0};

}  // namespace

House::House() : clock_(kNow) {
  ::setenv("XDG_STATE_HOME", (folder_ / "state").c_str(), 1);
  Archive::create(folder_ / "archive");
  archive_ = std::make_unique<Archive>(folder_ / "archive", clock_,
                                       OpenOptions{.write = true, .vfs = {}, .media_disk = {}});
}

House::House(const std::vector<Said>& statements) : House() {
  for (const Said& said : statements) say(said);
}

Writer& House::writer() {
  if (!writer_) writer_ = archive_->write();
  return *writer_;
}

Uuid House::id(const std::string& code) {
  const auto known = codes_.find(code);
  if (known != codes_.end()) return known->second;
  const Uuid made = writer().make_record(kKinds.at(code.front()), code, std::nullopt);
  codes_.emplace(code, made);
  return made;
}

Digest House::say(const Said& said) {
  const Property& property = Registry::standard().named(said.property);
  Content content;
  content.subject = id(said.subject);
  content.property = property.id;
  content.value = property.type == ValueType::record ? id(said.value).text() : said.value;
  for (const std::string& detail : split(said.details, ';')) {
    const auto equals = detail.find('=');
    if (equals == std::string::npos) continue;
    content.qualifiers.push_back(
        {std::string(trim(detail.substr(0, equals))), std::string(trim(detail.substr(equals + 1)))});
  }
  if (property.cites != Cites::none) {
    content.evidence = said.evidence;
    content.confidence = said.confidence;
    content.citations.push_back({id(said.cites), "p. 1", said.quote});
  }
  return writer().add(content);
}

void House::withdraw(const Digest& statement) {
  Content content;
  content.act = Act::withdraw;
  content.targets = {statement};
  content.why = "slip of the pen";
  writer().add(content);
}

Timeline House::timeline(Level level, const std::string& scope, const std::vector<Digest>& leave_out,
                         const std::string& answer) {
  AnalysisRequest request;
  request.level = level;
  request.leave_out = leave_out;
  if (links) request.settings.emplace_back("links", "yes");
  if (tasks) request.settings.emplace_back("tasks", "yes");
  if (!answer.empty()) request.settings.emplace_back("answer", answer);
  if (!scope.empty()) request.scope = codes_.at(scope);
  QuietServices services;
  Timeline made;
  with_snapshot([&](const Snapshot& archive) { made = timeline::make_timeline(archive, request, services); });
  return made;
}

void House::with_snapshot(const std::function<void(const Snapshot&)>& use) {
  if (writer_) writer_->commit();
  writer_.reset();
  const auto reader = archive_->read();
  use(Snapshot(*reader));
}

const TimelineItem& item(const Timeline& timeline, const std::string& code, int placement) {
  for (const TimelineItem& row : timeline.items)
    if (row.record.code == code && (row.placement == placement || row.placement == 0)) return row;
  FAIL("no row for " << code << "/" << placement);
  throw std::logic_error("FAIL returned");
}

std::string days(const Span& span) {
  const auto day = [](const Bound& bound) { return bound.known ? iso_day(bound.day) : std::string("-"); };
  return day(span.earliest) + ".." + day(span.latest);
}

std::string days(const Timeline& timeline, const std::string& code, char what) {
  if (what == 'S') {
    for (const TimelinePhase& phase : timeline.phases)
      if (phase.record.code == code) return days(phase.opens);
    return "no phase " + code;
  }
  const auto slash = code.find('/');
  const int placement = slash == std::string::npos ? 1 : std::stoi(code.substr(slash + 1));
  const TimelineItem& row = item(timeline, code.substr(0, slash), placement);
  return days(what == 'B' ? row.begins : what == 'E' ? row.ends : row.made);
}

std::string text(const std::vector<ReasonStep>& steps) {
  std::string lines;
  for (const ReasonStep& step : steps) lines += step.words + "\n";
  return lines;
}

}  // namespace lathbook::test
