#include "engine/review/past.h"

#include <doctest/doctest.h>

#include <set>

namespace {

using endband::Currency;
using endband::GroupBy;
using endband::Money;
using endband::PastJob;
using endband::Ratio;

Currency eur() { return *endband::read_currency("EUR"); }
Money euros(std::int64_t cents) { return {cents, eur()}; }

PastJob job(std::string binding, std::int64_t full, std::int64_t price, std::int64_t left) {
  PastJob result;
  result.binding = std::move(binding);
  result.full_price = euros(full);
  result.price = euros(price);
  result.left_given = euros(full - price);
  result.left_quoted = euros(left + 100);
  result.left = euros(left);
  result.labour_quoted = result.labour = euros(20'00);
  result.seconds_quoted = result.seconds = 7200;
  return result;
}

}  // namespace

TEST_CASE("Every feature has a name of its own, and its work") {
  std::set<std::string_view> names;
  for (endband::FeatureRow const& row : endband::feature_table()) {
    CHECK(names.insert(row.name).second);
    CHECK_FALSE(row.words.empty());
    for (endband::OperationKind const kind : row.kinds) CHECK(endband::features_made_by(kind).any());
  }
  CHECK(endband::features_made_by(endband::OperationKind::post_parcel).none());
}

TEST_CASE("A gift is compared at its full price, and what was given away stands beside it") {
  endband::PastSum sum(eur());
  sum.add(job("case", 200'00, 200'00, 40'00));
  sum.add(job("case", 200'00, 0, -160'00));  // a gift: 40.00 would have been left of it
  CHECK(sum.given_away == euros(200'00));
  CHECK(sum.margin() == Ratio(1, 5));
  CHECK(sum.margin_quoted() == Ratio(41 + 41, 400));
  CHECK(sum.hourly() == euros(30'00));  // (80.00 + 40.00 of pay) / 4 h
}

TEST_CASE("No price has no margin, no hours no earnings an hour") {
  endband::PastSum const none(eur());
  CHECK_FALSE(none.margin());
  CHECK_FALSE(none.margin_quoted());
  CHECK_FALSE(none.hourly());
}

TEST_CASE("Grouped by feature a job counts with each that it has") {
  PastJob both = job("case", 100'00, 100'00, 10'00);
  both.features = endband::features_made_by(endband::OperationKind::set_stone) |
                  endband::features_made_by(endband::OperationKind::make_strap);
  std::vector<PastJob> const jobs{both, job("laced", 300'00, 300'00, 60'00)};
  auto const groups = endband::grouped(jobs, GroupBy::feature, eur());
  REQUIRE(groups.size() == 3);
  CHECK(groups[0].name == "stone");
  CHECK(groups[1].name == "strap");
  CHECK(groups[2].name == "without");
  CHECK(groups[2].sum.left == euros(60'00));
  CHECK(endband::grouped(jobs, GroupBy::binding, eur()).size() == 2);
  for (GroupBy const by : {GroupBy::binding, GroupBy::feature, GroupBy::month})
    CHECK(endband::group_by_named(endband::group_by_name(by)) == by);
  CHECK_FALSE(endband::group_by_named("colour"));
}
