// The rules for one statement at a time, each in a function of its own.
#include "core/evidence/validation.hpp"

#include <algorithm>
#include <string_view>
#include <utility>

#include "core/base/edtf.hpp"
#include "core/base/embedded.hpp"
#include "core/base/text.hpp"
#include "core/base/typed_date.hpp"
#include "core/evidence/value_forms.hpp"

namespace lathbook {

namespace {

std::string fault_of_date(const std::string& text) {
  std::string why;
  return Edtf::try_parse(text, &why) ? std::string{} : "is no date: " + why;
}

// The EDTF of a date as people type it; throws Error(invalid) when it cannot be read.
std::string reading(const std::string& typed) {
  return read_typed_date(typed).edtf.text();
}

bool reads_as(const std::string& typed, const std::string& edtf) {
  try {
    return typed == edtf || reading(typed) == edtf;
  } catch (const Error&) {
    return false;
  }
}

// Words of the list that an everyday word may stand for (schemas/choice-words-en.tsv), that hold it, or that
// are spelt much like it.
std::vector<std::string> meant_by(const std::string& list, const std::string& value,
                                  const std::vector<std::string>& members) {
  const std::string typed = fold(value);
  for (const auto& line : split(embedded_table("choice-words"), '\n')) {
    const auto cells = split(line, '\t');
    if (cells.size() == 3 && cells[0] == list && cells[1] == typed) return split(cells[2], ';');
  }
  std::vector<std::string> meant;
  if (typed.size() > 2)
    for (const auto& member : members)
      if (member.find(typed) != std::string::npos && meant.size() < 3) meant.push_back(member);
  return meant.empty() ? nearest(typed, members, 1) : meant;
}

std::string fault_of_choice(const std::string& list, const std::string& value, const Registry& registry) {
  const auto& members = registry.choices(list);
  if (std::find(members.begin(), members.end(), value) != members.end()) return {};
  const auto meant = meant_by(list, value, members);
  return "is not one of the words of " + list + ": " + join(members, "; ") +
         (meant.empty() ? "" : "; did you mean " + join(meant, ", or ") + "?");
}

std::string fault_of_record(const std::string& value) {
  const auto id = Uuid::parse(value);
  return id && id->text() == value ? std::string{} : "is no record's id in small letters";
}

std::string fault_of_value(ValueType type, const std::string& choices, const std::string& value,
                           const Registry& registry) {
  switch (type) {
    case ValueType::text:
      return fault_of_text(value);
    case ValueType::code:
      return fault_of_code(value);
    case ValueType::choice:
      return fault_of_choice(choices, value, registry);
    case ValueType::record:
      return fault_of_record(value);
    case ValueType::date:
      return fault_of_date(value);
    case ValueType::quantity:
      return fault_of_quantity(value);
    case ValueType::number:
      return fault_of_number(value);
    case ValueType::integer:
      return fault_of_integer(value);
    case ValueType::yes_no:
      return value == "yes" || value == "no" ? "" : "is neither yes nor no";
    case ValueType::uri:
      return fault_of_uri(value);
    case ValueType::media:
    case ValueType::statement:
      return fault_of_digest(value);
    case ValueType::polygon:
      return fault_of_polygon(value);
    case ValueType::munsell:
      return fault_of_munsell(value);
    case ValueType::transcription:
      return fault_of_transcription(value);
  }
  return "is of a type that this program does not know";
}

std::string kinds_text(const std::vector<Kind>& kinds) {
  std::vector<std::string> words;
  for (const auto kind : kinds) words.emplace_back(word(kind));
  return join(words, " or ");
}

// Gathers the faults of one content.
class Check {
public:
  Check(const Content& content, const Registry& registry, const KindOf& kind_of)
      : content_(content), registry_(registry), kind_of_(kind_of) {}

  Findings run() {
    if (content_.act == Act::state) {
      statement();
    } else {
      withdrawal();
    }
    who();
    words();
    targets();
    return std::move(found_);
  }

private:
  void fault(const char* code, std::string text) {
    found_.push_back({Severity::fault, code, std::move(text), property_ == nullptr ? "" : property_->name});
  }

  // Withdrawing and expunging say nothing about a record: targets and a reason, and nothing else.
  void withdrawal() {
    const std::string act(word(content_.act));
    if (content_.targets.empty()) fault("targets.missing", "to " + act + " needs the statements it means");
    if (content_.why.empty()) fault("why.missing", "to " + act + " needs a reason");
    const bool bare = content_.subject == Uuid{} && content_.property == 0 && content_.value.empty() &&
                      content_.edtf.empty() && content_.language.empty() && content_.qualifiers.empty() &&
                      content_.evidence == EvidenceClass::none && content_.confidence == Confidence::none &&
                      content_.citations.empty() && content_.grounds.empty();
    if (!bare) {
      fault("act.extra", "to " + act + " may carry statements, a reason, who and when, and nothing else");
    }
  }

