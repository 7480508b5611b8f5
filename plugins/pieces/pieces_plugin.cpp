// The plugin 'pieces': counts, maps, crate lists, labels and matching sheets.
#include "core/base/text.hpp"
#include "core/plugin/descriptor.hpp"
#include "core/plugin/settings.hpp"
#include "core/view/hazards.hpp"
#include "core/view/stops.hpp"
#include "core/view/words.hpp"
#include "plugins/pieces/account.hpp"
#include "plugins/pieces/gather.hpp"
#include "plugins/pieces/map_svg.hpp"
#include "plugins/pieces/photo_map.hpp"
#include "plugins/pieces/write.hpp"

namespace lathbook::pieces {

namespace {

Buying buying_from(const Settings& settings) {
  Buying buying;
  for (const auto& [name, value] : settings) {
    if (name == "rejects") buying.rejects = whole_number_setting<int>(name, value, 0, 99);
    if (name == "spares") buying.spares = whole_number_setting<std::size_t>(name, value, 0, 100000);
  }
  return buying;
}

PieceAccounts accounts_of(const Snapshot& archive, const Uuid& scope, const Settings& settings,
                          Services& services) {
  PieceAccounts accounts = gather(archive, scope, services);
  const Buying buying = buying_from(settings);
  for (auto& field : accounts.fields) {
    count(field);
    order_missing(field, buying);
  }
  return accounts;
}

// "1-20", or "7".
Part part_setting(const std::string& name, const std::string& value) {
  const auto dash = value.find('-');
  const auto first = number_in<int>(value.substr(0, dash));
  const auto last = dash == std::string::npos ? first : number_in<int>(value.substr(dash + 1));
  if (!first || !last || *first < 1 || *last < *first)
    fail(ErrorKind::invalid,
         "setting '" + name + "' is a run of numbers from 1, like 1-20, not " + quote(value));
  return {*first, *last};
}

MapOptions map_options(const Settings& settings) {
  MapOptions options;
  for (const auto& [name, value] : settings) {
    if (name == "side") {
      if (value != "front" && value != "back") fail(ErrorKind::invalid, "setting 'side' is front or back");
      options.back = value == "back";
    }
    if (name == "rows") options.rows = part_setting(name, value);
    if (name == "columns") options.columns = part_setting(name, value);
    if (name == "scale") options.scale = whole_number_setting<int>(name, value, 1, 1000);
    if (name != "shows") continue;
    if (value == "number")
      options.shows = MapShows::number;
    else if (value == "state")
      options.shows = MapShows::state;
    else if (value == "condition")
      options.shows = MapShows::condition;
    else if (value == "container")
      options.shows = MapShows::container;
    else
      fail(ErrorKind::invalid, "setting 'shows' is number, state, condition or container");
  }
  return options;
}

class Counting : public Analysis {
public:
  AnalysisResult run(const Snapshot& archive, const AnalysisRequest& request, Services& services) override {
    return accounts_of(archive, request.scope, request.settings, services);
  }
};

class Sheets : public Report {
public:
  std::vector<std::string> formats() const override {
    return {"text", "json", "map", "photo-map", "matching-sheet", "crate-list", "labels", "quantities"};
  }

  void write(const Snapshot& archive, const ReportRequest& request, std::ostream& out,
             Services& services) override {
    if (request.format == "quantities") return write_quantities(request.settings, out);
    PieceAccounts accounts = accounts_of(archive, request.scope, request.settings, services);
    const Care care = care_for(archive, request.scope, accounts);
    if (request.format == "text") return write_text(accounts, care.stops, out);
    if (request.format == "json") return write_json(accounts, care.stops, out);
    if (request.format == "map") return map(accounts, request.settings, care.stops, out);
    if (request.format == "photo-map")
      return photo_map(archive, accounts, request.settings, care.stops, services, out);
    if (request.format == "labels")
      return write_labels(accounts, {base_of(archive), archive_name(archive.statements())}, care, out);
    if (request.format == "crate-list") return write_crate_list(accounts, care, out);
    for (auto& field : accounts.fields)
      if (field.order.needed != 0) find_pictures(archive, services.files(), field);
    write_shopping(accounts, care, services.files(), out);
  }

private:
  static FieldAccount& only_field(PieceAccounts& accounts) {
    if (accounts.fields.size() != 1)
      fail(ErrorKind::invalid, "a map is of one element laid in pieces; name it (" +
                                   std::to_string(accounts.fields.size()) + " were found)");
    return accounts.fields.front();
  }

  static void photo_map(const Snapshot& archive, PieceAccounts& accounts, const Settings& settings,
                        const std::vector<std::string>& stops, const Services& services, std::ostream& out) {
    FieldAccount& field = only_field(accounts);
    std::string photo;
    for (const auto& [name, value] : settings)
      if (name == "photo") photo = value;
    find_pictures(archive, services.files(), field);
    write_photo_map(field, photo, stops, services.files(), out);
  }

  static void map(PieceAccounts& accounts, const Settings& settings, const std::vector<std::string>& stops,
                  std::ostream& out) {
    MapOptions options = map_options(settings);
    options.stops = stops;
    write_map(only_field(accounts), options, out);
  }

  static std::string base_of(const Snapshot& archive) {
    std::string base;
    Query query;
    query.properties = {Registry::standard().named("base-iri").id};
    archive.statements().each_statement(query, [&](const Statement& statement) {
      base = statement.content.value;
      return true;
    });
    return base;
  }

  static Care care_for(const Snapshot& archive, const Uuid& scope, const PieceAccounts& accounts) {
    std::vector<Uuid> about;
    if (scope != Uuid{}) about.push_back(scope);
    for (const auto& field : accounts.fields) about.push_back(field.element.id);
    return {stop_lines(stops_around(archive, about)), hazard_lines(hazards_of(archive, about))};
  }
};

}  // namespace

class PiecesPlugin : public Plugin {
public:
  Analysis* analysis() override { return &counting_; }
  Report* report() override { return &sheets_; }

private:
  Counting counting_;
  Sheets sheets_;
};

}  // namespace lathbook::pieces

LATHBOOK_PLUGIN(
    lathbook::pieces::PiecesPlugin, .name = "pieces", .version = "1.0", .kind = "analysis report",
    .summary = "counts pieces, draws their maps, and prints crate lists, labels and matching sheets",
    .provides = "pieces@1",
    .settings =
        "rejects spares side scale shows rows columns photo of run rise length width flats thickness joint "
        "opening allowance waste");
