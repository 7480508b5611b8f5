// One record at a time as Linked Art: plain properties for what is held, an attribute assignment for each
// statement that rests on evidence.
#pragma once

#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "plugins/linked-art/context.hpp"
#include "plugins/linked-art/mapping.hpp"

namespace lathbook::linked_art {

/// What was found on the way and has a document of its own.
struct Beside {
  std::optional<Node> place;    ///< the space of a building or room
  std::optional<Node> carrier;  ///< the paper of a source that somebody keeps
  /// Files of the record: SHA-256 and its document.
  std::vector<std::pair<std::string, Node>> files;
};

class RecordMaker {
public:
  RecordMaker(Context& context, Entry entry);
  /// The document of the record; `whole` = false: only what it is and what it is called.
  Node make(bool whole, Beside& beside);
  /// Statements that could be told in words only.
  std::uint64_t in_words() const { return in_words_; }

private:
  void head(Node& node, const std::string& id, std::string_view type, const std::string& label) const;
  void read();
  void say(const Statement& statement, const Property& property, bool held);
  void say_plainly(const Statement& statement, const Property& property, const Rule& rule);
  bool say_in_form(const Statement& statement, const Property& property, const Rule& rule);
  bool say_of_object(const Content& said, const Rule& rule);
  bool say_of_activity(const Content& said, const Rule& rule);
  bool say_of_sign(const Statement& statement, const Rule& rule);
  bool say_of_person(const Content& said, const Rule& rule);
  void say_in_words(const Content& said, const Property& property, bool bare);
  void add_name(const Content& said, bool primary);
  void add_file(const Content& said);
  void add_file_document(const Content& said);
  bool add_measure(const Content& said, const Property& property);
  void attribute(const Statement& statement, const Property& property, const Rule& rule);
  std::vector<Node> assigned(const Content& said, const Property& property, const Rule& rule);
  std::optional<Node> measure_of(const Content& said, const Property& property);
  /// A mark or label on this object: the reference to it, and what it says in words.
  void bear(const Uuid& id, bool mark, const Node& sign);
  /// What other records say of this one: marks and labels on it, things seen in it, work done to it.
  void say_what_others_say();
  void finish();

  Context& context_;
  const Entry entry_;
  Node node_, production_, creation_, removal_, activity_, place_;
  std::vector<Statement> statements_;
  std::vector<bool> held_;
  std::string primary_;  ///< the name that was written as the primary one
  std::string began_, ended_;
  Beside* beside_ = nullptr;
  std::uint64_t in_words_ = 0;
};

}  // namespace lathbook::linked_art
