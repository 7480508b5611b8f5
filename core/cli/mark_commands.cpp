// Reading marks, and the lists of marks that they are compared with.
#include <filesystem>

#include "core/base/json_writer.hpp"
#include "core/base/paths.hpp"
#include "core/base/table.hpp"
#include "core/base/text.hpp"
#include "core/cli/drafting.hpp"
#include "core/cli/lent_files.hpp"
#include "core/cli/scope_words.hpp"
#include "core/evidence/registry.hpp"
#include "core/exchange/mark_list.hpp"
#include "core/view/snapshot.hpp"
#include "core/view/views.hpp"

namespace lathbook::cli {

namespace {

constexpr std::uint64_t kMostBytes = std::uint64_t{1} << 30U;

// A folder for one file on its way into the archive.
class Passing {
public:
  Passing() : folder_(std::filesystem::temp_directory_path() / ("lathbook-" + Uuid::random().text())) {
    std::filesystem::create_directory(folder_);
  }
  ~Passing() {
    std::error_code ignored;
    std::filesystem::remove_all(folder_, ignored);
  }
  Passing(const Passing&) = delete;
  Passing& operator=(const Passing&) = delete;
  std::filesystem::path file(const std::string& name) const { return folder_ / name; }

private:
  std::filesystem::path folder_;
};

}  // namespace

int read_mark(Context& context, const ReadMark& wanted) {
  if (!wanted.text.empty() && !wanted.code.empty()) {
    fail(ErrorKind::invalid, "name a record or type a text with --text, not both");
  }
  const auto archive = context.open(false);
  const auto reader = archive.read(context.read_options());
  const Snapshot snapshot(*reader);
  const LentFiles files(context, reader->reading());
  ReportRequest request;
  if (!wanted.code.empty()) request.scope = need_record(*reader, wanted.code).id;
  request.format = context.json() ? "json" : "text";
  if (!wanted.text.empty()) request.settings.emplace_back("text", wanted.text);
  if (wanted.dots_counted) request.settings.emplace_back("dots", "counted");
  if (!wanted.list.empty()) request.settings.emplace_back("list", need_record(*reader, wanted.list).code);
  context.plugins().report_to("marks", snapshot, request, context.out(), &files);
  if (!context.json()) {
    if (!wanted.code.empty()) {
      context.out() << "What can be accepted: lathbook proposals marks " << wanted.code << '\n';
    }
    tell_withheld(context, reader->reading());
  }
  return kDone;
}

int take_in_mark_list(Context& context, const TakeInMarkList& wanted) {
  const auto list = read_mark_list(read_whole_file(wanted.file, kMostBytes), wanted.file);
  auto archive = context.open(true);
  auto writer = session(context, archive);
  const auto code = wanted.code.empty() ? archive.free_code("ML") : wanted.code;
  const auto known = writer->record_by_code(code);
  const bool fresh = !known;
  const auto id = fresh ? writer->make_record(Kind::source, code, context.recorder(*writer)) : known->id;
  const Passing passing;
  const auto kept = passing.file("marks.tsv");
  write_whole_file(kept, list.text);
  const auto media = writer->add_media(kept);
  const auto enter = [&](const std::string& property, const std::string& value,
                         std::vector<std::string> details = {}) {
    if (value.empty()) return;
    Ground ground;
    if (Registry::standard().named(property).cites != Cites::none) {
      ground.evidence = "documentary";
      ground.confidence = "certain";
    }
    ground.details = std::move(details);
    writer->add(draft(context, archive, *writer, id, property, value, ground));
  };
  if (fresh) enter("source-type", "table");
  if (fresh) enter("title", wanted.title.empty() ? "List of marks " + wanted.file : wanted.title);
  enter("creator", wanted.creator);
  enter("rights", wanted.rights);
  enter("note", wanted.note);
  enter("media", media.digest.hex(), {"file-name=marks.tsv", "media-type=text/tab-separated-values"});
  enter("mark-list", media.digest.hex(), {"entries=" + std::to_string(list.marks)});
  writer->commit();
  if (context.json()) {
    tell_pairs(context, {{"list", code}, {"marks", std::to_string(list.marks)}});
    return kDone;
  }
  context.out() << "took in " << list.marks << (list.marks == 1 ? " mark" : " marks") << " as "
                << context.strong(code) << "; marks are compared with it from now on\n";
  if (wanted.rights.empty())
    context.out() << "  its rights are not told; say them with --rights and a web address\n";
  return kDone;
}

int mark_lists(Context& context) {
  const auto archive = context.open(false);
  const auto reader = archive.read(context.read_options());
  const Snapshot snapshot(*reader);
  Table table({"list", "marks", "title", "by", "rights"});
  table.align(1, Table::Align::right);
  JsonWriter json(context.out());
  if (context.json()) json.begin_array();
  snapshot.each(Kind::source, [&](const RecordView& record) {
    const Statement* list = record.best("mark-list");
    if (list == nullptr) return;
    const SourceView source(record);
    const auto marks = std::string(list->content.qualifier("entries"));
    const auto by = join(source.creators, ", ");
    if (!context.json()) return table.add({record.info.code, marks, source.title, by, source.rights});
    json.begin_object().key("list").string(record.info.code).key("marks").string(marks);
    json.key("title")
        .string(source.title)
        .key("by")
        .string(by)
        .key("rights")
        .string(source.rights)
        .end_object();
  });
  if (context.json()) {
    json.end_array().finish();
  } else if (table.empty()) {
    context.out() << "no list has been taken in; marks are compared with this archive's own firms\n";
  } else {
    table.print(context.out());
  }
  return kDone;
}

}  // namespace lathbook::cli
