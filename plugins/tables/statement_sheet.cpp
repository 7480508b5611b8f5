// Writes statements.csv.
#include "plugins/tables/statement_sheet.hpp"

#include "core/base/edtf.hpp"
#include "core/base/text.hpp"
#include "core/view/addresses.hpp"
#include "core/view/record_view.hpp"
#include "plugins/tables/values.hpp"

namespace lathbook::tables {

namespace {

class StatementRows {
public:
  StatementRows(Carried& carried, const Sheet& sheet, std::ostream& out, const std::string& base)
      : carried_(carried), writer_(out, sheet), base_(base), details_(carried.details_apart()) {}

  void write(const Statement& statement) {
    const Content& said = statement.content;
    const Property* property = Registry::standard().find(said.property);
    writer_.cell(said.act == Act::state ? carried_.code(said.subject) : "");
    writer_.cell(property == nullptr ? "" : property->name);
    writer_.cell(value(said, property));
    qualifiers(said);
    citations(said);
    writer_.cell(agent(said.author));
    writer_.cell(said.said_on);
    writer_.cell(word(said.evidence));
    writer_.cell(word(said.confidence));
    writer_.cell(agent(said.recorder));
    writer_.cell(said.privacy ? said.privacy->reason : "");
    writer_.cell(said.privacy ? said.privacy->until : "");
    writer_.cell(said.language);
    writer_.cell(Carried::handle_of(statement));
    writer_.cell(said.act == Act::state ? handles(said.targets) : "");
    writer_.cell(said.act == Act::withdraw ? handles(said.targets) : "");
    writer_.cell(handles(said.grounds));
    writer_.cell(said.why);
    beside(statement, property);
    writer_.end_row();
  }

  std::map<Digest, std::string> files;

private:
  std::string value(const Content& said, const Property* property) {
    if (property == nullptr) return {};
    switch (property->type) {
      case ValueType::record:
        return carried_.code(*Uuid::parse(said.value));
      case ValueType::statement:
        return carried_.handle(*Digest::from_hex(said.value));
      case ValueType::media: {
        const Digest digest = *Digest::from_hex(said.value);
        return files.emplace(digest, media_path_of(said)).first->second;
      }
      default:
        return said.value;
    }
  }

  void qualifiers(const Content& said) {
    std::string together;
    std::map<std::string_view, std::string_view> apart;
    for (const Qualifier& one : said.qualifiers) {
      if (!stands_apart(one) || apart.count(one.name) != 0) {
        together += (together.empty() ? "" : "; ") + one.name + "=" + one.value;
      } else {
        apart.emplace(one.name, one.value);
      }
    }
    writer_.cell(together);
    for (const auto& name : details_) {
      const auto found = apart.find(name);
      writer_.cell(found == apart.end() ? std::string_view() : found->second);
    }
  }

  void citations(const Content& said) {
    std::vector<std::string> sources, locators, quotes;
    bool any_locator = false;
    bool any_quote = false;
    for (const Citation& one : said.citations) {
      sources.push_back(carried_.code(one.source));
      locators.push_back(one.locator);
      quotes.push_back(one.quote);
      any_locator = any_locator || !one.locator.empty();
      any_quote = any_quote || !one.quote.empty();
    }
    writer_.cell(join(sources, " | "));
    writer_.cell(any_locator ? join(locators, " | ") : "");
    writer_.cell(any_quote ? join(quotes, " | ") : "");
  }

  std::string agent(const std::optional<Uuid>& id) { return id ? carried_.code(*id) : std::string(); }

  std::string handles(const std::vector<Digest>& ids) {
    std::vector<std::string> known;
    for (const Digest& id : ids)
      if (auto one = carried_.handle(id); !one.empty()) known.push_back(std::move(one));
    return join(known, " | ");
  }

  /// Columns in round brackets: for the reader, passed over by the import.
  void beside(const Statement& statement, const Property* property) {
    const bool date = property != nullptr && property->type == ValueType::date;
    const std::string edtf = date ? std::string(edtf_of(statement.content)) : std::string();
    writer_.cell(edtf);
    writer_.cell(date ? first_day(edtf) : "");
    writer_.cell(date ? last_day(edtf) : "");
    writer_.cell(statement.current ? "current" : "taken back");
    writer_.cell(statement.header.entered.text());
    writer_.cell(statement_address(base_, statement.id));
  }

  Carried& carried_;
  SheetWriter writer_;
  const std::string base_;
  const std::set<std::string> details_;
};

}  // namespace

Sheet statement_sheet(const Carried& carried, bool agents) {
  const std::string agent_sheet = agents ? "agents.csv" : "";
  Sheet sheet{"statements.csv",
              "Everything that is said, one row a statement, corrections and withdrawals included.",
              "ref",
              {}};
  auto& columns = sheet.columns;
  columns = {{"subject", "string", "", false, false, ""},
             {"property", "string", "[a-z-]*", false, false, ""},
             {"value", "string", "", false, false, ""},
             {"qualifiers", "string", "", false, false, ""}};
  for (const auto& name : carried.details_apart())
    columns.push_back({"{" + name + "}", "string", "", false, false, ""});
  const std::vector<Column> rest{
      {"source", "string", "", false, true, ""},
      {"locator", "string", "", false, false, ""},
      {"quote", "string", "", false, false, ""},
      {"by", "string", "", false, false, agent_sheet},
      {"said-on", "string", kEdtfPattern, false, false, ""},
      {"class", "string", "physical|documentary|oral|comparative", false, false, ""},
      {"confidence", "string", "certain|probable|possible|conjecture", false, false, ""},
      {"recorder", "string", "", false, false, agent_sheet},
      {"private", "string", "", false, false, ""},
      {"private-until", "string", kEdtfPattern, false, false, ""},
      {"language", "string", "", false, false, ""},
      {"ref", "string", "", true, false, ""},
      {"replaces", "string", "", false, true, ""},
      {"withdraws", "string", "", false, true, ""},
      {"grounds", "string", "", false, true, ""},
      {"why", "string", "", false, false, ""},
      {"(edtf)", "string", kEdtfPattern, false, false, ""},
      {"(earliest)", "date", "", false, false, ""},
      {"(latest)", "date", "", false, false, ""},
      {"(state)", "string", "current|taken back", false, false, ""},
      {"(entered)", "dateTimeStamp", "", false, false, ""},
      {"(address)", "anyURI", "", false, false, ""}};
  columns.insert(columns.end(), rest.begin(), rest.end());
  return sheet;
}

std::map<Digest, std::string> write_statements(const Snapshot& archive, Carried& carried, const Sheet& sheet,
                                               std::ostream& out, const std::string& base,
                                               Services& services) {
  const StatementReader& reader = archive.statements();
  StatementRows rows(carried, sheet, out, base);
  Query query;
  query.current_only = false;
  std::uint64_t done = 0;
  reader.each_statement(query, [&](const Statement& statement) {
    if (services.stop_requested()) return false;
    if (carried.takes(statement, true)) {
      rows.write(statement);
      if (!statement.content.proposed_by.empty()) carried.uncarried().add("names of plugins that proposed");
    }
    services.progress(++done, 0);
    return true;
  });
  return std::move(rows.files);
}

}  // namespace lathbook::tables
