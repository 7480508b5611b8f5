// A piece of a JSON document in memory: one record is put together before it is written.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/base/json_writer.hpp"

namespace lathbook::linked_art {

/// Words, a number, a list or an object. Members keep the order in which they were first named.
class Node {
public:
  Node() = default;
  Node(std::string text) : form_(Form::words), text_(std::move(text)) {}
  Node(std::string_view text) : Node(std::string(text)) {}
  Node(const char* text) : Node(std::string(text)) {}
  static Node number(double value);
  static Node list(std::vector<Node> items);

  /// Sets a member; one that is there already is kept, and the answer is false.
  bool set(std::string_view key, Node value);
  /// Adds to the list under a key, once.
  void add(std::string_view key, Node item);
  bool has(std::string_view key) const { return get(key) != nullptr; }
  const Node* get(std::string_view key) const;
  bool operator==(const Node& other) const = default;
  void write(JsonWriter& json) const;

private:
  enum class Form { object, words, number, list };

  Form form_ = Form::object;
  std::string text_;
  double number_ = 0;
  std::vector<std::string> keys_;
  std::vector<Node> items_;  ///< of a list; or of an object, one for each key
};

}  // namespace lathbook::linked_art
