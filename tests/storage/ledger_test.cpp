// Statements as a grow-only set: who is current, merging in any order, states of the past.
#include <algorithm>
#include <catch2/catch.hpp>
#include <functional>
#include <iostream>
#include <random>

#include "core/evidence/encoding.hpp"
#include "core/storage/database.hpp"
#include "tests/storage/store.hpp"

using namespace lathbook;
using namespace lathbook::test;

namespace {

constexpr ReadOptions kPrivate{
    .with_private = true, .known_on = {}, .by_entry_day = false, .fingerprint = {}};

Content withdrawal(const Digest& target) {
  Content content;
  content.act = Act::withdraw;
  content.targets = {target};
  content.why = "a slip of the pen";
  return content;
}

/// The values that count by the words of docs/model.md, found without any index.
std::vector<std::string> values_by_definition(const Archive& archive, const Uuid& subject) {
  std::vector<Statement> all;
  const auto reader = archive.read({});
  Query query;
  query.current_only = false;
  reader->each_statement(query, [&](const Statement& statement) {
    all.push_back(statement);
    return true;
  });
  const std::function<bool(const Statement&, bool)> is_hit = [&](const Statement& one, bool by_any) {
    return std::any_of(all.begin(), all.end(), [&](const Statement& other) {
      const auto& targets = other.content.targets;
      if (std::find(targets.begin(), targets.end(), one.id) == targets.end()) return false;
      if (other.content.act == Act::withdraw) return !is_hit(other, true);
      return by_any && other.content.act == Act::state && !is_hit(other, false);
    });
  };
  std::vector<std::string> found;
  for (const auto& one : all)
    if (one.content.act == Act::state && one.content.subject == subject &&
        Registry::standard().find(one.content.property)->name == "note" && !is_hit(one, true))
      found.push_back(one.content.value);
  return found;
}

}  // namespace

TEST_CASE("a withdrawn replacement revives what it replaced") {
  Store store;
  const auto archive = store.open();
  const auto source = make(*archive, Kind::source, "S-1");
  const auto element = make(*archive, Kind::element, "N-1");
  const auto first = enter(*archive, about(element, "element-type", "tile feild", source));
  auto better = about(element, "element-type", "tile field", source);
  better.targets = {first};
  better.why = "slip of the pen";
  const auto second = enter(*archive, better);
  CHECK(values(*archive, element, "element-type") == std::vector<std::string>{"tile field"});
  const auto third = enter(*archive, withdrawal(second));
  CHECK(values(*archive, element, "element-type") == std::vector<std::string>{"tile feild"});
  enter(*archive, withdrawal(third));
  CHECK(values(*archive, element, "element-type") == std::vector<std::string>{"tile field"});
  CHECK_FALSE(has_fault(archive->check({}, true)));
}

TEST_CASE("of a statement corrected twice only the last correction is current") {
  Store store;
  const auto archive = store.open();
  const auto source = make(*archive, Kind::source, "S-1");
  const auto element = make(*archive, Kind::element, "N-1");
  const auto corrected = [&](const Digest& old, const std::string& value) {
    auto content = about(element, "note", value, source);
    content.targets = {old};
    content.why = "better reading";
    return enter(*archive, content);
  };
  const auto now = [&] { return values(*archive, element, "note"); };
  const auto first = enter(*archive, about(element, "note", "three mm", source));
  const auto second = corrected(first, "four mm");
  const auto third = corrected(second, "five mm");
  CHECK(now() == std::vector<std::string>{"five mm"});
  const auto taken_back = enter(*archive, withdrawal(third));
  CHECK(now() == std::vector<std::string>{"four mm"});
  enter(*archive, withdrawal(taken_back));
  CHECK(now() == std::vector<std::string>{"five mm"});
  // Taken back below a correction that stands: both what it replaced and the last word count.
  enter(*archive, withdrawal(second));
  CHECK(now() == std::vector<std::string>{"three mm", "five mm"});
  CHECK_FALSE(has_fault(archive->check({}, true)));
}