  void statement() {
    property_ = registry_.find(content_.property);
    if (property_ == nullptr) {
      fault("property.unknown", "there is no property with the id " + std::to_string(content_.property));
      return;
    }
    if (!content_.targets.empty() && content_.why.empty()) {
      fault("why.missing", "a statement that replaces another needs the reason why");
    }
    subject();
    value();
    qualifiers();
    citations();
  }

  void subject() {
    if (content_.subject == Uuid{})
      return fault("subject.missing", property_->name + " is said of no record");
    subject_kind_ = kind_of_(content_.subject);
    if (property_->id == property::kind) {
      if (subject_kind_ && word(*subject_kind_) != content_.value) {
        fault("kind.twice",
              "the record is a " + std::string(word(*subject_kind_)) + " already; a kind is given once");
      }
    } else if (!subject_kind_) {
      fault("subject.missing", "there is no record " + content_.subject.text());
    } else if (!property_->said_of(*subject_kind_)) {
      fault("subject.kind", property_->name + " is said of a " + kinds_text(property_->subjects) +
                                ", not of a " + std::string(word(*subject_kind_)));
    }
  }

  void value() {
    if (content_.value.empty()) return fault("value.missing", property_->name + " has no value");
    if (property_->type == ValueType::date) return date();
    if (!content_.edtf.empty())
      fault("value.edtf", property_->name + " is no date, but a date is given for it");
    const auto why = fault_of_value(property_->type, property_->choices, content_.value, registry_);
    if (!why.empty()) return fault("value.form", named_value() + " " + why);
    if (property_->type == ValueType::record) target();
  }

  // A date is EDTF itself, or words with the EDTF understood beside them.
  void date() {
    if (auto why = fault_of_text(content_.value); !why.empty())
      return fault("value.form", named_value() + " " + why);
    const auto plain = fault_of_date(content_.value);
    if (content_.edtf.empty()) {
      if (!plain.empty()) fault("date.unread", named_value() + " " + plain);
      return;
    }
    if (plain.empty() && !reads_as(content_.value, content_.edtf)) {
      return fault("date.twice",
                   named_value() + " is a date itself, and another is given: " + quote(content_.edtf));
    }
    if (const auto why = fault_of_date(content_.edtf); !why.empty()) {
      fault("date.form",
            "the date understood from " + quote(content_.value) + ", " + quote(content_.edtf) + ", " + why);
    }
  }

  void target() {
    const auto target = *Uuid::parse(content_.value);
    if (target == content_.subject) {
      return fault("value.itself", property_->name + " cannot be said of a record and itself");
    }
    const auto kind = kind_of_(target);
    if (!kind)
      return fault("value.missing-record",
                   property_->name + " names a record that does not exist: " + content_.value);
    if (property_->same_kind && subject_kind_ && *kind != *subject_kind_) {
      fault("value.kind", property_->name + " joins records of one kind, not a " +
                              std::string(word(*subject_kind_)) + " and a " + std::string(word(*kind)));
    }
    const auto& allowed = property_->targets;
    if (!allowed.empty() && std::find(allowed.begin(), allowed.end(), *kind) == allowed.end()) {
      fault("value.kind",
            property_->name + " needs a " + kinds_text(allowed) + ", not a " + std::string(word(*kind)));
    }
  }

  void qualifiers() {
    for (auto it = content_.qualifiers.begin(); it != content_.qualifiers.end(); ++it) {
      const auto* rule = property_->qualifier(it->name);
      if (rule == nullptr) {
        fault("qualifier.unknown", property_->name + " takes no detail " + quote(it->name));
        continue;
      }
      if (std::any_of(content_.qualifiers.begin(), it,
                      [&](const Qualifier& other) { return other.name == it->name; })) {
        fault("qualifier.twice", "the detail " + it->name + " is given twice");
      }
      const auto type = value_type_from_word(rule->type);
      const auto why = fault_of_value(type.value_or(ValueType::choice), rule->type, it->value, registry_);
      if (!why.empty())
        fault("qualifier.form", "the detail " + it->name + ", " + quote(it->value) + ", " + why);
    }
    for (const auto& rule : property_->qualifiers) {
      if (!rule.required) continue;
      const bool given = std::any_of(content_.qualifiers.begin(), content_.qualifiers.end(),
                                     [&](const Qualifier& qualifier) { return qualifier.name == rule.name; });
      if (!given) fault("qualifier.missing", property_->name + " needs the detail " + rule.name);
    }
  }

  // Nothing is known without a source, a class and a confidence, clerical statements excepted.
  void citations() {
    for (const auto& citation : content_.citations) {
      require_kind(citation.source, Kind::source, "citation.source", "a citation");
    }
    if (property_->cites == Cites::none) return;
    grounds();
  }

