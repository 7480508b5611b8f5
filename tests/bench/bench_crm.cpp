// Times the CIDOC CRM export against serdi's re-emission of the same file, and measures its memory as the
// archive grows. The archive is made as it is read, so that neither a database nor a timeline counts: the
// timeline's result is ready, as it is when the host has cached it.
//
// bench_crm                    both rows
// bench_crm --write STATEMENTS FILE    one export, for the measurements
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <fstream>
#include <string>
#include <vector>

#include "core/base/identifier.hpp"
#include "plugins/crm/exporter.hpp"

using namespace lathbook;

namespace {

constexpr std::size_t kStatements = 8;  // of each element

/// Elements in one room, each with eight statements that cite one source: kind, code, name, place, material,
/// a date, a relation to the one before, and a note.
class MadeUp : public StatementReader {
public:
  explicit MadeUp(std::size_t elements) : elements_(elements) {}

  Reading reading() const override { return {}; }
  void each_statement(const Query& query, const OnStatement& on_statement) const override {
    if (!query.subject || query.object) return;
    const auto number = number_of(*query.subject);
    if (number == 0 || number > elements_) return;
    for (std::size_t at = 0; at < kStatements; ++at) {
      Statement statement = make(number, at);
      const bool wanted = query.properties.empty() || query.properties.front() == statement.content.property;
      if (wanted && !on_statement(statement)) return;
    }
  }
  void each_record(Kind kind, const OnRecord& on_record) const override {
    if (kind == Kind::place) on_record(*record(uuid_from_name("room")));
    if (kind == Kind::agent) on_record(*record(uuid_from_name("person")));
    if (kind == Kind::source) on_record(*record(uuid_from_name("source")));
    if (kind != Kind::element) return;
    for (std::size_t number = 1; number <= elements_; ++number)
      if (!on_record(*record(id_of(number)))) return;
  }
  std::optional<RecordInfo> record(const Uuid& id) const override {
    if (id == uuid_from_name("room")) return RecordInfo{id, Kind::place, "R", "Room"};
    if (id == uuid_from_name("person")) return RecordInfo{id, Kind::agent, "A", "Reed"};
    if (id == uuid_from_name("source")) return RecordInfo{id, Kind::source, "S", "Notebook"};
    return RecordInfo{id, Kind::element, "E-" + std::to_string(number_of(id)), "Tile field"};
  }
  std::optional<RecordInfo> record_by_code(std::string_view) const override { return std::nullopt; }
  std::optional<Statement> statement(const Digest& id) const override {
    std::uint64_t number = 0, at = 0;
    std::memcpy(&number, id.bytes.data(), sizeof number);
    std::memcpy(&at, id.bytes.data() + sizeof number, sizeof at);
    if (number == 0 || number > elements_ || at >= kStatements) return std::nullopt;
    return make(number, at);
  }

  static Uuid id_of(std::uint64_t number) {
    Uuid id;
    std::memcpy(id.bytes.data(), &number, sizeof number);
    id.bytes[15] = 1;
    return id;
  }
  static Digest statement_of(std::uint64_t number, std::uint64_t at) {
    Digest id;
    std::memcpy(id.bytes.data(), &number, sizeof number);
    std::memcpy(id.bytes.data() + sizeof number, &at, sizeof at);
    return id;
  }

private:
  static std::uint64_t number_of(const Uuid& id) {
    std::uint64_t number = 0;
    std::memcpy(&number, id.bytes.data(), sizeof number);
    return id.bytes[15] == 1 ? number : 0;
  }
  Statement make(std::uint64_t number, std::uint64_t at) const {
    static const std::pair<const char*, const char*> said[kStatements] = {
        {"kind", "element"},   {"code", "E"},         {"name", "Tile field"}, {"stands-in", ""},
        {"material", "Glass"}, {"installed", "1888"}, {"covers", ""},         {"note", "Laid in lime."}};
    Statement statement;
    statement.id = statement_of(number, at);
    statement.header.number = number * kStatements + at;
    Content& content = statement.content;
    content.subject = id_of(number);
    content.property = Registry::standard().named(said[at].first).id;
    content.value = said[at].second;
    if (at == 1) content.value += "-" + std::to_string(number);
    if (at == 3) content.value = uuid_from_name("room").text();
    if (at == 6) content.value = id_of(number == 1 ? 2 : number - 1).text();
    content.recorder = uuid_from_name("person");
    if (at < 2) return statement;
    content.author = uuid_from_name("person");
    content.said_on = "2024-05-18";
    content.evidence = EvidenceClass::physical;
    content.confidence = Confidence::certain;
    content.citations = {{uuid_from_name("source"), "p. " + std::to_string(number), {}}};
    return statement;
  }