TEST_CASE("an archive of the older rule is settled anew when it is brought forward") {
  Store store;
  Uuid element;
  {
    const auto archive = store.open();
    const auto source = make(*archive, Kind::source, "S-1");
    element = make(*archive, Kind::element, "N-1");
    Digest last = enter(*archive, about(element, "note", "three mm", source));
    for (const char* value : {"four mm", "five mm"}) {
      auto content = about(element, "note", value, source);
      content.targets = {last};
      content.why = "better reading";
      last = enter(*archive, content);
    }
  }
  {
    const Database database(store.path / "archive.sqlite", OpenMode::write);
    database.execute("UPDATE statement SET current = 1; DROP INDEX statement_closed; PRAGMA user_version=1");
  }
  const auto archive = store.open();
  CHECK(values(*archive, element, "note") == std::vector<std::string>{"five mm"});
  CHECK_FALSE(has_fault(archive->check({}, true)));
}

TEST_CASE("statements taken over in any order give the same archive") {
  // Property: the state is a function of the set. Random histories with replacements, withdrawals,
  // withdrawals of withdrawals and expunging, offered in shuffled order.
  const auto seed = std::random_device{}();
  std::cout << "seed " << seed << '\n';
  std::mt19937 random(seed);
  for (int round = 0; round < 24; ++round) {
    Store store;
    const auto archive = store.open();
    const auto source = make(*archive, Kind::source, "S-1");
    const auto element = make(*archive, Kind::element, "N-1");
    std::vector<Digest> ids;
    for (int i = 0; i < 25; ++i) {
      const auto pick = [&] { return ids[random() % ids.size()]; };
      const auto dice = ids.size() < 4 ? 0 : random() % 10;
      if (dice < 5) {
        ids.push_back(enter(*archive, about(element, "note", "note " + std::to_string(i), source)));
      } else if (dice < 7) {
        auto content = about(element, "note", "better " + std::to_string(i), source);
        content.targets = {pick()};
        content.why = "better reading";
        ids.push_back(enter(*archive, content));
      } else if (dice < 9) {
        ids.push_back(enter(*archive, withdrawal(pick())));
      } else {
        const auto writer = archive->write();
        writer->expunge({pick()}, "asked for", std::nullopt);
        writer->commit();
      }
    }
    auto sealed = all_sealed(*archive);
    std::shuffle(sealed.begin(), sealed.end(), random);
    Store copy("copy");
    const auto other = copy.open();
    {
      const auto writer = other->write();
      for (const auto& one : sealed) writer->take(one);
      writer->commit();
    }
    CHECK(other->fingerprint() == archive->fingerprint());
    CHECK(values(*other, element, "note") == values(*archive, element, "note"));
    CHECK_THAT(values(*archive, element, "note"),
               Catch::UnorderedEquals(values_by_definition(*archive, element)));
    CHECK_FALSE(has_fault(other->check({}, true)));
    CHECK(other->statistics().expunged == archive->statistics().expunged);
  }
}

TEST_CASE("a changed statement is refused by name") {
  Store store;
  const auto archive = store.open();
  make(*archive, Kind::element, "N-1");
  auto sealed = all_sealed(*archive);
  sealed.back().content.back() = static_cast<char>(sealed.back().content.back() ^ 1);
  const auto writer = archive->write();
  CHECK_THROWS_WITH(
      writer->take(sealed.back()),
      Catch::Contains("has been changed") && Catch::Contains(short_name(sealed.back().header.chain, 2)));
}

TEST_CASE("an older state is read as it was, by day and by fingerprint") {
  Store store;
  const auto archive = store.open();
  const auto source = make(*archive, Kind::source, "S-1");
  const auto element = make(*archive, Kind::element, "N-1");
  const auto first = enter(*archive, about(element, "element-type", "hearth", source));
  const auto then = archive->fingerprint();
  const Day day = store.clock.now().local_day();
  store.clock.advance(3 * 86400);
  auto better = about(element, "element-type", "hearth slab", source);
  better.targets = {first};
  better.why = "better reading";
  enter(*archive, better);
  const auto writer = archive->write();
  auto code = about(element, "code", "N-99");
  code.targets = {all_sealed(*archive)[3].id()};
  code.why = "renumbered";
  writer->add(code);
  writer->commit();

  ReadOptions by_day;
  by_day.known_on = day;
  CHECK(values(*archive, element, "element-type", by_day) == std::vector<std::string>{"hearth"});
  CHECK(archive->read(by_day)->reading().fingerprint == then);
  CHECK(archive->read(by_day)->record(element)->code == "N-1");
  CHECK(archive->read()->record(element)->code == "N-99");
  ReadOptions by_print;
  by_print.fingerprint = then;
  CHECK(values(*archive, element, "element-type", by_print) == std::vector<std::string>{"hearth"});
  by_print.fingerprint = sha256("never");
  CHECK_THROWS_WITH(archive->read(by_print), Catch::Contains("never was in the state"));
}

