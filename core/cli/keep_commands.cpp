// Keeping: making, checking, merging, restoring, writing out, taking in, counting.
#include <iostream>

#include "core/base/json_writer.hpp"
#include "core/base/paths.hpp"
#include "core/base/table.hpp"
#include "core/base/text.hpp"
#include "core/cli/drafting.hpp"
#include "core/cli/finding_words.hpp"
#include "core/exchange/bag.hpp"
#include "core/exchange/sheets.hpp"
#include "core/exchange/xml_in.hpp"
#include "core/exchange/xml_out.hpp"

namespace lathbook::cli {

namespace fs = std::filesystem;

namespace {

/// The exchange document to read: the file named, or that of a bag of ours, which must be whole.
fs::path document_of(const std::string& named) {
  if (!fs::exists(named)) fail(ErrorKind::not_found, "there is no file " + quote(named));
  if (!is_bag(named)) return named;
  const auto verdict = verify_bag(named);
  for (const auto& finding : verdict.findings) {
    if (finding.severity != Severity::fault) continue;
    fail(ErrorKind::corrupt, "the bag " + quote(named) + " is not whole, so nothing is restored (" +
                                 finding.place + ": " + finding.text +
                                 "); 'lathbook verify-bag' lists everything");
  }
  const fs::path document = fs::path(named) / "data" / "archive.xml";
  if (!fs::exists(document))
    fail(ErrorKind::invalid,
         "the bag " + quote(named) + " holds no data/archive.xml: it was packed by another program");
  return document;
}

}  // namespace

int begin(Context& context, const Begin& wanted) {
  Archive::create(wanted.folder);
  Archive archive(wanted.folder, context.clock(), {.write = true, .vfs = {}, .media_disk = {}});
  auto writer = archive.write();
  const auto id = writer->make_record(Kind::archive, "ARCHIVE", std::nullopt);
  if (!wanted.name.empty()) {
    Ground ground;
    writer->add(draft(context, archive, *writer, id, "archive-name", wanted.name, ground));
  }
  writer->commit();
  if (context.json()) {
    tell_pairs(context, {{"folder", wanted.folder}, {"archive", archive.id().text()}});
  } else {
    context.out() << "began an archive in " << quote(wanted.folder) << "\n"
                  << "next: lathbook --archive " << wanted.folder << " new agent ME --name \"your name\"\n";
  }
  return kDone;
}

int check(Context& context, const Check& wanted) {
  std::optional<Digest> fingerprint;
  if (!wanted.fingerprint.empty()) {
    fingerprint = Digest::from_hex(wanted.fingerprint);
    if (!fingerprint) fail(ErrorKind::invalid, "a fingerprint has 64 digits of 0-9 and a-f");
  }
  const auto archive = context.open(wanted.bring_forward);
  const auto findings = archive.check(fingerprint, !wanted.no_media);
  const auto now = archive.fingerprint().hex();
  if (context.json()) {
    JsonWriter json(context.out());
    json.begin_object().key("fingerprint").string(now).key("sound").boolean(!has_fault(findings));
    json_findings(json, findings);
    json.end_object().finish();
  } else {
    tell_findings(context, findings);
    context.out() << (has_fault(findings) ? "the archive has faults" : "the archive is sound")
                  << "; its fingerprint is\n"
                  << now << '\n';
  }
  return has_fault(findings) ? kFaultsFound : kDone;
}

int merge(Context& context, const Merge& wanted) {
  const Archive other(wanted.other, context.clock());
  auto archive = context.open(true);
  const auto report = archive.merge(other);
  if (context.json()) {
    JsonWriter json(context.out());
    json.begin_object().key("offered").number(report.offered).key("added").number(report.added);
    json.key("filled")
        .number(report.filled)
        .key("kept-expunged")
        .number(report.expunged)
        .key("files")
        .number(report.media);
    json_findings(json, report.findings);
    json.end_object().finish();
  } else {
    context.out() << report.offered << " statements offered, " << report.added << " were new";
    if (report.filled != 0) context.out() << ", " << report.filled << " withheld ones were filled";
    if (report.expunged != 0) context.out() << ", " << report.expunged << " stay expunged";
    context.out() << "; " << report.media << " files copied\n";
    tell_findings(context, report.findings);
  }
  return kDone;
}

int restore(Context& context, const Restore& wanted) {
  const fs::path document = document_of(wanted.file);
  const bool fresh = !fs::exists(wanted.folder);
  Archive::create(wanted.folder);
  try {
    Archive archive(wanted.folder, context.clock(), {.write = true, .vfs = {}, .media_disk = {}});
    auto writer = archive.write(true);
    const auto summary = read_exchange(document, *writer);
    writer->adopt_identity(summary.archive);
    std::uint64_t copied = 0;
    for (const auto& file : summary.media) {
      if (file.path.empty()) {
        context.err() << "the file " << file.digest.hex()
                      << " is listed but does not lie beside the document\n";
        continue;
      }
      if (writer->add_media(file.path).digest != file.digest) {
        fail(ErrorKind::corrupt,
             quote(file.path.string()) + " has been changed: its bytes do not fit its name");
      }
      ++copied;
    }
    writer->commit();
    writer.reset();
    const std::uint64_t withheld = archive.statistics().withheld;
    if (context.json()) {
      JsonWriter json(context.out());
      json.begin_object().key("statements").number(summary.statements).key("files").number(copied);
      json.key("withheld").number(withheld);
      json.key("fingerprint").string(archive.fingerprint().hex()).end_object().finish();
    } else {
      context.out() << "restored " << summary.statements << " statements and " << copied << " files into "
                    << quote(wanted.folder) << "; the fingerprint is\n"
                    << archive.fingerprint().hex() << '\n';
      if (withheld != 0)
        context.out() << withheld << (withheld == 1 ? " of them is" : " of them are")
                      << " withheld: this copy knows that something was said, and not what; 'lathbook merge' "
                         "with the whole archive fills it in\n";
    }
  } catch (...) {
    // What was begun for this document alone goes with it.
    std::error_code ignored;
    if (fresh) {
      fs::remove_all(wanted.folder, ignored);
    } else {
      for (const auto& entry : fs::directory_iterator(wanted.folder)) fs::remove_all(entry.path(), ignored);
    }
    throw;
  }
  return kDone;
}

int write_out(Context& context, const WriteOut& wanted) {
  const auto archive = context.open(false);
  const auto ledger = archive.ledger(context.read_options());
  if (wanted.file == "-") {
    write_exchange(*ledger, context.out());
    return kDone;
  }
  AtomicFile file(wanted.file);
  write_exchange(*ledger, file.stream());
  file.commit();
  const auto copied = wanted.no_media ? 0 : write_media_beside(*ledger, wanted.file);
  if (context.json()) {
    JsonWriter json(context.out());
    json.begin_object().key("statements").number(ledger->count()).key("files").number(copied);
    json.key("fingerprint").string(ledger->fingerprint().hex()).end_object().finish();
  } else {
    context.out() << "wrote " << ledger->count() << " statements and " << copied << " files to "
                  << quote(wanted.file) << '\n';
    if (!context.common().with_private && archive.statistics().closed != 0) {
      context.out()
          << archive.statistics().closed
          << " of them are private and left out of this public copy; add --with-private for a complete one\n";
    }
  }
  return kDone;
}

int take_in(Context& context, const TakeIn& wanted) {
  SheetOptions options;
  options.take_good_rows = wanted.good_rows;
  options.source = wanted.ground.source;
  options.locator = wanted.ground.locator;
  options.evidence = wanted.ground.evidence;
  options.confidence = wanted.ground.confidence;
  options.author = wanted.ground.by;
  options.recorder = context.recorder_code();
  options.media_folder = wanted.media_folder;
  std::vector<fs::path> files;
  for (const auto& name : wanted.files) {
    std::error_code failed;
    if (!fs::is_directory(name, failed)) {
      files.emplace_back(name);
      continue;
    }
    for (const auto& entry : fs::directory_iterator(name)) {
      if (entry.path().extension() == ".csv") files.push_back(entry.path());
    }
  }
  if (files.empty())
    fail(ErrorKind::invalid, "there are no sheets (.csv) in " + quote(join(wanted.files, ", ")));
  std::sort(files.begin(), files.end());
  auto archive = context.open(true);
  SheetReport report;
  do {
    auto writer = session(context, archive);
    options.refused = report.refused;
    report = import_sheets(files, *writer, options);
    if (report.applied) writer->commit();
  } while (!report.applied && report.try_again && wanted.good_rows);
  if (context.json()) {
    JsonWriter json(context.out());
    json.begin_object().key("records").number(report.records).key("statements").number(report.statements);
    json.key("files").number(report.media).key("taken").boolean(report.applied).key("refused").begin_array();
    for (const auto& fault : report.faults) {
      json.begin_object().key("file").string(fault.file).key("line").number(fault.line);
      json.key("column")
          .string(fault.column)
          .key("value")
          .string(fault.value)
          .key("reason")
          .string(fault.reason)
          .end_object();
    }
    json.end_array().end_object().finish();
  } else {
    for (const auto& fault : report.faults) context.err() << fault.text() << '\n';
    if (report.applied) {
      context.out() << "took in " << report.records << " records, " << report.statements << " statements and "
                    << report.media << " files\n";
    } else {
      context.out() << "nothing was taken in: " << report.faults.size()
                    << " faults; mend the rows, or add --good-rows to take the others\n";
    }
  }
  return report.faults.empty() ? kDone : kFaultsFound;
}

int tally(Context& context) {
  const auto archive = context.open(false);
  const auto counts = archive.statistics();
  if (context.json()) {
    JsonWriter json(context.out());
    json.begin_object().key("statements").number(counts.statements).key("current").number(counts.current);
    json.key("private")
        .number(counts.closed)
        .key("withheld")
        .number(counts.withheld)
        .key("expunged")
        .number(counts.expunged);
    json.key("chains").number(counts.chains).key("files").number(counts.media).key("records").begin_object();
    for (const auto& [kind, count] : counts.records) json.key(lathbook::word(kind)).number(count);
    json.end_object().key("fingerprint").string(archive.fingerprint().hex()).end_object().finish();
    return kDone;
  }
  Table table({"what", "how many"});
  table.align(1, Table::Align::right);
  for (const auto& [kind, count] : counts.records)
    table.add({std::string(lathbook::word(kind)), std::to_string(count)});
  table.add({"statements", std::to_string(counts.statements)});
  table.add({"  of them current", std::to_string(counts.current)});
  table.add({"  private", std::to_string(counts.closed)});
  table.add({"  withheld", std::to_string(counts.withheld)});
  table.add({"  expunged", std::to_string(counts.expunged)});
  table.add({"chains", std::to_string(counts.chains)});
  table.add({"files", std::to_string(counts.media)});
  table.print(context.out());
  context.out() << "fingerprint " << archive.fingerprint().hex() << '\n';
  return kDone;
}

}  // namespace lathbook::cli
