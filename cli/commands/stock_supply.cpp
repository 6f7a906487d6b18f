// How a material is bought, and how long it keeps.
#include "cli/commands/changed.h"
#include "cli/commands/commands.h"
#include "cli/commands/stock_parts.h"
#include "cli/words/values.h"
#include "db/materials.h"

#include <fmt/format.h>

namespace endband::cli {
namespace {

Fields fields_of(Supply const& supply, SoldBy sold_by) {
  auto const quantity = [&](std::optional<std::int64_t> n) {
    return n ? sold_words({dimension_of(sold_by), *n}, sold_by) : std::string();
  };
  auto const days = [](std::optional<std::int64_t> n) { return n ? fmt::format("{} d", *n) : std::string(); };
  return {{"reorder-at", quantity(supply.reorder_at)},
          {"order-size", quantity(supply.order_size)},
          {"lead-days", days(supply.lead_days)},
          {"keeps-days", days(supply.keeps_days)},
          {"keeps-opened-days", days(supply.keeps_opened_days)}};
}

// Sets what the flags name; an empty quantity takes it away.
Read<Supply> supply_said(Args const& args, Material const& material, Supply supply) {
  std::vector<Fault> faults;
  auto const set_quantity = [&](std::string_view flag, Least least, std::optional<std::int64_t>& to) {
    auto const text = args.text(flag);
    if (!text) return;
    to.reset();
    if (text->empty()) return;
    auto const read = located(read_quantity_of(material, *text, least), args.where(flag));
    if (read)
      to = read->amount.n;
    else
      faults.insert(faults.end(), read.error().begin(), read.error().end());
  };
  auto const set_days = [&](std::string_view flag, std::optional<std::int64_t>& to) {
    if (auto const days = args.get<std::int64_t>(flag)) to = *days;
  };
  set_quantity("--reorder-at", Least::nothing, supply.reorder_at);
  set_quantity("--order-size", Least::something, supply.order_size);
  set_days("--lead-days", supply.lead_days);
  set_days("--keeps-days", supply.keeps_days);
  set_days("--keeps-opened-days", supply.keeps_opened_days);
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  return supply;
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto const material = located(db::find_material(**workshop, args.word(0), context.on), args.where("CODE"));
  if (!material) return tl::unexpected(material.error());
  Supply const before = db::find_supply(**workshop, material->id, context.on);
  auto const after = supply_said(args, *material, before);
  if (!after) return tl::unexpected(after.error());
  Changed view{
      .deed = Deed::set,
      .noun = "supply of",
      .code = material->code,
      .changes = changes_between(fields_of(before, material->sold_by), fields_of(*after, material->sold_by)),
      .from = context.on,
      .dry_run = context.dry_run,
      .next = "endband stock to-buy"};
  if (view.changes.empty()) return Answer(std::move(view));
  auto const done = in_one_writing(context, **workshop, [&](db::Writing& writing) {
    return db::set_supply(writing, material->code, *after, context.on);
  });
  if (!done) return tl::unexpected(done.error());
  return Answer(std::move(view));
}

}  // namespace

Command stock_supply() {
  return {
      .noun = "stock",
      .verb = "supply",
      .summary = "Set how a material is bought, and how long it keeps",
      .about =
          "Only what is named changes; an empty quantity takes it away. It changes no quote. stock suggest "
          "works out a reorder point and an order size from what was used.",
      .words = {{"CODE", FlagType::material, "the material's code"}},
      .flags = {{"--reorder-at", FlagType::quantity, "order when no more is free: \"20 sheets\", \"1 pack\""},
                {"--order-size", FlagType::quantity, "how much to order then; else up to one pack above"},
                {"--lead-days", FlagType::whole, "days from the order to the shelf"},
                {"--keeps-days", FlagType::whole, "days it keeps from the day it came"},
                {"--keeps-opened-days", FlagType::whole, "days it keeps once opened"}},
      .examples =
          {"stock supply text-wove-90 --reorder-at \"60 sheets\" --order-size \"2 packs\" --lead-days 9",
           "stock supply pva-bindery --keeps-days 365 --keeps-opened-days 120 --dry-run"},
      .refused_when = "",
      .writes = true,
      .lists = false,
      .run = run};
}

}  // namespace endband::cli
