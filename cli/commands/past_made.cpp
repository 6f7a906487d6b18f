#include "cli/commands/past_made.h"

#include "cli/commands/stock_line.h"
#include "cli/commands/text_read.h"
#include "cli/words/values.h"
#include "db/customers.h"
#include "db/cutting.h"
#include "db/materials.h"

#include <algorithm>
#include <iterator>
#include <optional>
#include <set>
#include <utility>

namespace endband::cli {
namespace {

using Faults = std::vector<Fault>;

void add(Faults& faults, Faults more) {
  faults.insert(faults.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

// --- computing

class Computing {
 public:
  Computing(Context& context, db::Workshop& workshop, PastText const& past, std::string const& folder)
      : context_(context), workshop_(workshop), folder_(folder) {
    for (PastCustomer const& customer : past.customers) customers_.insert(customer.code);
  }

  Read<PastComputed> one(PastCommission const& said) {
    if (auto const done = not_after(said); !done) return tl::unexpected(done.error());
    auto book = described(said);
    if (!book) return tl::unexpected(std::move(book.error()));
    auto asked = asked_of(said, *book);
    if (!asked) return tl::unexpected(std::move(asked.error()));
    PastComputed result{.said = said, .computed = {}, .spoiled = {}};
    auto computed = compute_quote(workshop_, {std::move(*book), std::move(*asked), &plans_}, said.on);
    if (!computed) return tl::unexpected(at_commission(std::move(computed.error()), said));
    plans_.insert(computed->new_plans.begin(), computed->new_plans.end());
    result.computed = std::move(*computed);
    if (auto const done = read_spoiled(result); !done) return tl::unexpected(done.error());
    if (auto const done = all_work_told(result); !done) return tl::unexpected(done.error());
    return result;
  }

 private:
  // What is past lies before the business day, or on it.
  Read<void> not_after(PastCommission const& said) const {
    using Day = std::pair<std::optional<Date>, Where const*>;
    for (auto const& [day, where] : {Day{said.on, &said.on_at}, Day{said.accepted, &said.accepted_at},
                                     Day{said.finished, &said.finished_at}})
      if (day && *day > context_.on)
        return refuse(
            {FaultCode::out_of_range, *where, date_text(*day), date_text(context_.on) + " or earlier", {}});
    return {};
  }

  // A step that nobody names would count as done in no time.
  static Read<void> all_work_told(PastComputed const& past) {
    std::vector<PastHours> const& hours = past.said.hours;
    if (!past.said.finished || std::ranges::any_of(hours, &PastHours::rest)) return {};
    for (WorkLine const& line : past.computed.quote.work.lines)
      if (std::ranges::none_of(hours, [&](PastHours const& told) {
            return told.operation == line.kind || told.part == line.part;
          }))
        return refuse({FaultCode::missing_key,
                       past.said.hours_at,
                       std::string(operation_row(line.kind).name),
                       "hours of that step too, or \"rest 100 %\" for all that is not named",
                       {}});
    return {};
  }

  Read<Described> described(PastCommission const& said) {
    std::string const path = said.book.starts_with('/') ? said.book : folder_ + said.book;
    auto text = context_.read_file(path);
    if (!text) {
      Fault fault = text.error().front();
      fault.where = said.book_at;
      fault.expected = "the description " + path;
      return refuse(std::move(fault));
    }
    db::Reading const reading(workshop_);
    return describe_text(workshop_, {path, std::move(*text)}, {said.on, said.on});
  }

  static Faults located(Faults faults, Where const& where) {
    for (Fault& fault : faults) {
      if (fault.found.empty()) fault.found = fault.where.source;
      fault.where = where;
    }
    return faults;
  }

  // What has no place in a description or setting is told at the commission.
  static Faults at_commission(Faults faults, PastCommission const& said) {
    for (Fault& fault : faults)
      if (fault.where.line == 0 && fault.code != FaultCode::missing_setting) fault.where = said.where;
    return faults;
  }

  Read<Asked> asked_of(PastCommission const& said, Described const& book) {
    Faults faults;
    Asked asked;
    if (said.customer && !customers_.contains(*said.customer))
      if (auto const known = db::find_customer(workshop_, *said.customer); !known)
        add(faults, located(known.error(), said.customer_at));
    asked.customer = said.customer.value_or("");
    asked.valid_until =
        std::max(said.on + std::chrono::days{book.shop.valid_days}, said.accepted.value_or(said.on));
    asked.delivery.carriage = {0, workshop_.currency()};
    asked.at_price = said.price;
    if (said.margin)
      asked.goal = MarginGoal{*said.margin};
    else if (book.shop.goal)
      asked.goal = *book.shop.goal;
    else if (!said.price)
      faults.push_back({FaultCode::missing_setting,
                        {"workshop", 0, 0, "goal.margin"},
                        "",
                        "workshop set goal.margin=\"35 %\"",
                        {}});
    if (said.discount && *said.discount > Ratio(0)) asked.discount = Discount{*said.discount, said.because};
    if (said.through) {
      auto outlet = outlet_at(workshop_, *said.through, said.on, said.through_at);
      if (outlet)
        asked.outlet = std::move(*outlet);
      else
        add(faults, std::move(outlet.error()));
    }
    if (!faults.empty()) return tl::unexpected(std::move(faults));
    return asked;
  }

  Read<void> read_spoiled(PastComputed& result) {
    Faults faults;
    for (PastSpoiled const& each : result.said.spoiled) {
      auto const& materials = result.computed.quote.materials;
      auto const material = std::ranges::find(materials, each.material, &Material::code);
      auto const& lines = result.computed.quote.bill.lines;
      bool const billed =
          material != materials.end() && std::ranges::any_of(lines, [&](BillLine const& line) {
            return line.material == material->id && !line.customer_supplied;
          });
      if (!billed) {
        std::vector<std::string_view> codes;
        for (Material const& one : materials) codes.push_back(one.code);
        faults.push_back({FaultCode::unknown_code, result.said.spoiled_at, each.material,
                          "a material of this book that the workshop supplied",
                          nearest(each.material, codes)});
        continue;
      }
      auto const quantity = read_quantity_of(*material, each.amount, Least::something);
      if (quantity)
        result.spoiled.push_back(quantity->amount);
      else
        add(faults, located(quantity.error(), result.said.spoiled_at));
    }
    if (!faults.empty()) return tl::unexpected(std::move(faults));
    return {};
  }

  Context& context_;
  db::Workshop& workshop_;
  std::string const& folder_;
  std::set<std::string, std::less<>> customers_;
  PlanTable plans_;  // of books computed before
};

}  // namespace

Read<std::vector<PastComputed>> compute_past(Context& context, db::Workshop& workshop, PastText const& past,
                                             std::string const& folder) {
  Computing computing(context, workshop, past, folder);
  std::vector<PastComputed> all;
  Faults faults;
  for (PastCommission const& said : past.commissions) {
    auto one = computing.one(said);
    if (one)
      all.push_back(std::move(*one));
    else
      add(faults, std::move(one.error()));
  }
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  return all;
}

}  // namespace endband::cli
