// A cutting plan whose figures were changed would go into every later quote: it is made again and compared.
#include "db/cutting.h"
#include "tests/db/broken.h"
#include "tests/db/shelf.h"

#include <doctest/doctest.h>

using namespace endband;
using namespace endband::db;
using namespace endband::db::test;

namespace {

Need of_pieces(Material const& material, std::int64_t count, std::int64_t height_mm, std::int64_t width_mm) {
  Need need;
  need.material = material.id;
  Piece& piece = need.pieces.emplace_back();
  piece.material = material.id;
  piece.count = count;
  piece.height = Length{height_mm * 1000};
  piece.width = Length{width_mm * 1000};
  return need;
}
Need of_runs(Material const& material, std::int64_t count, std::int64_t each_mm) {
  Need need;
  need.material = material.id;
  Run& run = need.runs.emplace_back();
  run.material = material.id;
  run.count = count;
  run.each = run.taken = Length{each_mm * 1000};
  return need;
}

Material ribbon(std::string code) {
  Material material = paper(std::move(code));
  material.kind = MaterialKind::ribbon;
  material.sold_by = SoldBy::length;
  material.properties = {};
  material.properties.width = Length{6'000};
  material.least_spoil = {Dimension::length, 0};
  return material;
}

// Plans of a sheet, a skin, ribbon by the metre and ribbon in reels, as quotes keep them.
struct Made {
  Shelf shelf;
  std::vector<PlanFacts> facts;

  Made() {
    write(shelf.workshop, [](Writing& writing) {
      add_material(writing, ribbon("silk"), day("2026-01-01")).value();
      return add_material(writing, ribbon("reel"), day("2026-01-01")).value();
    });
    price("board", {Dimension::count, 50'000});
    price("goat", {Dimension::area, 600'000'000'000});
    price("silk", {Dimension::length, 1'000'000});
    price("reel", {Dimension::length, 5'000'000});
    keep(of_pieces(material("board"), 7, 300, 210), material("board"));
    keep(of_pieces(material("goat"), 3, 300, 240), material("goat"));
    keep(of_runs(material("silk"), 5, 350), material("silk"));
    keep(of_runs(material("reel"), 40, 350), material("reel"));
  }

  void price(std::string_view code, Amount pack) {
    PackPrice price = pack_of_sheets(1, 40'00, "2026-01-01");
    price.pack = pack;
    write(shelf.workshop, [&](Writing& writing) { return add_price(writing, code, price).value(); });
  }
  Material material(std::string_view code) {
    return find_material(shelf.workshop, code, day("2026-07-01")).value();
  }
  void keep(Need const& need, Material const& of) {
    CutRules const rules;
    PlanTable plans;
    for (CutRequest const& request : requests({{need}}, of, rules))
      facts.push_back(
          plans.emplace(plan_key(request, rules.work), plan_to_buy(request, {rules.work, {}})).first->second);
    write(shelf.workshop, [&](Writing& writing) { return save_plans(writing, plans), true; });
  }
  std::vector<Fault> broken_by(std::string const& sql) {
    return broken_copy(shelf.path, sql, check_with_plans);
  }
};

}  // namespace

TEST_CASE("kept plans are well, also once their goods are sold in other packs") {
  Made bench;
  REQUIRE(bench.facts.size() == 4);
  for (PlanFacts const& facts : bench.facts) CHECK(facts.outcome == cutting::Outcome::planned);
  CHECK(bench.broken_by("SELECT 1").empty());
  bench.price("goat", {Dimension::area, 450'000'000'000});
  bench.price("reel", {Dimension::length, 1'000'000});
  CHECK(bench.broken_by("SELECT 1").empty());
}

TEST_CASE("every figure of a kept plan that was changed is found, and its row named") {
  Made bench;
  for (int id = 1; id <= 4; ++id)
    for (std::string const change :
         {"opened = opened + 1000", "opened = 2 * opened, cost = 2 * cost", "gross = gross - 1",
          "cost = cost - 1000", "bound = bound - 1", "bound = cost + 1", "guess = 1 - guess",
          "outcome = 'impossible'", "key = key || ' 1 x'"}) {
      CAPTURE(id);
      CAPTURE(change);
      std::string const row = std::to_string(id);
      CHECK(names(bench.broken_by("UPDATE plan SET " + change + " WHERE id = " + row), "plan " + row));
    }
}
