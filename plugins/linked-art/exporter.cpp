// Walks the archive and writes a file a record.
#include "plugins/linked-art/exporter.hpp"

#include <set>

#include "core/view/addresses.hpp"
#include "core/view/held.hpp"
#include "core/view/scope.hpp"
#include "plugins/linked-art/record_maker.hpp"
#include "plugins/linked-art/terms.hpp"

namespace lathbook::linked_art {

namespace {

class Export {
public:
  Export(const Snapshot& archive, const ExportRequest& request, FolderSink& out, Services& services)
      : archive_(archive), services_(services), out_(out), context_(archive.statements(), request.base_iri) {
    if (request.scope != Uuid{}) context_.scope = belongings_of(archive, request.scope);
  }

  void write() {
    context_.ruled_aside = ruled_aside(context_.reader);
    write_records();
    write_mentioned();
    write_types();
    write_index();
    tell();
  }

private:
  void write_file(const std::string& path, const Node& document) {
    JsonWriter json(out_.file(path + ".json"));
    document.write(json);
    json.finish();
    ++written_;
  }

  void write_record(const Uuid& id, bool whole) {
    auto entry = context_.look(id);
    if (!entry || entry->info.kind == Kind::archive) return;
    if (entry->shape == Shape::none) {
      ++formless_;
      return;
    }
    RecordMaker maker(context_, std::move(*entry));
    Beside beside;
    const Node document = maker.make(whole, beside);
    const std::string path = "record/" + id.text();
    write_file(path, document);
    if (beside.place) write_file(path + "-space", *beside.place);
    for (const auto& [digest, file] : beside.files)
      if (files_.insert(digest).second) write_file("media/" + digest, file);
    in_words_ += maker.in_words();
  }

  void write_records() {
    std::uint64_t done = 0;
    for (const Kind kind : all_kinds()) {
      context_.reader.each_record(kind, [&](const RecordInfo& info) {
        if (services_.stop_requested()) return false;
        if (context_.in_scope(info.id)) write_record(info.id, true);
        services_.progress(++done, 0);
        return true;
      });
    }
  }

  /// Sources and people outside the scope whole, for they are what the statements rest on; of other things
  /// what they are and are called.
  void write_mentioned() {
    while (!context_.outside.empty() && !services_.stop_requested()) {
      const Uuid id = context_.outside.front();
      context_.outside.pop_front();
      const auto entry = context_.look(id);
      if (!entry || context_.in_scope(id)) continue;
      const bool whole = entry->info.kind == Kind::source || entry->info.kind == Kind::agent;
      context_.scope->insert(id);
      write_record(id, whole);
    }
  }

  void write_types() {
    for (const auto& [key, said] : context_.own_types()) {
      const auto& [type, label] = said;
      Node document;
      document.set("@context", "https://linked.art/ns/v1/linked-art.json");
      document.set("id", context_.base + "type/" + key);
      document.set("type", type);
      document.set("_label", label);
      Node name;
      name.set("type", "Name");
      name.add("classified_as", context_.public_type(aat::primary_name, "primary name"));
      name.set("content", label);
      document.add("identified_by", std::move(name));
      write_file("type/" + key, document);
    }
  }

  /// Where everything is: written last, so a folder without it is not whole.
  void write_index() {
    JsonWriter json(out_.file("index.json"));
    const Reading reading = archive_.reading();
    json.begin_object();
    json.key("base").string(context_.base);
    json.key("fingerprint").string(reading.fingerprint.hex());
    json.key("withheld").number(reading.withheld);
    json.key("files").number(written_);
    json.key("records").begin_array();
    for (const Kind kind : all_kinds())
      context_.reader.each_record(kind, [&](const RecordInfo& info) {
        const auto entry = context_.look(info.id);
        if (!entry || entry->shape == Shape::none || !context_.in_scope(info.id)) return true;
        json.begin_object();
        json.key("id").string(record_address(context_.base, info.id));
        json.key("type").string(type_word(entry->shape));
        json.key("code").string(info.code);
        json.key("file").string("record/" + info.id.text() + ".json");
        json.end_object();
        return true;
      });
    json.end_array().end_object().finish();
  }

  void tell() {
    if (in_words_ != 0)
      services_.note(Severity::note, std::to_string(in_words_) +
                                         (in_words_ == 1 ? " statement is" : " statements are") +
                                         " told in words, because Linked Art has no form for them");
    if (formless_ != 0)
      services_.note(Severity::note,
                     std::to_string(formless_) +
                         (formless_ == 1 ? " cut, ghost or opening is" : " cuts, ghosts and openings are") +
                         " left out: Linked Art has no surfaces; the CIDOC CRM export has them");
    if (!files_.empty())
      services_.note(Severity::note, std::to_string(files_.size()) +
                                         (files_.size() == 1 ? " file is" : " files are") +
                                         " named by SHA-256 and not enclosed");
  }

  const Snapshot& archive_;
  Services& services_;
  FolderSink& out_;
  Context context_;
  std::set<std::string> files_;
  std::uint64_t written_ = 0, in_words_ = 0, formless_ = 0;
};

}  // namespace

std::vector<std::string> LinkedArtExporter::formats() const {
  return {"json-ld"};
}

bool LinkedArtExporter::makes_folder(std::string_view) const {
  return true;
}

void LinkedArtExporter::write_folder(const Snapshot& archive, const ExportRequest& request, FolderSink& out,
                                     Services& services) {
  require_web_address(request.base_iri, "Linked Art");
  Export(archive, request, out, services).write();
}

}  // namespace lathbook::linked_art
