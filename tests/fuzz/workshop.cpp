#include "tests/fuzz/workshop.h"

#include "tests/db/bench.h"
#include "tests/fuzz/target.h"

#include <filesystem>
#include <fstream>
#include <string_view>

namespace endband::fuzz {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view book = R"(endband = 1
title = "Tides"
model = "raised-cords"
height = "210 mm"
width = "148 mm"
pages = 320
leather = "goat-moss-08"
)";

struct Place {
  db::test::Folder folder;
  std::string workshop = folder.file("workshop.db"), kept = folder.file("workshop.kept");
};

Place& place() {
  static Place one;
  return one;
}

cli::Outcome run_there(std::vector<std::string> const& words) {
  cli::Surroundings around;
  around.workshop = place().workshop;
  around.home = around.data_home = around.state_home = place().folder.path();
  around.today = read_date("2026-11-25").value();
  around.now_utc = "2026-11-25T09:30:00Z";
  return cli::run_line(words, around);
}

void write(std::string_view name, std::string_view text) {
  std::ofstream(place().folder.file(name), std::ios::binary) << text;
}

void must(std::vector<std::string> const& words) {
  cli::Outcome const outcome = run_there(words);
  if (outcome.exit != 0) std::fprintf(stderr, "%s", outcome.err.c_str());
  require(outcome.exit == 0, "the sample workshop can be made");
}

bool make() {
  require(::chdir(place().folder.path().c_str()) == 0 && std::freopen("/dev/null", "r", stdin) != nullptr,
          "a folder of its own");
  must({"workshop", "new", "--sample"});
  write("book.toml", book);
  must({"quote", "make", "book.toml", "--customer", "ida-quill"});
  must({"quote", "make", "book.toml"});
  must({"quote", "accept", "1"});
  fs::copy_file(place().workshop, place().kept);
  return true;
}

}  // namespace

std::string const& workshop_folder() {
  static bool const made = make();
  require(made, "a workshop");
  return place().folder.path();
}

std::string workshop_path() { return workshop_folder() + "/workshop.db"; }

cli::Outcome run(std::vector<std::string> const& words) {
  workshop_folder();
  return run_there(words);
}

void tidy() {
  for (fs::directory_entry const& entry : fs::directory_iterator(workshop_folder()))
    if (entry.path() != place().kept) fs::remove_all(entry.path());
  fs::copy_file(place().kept, place().workshop);
  write("book.toml", book);
}

}  // namespace endband::fuzz