  std::size_t elements_;
};

class Silent : public Services {
public:
  explicit Silent(const AnalysisResult& timeline) : timeline_(timeline) {}
  void note(Severity, const std::string&) override {}
  void progress(std::uint64_t, std::uint64_t) override {}
  bool stop_requested() const override { return false; }
  const AnalysisResult* result(std::string_view) const override { return &timeline_; }

private:
  const AnalysisResult& timeline_;
};

/// Bounds of every element as a timeline gives them, each with the statement that fixes it.
Timeline made_up_timeline(std::size_t elements) {
  Timeline timeline;
  timeline.items.reserve(elements);
  for (std::size_t number = 1; number <= elements; ++number) {
    TimelineItem item;
    item.record.id = MadeUp::id_of(number);
    for (Bound* bound : {&item.begins.earliest, &item.begins.latest}) {
      bound->known = true;
      bound->day = -29'950;
      bound->reason = {{MadeUp::statement_of(number, 5), "installed"}};
    }
    timeline.items.push_back(std::move(item));
  }
  return timeline;
}

struct Cost {
  double seconds = 0;
  double mebibytes = 0;
};

/// Runs a program and measures its time on the processor and its peak of memory.
Cost run(const std::vector<std::string>& arguments) {
  std::fflush(stdout);  // or the child prints it again
  const pid_t child = fork();
  if (child == 0) {
    std::vector<char*> argv;
    for (const auto& argument : arguments) argv.push_back(const_cast<char*>(argument.c_str()));
    argv.push_back(nullptr);
    std::freopen("/dev/null", "w", stdout);
    execvp(argv[0], argv.data());
    _exit(127);
  }
  int status = 0;
  rusage usage{};
  wait4(child, &status, 0, &usage);
  if (status != 0) {
    std::fprintf(stderr, "%s failed\n", arguments[0].c_str());
    std::exit(1);
  }
  const auto seconds = [](const timeval& time) {
    return static_cast<double>(time.tv_sec) + static_cast<double>(time.tv_usec) / 1e6;
  };
  return {seconds(usage.ru_utime) + seconds(usage.ru_stime), static_cast<double>(usage.ru_maxrss) / 1024};
}

/// `--bare` makes the timeline and writes nothing: what is then used is not the exporter's.
int write_export(std::size_t statements, const std::string& file, bool bare) {
  const std::size_t elements = statements / kStatements;
  const AnalysisResult timeline = made_up_timeline(elements);
  if (bare) return 0;
  const MadeUp reader(elements);
  Silent services(timeline);
  std::ofstream out(file, std::ios::binary);
  crm::CrmExporter().write(Snapshot(reader), {{}, Level::possible, "http://example.org/bench/", "turtle", {}},
                           out, services);
  return out.good() ? 0 : 1;
}

}  // namespace

int main(int argc, char** argv) {
  const std::string self = argv[0];
  if (argc == 4)
    return write_export(std::strtoull(argv[2], nullptr, 10), argv[3], std::string(argv[1]) == "--bare");
  const std::size_t most = argc > 1 ? std::strtoull(argv[1], nullptr, 10) : 1'000'000;
  const std::string file = "/tmp/bench_crm." + std::to_string(getpid()) + ".ttl";
  const auto wanted = std::to_string(most / 10);
  const Cost ours = run({self, "--write", wanted, file});
  const Cost bare = run({self, "--bare", wanted, file});
  const Cost serdi = run({"serdi", "-i", "turtle", "-o", "turtle", file});
  unlink(file.c_str());
  std::printf(
      "Turtle of %s statements: %.2f s, serdi re-emits it in %.2f s: %.2f times (at most 1.5 wanted)\n",
      wanted.c_str(), ours.seconds - bare.seconds, serdi.seconds,
      (ours.seconds - bare.seconds) / serdi.seconds);
  std::printf("making up the timeline's result, not counted: %.2f s\n", bare.seconds);
  double beyond[2] = {};
  for (int large = 0; large < 2; ++large) {
    const auto statements = std::to_string(large != 0 ? most : 10'000);
    beyond[large] = run({self, "--write", statements, "/dev/null"}).mebibytes -
                    run({self, "--bare", statements, "/dev/null"}).mebibytes;
    std::printf("memory of the exporter on %s statements: %.1f MiB beside the timeline\n", statements.c_str(),
                beyond[large]);
  }
  std::printf("it grew by %.1f MiB (at most 20 wanted)\n", beyond[1] - beyond[0]);
  return 0;
}
