// One LIDO record, part by part; every function writes elements in the order that the schema wants.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/analysis/timeline_index.hpp"
#include "core/base/xml_writer.hpp"
#include "core/view/snapshot.hpp"
#include "core/view/uncarried.hpp"
#include "plugins/lido/mapping.hpp"

namespace lathbook::lido {

/// What the records of one export share.
struct Ground {
  const StatementReader& reader;
  std::string base;
  std::string keeper;            ///< name of the archive
  const TimelineIndex timeline;  ///< empty when it could not be had
  Uncarried& uncarried;
};

/// Everything known of the object of one record.
struct Object {
  RecordView record;
  std::vector<RecordView> inscriptions;    ///< marks and labels on it, by code
  std::vector<RecordView> finishes;        ///< coats on it, from the substrate outward
  std::vector<RecordView> events;          ///< what was done to it, by date
  std::vector<const TimelineItem*> items;  ///< one a placement
};

Object object_of(const Ground& ground, const RecordView& record);

/// The statements of a part of the table, best founded first within a property.
std::vector<const Statement*> facts_of(const RecordView& record, Part part);
/// "certain, physical; contact: laps over": what qualifies a statement, in words.
std::string ground_in_words(const Content& content);

class RecordWriter {
public:
  RecordWriter(XmlWriter& xml, const Ground& ground, const Object& object)
      : xml_(xml), ground_(ground), reader_(ground.reader), object_(object), record_(object.record) {}
  void write();

private:
  // record.cpp
  void classification();
  void administrative();
  void pictures();
  void picture(const SourceView& source, const Statement& statement, const Digest& file);
  void count_the_rest();
  // identification.cpp
  void identification();
  void titles();
  void inscriptions();
  void inscription(const RecordView& mark);
  void inscription_note(std::string_view type, const Statement& statement, const std::string& words);
  void repository();
  void descriptions();
  void description(std::string_view type, const std::string& words, const std::string& sources);
  void measurements();
  void materials();
  // events.cpp
  void events();
  void production();
  /// Begins an actor in a role, which the caller ends with the role; false, and nothing written, when the
  /// name is not shown.
  bool begin_actor(const Content& said);
  void makers();
  void placements();
  void placement(const TimelineItem& item);
  void stated_placement();
  void finding();
  void recorded(const RecordView& event);
  void begin_event(const EventTerm& term, const std::string& words);
  void end_event();
  void date(const Span& span);
  void date(const std::string& edtf, const std::string& typed);
  void days(const std::string& earliest, const std::string& latest);
  void periods(std::initializer_list<std::string_view> properties, int placement);
  void place(const Uuid& id);
  void event_notes(std::initializer_list<std::string_view> properties, const RecordView& record);
  // relations.cpp
  void relations();
  // small
  void identifier(std::string_view element, std::string_view type, std::string_view value);
  void concept_of(std::string_view element, std::string_view id, std::string_view label);
  void appellation(std::string_view element, std::string_view value);

  XmlWriter& xml_;
  const Ground& ground_;
  const StatementReader& reader_;
  const Object& object_;
  const RecordView& record_;
  int event_ = 0;
};

}  // namespace lathbook::lido