TEST_CASE("what was merged later was not known before") {
  Store store;
  const auto archive = store.open();
  const auto source = make(*archive, Kind::source, "S-1");
  const auto element = make(*archive, Kind::element, "N-1");
  Store elsewhere("elsewhere");
  ::setenv("XDG_STATE_HOME", (store.folder / "state").c_str(), 1);
  const auto other = elsewhere.open();
  other->merge(*archive);
  enter(*other, about(element, "note", "seen elsewhere", source));
  const Day day = store.clock.now().local_day();
  store.clock.advance(5 * 86400);
  archive->merge(*other);
  enter(*archive, about(element, "note", "seen here", source));
  ReadOptions known;
  known.known_on = day;
  CHECK(values(*archive, element, "note", known).empty());
  known.by_entry_day = true;
  CHECK(values(*archive, element, "note", known) == std::vector<std::string>{"seen elsewhere"});
  CHECK(values(*archive, element, "note").size() == 2);
}

TEST_CASE("the clock is asked about when it runs back or after long silence") {
  Store store;
  const auto archive = store.open();
  make(*archive, Kind::source, "S-1");
  store.clock.advance(-10);
  CHECK_THROWS_WITH(make(*archive, Kind::source, "S-2"), Catch::Contains("before the last entry"));
  store.clock.advance(10 + 31 * 86400);
  CHECK_THROWS_WITH(make(*archive, Kind::source, "S-2"), Catch::Contains("more than 30 days"));
  const auto writer = archive->write();
  writer->accept_clock();
  writer->make_record(Kind::source, "S-2", std::nullopt);
  writer->commit();
  CHECK(archive->read()->record_by_code("S-2"));
}

TEST_CASE("a copied folder and a restored backup begin chains of their own") {
  Store store;
  {
    const auto archive = store.open();
    make(*archive, Kind::source, "S-1");
  }
  {
    const auto archive = store.open();
    make(*archive, Kind::source, "S-2");
    CHECK(archive->statistics().chains == 1);  // the same file, last written to here: the chain goes on
  }
  const auto copy = store.folder / "copied";
  std::filesystem::copy(store.path, copy, std::filesystem::copy_options::recursive);
  {
    Archive archive(copy, store.clock, {.write = true, .vfs = {}, .media_disk = {}});
    make(archive, Kind::source, "S-3");
    CHECK(archive.statistics().chains == 2);
  }
  {
    const auto archive = store.open();
    make(*archive, Kind::source, "S-4");
    CHECK(archive->statistics().chains == 1);
  }
  // The older copy's database put back over the live one: the head inside is not the one remembered.
  std::filesystem::copy_file(copy / "archive.sqlite", store.path / "archive.sqlite",
                             std::filesystem::copy_options::overwrite_existing);
  {
    const auto archive = store.open();
    make(*archive, Kind::source, "S-5");
    CHECK(archive->statistics().chains == 3);
    CHECK_FALSE(has_fault(archive->check({}, true)));
  }
}

TEST_CASE("expunged words do not come back from an old copy, whichever way it is merged") {
  for (const bool into_old : {false, true}) {
    Store store;
    const auto archive = store.open();
    const auto source = make(*archive, Kind::source, "S-1");
    const auto id = enter(*archive, about(source, "note", "unspeakable"));
    Store old("old");
    ::setenv("XDG_STATE_HOME", (store.folder / "state").c_str(), 1);
    const auto copy = old.open();
    copy->merge(*archive);
    const auto writer = archive->write();
    writer->expunge({id}, "asked for by the family", std::nullopt);
    writer->commit();
    if (into_old) {
      copy->merge(*archive);
    } else {
      archive->merge(*copy);
    }
    const auto& merged = into_old ? *copy : *archive;
    CHECK(values(merged, source, "note", kPrivate).empty());
    CHECK(merged.search("unspeakable", kPrivate, 5).empty());
    CHECK(merged.statistics().expunged == 1);
    CHECK_FALSE(has_fault(merged.check({}, true)));
  }
}
