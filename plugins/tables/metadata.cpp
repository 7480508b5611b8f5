// Describes the sheets.
#include "plugins/tables/metadata.hpp"

#include "core/base/calendar.hpp"
#include "core/base/json_writer.hpp"

namespace lathbook::tables {

namespace {

void write_column(JsonWriter& json, const Column& column) {
  json.begin_object();
  json.key("name").string(column_name(column.title)).key("titles").string(column.title);
  json.key("datatype");
  if (column.format.empty()) {
    json.string(column.datatype);
  } else {
    json.begin_object().key("base").string(column.datatype).key("format").string(column.format).end_object();
  }
  if (column.required) json.key("required").boolean(true);
  if (column.several) json.key("separator").string(" | ");
  json.end_object();
}

void write_foreign_keys(JsonWriter& json, const Sheet& sheet) {
  bool any = false;
  for (const Column& column : sheet.columns) {
    if (column.refers_to.empty()) continue;
    if (!any) json.key("foreignKeys").begin_array();
    any = true;
    json.begin_object().key("columnReference").string(column_name(column.title)).key("reference");
    json.begin_object().key("resource").string(column.refers_to).key("columnReference").string("code");
    json.end_object().end_object();
  }
  if (any) json.end_array();
}

}  // namespace

void write_metadata(std::ostream& out, const std::string& title, const Reading& reading,
                    const std::vector<Sheet>& sheets) {
  JsonWriter json(out);
  json.begin_object().key("@context").string("http://www.w3.org/ns/csvw");
  json.key("dc:title").string(title);
  json.key("dc:description")
      .string("State " + reading.fingerprint.hex() + ", known on " + iso_day(reading.known_day) + ", " +
              std::to_string(reading.withheld) + " statements withheld. A cell that a spreadsheet would " +
              "compute has an apostrophe before it.");
  json.key("dialect").begin_object();
  json.key("encoding").string("utf-8").key("lineTerminators").begin_array().string("\r\n").end_array();
  json.key("header").boolean(true).key("doubleQuote").boolean(true).end_object();
  json.key("tables").begin_array();
  for (const Sheet& sheet : sheets) {
    json.begin_object().key("url").string(sheet.file).key("dc:description").string(sheet.about);
    json.key("tableSchema").begin_object().key("columns").begin_array();
    for (const Column& column : sheet.columns) write_column(json, column);
    json.end_array().key("primaryKey").string(column_name(sheet.key));
    write_foreign_keys(json, sheet);
    json.end_object().end_object();
  }
  json.end_array().end_object();
  json.finish();
}

}  // namespace lathbook::tables
