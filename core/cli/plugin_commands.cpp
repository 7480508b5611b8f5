// Exports by plugins, and what analyses propose: listing it, and entering what a person accepts.
#include <unistd.h>

#include <algorithm>
#include <set>

#include "core/analysis/proposals.hpp"
#include "core/base/json_writer.hpp"
#include "core/base/paths.hpp"
#include "core/base/text.hpp"
#include "core/cli/drafting.hpp"
#include "core/cli/lent_files.hpp"
#include "core/cli/scope_words.hpp"
#include "core/evidence/registry.hpp"
#include "core/view/snapshot.hpp"

namespace lathbook::cli {

namespace {

// The address given, else the archive's own, else one made from its id.
std::string base_iri_of(const StatementReader& reader, const std::string& given, const Uuid& archive) {
  std::string iri = given;
  if (iri.empty()) {
    Query query;
    query.properties = {Registry::standard().named("base-iri").id};
    reader.each_statement(query, [&](const Statement& statement) {
      iri = statement.content.value;
      return true;
    });
  }
  return iri.empty() ? "urn:uuid:" + archive.text() + "#" : iri;
}

Settings parted(const std::vector<std::string>& typed) {
  Settings settings;
  for (const auto& one : typed) {
    const auto equals = one.find('=');
    if (equals == std::string::npos || equals == 0)
      fail(ErrorKind::invalid, "a setting is written name=value; " + quote(one) + " is not");
    settings.emplace_back(trim(one.substr(0, equals)), trim(one.substr(equals + 1)));
  }
  return settings;
}

std::vector<Draft> proposed(Context& context, const Archive& archive, const Proposals& wanted) {
  const auto reader = archive.read(context.read_options());
  const Snapshot snapshot(*reader);
  AnalysisRequest request;
  if (!wanted.record.empty()) request.scope = need_record(*reader, wanted.record).id;
  request.level = level_of(wanted.level);
  request.settings = parted(wanted.settings);
  const LentFiles files(context, reader->reading());
  return proposals_of(context.plugins().run_analysis(wanted.analysis, snapshot, request, &files));
}

const Draft& with_key(const std::vector<Draft>& drafts, const std::string& key) {
  const auto found = std::find_if(drafts.begin(), drafts.end(),
                                  [&](const Draft& draft) { return proposal_key(draft) == key; });
  if (found == drafts.end()) {
    fail(ErrorKind::not_found, "nothing is proposed under " + quote(key) +
                                   "; the archive may have changed since: list the proposals again");
  }
  return *found;
}

// The record that a draft would make, with what goes along with it: drafts about it and drafts that name it.
bool makes_record(const Draft& draft) {
  return draft.content.property == Registry::standard().named("kind").id;
}

bool goes_with(const Draft& draft, const Draft& maker) {
  return draft.content.subject == maker.content.subject ||
         draft.content.value == maker.content.subject.text();
}

bool goes_along(const Draft& draft, const std::vector<Draft>& drafts) {
  return !makes_record(draft) && std::any_of(drafts.begin(), drafts.end(), [&](const Draft& maker) {
    return makes_record(maker) && goes_with(draft, maker);
  });
}

// Enters a new record with all that goes along, under an id of its own: two copies of an archive that accept
// the same proposal make two records.
void accept_record(Context& context, const Archive& archive, Writer& writer, const std::vector<Draft>& drafts,
                   const Draft& maker, const Ground& ground, std::vector<Digest>& entered) {
  const auto kind = kind_from_word(maker.content.value);
  if (!kind) fail(ErrorKind::invalid, quote(maker.content.value) + " is no kind of record");
  std::string code;
  for (const auto& draft : drafts)
    if (draft.content.subject == maker.content.subject &&
        draft.content.property == Registry::standard().named("code").id)
      code = draft.content.value;
  const Uuid id = writer.make_record(*kind, archive.free_code(code), context.recorder(writer));
  for (const auto& draft : drafts) {
    if (makes_record(draft) || !goes_with(draft, maker)) continue;
    if (draft.content.property == Registry::standard().named("code").id) continue;
    Content content = draft.content;
    if (content.subject == maker.content.subject) content.subject = id;
    if (content.value == maker.content.subject.text()) content.value = id.text();
    content.recorder = context.recorder(writer);
    apply_ground(content, archive, writer, ground);
    entered.push_back(writer.add(std::move(content)));
  }
}

// A page or a drawing is nothing to read on a terminal.
void refuse_page_on_terminal(const std::string& form) {
  static const std::set<std::string, std::less<>> drawings{"map", "photo-map"};
  static const std::set<std::string, std::less<>> pages{"work-sheet", "order-followed", "crate-list",
                                                        "labels",     "matching-sheet", "html"};
  const bool draws = drawings.count(form) != 0;
  if (::isatty(STDOUT_FILENO) == 0 || (!draws && pages.count(form) == 0)) return;
  fail(ErrorKind::invalid, form + (draws ? " is a drawing" : " is a page") +
                               " for the printer, not for a terminal; say in which file to write it: --to " +
                               form + (draws ? ".svg" : ".html"));
}

}  // namespace

int print(Context& context, const Print& wanted) {
  const auto archive = context.open(false);
  const auto reader = archive.read(context.read_options());
  const Snapshot snapshot(*reader);
  const LentFiles files(context, reader->reading());
  ReportRequest request;
  if (!wanted.record.empty()) request.scope = need_record(*reader, wanted.record).id;
  request.level = level_of(wanted.level);
  request.format = context.json() && wanted.form.empty() ? "json" : wanted.form;
  request.settings = parted(wanted.settings);
  if (wanted.file.empty() || wanted.file == "-") {
    if (wanted.file.empty()) refuse_page_on_terminal(wanted.form);
    context.plugins().report_to(wanted.plugin, snapshot, request, context.out(), &files);
    return kDone;
  }
  AtomicFile file(wanted.file);
  context.plugins().report_to(wanted.plugin, snapshot, request, file.stream(), &files);
  file.commit();
  if (!context.json()) context.out() << "wrote " << quote(wanted.file) << '\n';
  return kDone;
}

int proposals(Context& context, const Proposals& wanted) {
  const auto archive = context.open(false);
  const auto drafts = proposed(context, archive, wanted);
  if (context.json()) {
    JsonWriter json(context.out());
    json.begin_array();
    for (const auto& draft : drafts) {
      if (goes_along(draft, drafts)) continue;
      json.begin_object().key("key").string(proposal_key(draft)).key("words").string(draft.words);
      const Property* property = Registry::standard().find(draft.content.property);
      json.key("property").string(property == nullptr ? "" : property->name);
      json.key("value").string(draft.content.value).end_object();
    }
    json.end_array().finish();
    return kDone;
  }
  if (drafts.empty())
    context.out() << "nothing is proposed: nothing follows, or what follows is entered already\n";
  for (const auto& draft : drafts)
    if (!goes_along(draft, drafts))
      context.out() << context.strong(proposal_key(draft)) << "  " << safe_display(draft.words) << '\n';
  return kDone;
}

int accept(Context& context, const Accept& wanted) {
  auto archive = context.open(true);
  const auto drafts = proposed(context, archive, wanted.proposals);
  auto writer = session(context, archive);
  std::vector<Digest> entered;
  for (const auto& key : wanted.keys) {
    const Draft& chosen = with_key(drafts, key);
    if (makes_record(chosen)) {
      accept_record(context, archive, *writer, drafts, chosen, wanted.ground, entered);
      continue;
    }
    Content content = chosen.content;
    content.recorder = context.recorder(*writer);
    apply_ground(content, archive, *writer, wanted.ground);
    entered.push_back(writer->add(std::move(content)));
  }
  writer->commit();
  for (const auto& id : entered) tell_entered(context, *writer, id);
  return kDone;
}

int export_with(Context& context, const Export& wanted) {
  const auto archive = context.open(false);
  const auto reader = archive.read(context.read_options());
  const Snapshot snapshot(*reader);
  const LentFiles files(context, reader->reading());
  ExportRequest request;
  request.scope = scope_of(*reader, wanted.scope);
  request.level = level_of(wanted.level);
  request.format = wanted.format;
  request.base_iri = base_iri_of(*reader, wanted.base_iri, archive.id());
  PluginHost& host = context.plugins();
  if (host.export_makes_folder(wanted.plugin, wanted.format)) {
    if (wanted.file == "-")
      fail(ErrorKind::invalid, "this export is a folder of files; name a new folder instead of -");
    host.export_folder(wanted.plugin, snapshot, request, wanted.file, &files);
  } else if (wanted.file == "-") {
    host.export_to(wanted.plugin, snapshot, request, context.out(), &files);
    return kDone;
  } else {
    AtomicFile file(wanted.file);
    host.export_to(wanted.plugin, snapshot, request, file.stream(), &files);
    file.commit();
  }
  if (!context.json()) {
    context.out() << "wrote " << quote(wanted.file) << '\n';
    tell_withheld(context, reader->reading());
  }
  return kDone;
}

}  // namespace lathbook::cli
