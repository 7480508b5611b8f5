// Counts the records of an archive by kind: the smallest useful plugin, and the pattern for others.
#include <iomanip>

#include "core/plugin/descriptor.hpp"

namespace lathbook::example {

namespace {

class RecordCount : public Report {
public:
  std::vector<std::string> formats() const override { return {"text", "csv"}; }

  void write(const Snapshot& archive, const ReportRequest& request, std::ostream& out,
             Services& services) override {
    if (request.scope != Uuid{})
      fail(ErrorKind::invalid, "the count is of the whole archive; ask for it without naming a place");
    const bool csv = request.format == "csv";
    if (csv) out << "kind,records\n";
    std::uint64_t done = 0;
    for (const Kind kind : all_kinds()) {
      std::uint64_t records = 0;
      archive.statements().each_record(kind, [&](const RecordInfo&) {
        ++records;
        return !services.stop_requested();
      });
      services.progress(++done, all_kinds().size());
      if (csv)
        out << word(kind) << ',' << records << '\n';
      else if (records != 0)
        out << std::left << std::setw(12) << word(kind) << ' ' << records << '\n';
    }
    const Reading reading = archive.reading();
    if (!csv) out << "state of the archive: " << reading.fingerprint.hex() << '\n';
    if (reading.withheld != 0)
      services.note(Severity::note, std::to_string(reading.withheld) +
                                        " statements are withheld; the private "
                                        "archive may hold more records");
  }
};

}  // namespace

/// What the host holds: says what the plugin can do, here one report.
class ExamplePlugin : public Plugin {
public:
  Report* report() override { return &count_; }

private:
  RecordCount count_;
};

}  // namespace lathbook::example

LATHBOOK_PLUGIN(lathbook::example::ExamplePlugin, .name = "example", .version = "1.0", .kind = "report",
                .summary = "counts the records of an archive by kind");
