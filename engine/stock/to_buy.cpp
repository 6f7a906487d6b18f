// What to buy: the jobs' wants are served from the shelf day by day; what they lack, and what the shelf
// should not fall below, is bought in whole packs.
#include "engine/stock/to_buy.h"

#include <algorithm>
#include <map>
#include <stdexcept>
#include <tuple>

namespace endband {
namespace {

// What is known of one material while its wants are served.
struct Account {
  MaterialSupply const* row = nullptr;
  std::vector<OnShelf> lots;  // what is left of each
  std::vector<Wanted> wants;
};

// The jobs' side of a purchase.
struct JobsNeed {
  std::int64_t wanted = 0, served = 0;
  std::int64_t items_of_sets = 0, largest_set = 0;  // of the sets that the shelf does not have
  std::vector<std::string> jobs;                    // not served in full
  std::optional<Date> first, last;                  // the days of those
  std::int64_t short_of() const { return wanted - served; }
};

// The shelf's side: what is left for it when all jobs are served, and since when that is too little.
struct ShelfNeed {
  Date arrival;  // of an order placed today
  std::int64_t left = 0;
  std::optional<Date> low_since;
};

bool keeps(OnShelf const& lot, Date day) { return !lot.good_until || *lot.good_until >= day; }
bool may_serve(OnShelf const& lot, Wanted const& want, Date day) {
  return lot.quantity > 0 && keeps(lot, day) && (lot.job.empty() || lot.job == want.job);
}
std::int64_t rounded_up(std::int64_t a, std::int64_t b) { return mul_div(a, 1, b, Rounding::up); }

std::int64_t draw(OnShelf& lot, std::int64_t wanted) {
  std::int64_t const drawn = std::min(lot.quantity, wanted);
  lot.quantity -= drawn;
  return drawn;
}

// How many single items of this size the lot holds: a skin is one, whatever its size.
std::int64_t items_in(OnShelf const& lot, std::int64_t each, SoldBy sold_by) {
  std::int64_t const items = lot.quantity / each;
  return sold_by == SoldBy::skin ? std::min<std::int64_t>(items, 1) : items;
}

// The lots of the first batch, in the order given, that has the whole set; none: there is no such set.
std::vector<OnShelf*> set_of_one_batch(std::vector<OnShelf*> const& lots, std::int64_t each,
                                       std::int64_t items, SoldBy sold_by) {
  struct Batch {
    std::vector<OnShelf*> lots;
    std::int64_t items = 0;
  };
  std::map<std::pair<std::string, LotId>, Batch> batches;
  for (OnShelf* const lot : lots) {
    std::int64_t const holds = items_in(*lot, each, sold_by);
    if (holds == 0) continue;
    // Two lots of no known batch are not known to match.
    Batch& batch = batches[{lot->batch, lot->batch.empty() ? lot->lot : LotId{}}];
    batch.lots.push_back(lot);
    batch.items += holds;
    if (batch.items >= items) return batch.lots;
  }
  return {};
}

// Serves a set whole or not at all.
std::int64_t serve_set(std::vector<OnShelf*> const& lots, Wanted const& want, SoldBy sold_by) {
  std::int64_t const each = rounded_up(want.quantity, want.of_one_batch);
  std::int64_t served = 0;
  for (OnShelf* const lot : set_of_one_batch(lots, each, want.of_one_batch, sold_by)) {
    std::int64_t const items = items_in(*lot, each, sold_by);
    served += draw(*lot, std::min(checked_mul(items, each), want.quantity - served));
  }
  return served;
}

std::int64_t serve(Account& account, Wanted const& want, Date day) {
  std::vector<OnShelf*> lots;
  for (OnShelf& lot : account.lots)
    if (may_serve(lot, want, day)) lots.push_back(&lot);
  // What was bought for the job serves nobody else.
  std::stable_partition(lots.begin(), lots.end(), [](OnShelf const* lot) { return !lot->job.empty(); });
  if (want.of_one_batch > 0) return serve_set(lots, want, account.row->material.sold_by);
  std::int64_t served = 0;
  for (OnShelf* const lot : lots) served += draw(*lot, want.quantity - served);
  return served;
}

void note_short(JobsNeed& need, Wanted const& want) {
  if (!std::ranges::count(need.jobs, want.job)) need.jobs.push_back(want.job);
  if (!need.first) need.first = want.needed_on;
  need.last = want.needed_on;
  need.items_of_sets += want.of_one_batch;
  need.largest_set = std::max(need.largest_set, want.of_one_batch);
}

// What is left for the shelf: what a job lacks is bought for it and does not lower this.
void look_at_shelf(ShelfNeed& shelf, Account const& account, Date day) {
  shelf.left = 0;
  for (OnShelf const& lot : account.lots)
    if (lot.job.empty() && keeps(lot, shelf.arrival)) shelf.left = checked_add(shelf.left, lot.quantity);
  auto const& reorder_at = account.row->supply.reorder_at;
  if (reorder_at && shelf.left <= *reorder_at && !shelf.low_since) shelf.low_since = day;
}

std::pair<JobsNeed, ShelfNeed> serve_all(Account& account, Date on) {
  std::ranges::stable_sort(account.wants, {}, &Wanted::needed_on);
  std::ranges::stable_sort(account.lots, {}, [](OnShelf const& lot) {
    return std::tuple(lot.good_until.value_or(Date::max()), lot.lot);
  });
  JobsNeed jobs;
  ShelfNeed shelf;
  shelf.arrival = on + std::chrono::days(account.row->supply.lead_days.value_or(0));
  look_at_shelf(shelf, account, on);
  for (Wanted const& want : account.wants) {
    if (want.quantity <= 0 || want.of_one_batch < 0)
      throw std::logic_error("a job wants less than something");
    Date const day = std::max(want.needed_on, on);
    std::int64_t const served = serve(account, want, day);
    jobs.wanted = checked_add(jobs.wanted, want.quantity);
    jobs.served += served;
    if (served < want.quantity) note_short(jobs, want);
    look_at_shelf(shelf, account, day);
  }
  return {jobs, shelf};
}

void set_days(Buy& buy, Supply const& supply, JobsNeed const& jobs, ShelfNeed const& shelf, Date on) {
  std::chrono::days const lead(supply.lead_days.value_or(0));
  Date const for_jobs = jobs.first.value_or(Date::max());
  Date const for_shelf = buy.for_reorder ? *shelf.low_since + lead : Date::max();
  buy.needed_on = std::min(for_jobs, for_shelf);
  if (supply.lead_days) buy.order_by = buy.needed_on - lead;
  buy.too_late = buy.order_by && *buy.order_by < on;
}

// Whole packs: what is short, what an order for the shelf is to be, and a skin for each of a set.
void set_packs(Buy& buy, MaterialSupply const& row, std::int64_t items_of_sets, BuyingRules const& buying) {
  Material const& material = row.material;
  buy.quantity.dimension = dimension_of(material.sold_by);
  if (!material.price) return;
  std::int64_t const pack = material.price->pack.n;
  if (pack <= 0) throw std::logic_error("a price is of an empty pack");
  buy.packs = rounded_up(buy.short_of, pack);
  if (buy.for_reorder)  // more than reorder_at is to be left, else the next look would order again
    buy.packs =
        std::max({buy.packs, buy.short_of / pack + 1, rounded_up(row.supply.order_size.value_or(0), pack)});
  if (material.sold_by == SoldBy::skin) buy.packs = std::max(buy.packs, items_of_sets);
  buy.quantity.n = checked_mul(buy.packs, pack);
  Money const a_pack = landed_cost(*material.price, buying).total;
  buy.landed = {checked_mul(a_pack.minor, buy.packs), a_pack.currency};
  buy.supplier = material.price->supplier;
  buy.priced = true;
}

std::optional<Buy> buy_of(Account& account, BuyingRules const& buying, Date on) {
  MaterialSupply const& row = *account.row;
  auto const [jobs, shelf] = serve_all(account, on);
  Buy buy;
  buy.material = row.material.id;
  // Later wants only lower what is left: once low, low at the end.
  buy.for_reorder = shelf.low_since.has_value();
  if (jobs.short_of() == 0 && !buy.for_reorder) return std::nullopt;
  std::int64_t const reorder_at = buy.for_reorder ? *row.supply.reorder_at : 0;
  buy.wanted = checked_add(jobs.wanted, reorder_at);
  buy.on_shelf = jobs.served + (buy.for_reorder ? shelf.left : 0);
  buy.short_of = buy.wanted - buy.on_shelf;
  buy.jobs = jobs.jobs;
  buy.one_batch = jobs.largest_set;
  Date const until = std::max(jobs.last.value_or(on), buy.for_reorder ? shelf.arrival : on);
  for (OnShelf const& lot : account.lots)
    if (!keeps(lot, until)) buy.dead = checked_add(buy.dead, lot.quantity);
  set_days(buy, row.supply, jobs, shelf, on);
  set_packs(buy, row, jobs.items_of_sets, buying);
  return buy;
}

}  // namespace

std::vector<Buy> to_buy(std::span<MaterialSupply const> materials, std::span<OnShelf const> shelf,
                        std::span<Wanted const> wanted, BuyingRules const& buying, Date on) {
  std::map<MaterialId, Account> accounts;
  for (MaterialSupply const& row : materials) accounts[row.material.id].row = &row;
  for (OnShelf const& lot : shelf) {
    auto const found = accounts.find(lot.material);
    if (found == accounts.end()) continue;  // nobody asks for it
    if (lot.quantity < 0) throw std::logic_error("a lot holds less than nothing");
    found->second.lots.push_back(lot);
  }
  for (Wanted const& want : wanted) {
    auto const found = accounts.find(want.material);
    if (found == accounts.end()) throw std::logic_error("a job wants a material that is not known");
    found->second.wants.push_back(want);
  }
  std::vector<std::pair<std::string_view, Buy>> bought;
  for (auto& [material, account] : accounts)
    if (auto buy = buy_of(account, buying, on))
      bought.emplace_back(account.row->material.code, std::move(*buy));
  std::ranges::sort(bought, {}, [](auto const& one) {
    return std::tuple(std::string_view(one.second.supplier), one.second.order_by.value_or(Date::max()),
                      one.first);
  });
  std::vector<Buy> buys;
  for (auto& [code, buy] : bought) buys.push_back(std::move(buy));
  return buys;
}

}  // namespace endband
