// A good plugin that leaves a trace of its life, to show what the host does and in which order.
#include "core/plugin/descriptor.hpp"
#include "tests/plugin/broken/trace.hpp"

namespace lathbook::witness {

namespace {

const test::LibraryTrace trace;

/// Proposes the first line of what it reads as a note.
class FirstLine : public Importer {
public:
  std::vector<Draft> read(std::istream& in, const Snapshot&, Services& services) override {
    Draft draft;
    std::getline(in, draft.content.value);
    draft.words = "a note from the first line";
    services.note(Severity::note, "one line read");
    services.progress(1, 1);
    return {draft};
  }
};

/// Writes the address it was given, in the format it was given: to one file, or to a folder of two.
class Address : public Exporter {
public:
  std::vector<std::string> formats() const override { return {"plain", "quoted", "leaves"}; }
  bool makes_folder(std::string_view format) const override { return format == "leaves"; }
  void write_folder(const Snapshot&, const ExportRequest& request, FolderSink& out,
                    Services& services) override {
    out.file("address") << request.base_iri << ' ' << 1234;
    services.files().write_exchange(out.file("deep/exchange"));
  }
  void write(const Snapshot&, const ExportRequest& request, std::ostream& out, Services&) override {
    out << (request.format == "quoted" ? "'" + request.base_iri + "'" : request.base_iri);
  }
};

}  // namespace

/// g++ would keep an inline variable unique in the process, and the library with it for ever, were it not
/// for -fno-gnu-unique.
LATHBOOK_API inline int witnesses_made = 0;

class WitnessPlugin : public Plugin {
public:
  WitnessPlugin() {
    ++witnesses_made;
    test::leave_trace("object made");
  }
  ~WitnessPlugin() override { test::leave_trace("object destroyed"); }
  WitnessPlugin(const WitnessPlugin&) = delete;
  WitnessPlugin& operator=(const WitnessPlugin&) = delete;
  Importer* importer() override { return &importer_; }
  Exporter* exporter() override { return &address_; }

private:
  FirstLine importer_;
  Address address_;
};

}  // namespace lathbook::witness

LATHBOOK_PLUGIN(lathbook::witness::WitnessPlugin, .name = "witness", .version = "1.0",
                .kind = "import export", .summary = "leaves a trace");
