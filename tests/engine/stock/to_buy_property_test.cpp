// What to buy, over random shelves and jobs of one material, against slow ways that share nothing with it.
#include "tests/engine/stock/wanting.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <algorithm>

using namespace endband;
using wanting::in_days;
using wanting::Shop;

namespace {

std::int64_t between(std::int64_t least, std::int64_t most) {
  return *rc::gen::inRange<std::int64_t>(least, most + 1);
}
bool now_and_then() { return between(0, 3) == 0; }
std::string any_job() { return *rc::gen::element<std::string>("26-014", "26-015", "26-016"); }
Date any_day() { return in_days(static_cast<int>(between(-2, 12))); }

void fill_shelf(Shop& shop, std::int64_t most) {
  for (auto lots = between(0, 5); lots > 0; --lots) {
    OnShelf& lot = shop.holds(between(0, most));
    if (between(0, 1) == 0) lot.good_until = any_day();
    lot.batch = *rc::gen::element<std::string>("", "B7", "B8");
  }
}

// Goods counted in single units, so that a slow way may try each of them; by packs of 1 to 5.
Shop any_shop() {
  Shop shop;
  Material material = goods::paper();
  material.price->pack.n = between(1, 5);
  material.price->price = goods::euros(between(0, 5000));
  Supply& supply = shop.sells(material);
  if (!now_and_then()) supply.lead_days = between(0, 9);
  fill_shelf(shop, 6);
  for (auto jobs = between(0, 4); jobs > 0; --jobs) shop.wants(any_job(), between(1, 7), any_day());
  return shop;
}

void reorder(Shop& shop) {
  shop.materials[0].supply.reorder_at = between(0, 12);
  if (between(0, 1) == 0) shop.materials[0].supply.order_size = between(1, 12);
}

void bind_to_jobs(Shop& shop) {
  for (OnShelf& lot : shop.shelf)
    if (now_and_then()) lot.job = any_job();
}

// The most single units of the shelf that can go to single units of the wants: augmenting paths (H. W. Kuhn).
class Matching {
 public:
  explicit Matching(Shop const& shop) {
    for (Wanted const& want : shop.wanted)
      for (std::int64_t n = 0; n < want.quantity; ++n)
        wants_.push_back(std::max(want.needed_on, goods::day()));
    for (OnShelf const& lot : shop.shelf)
      for (std::int64_t n = 0; n < lot.quantity; ++n)
        units_.push_back(lot.good_until.value_or(in_days(10'000)));
    taken_by_.assign(units_.size(), nobody);
  }
  std::int64_t most() {
    std::int64_t served = 0;
    for (std::size_t want = 0; want < wants_.size(); ++want) {
      seen_.assign(units_.size(), false);
      if (serve(want)) ++served;
    }
    return served;
  }

 private:
  static constexpr std::size_t nobody = static_cast<std::size_t>(-1);
  bool serve(std::size_t want) {
    for (std::size_t unit = 0; unit < units_.size(); ++unit) {
      if (seen_[unit] || units_[unit] < wants_[want]) continue;
      seen_[unit] = true;
      if (taken_by_[unit] == nobody || serve(taken_by_[unit])) {
        taken_by_[unit] = want;
        return true;
      }
    }
    return false;
  }
  std::vector<Date> wants_, units_;
  std::vector<std::size_t> taken_by_;
  std::vector<bool> seen_;
};

std::int64_t wanted_in_all(Shop const& shop) {
  std::int64_t sum = 0;
  for (Wanted const& want : shop.wanted) sum += want.quantity;
  return sum;
}

void check_sums(Shop const& shop, Buy const& buy) {
  MaterialSupply const& row = shop.materials[0];
  std::int64_t const pack = row.material.price->pack.n;
  RC_ASSERT(buy.short_of == buy.wanted - buy.on_shelf);
  RC_ASSERT(buy.short_of > 0 || buy.for_reorder);
  RC_ASSERT(buy.quantity.n == buy.packs * pack);
  RC_ASSERT(buy.quantity.n >= buy.short_of);
  RC_ASSERT(buy.packs > 0);
  RC_ASSERT(buy.landed.minor == buy.packs * row.material.price->price.minor);
  RC_ASSERT(buy.order_by.has_value() == row.supply.lead_days.has_value());
  if (buy.order_by) {
    RC_ASSERT(*buy.order_by + std::chrono::days(*row.supply.lead_days) == buy.needed_on);
    RC_ASSERT(buy.too_late == (*buy.order_by < goods::day()));
  }
}

// Puts what was bought on the shelf, a lot a pack, all of one batch.
void receive(Shop& shop, Buy const& buy) {
  for (std::int64_t n = 0; n < buy.packs; ++n)
    shop.holds(shop.materials[0].material.price->pack.n, {}, "new");
}

}  // namespace

TEST_CASE("no way of sharing out the shelf serves more of the jobs") {
  CHECK(rc::check([] {
    Shop const shop = any_shop();
    std::int64_t const served = Matching(shop).most();
    auto const buys = shop.buys();
    if (served == wanted_in_all(shop)) {
      RC_ASSERT(buys.empty());
    } else {
      RC_ASSERT(buys.size() == 1u);
      RC_ASSERT(buys[0].wanted == wanted_in_all(shop));
      RC_ASSERT(buys[0].on_shelf == served);
      check_sums(shop, buys[0]);
      RC_ASSERT((buys[0].packs - 1) * shop.materials[0].material.price->pack.n < buys[0].short_of);
    }
  }));
}

TEST_CASE("what is bought is enough, for jobs and shelf, and a pack less would not be") {
  CHECK(rc::check([] {
    Shop shop = any_shop();
    bind_to_jobs(shop);
    if (!now_and_then()) reorder(shop);
    auto const buys = shop.buys();
    if (buys.empty()) return;
    Buy const& buy = buys[0];
    check_sums(shop, buy);
    Shop enough = shop;
    receive(enough, buy);
    RC_ASSERT(enough.buys().empty());
    Buy less = buy;
    --less.packs;
    Supply const& supply = shop.materials[0].supply;
    bool const by_order_size = buy.for_reorder && supply.order_size &&
                               less.packs * shop.materials[0].material.price->pack.n < *supply.order_size;
    receive(shop, less);
    RC_ASSERT(by_order_size || !shop.buys().empty());
  }));
}

TEST_CASE("dead goods change nothing but what is said of them") {
  CHECK(rc::check([] {
    Shop shop = any_shop();
    if (now_and_then()) reorder(shop);
    auto const before = shop.buys();
    std::int64_t const dead = between(1, 9);
    shop.holds(dead, in_days(-1));
    auto const after = shop.buys();
    RC_ASSERT(after.size() == before.size());
    if (before.empty()) return;
    RC_ASSERT(after[0].dead == before[0].dead + dead);
    RC_ASSERT(after[0].short_of == before[0].short_of);
    RC_ASSERT(after[0].packs == before[0].packs);
    RC_ASSERT(after[0].on_shelf == before[0].on_shelf);
  }));
}

TEST_CASE(
    "an order for the shelf leaves more than the reorder point, and without an order size at most a pack "
    "above") {
  CHECK(rc::check([] {
    Shop shop;
    Material material = goods::paper();
    material.price->pack.n = between(1, 50);
    shop.sells(material);
    reorder(shop);
    Supply const& supply = shop.materials[0].supply;
    std::int64_t const left = between(0, *supply.reorder_at + 5);
    shop.holds(left);
    auto const buys = shop.buys();
    RC_ASSERT(buys.empty() == (left > *supply.reorder_at));
    if (buys.empty()) return;
    std::int64_t const then = left + buys[0].quantity.n;
    RC_ASSERT(then > *supply.reorder_at);
    RC_ASSERT(buys[0].quantity.n >= supply.order_size.value_or(0));
    RC_ASSERT(then - material.price->pack.n <=
              std::max(*supply.reorder_at, left + supply.order_size.value_or(0) - 1));
  }));
}

namespace {

// A set is there when one batch has as many skins as it wants, each large enough and good on the day: every
// choice of that many skins is tried.
bool has_set(Shop const& shop, Wanted const& want) {
  std::vector<OnShelf> const& lots = shop.shelf;
  for (std::size_t choice = 0; choice < (std::size_t{1} << lots.size()); ++choice) {
    std::vector<OnShelf> chosen;
    for (std::size_t n = 0; n < lots.size(); ++n)
      if ((choice >> n & 1) != 0) chosen.push_back(lots[n]);
    if (static_cast<std::int64_t>(chosen.size()) != want.of_one_batch) continue;
    bool const fits = std::ranges::all_of(chosen, [&](OnShelf const& lot) {
      Date const day = std::max(want.needed_on, goods::day());
      return lot.quantity * want.of_one_batch >= want.quantity &&
             (!lot.good_until || *lot.good_until >= day) && (lot.job.empty() || lot.job == want.job) &&
             lot.batch == chosen[0].batch;
    });
    if (fits && (!chosen[0].batch.empty() || chosen.size() == 1)) return true;
  }
  return false;
}

Shop any_skins() {
  Shop shop;
  Material material = goods::skin();
  material.price->pack.n = 12;
  shop.sells(material);
  fill_shelf(shop, 12);
  bind_to_jobs(shop);
  return shop;
}

void want_set(Shop& shop) {
  std::int64_t const items = between(1, 4);
  shop.wants(any_job(), between(items, items * 12), any_day(), items);
}

}  // namespace

TEST_CASE("a set is served whole when there is one, and else not at all") {
  CHECK(rc::check([] {
    Shop shop = any_skins();
    want_set(shop);
    auto const buys = shop.buys();
    RC_ASSERT(buys.empty() == has_set(shop, shop.wanted[0]));
    if (buys.empty()) return;
    RC_ASSERT(buys[0].on_shelf == 0);
    RC_ASSERT(buys[0].one_batch == shop.wanted[0].of_one_batch);
    RC_ASSERT(buys[0].packs == buys[0].one_batch);
  }));
}

TEST_CASE("the skins bought for sets are as many as the sets want") {
  CHECK(rc::check([] {
    Shop shop = any_skins();
    for (auto sets = between(1, 3); sets > 0; --sets) want_set(shop);
    auto const buys = shop.buys();
    if (buys.empty()) return;
    check_sums(shop, buys[0]);
    receive(shop, buys[0]);
    RC_ASSERT(shop.buys().empty());
  }));
}
