#include "cli/commands/past_made.h"

#include "cli/commands/stock_line.h"
#include "cli/commands/text_read.h"
#include "cli/words/values.h"
#include "db/customers.h"
#include "db/cutting.h"
#include "db/materials.h"

#include <algorithm>
#include <iterator>
#include <set>

namespace endband::cli {
namespace {

using Faults = std::vector<Fault>;

void add(Faults& faults, Faults more) {
  faults.insert(faults.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

Where at(PastCommission const& said, std::string_view key) {
  Where where = said.where;
  where.field += "." + std::string(key);
  return where;
}

// --- computing

class Computing {
 public:
  Computing(Context& context, db::Workshop& workshop, PastText const& past, std::string const& folder)
      : context_(context), workshop_(workshop), folder_(folder) {
    for (PastCustomer const& customer : past.customers) customers_.insert(customer.code);
  }

  Read<PastComputed> one(PastCommission const& said) {
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
    return result;
  }

 private:
  Read<Described> described(PastCommission const& said) {
    std::string const path = said.book.starts_with('/') ? said.book : folder_ + said.book;
    auto text = context_.read_file(path);
    if (!text) return tl::unexpected(located(std::move(text.error()), at(said, "book")));
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
        add(faults, located(known.error(), at(said, "customer")));
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
      auto outlet = outlet_at(workshop_, *said.through, said.on, at(said, "through"));
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
        faults.push_back({FaultCode::unknown_code, at(result.said, "spoiled"), each.material,
                          "a material of this book that the workshop supplied",
                          nearest(each.material, codes)});
        continue;
      }
      auto const quantity = read_quantity_of(*material, each.amount, Least::something);
      if (quantity)
        result.spoiled.push_back(quantity->amount);
      else
        add(faults, located(quantity.error(), at(result.said, "spoiled")));
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
