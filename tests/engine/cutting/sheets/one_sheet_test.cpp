// The best of one sheet, against a search that tries every cut.
#include "engine/cutting/sheets/one_sheet.h"

#include "tests/cases.h"
#include "tests/engine/cutting/sheets/every_cut.h"
#include "tests/engine/cutting/sheets/replay.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <stdexcept>

using namespace endband::cutting;

namespace {

std::vector<Rect> rects(std::vector<ValuedRect> const& pieces) {
  std::vector<Rect> all;
  for (ValuedRect const& piece : pieces) all.push_back(piece.rect);
  return all;
}

// Why the answer is no plan of its value; empty where it is.
std::string fault(Sheet const& sheet, std::vector<ValuedRect> const& pieces, std::int64_t kerf,
                  std::int64_t trim, OneSheet const& answer, bool limited = true) {
  std::int64_t const height = sheet.by_length ? answer.cut.length : sheet.height;
  if (sheet.by_length && (height < 0 || height > sheet.height)) return "a length beyond the roll";
  Replayed const cut =
      replay(answer.cut, rects(pieces), sheet.width, height, kerf, trim, sheet.by_length ? 0 : trim);
  if (!cut.fault.empty()) return cut.fault;
  std::int64_t value = 0;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    if (limited && cut.counts[i] > pieces[i].rect.copies) return "more than the copies";
    value += cut.counts[i] * pieces[i].value;
  }
  if (value != answer.value) return "another value";
  return answer.bound < answer.value ? "a bound below the value" : "";
}

std::vector<ValuedRect> any_pieces(int kinds, std::int64_t copies, std::int64_t side, std::int64_t value) {
  std::vector<ValuedRect> pieces(static_cast<std::size_t>(kinds));
  for (ValuedRect& piece : pieces) {
    piece.rect.width = *rc::gen::inRange<std::int64_t>(1, side + 1);
    piece.rect.height = *rc::gen::inRange<std::int64_t>(1, side + 1);
    piece.rect.copies = *rc::gen::inRange<std::int64_t>(0, copies + 1);
    piece.rect.turns = *rc::gen::arbitrary<bool>();
    piece.value = *rc::gen::inRange<std::int64_t>(0, value + 1);
  }
  return pieces;
}

bool same(OneSheet const& a, OneSheet const& b) {
  auto const cut = [](Cut const& c, Cut const& d) {
    return c.part == d.part && c.across == d.across && c.at == d.at;
  };
  auto const laid = [](Laid const& c, Laid const& d) {
    return c.piece == d.piece && c.part == d.part && c.x == d.x && c.y == d.y && c.turned == d.turned;
  };
  return a.value == b.value && a.bound == b.bound && a.work == b.work &&
         std::equal(a.cut.cuts.begin(), a.cut.cuts.end(), b.cut.cuts.begin(), b.cut.cuts.end(), cut) &&
         std::equal(a.cut.laid.begin(), a.cut.laid.end(), b.cut.laid.begin(), b.cut.laid.end(), laid);
}

std::int64_t const plenty = 2'000'000;

OneSheet best(Sheet const& sheet, std::vector<ValuedRect> const& pieces, std::int64_t kerf = 0,
              std::int64_t trim = 0, std::int64_t work = plenty) {
  return best_of_sheet(sheet, pieces, kerf, trim, {work, {}});
}

}  // namespace

TEST_CASE("small sheets are cut as well as by trying every cut, and that is proved") {
  CHECK(rc::check([] {
    Sheet const sheet{*rc::gen::inRange<std::int64_t>(1, 9), *rc::gen::inRange<std::int64_t>(1, 9)};
    auto const pieces = any_pieces(*rc::gen::inRange(1, 5), 3, 5, 12);
    std::int64_t const kerf = *rc::gen::inRange<std::int64_t>(0, 3);
    OneSheet const answer = best(sheet, pieces, kerf);
    RC_ASSERT(fault(sheet, pieces, kerf, 0, answer).empty());
    RC_ASSERT(answer.value == EveryCut(pieces, kerf).best(sheet.width, sheet.height));
    RC_ASSERT(answer.proved());
  }));
}

TEST_CASE("with little work the plan still holds, and the bound is never below what can be had") {
  CHECK(endband::testing::check_one_in(10, [] {
    Sheet const sheet{*rc::gen::inRange<std::int64_t>(2, 10), *rc::gen::inRange<std::int64_t>(2, 10)};
    auto const pieces = any_pieces(*rc::gen::inRange(1, 5), 3, 5, 12);
    OneSheet const answer = best(sheet, pieces, 0, 0, *rc::gen::element<std::int64_t>(0, 1, 100, 1000));
    RC_ASSERT(fault(sheet, pieces, 0, 0, answer).empty());
    RC_ASSERT(answer.bound >= EveryCut(pieces, 0).best(sheet.width, sheet.height));
  }));
}

TEST_CASE("copies unlimited are as many as are of use, and exact") {
  CHECK(endband::testing::check_one_in(10, [] {
    Sheet const sheet{*rc::gen::inRange<std::int64_t>(3, 9), *rc::gen::inRange<std::int64_t>(3, 9)};
    auto pieces = any_pieces(2, 1, 5, 12);
    std::int64_t const kerf = *rc::gen::inRange<std::int64_t>(0, 2);
    OneSheet const answer = best_of_sheet_unlimited(sheet, pieces, kerf, 0);
    RC_ASSERT(fault(sheet, pieces, kerf, 0, answer, false).empty());
    RC_ASSERT(answer.proved());
    for (ValuedRect& piece : pieces) {
      if (piece.rect.width * piece.rect.height < 6) piece.value = 0;  // few enough for the sets of counts
      piece.rect.copies = 14;
    }
    RC_ASSERT(best_of_sheet_unlimited(sheet, pieces, kerf, 0).value ==
              EveryCut(pieces, kerf).best(sheet.width, sheet.height));
  }));
}

