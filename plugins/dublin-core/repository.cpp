// Writes the list file.
#include "plugins/dublin-core/repository.hpp"

#include <algorithm>

#include "core/view/addresses.hpp"
#include "core/view/words.hpp"

namespace lathbook::dublin_core {

namespace {

constexpr char kOai[] = "http://www.openarchives.org/OAI/2.0/";

/// The pattern of OAI-PMH's schema: something, @, a name with a dot, no blanks.
bool is_email(const std::string& text) {
  const auto at = text.find('@');
  const auto dot = text.rfind('.');
  return at != std::string::npos && at > 0 && dot != std::string::npos && dot > at + 1 &&
         dot + 1 < text.size() && text.find_first_of(" \t\n") == std::string::npos;
}

}  // namespace

Keeper keeper_of(const StatementReader& reader) {
  Keeper keeper;
  keeper.name = archive_name(reader);
  reader.each_record(Kind::archive, [&](const RecordInfo& info) {
    const RecordView record = RecordView::read(reader, info);
    keeper.address = record.text("harvest-address");
    for (const Statement* one : record.all("contact-email"))
      if (is_email(one->content.value)) keeper.emails.push_back(one->content.value);
    return keeper.address.empty();
  });
  return keeper;
}

std::string missing(const Keeper& keeper) {
  std::string words;
  if (keeper.emails.empty()) words = "contact-email (an e-mail address)";
  if (keeper.address.empty())
    words +=
        std::string(words.empty() ? "" : " and ") + "harvest-address (where a gateway answers harvesters)";
  return words.empty() ? words : "the archive's " + words + " with 'lathbook say ARCHIVE ...'";
}

RepositoryWriter::RepositoryWriter(std::ostream& out, const Keeper& keeper, const std::string& earliest)
    : xml_(out) {
  xml_.start("Repository").attribute("xmlns", std::string(kOai) + "static-repository");
  xml_.attribute("xmlns:oai", kOai).attribute("xmlns:xsi", "http://www.w3.org/2001/XMLSchema-instance");
  xml_.attribute("xsi:schemaLocation",
                 std::string(kOai) + "static-repository " + kOai + "static-repository.xsd");
  identify(keeper, earliest);
  formats();
  xml_.start("ListRecords").attribute("metadataPrefix", "oai_dc");
}

void RepositoryWriter::identify(const Keeper& keeper, const std::string& earliest) {
  xml_.start("Identify");
  xml_.element("oai:repositoryName", keeper.name).element("oai:baseURL", keeper.address);
  xml_.element("oai:protocolVersion", "2.0");
  for (const auto& email : keeper.emails) xml_.element("oai:adminEmail", email);
  xml_.element("oai:earliestDatestamp", earliest).element("oai:deletedRecord", "no");
  xml_.element("oai:granularity", "YYYY-MM-DD").end();
}

void RepositoryWriter::formats() {
  xml_.start("ListMetadataFormats").start("oai:metadataFormat").element("oai:metadataPrefix", "oai_dc");
  xml_.element("oai:schema", std::string(kOai) + "oai_dc.xsd");
  xml_.element("oai:metadataNamespace", std::string(kOai) + "oai_dc/").end().end();
}

void RepositoryWriter::write(const RecordView& record, const Ground& ground) {
  xml_.start("oai:record").start("oai:header");
  xml_.element("oai:identifier", record_address(ground.base, record.info.id));
  xml_.element("oai:datestamp", datestamp(record)).end();
  xml_.start("oai:metadata");
  write_dc(xml_, record, ground);
  xml_.end().end();
}

void RepositoryWriter::finish() {
  xml_.end().end();
  xml_.finish();
}

}  // namespace lathbook::dublin_core
