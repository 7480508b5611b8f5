// Restoring a large exchange document, and showing one record of the archive, against general-purpose peers
// in the same run: `xmllint --stream` plus `sqlite3 .import` of the same columns, and `sqlite3 FILE 'select
// 1'`; and writing a document out again, against `xmllint --format` of it. Use: bench_import [statements =
// 1000000]. The statements are made up by the program and say so.
#include <fcntl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <set>

#include "core/evidence/encoding.hpp"
#include "core/evidence/ledger.hpp"
#include "core/evidence/registry.hpp"
#include "core/exchange/xml_out.hpp"

using namespace lathbook;

namespace {

namespace fs = std::filesystem;

// A made-up archive: records of ten statements each, three elements of a kind to one source.
class MadeUp : public LedgerSource {
public:
  explicit MadeUp(std::uint64_t statements) : statements_(statements) {
    each_sealed([this](const Sealed& sealed) {
      head_ = sealed.id();
      return true;
    });
  }
  std::uint64_t count() const override { return statements_; }
  Digest fingerprint() const override { return fingerprint_of({head_}); }
  Uuid archive_id() const override { return uuid_from_name("bench"); }
  std::vector<MediaFile> media() const override { return {}; }

  void each_sealed(const std::function<bool(const Sealed&)>& on_sealed) const override {
    const auto id = [](const std::string& name) { return Registry::standard().named(name).id; };
    const std::uint32_t kind = id("kind"), code = id("code"), title = id("title"), note = id("note"),
                        name = id("name"), material = id("material"), covers = id("covers"),
                        installed = id("installed");
    const Uuid source = uuid_from_name("source");
    Header header;
    header.chain[0] = 0xbe;
    Salt salt{};
    Uuid before = source;
    for (std::uint64_t n = 1; n <= statements_; ++n) {
      const auto record = (n - 1) / 10;
      const Uuid subject = record == 0 ? source : uuid_from_name("record " + std::to_string(record));
      Content content;
      content.subject = subject;
      const auto step = (n - 1) % 10;
      const std::string number = std::to_string(record);
      const auto cite = [&](std::uint32_t property, std::string value) {
        content.property = property;
        content.value = std::move(value);
        content.evidence = EvidenceClass::physical;
        content.confidence = Confidence::certain;
        content.said_on = "2024-05-18";
        content.citations.push_back({source, "page " + number, ""});
      };
      if (step == 0) {
        content.property = kind;
        content.value = record == 0 ? "source" : "element";
      } else if (step == 1) {
        content.property = code;
        content.value = "E-" + number;
      } else if (record == 0) {
        cite(step == 2 ? title : note, "made up for measuring, line " + std::to_string(step));
      } else {
        switch (step) {
          case 2:
            cite(name, "board number " + number);
            break;
          case 3:
            cite(material, "pine, riven, lime-washed on one face");
            break;
          case 4:
            cite(installed, std::to_string(1880 + record % 60));
            break;
          case 5:
            cite(covers, before.text());
            content.qualifiers.push_back({"contact", "laps over"});
            break;
          default:
            cite(note,
                 "observed in a raking light; the words are made up for measuring, " + std::to_string(n));
            break;
        }
      }
      if (step == 9) before = subject;
      header.number = n;
      header.entered = Moment{1'700'000'000 + static_cast<std::int64_t>(n), 0};
      for (std::size_t i = 0; i < 8; ++i) salt[i] = static_cast<std::uint8_t>(n >> (8 * i));
      const Sealed sealed = seal(content, header, salt);
      if (!on_sealed(sealed)) return;
      header.previous = sealed.id();
    }
  }

private:
  std::uint64_t statements_;
  Digest head_;
};

struct Run {
  double seconds = 0;
  double megabytes = 0;
};

Run run(const std::vector<std::string>& arguments, const std::string& input = {}) {
  const auto begin = std::chrono::steady_clock::now();
  const pid_t child = ::fork();
  if (child == 0) {
    const int null = ::open("/dev/null", O_RDWR);
    ::dup2(null, 1);
    if (!input.empty()) {
      const int in = ::open(input.c_str(), O_RDONLY);
      ::dup2(in, 0);
    }
    std::vector<char*> argv;
    for (const auto& argument : arguments) argv.push_back(const_cast<char*>(argument.c_str()));
    argv.push_back(nullptr);
    ::execvp(argv[0], argv.data());
    ::_exit(127);
  }
  int status = 0;
  struct rusage usage {};
  ::wait4(child, &status, 0, &usage);
  if (status != 0) {
    std::cerr << arguments[0] << " failed\n";
    std::exit(1);
  }
  return {std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count(),
          static_cast<double>(usage.ru_maxrss) / 1024};
}

double median(const std::vector<std::string>& arguments, int times) {
  std::vector<double> seconds;
  for (int i = 0; i < times; ++i) seconds.push_back(run(arguments).seconds);
  std::nth_element(seconds.begin(), seconds.begin() + times / 2, seconds.end());
  return seconds[static_cast<std::size_t>(times / 2)];
}

/// Writing a document from an archive; xmllint holds the whole of it, so no more than a part is compared.
void compare_writing(const fs::path& folder, const std::string& program, std::uint64_t statements) {
  const fs::path xml = folder / "part.xml";
  {
    const MadeUp made_up(statements);
    std::ofstream out(xml, std::ios::binary);
    write_exchange(made_up, out);
  }
  const std::string archive = (folder / "part").string();
  run({program, "restore", xml.string(), archive});
  const auto ours = run({program, "--archive", archive, "write-out", (folder / "again.xml").string()});
  const auto lint = run({"xmllint", "--format", "--output", (folder / "lint.xml").string(), xml.string()});
  std::printf("write out           %8.2f s, %.0f MB (%llu statements)\n", ours.seconds, ours.megabytes,
              static_cast<unsigned long long>(statements));
  std::printf("xmllint --format    %8.2f s, %.0f MB\nratio               %8.2f (to reach: at most 3)\n",
              lint.seconds, lint.megabytes, ours.seconds / lint.seconds);
}

}  // namespace

int main(int argc, char** argv) {
  const std::uint64_t statements = argc > 1 ? std::strtoull(argv[1], nullptr, 10) : 1'000'000;
  const fs::path folder = fs::temp_directory_path() / "lathbook-bench";
  fs::remove_all(folder);
  fs::create_directories(folder);
  ::setenv("XDG_STATE_HOME", (folder / "state").c_str(), 1);
  const fs::path xml = folder / "all.xml";
  const fs::path table = folder / "all.tsv";
  {
    const MadeUp made_up(statements);
    std::ofstream out(xml, std::ios::binary);
    write_exchange(made_up, out);
    std::ofstream rows(table, std::ios::binary);
    made_up.each_sealed([&](const Sealed& sealed) {
      const auto content = decode_content(sealed.content);
      rows << sealed.id().hex() << '\t' << sealed.header.number << '\t' << sealed.header.content.hex() << '\t'
           << sealed.header.entered.seconds << '\t' << content.subject.text() << '\t' << content.property
           << '\t' << content.value << '\t' << word(content.confidence) << '\t' << content.said_on << '\n';
      return true;
    });
  }
  std::cout << statements << " made-up statements, document of " << fs::file_size(xml) / 1'000'000 << " MB\n";

  std::ofstream(folder / "import.sql")
      << "create table t(a,b,c,d,e,f,g,h,i);\n.mode tabs\n.import " << table.string() << " t\n";
  const auto lint = run({"xmllint", "--stream", "--noout", xml.string()});
  const auto import = run({"sqlite3", (folder / "peer.sqlite").string()}, (folder / "import.sql").string());
  const std::string program = LATHBOOK_BUILD_DIR "/bin/lathbook";
  const auto ours = run({program, "restore", xml.string(), (folder / "archive").string()});
  std::printf("restore             %8.2f s, %.0f MB\n", ours.seconds, ours.megabytes);
  std::printf("xmllint + .import   %8.2f s (%.2f + %.2f)\n", lint.seconds + import.seconds, lint.seconds,
              import.seconds);
  std::printf("ratio               %8.2f (to reach: at most 3, under 200 MB)\n",
              ours.seconds / (lint.seconds + import.seconds));

  const std::string archive = (folder / "archive").string();
  const double show = median({program, "--archive", archive, "show", "E-77"}, 21);
  const double peer = median({"sqlite3", archive + "/archive.sqlite", "select 1"}, 21);
  std::printf(
      "show one record     %8.1f ms\nsqlite3 select 1    %8.1f ms\nratio               %8.2f (to reach: at "
      "most 3)\n",
      show * 1000, peer * 1000, show / peer);
  compare_writing(folder, program, std::min<std::uint64_t>(statements, 200'000));
  fs::remove_all(folder);
  return 0;
}