  // What is missing is told at once, so that it can be added at once.
  void grounds() {
    std::vector<std::string> missing;
    const char* code = "";
    const auto need = [&](bool is_there, const char* name, const std::string& what) {
      if (is_there) return;
      if (missing.empty()) code = name;
      missing.push_back(what);
    };
    need(!content_.citations.empty(), "citation.missing", "a source to be cited");
    need(content_.evidence != EvidenceClass::none, "class.missing",
         "a class of evidence (physical, documentary, oral or comparative)");
    need(content_.confidence != Confidence::none, "confidence.missing",
         "a confidence (certain, probable, possible or conjecture)");
    if (!missing.empty()) fault(code, property_->name + " needs " + join(missing, ", "));
  }

  void who() {
    if (content_.author) require_kind(*content_.author, Kind::agent, "author.kind", "the author");
    if (content_.recorder) require_kind(*content_.recorder, Kind::agent, "recorder.kind", "the recorder");
  }

  void require_kind(const Uuid& id, Kind wanted, const char* code, const std::string& what) {
    const auto kind = kind_of_(id);
    if (kind == wanted) return;
    fault(code, what + " must be a record of kind " + std::string(word(wanted)) + "; " + id.text() +
                    (kind ? " is a " + std::string(word(*kind)) : " does not exist"));
  }

  void words() {
    optional_text(content_.why, "the reason why");
    optional_text(content_.proposed_by, "the name of the plugin");
    for (const auto& citation : content_.citations) {
      optional_text(citation.locator, "the place in the source");
      optional_text(citation.quote, "the quotation");
    }
    if (!content_.language.empty()) {
      const auto why = fault_of_language(content_.language);
      if (!why.empty()) fault("language.form", "the language " + quote(content_.language) + " " + why);
    }
    optional_date(content_.said_on, "the day of saying it");
    if (content_.privacy) {
      if (content_.privacy->reason.empty()) fault("privacy.reason", "a private statement needs the reason");
      optional_text(content_.privacy->reason, "the reason for privacy");
      optional_date(content_.privacy->until, "the end of privacy");
    }
  }

  void optional_text(const std::string& text, const char* what) {
    if (text.empty()) return;
    if (const auto why = fault_of_text(text); !why.empty())
      fault("words.form", std::string(what) + " " + why);
  }

  void optional_date(const std::string& text, const char* what) {
    if (text.empty()) return;
    if (const auto why = fault_of_date(text); !why.empty()) {
      fault("date.form", std::string(what) + ", " + quote(text) + ", " + why);
    }
  }

  void targets() {
    const auto once = [&](std::vector<Digest> list, const char* what) {
      std::sort(list.begin(), list.end());
      if (std::adjacent_find(list.begin(), list.end()) != list.end()) {
        fault("targets.twice", std::string(what) + " names a statement twice");
      }
    };
    once(content_.targets, "what is replaced or taken back");
    once(content_.grounds, "what it is concluded from");
  }

  std::string named_value() const { return property_->name + ": " + quote(content_.value); }

  const Content& content_;
  const Registry& registry_;
  const KindOf& kind_of_;
  const Property* property_ = nullptr;
  std::optional<Kind> subject_kind_;
  Findings found_;
};

// Words become EDTF in place, where there is no room to keep the words.
void read_in_place(std::string& text) {
  if (!text.empty()) text = reading(text);
}

}  // namespace

bool well_formed(ValueType type, const std::string& choices, const std::string& value,
                 const Registry& registry, std::string& why) {
  auto fault = fault_of_value(type, choices, value, registry);
  if (fault.empty()) return true;
  why = quote(value) + " " + fault;
  return false;
}

Findings validate(const Content& content, const Registry& registry, const KindOf& kind_of) {
  return Check(content, registry, kind_of).run();
}

void complete(Content& content, const Registry& registry, const KindOf& kind_of) {
  read_in_place(content.said_on);
  if (content.privacy) read_in_place(content.privacy->until);
  const auto* property = content.act == Act::state ? registry.find(content.property) : nullptr;
  if (property == nullptr) return;
  if (property->type == ValueType::date && content.edtf.empty() && !content.value.empty()) {
    auto edtf = reading(content.value);
    if (edtf != content.value) content.edtf = std::move(edtf);
  }
  for (auto& qualifier : content.qualifiers) {
    const auto* rule = property->qualifier(qualifier.name);
    if (rule != nullptr && rule->type == word(ValueType::date)) read_in_place(qualifier.value);
  }
  if (property->cites == Cites::self && content.citations.empty() &&
      kind_of(content.subject) == Kind::source) {
    content.citations.push_back({content.subject, {}, {}});
  }
}

}  // namespace lathbook