TEST_CASE(
    "sheets in micrometres: plans hold, whatever kerf, trim, work and roll, and come out the same again") {
  CHECK(rc::check([] {
    Sheet sheet{*rc::gen::inRange<std::int64_t>(200'000, 1'000'000),
                *rc::gen::inRange<std::int64_t>(200'000, 10'000'000)};
    sheet.by_length = *rc::gen::arbitrary<bool>();
    auto pieces = any_pieces(*rc::gen::inRange(1, 12), 6, 400'000, 100'000);
    for (ValuedRect& piece : pieces) {
      piece.rect.width += 20'000;
      piece.rect.height += 20'000;
    }
    std::int64_t const kerf = *rc::gen::inRange<std::int64_t>(0, 4'000),
                       trim = *rc::gen::inRange<std::int64_t>(0, 20'000);
    std::int64_t const work = *rc::gen::element<std::int64_t>(0, 2'000, 20'000);
    OneSheet const answer = best(sheet, pieces, kerf, trim, work);
    RC_ASSERT(fault(sheet, pieces, kerf, trim, answer).empty());
    RC_ASSERT(same(answer, best(sheet, pieces, kerf, trim, work)));
  }));
}

TEST_CASE("lengths that share no measure and outnumber the positions: a plan and a bound above it") {
  std::vector<ValuedRect> pieces;
  for (std::int64_t i = 0; i < 12; ++i)
    pieces.push_back({{23'111 + 1'013 * i, 31'337 + 1'511 * i, 40, true}, 700 + 97 * i});
  Sheet const sheet{700'001, 1'000'003};
  OneSheet const limited = best(sheet, pieces, 0, 0, 20'000);
  CHECK(fault(sheet, pieces, 0, 0, limited) == "");
  CHECK(limited.value * 10 > limited.bound * 8);
}

TEST_CASE("the kerf is lost between pieces, not beside them") {
  std::vector<ValuedRect> const pieces{{{100, 50, 9, false}, 1}};
  CHECK(best({100, 50}, pieces, 7).value == 1);
  CHECK(best({100, 50}, pieces, 7).cut.cuts.empty());
  CHECK(best({207, 50}, pieces, 7).value == 2);
  CHECK(best({206, 50}, pieces, 7).value == 1);
  CHECK(best({207, 107}, pieces, 7).value == 4);
  // A strip thinner than the kerf is cut off all the same, and leaves no part.
  OneSheet const thin = best({103, 50}, pieces, 7);
  REQUIRE(thin.cut.cuts.size() == 1);
  CHECK(thin.cut.cuts[0].at == 100);
  CHECK(fault({103, 50}, pieces, 7, 0, thin) == "");
}

TEST_CASE("trim comes off all edges, off a roll's ends none") {
  std::vector<ValuedRect> const pieces{{{80, 30, 9, false}, 1}};
  CHECK(best({100, 50}, pieces, 0, 10).value == 1);
  CHECK(best({99, 50}, pieces, 0, 10).value == 0);
  CHECK(best({100, 20}, pieces, 0, 10).value == 0);
  OneSheet const roll = best({100, 65, 0, {}, true}, pieces, 0, 10);
  CHECK(roll.value == 2);
  CHECK(roll.cut.length == 60);
  CHECK(fault({100, 65, 0, {}, true}, pieces, 0, 10, roll) == "");
}

TEST_CASE("four of one size around a fifth piece cannot be cut by guillotine: one stays out") {
  std::vector<ValuedRect> const pinwheel{{{3, 2, 4, true}, 2}, {{1, 1, 1, false}, 1}};
  CHECK(best({5, 5}, pinwheel).value == 7);
}

TEST_CASE("equal pieces asked for apart are as one") {
  std::vector<ValuedRect> const apart{{{5, 5, 1, false}, 3}, {{5, 5, 2, false}, 3}};
  OneSheet const answer = best({10, 10}, apart);
  CHECK(answer.value == 9);
  CHECK(fault({10, 10}, apart, 0, 0, answer) == "");
}

TEST_CASE("nothing wanted, nothing that fits, nothing of value") {
  CHECK(best({10, 10}, {}).proved());
  CHECK(best({10, 10}, {{{11, 1, 1, false}, 5}}).proved());
  CHECK(best({10, 10}, {{{11, 1, 1, true}, 5}}).bound == 0);
  CHECK(best({10, 10}, {{{1, 1, 1, true}, 0}, {{1, 1, 0, true}, 9}, {{1, 1, 1, true}, -4}}).bound == 0);
}

TEST_CASE("a side, kerf or count that is none, or a sum too large, is a fault of the caller") {
  CHECK_THROWS_AS(best({0, 10}, {}), std::logic_error);
  CHECK_THROWS_AS(best({10, 10}, {{{0, 1, 1, false}, 1}}), std::logic_error);
  CHECK_THROWS_AS(best({10, 10}, {{{1, 1, -1, false}, 1}}), std::logic_error);
  CHECK_THROWS_AS(best({10, 10}, {}, -1), std::logic_error);
  CHECK_THROWS_AS(best({10, 10}, {{{1, 1, 100, false}, std::int64_t{1} << 60}}), std::logic_error);
}
