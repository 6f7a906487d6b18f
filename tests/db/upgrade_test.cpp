// A workshop of every released schema, as its own program wrote it, opened by this one.
#include "db/frozen.h"
#include "db/migrate.h"
#include "db/quotes.h"
#include "db/stock.h"
#include "tests/db/bench.h"

#include <SQLiteCpp/Column.h>
#include <doctest/doctest.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <vector>

using namespace endband;
using namespace endband::db;
using namespace endband::db::test;

namespace {

std::string text_of(std::filesystem::path const& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

// "workshop-0001.sql" and so on, oldest first.
std::vector<std::filesystem::path> fixtures() {
  std::vector<std::filesystem::path> paths;
  for (auto const& entry : std::filesystem::directory_iterator(ENDBAND_SOURCE_DIR "/tests/fixtures"))
    if (entry.path().extension() == ".sql") paths.push_back(entry.path());
  std::sort(paths.begin(), paths.end());
  return paths;
}

struct Made {
  Folder folder;
  std::string path = folder.file("workshop.db");
  explicit Made(std::filesystem::path const& fixture) {
    SQLite::Database database(path, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    database.exec(text_of(fixture));
  }
  int version(std::string const& file) {
    Connection connection(file, SQLite::OPEN_READWRITE);
    return pragma_number(connection, "user_version");
  }
};

}  // namespace

TEST_CASE("there is a workshop of every schema that was released before this one") {
  std::vector<std::filesystem::path> const all = fixtures();
  REQUIRE(all.size() == schema_version - 1);
  for (std::size_t i = 0; i < all.size(); ++i) {
    Made bench(all[i]);
    CHECK(bench.version(bench.path) == static_cast<int>(i) + 1);
  }
}

TEST_CASE("an older workshop is backed up and brought up to date, sound, and its quotes replay") {
  for (std::filesystem::path const& fixture : fixtures()) {
    CAPTURE(fixture.filename().string());
    Made bench(fixture);
    int const had = bench.version(bench.path);
    {
      Workshop workshop = Workshop::open(bench.path).value();
      CHECK(check(workshop).empty());
      std::vector<QuoteHeader> const quotes = list_quotes(workshop, std::nullopt, 100);
      REQUIRE_FALSE(quotes.empty());
      for (QuoteHeader const& header : quotes) {
        FrozenQuote const quote = load_quote(workshop, header.id);
        CHECK(replay(quote).value().total == header.total);
        CHECK(differs(quote) == "");
      }
    }
    CHECK(bench.version(bench.path) == schema_version);
    CHECK(bench.version(bench.path + ".version-" + std::to_string(had) + ".backup") == had);
  }
}

TEST_CASE("the quotes of the first schema say what they said, in the ways that were the only ones then") {
  Made bench(ENDBAND_SOURCE_DIR "/tests/fixtures/workshop-0001.sql");
  Workshop workshop = Workshop::open(bench.path).value();
  FrozenQuote const plain = load_quote(workshop, find_quote(workshop, "26-001a").value().id);
  FrozenQuote const rich = load_quote(workshop, find_quote(workshop, "26-002a").value().id);
  CHECK(plain.offer.total.minor == 111'000);  // as `quote show` of that program printed them
  CHECK(plain.offer.deposit.minor == 45'000);
  CHECK(rich.offer.total.minor == 289'202);
  CHECK(rich.offer.deposit.minor == 116'000);
  for (FrozenQuote const& quote : {plain, rich}) {
    CHECK(quote.rules == 1);
    CHECK(quote.ways == style_named("raised-cords")->usual);
    CHECK(quote.ways.has(Way::laced));
    CHECK(quote.copies == 1);
    CHECK(quote.copy_prices.empty());
    CHECK_FALSE(quote.repairs.has_value());
    CHECK(quote.sheet.part_shares.size() == 19);
  }
  REQUIRE(rich.outside.size() == 1);
  CHECK(price_of(rich.outside[0]) == rich.outside[0].price);
}

TEST_CASE("the quotes of the second schema keep what was new in it") {
  Made bench(ENDBAND_SOURCE_DIR "/tests/fixtures/workshop-0002.sql");
  Workshop workshop = Workshop::open(bench.path).value();
  auto const quote = [&](char const* number) {
    return load_quote(workshop, find_quote(workshop, number).value().id);
  };
  FrozenQuote const atlas = quote("26-001a");
  CHECK(atlas.offer.total.minor == 164'773);  // as `quote make` of that program printed them
  CHECK(atlas.repairs.has_value());
  CHECK_FALSE(atlas.custody.empty());
  FrozenQuote const poems = quote("26-002a");
  CHECK(poems.offer.total.minor == 188'166);
  CHECK(poems.copies == 5);
  CHECK(poems.copy_prices.size() == 3);
  FrozenQuote const letters = quote("26-003a");
  CHECK(letters.offer.total.minor == 184'166);
  CHECK(letters.ways.has(Way::slipcase));
  CHECK(quote("26-004a").offer.total.minor == 52'000);
}

TEST_CASE("the shelf and the jobs of the third schema are worth what they were") {
  Made bench(ENDBAND_SOURCE_DIR "/tests/fixtures/workshop-0003.sql");
  Workshop workshop = Workshop::open(bench.path).value();
  StockValue const value = stock_value(workshop, day("2026-04-02"));
  CHECK(value.shelf.minor == 442'58);  // as `stock list` of that program printed them
  CHECK(value.in_work.minor == 153'12);
  CHECK(value.in_work_with_hours.minor == 553'27);
  CHECK(on_hand(workshop, "text-wove-90").value().quantity.n == 21'000);
}

TEST_CASE("the quotes of the fifth schema keep their day, their hands and their odds") {
  Made bench(ENDBAND_SOURCE_DIR "/tests/fixtures/workshop-0005.sql");
  Workshop workshop = Workshop::open(bench.path).value();
  auto const quote = [&](char const* number) {
    return load_quote(workshop, find_quote(workshop, number).value().id);
  };
  FrozenQuote const endings = quote("26-004a");
  CHECK(endings.offer.total.minor == 840'23);  // as `quote make` of that program printed them
  CHECK(endings.promise.value().sure == day("2026-12-16"));
  CHECK(quote("26-005a").shop.simulated_contingency.value().minor == 19'66);
  FrozenQuote const herbal = quote("26-006a");
  CHECK(std::any_of(herbal.work.lines.begin(), herbal.work.lines.end(),
                    [](WorkLine const& line) { return line.rate && line.rate->minor == 20'00; }));
  CHECK_FALSE(herbal.selling.outlet.has_value());
  CHECK(herbal.options.empty());
}

TEST_CASE("the quotes and listings of the sixth schema keep their outlet, discount, options and tickets") {
  Made bench(ENDBAND_SOURCE_DIR "/tests/fixtures/workshop-0006.sql");
  Workshop workshop = Workshop::open(bench.path).value();
  auto const quote = [&](char const* number) {
    return load_quote(workshop, find_quote(workshop, number).value().id);
  };
  FrozenQuote const endings = quote("26-002a");
  CHECK(endings.offer.total.minor == 756'04);  // as `quote make` of that program printed them
  CHECK(endings.offer.left.minor == 46'60);
  CHECK(endings.selling.outlet.value().code == "post");
  CHECK(endings.selling.discount.value().share == Ratio(1, 10));
  CHECK(quote("26-001a").offer.left.minor == 193'86);
  CHECK(quote("26-001a").options.size() > 1);
}
