#include "engine/book/copies.h"
#include "engine/commission/commission.h"

#include <cmath>
#include <cstddef>
#include <utility>

namespace endband {
namespace {

template <class T>
void collect(std::vector<Fault>& faults, Read<T>& read) {
  if (!read)
    for (Fault& fault : read.error()) faults.push_back(std::move(fault));
}

std::int64_t count_of(Structure const& book, FigureId id) {
  return std::llround(book.figures.value_or(id, 0));
}

std::vector<VolumeMade> sizes_of(BookSpec const& set, std::vector<Structure> const& books) {
  std::vector<VolumeMade> sizes;
  for (std::size_t i = 0; i < set.volumes.size(); ++i) {
    Structure const& book = books[i];
    sizes.push_back({set.volumes[i].title, book.closed_height, book.closed_width, book.closed_thickness,
                     count_of(book, FigureId::pages), count_of(book, FigureId::sections), book.mass});
  }
  return sizes;
}

// The volumes of a set, and all of them as one piece of work.
struct Set {
  std::vector<Structure> books;
  Structure all;
};
Set set_of(Commission const& commission) {
  Set set{volumes_of(commission.book, commission.catalogue), {}};
  set.all = together(set.books, commission.book.set_shares);
  return set;
}

// What is worked before the customer approves anything: deposits cover it.
Money first_hours(CostSheet const& sheet, Work const& work) {
  Money sum{0, sheet.total.currency};
  for (CostLine const& line : sheet.lines) {
    if (line.kind != CostKind::labour) continue;
    OperationKind const kind = work.lines.at(static_cast<std::size_t>(line.source)).kind;
    if (kind == OperationKind::answer_enquiry || kind == OperationKind::draw_proof) sum += line.amount;
  }
  return sum;
}

Read<Sold> sold_of(Commission const& commission, Set const& set, Priced const& priced, int copies,
                   Goal const& goal) {
  Sold sold{commission.delivery, commission.selling, std::nullopt, {}};
  sold.selling.pieces = copies;
  sold.selling.deposit.first_hours = first_hours(priced.sheet, priced.work);
  auto const offered = [&](Delivery const& delivery, SellingRules const& selling) {
    return offer(priced.sheet, delivery, selling, goal, commission.shop);
  };
  if (commission.sending) {
    Read<std::vector<Consignment>> const parcels = parcels_of(set.books, copies);
    if (!parcels) return tl::unexpected(parcels.error());
    return sold_and_sent(*commission.sending, *parcels, std::move(sold), offered);
  }
  Read<Offer> offer = offered(sold.delivery, sold.selling);
  if (!offer) return tl::unexpected(std::move(offer.error()));
  sold.offer = std::move(*offer);
  return sold;
}

// What the bill and the work refuse is told together; neither needs the other.
Read<Priced> price_of(Commission const& commission, Set const& set, int copies, Goal const& goal) {
  Priced priced;
  priced.structure = times(set.all, copies);
  priced.needs = quantities(priced.structure, commission.book, commission.catalogue);
  Read<Bill> bill =
      settle(priced.needs, commission.book, commission.catalogue, commission.plans, commission.cutting);
  Read<Work> work = work_for(priced.structure, commission.book, commission.steps, commission.work,
                             commission.bench, copies);
  if (!bill || !work) {
    std::vector<Fault> faults;
    collect(faults, bill);
    collect(faults, work);
    return tl::unexpected(std::move(faults));
  }
  priced.bill = std::move(*bill);
  priced.work = std::move(*work);
  OutsideMeasures const measures = measures_of(set.books, commission.book, priced.bill, copies);
  for (OutsideTerms const& terms : commission.outside)
    priced.outside.push_back(outside_of(terms, measures, commission.shop.currency));
  priced.sheet = cost(priced.bill, priced.work, priced.outside, commission.shop);
  Read<Sold> sold = sold_of(commission, set, priced, copies, goal);
  if (!sold) return tl::unexpected(std::move(sold.error()));
  priced.selling = std::move(sold->selling);
  priced.delivery = std::move(sold->delivery);
  priced.sent_by = std::move(sold->sent_by);
  priced.offer = std::move(sold->offer);
  priced.volumes = sizes_of(commission.book, set.books);
  return priced;
}

CopyPrice copy_price(Priced const& priced, int copies) {
  return {copies, priced.offer.goods_shown, priced.sheet.total, priced.sheet.seconds};
}

// A sum of money is wanted of the copies asked for; of more or fewer, its share.
Goal goal_of_copies(Goal goal, int wanted, int copies) {
  Ratio const share(copies, wanted);
  if (auto* const profit = std::get_if<ProfitGoal>(&goal))
    profit->left = scale(profit->left, share, Rounding::half_away);
  if (auto* const leave = std::get_if<LeaveGoal>(&goal))
    leave->yours = scale(leave->yours, share, Rounding::half_away);
  return goal;
}

// One, as many as are asked for, one more: each once.
Read<std::vector<CopyPrice>> copy_prices(Commission const& commission, Set const& set, Priced const& asked) {
  int const wanted = commission.book.copies;
  std::vector<CopyPrice> prices;
  for (int const copies : {1, wanted, wanted + 1}) {
    if (!prices.empty() && prices.back().copies == copies) continue;
    if (copies == wanted) {
      prices.push_back(copy_price(asked, copies));
      continue;
    }
    Goal const goal = goal_of_copies(commission.goal, wanted, copies);
    Read<Priced> const other = price_of(commission, set, copies, goal);
    if (!other) return tl::unexpected(other.error());
    prices.push_back(copy_price(*other, copies));
  }
  return prices;
}

tl::unexpected<std::vector<Fault>> too_large() {
  return refuse({FaultCode::too_large,
                 Where{{}, 0, 0, "book"},
                 "",
                 "a book whose costs fit in the range of money",
                 {}});
}

}  // namespace

std::vector<CutRequest> requests_of(Commission const& commission) {
  Set const set = set_of(commission);
  int const wanted = commission.book.copies;
  std::vector<CutRequest> all;
  for (int const copies : {wanted, 1, wanted + 1}) {
    if (copies == wanted && !all.empty()) continue;
    Needs const needs = quantities(times(set.all, copies), commission.book, commission.catalogue);
    for (CutRequest& request : requests(needs, commission.catalogue, commission.cutting))
      all.push_back(std::move(request));
  }
  return all;
}

Read<Priced> price(Commission const& commission) try {
  return price_of(commission, set_of(commission), commission.book.copies, commission.goal);
} catch (Overflow const&) {
  return too_large();
}

Read<Priced> price_for_quote(Commission const& commission) try {
  Set const set = set_of(commission);
  Read<Priced> priced = price_of(commission, set, commission.book.copies, commission.goal);
  if (!priced) return priced;
  Read<std::vector<CopyPrice>> copies = copy_prices(commission, set, *priced);
  if (!copies) return tl::unexpected(std::move(copies.error()));
  priced->copies = std::move(*copies);
  RepairTerms const terms{priced->bill,     priced->work,    priced->outside, commission.shop,
                          priced->delivery, priced->selling, commission.goal};
  Read<std::optional<RepairRange>> repairs =
      repair_range(terms, priced->offer, commission.book.repair_ceiling);
  if (!repairs) return tl::unexpected(std::move(repairs.error()));
  priced->repairs = *repairs;
  return priced;
} catch (Overflow const&) {
  return too_large();
}

}  // namespace endband
