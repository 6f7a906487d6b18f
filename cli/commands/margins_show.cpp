// One past job: all that made the difference between what was quoted to be left of it and what was.
#include "cli/commands/commands.h"
#include "cli/commands/drawn.h"
#include "cli/commands/job_seen.h"
#include "cli/commands/margins_seen.h"
#include "cli/document/svg.h"
#include "cli/drawings/figure.h"
#include "cli/words/values.h"
#include "db/settings.h"
#include "engine/pricing/walk.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>

namespace endband::cli {
namespace {

constexpr std::size_t most_details = 8;

struct MarginsShow {
  JobSeen seen;
  Difference difference;
  std::optional<std::string> folder;

  Money change() const { return difference.left - difference.left_quoted; }
};

std::string_view because_words(Because because) {
  switch (because) {
    case Because::material_price: return "prices of materials";
    case Because::holding: return "cost on the shelf";
    case Because::quantity: return "quantities used";
    case Because::spoil: return "spoil";
    case Because::rate: return "rate of the hours";
    case Because::time: return "hours taken, as paid";
    case Because::time_overhead: return "hours taken, their overhead";
    case Because::outside: return "work by others";
    case Because::fees: return "the outlet's fees";
    case Because::carriage: return "carriage";
    case Because::allowances: return "allowed for, not needed";
    case Because::variations: return "changes agreed";
    case Because::exchange: return "exchange";
    case Because::tax: return "tax";
    case Because::given_away: return "agreed below the price";
    case Because::rounding: return "rounding";
  }
  return {};
}

std::string material_code(MarginsShow const& view, MaterialId id) {
  for (MaterialSeen const& row : view.seen.materials)
    if (row.beside.material == id) return row.material.code;
  return {};
}

std::string detail_name(MarginsShow const& view, DifferenceDetail const& detail) {
  if (detail.material) return material_code(view, *detail.material);
  if (detail.operation || detail.part) return work_words({detail.operation, detail.part, {}, {}});
  if (!detail.words.empty()) return detail.words;
  return std::string(because_words(detail.because));
}

SoldBy sold_by_of(MarginsShow const& view, MaterialId id) {
  for (MaterialSeen const& row : view.seen.materials)
    if (row.beside.material == id) return row.material.sold_by;
  return SoldBy::piece;
}

std::string detail_words(MarginsShow const& view, DifferenceDetail const& detail) {
  if (detail.operation || detail.part) return more_hours(detail.worked_time.n - detail.quoted_time.n);
  if (!detail.material) return {};
  bool const of_price = detail.because == Because::material_price || detail.because == Because::holding;
  if (of_price) return detail.because == Because::holding ? "cost on the shelf" : "its price";
  SoldBy const sold_by = sold_by_of(view, *detail.material);
  Amount const more{detail.taken.dimension, std::abs(detail.taken.n - detail.quoted.n)};
  return fmt::format("{}{} {}", detail.taken.n < detail.quoted.n ? "-" : "+", sold_words(more, sold_by),
                     detail.because == Because::spoil ? "spoiled" : "used");
}

Json detail_json(MarginsShow const& view, DifferenceDetail const& detail) {
  bool const hours = detail.operation || detail.part;
  return Json::Object{{"because", because_name(detail.because)},
                      {"material", detail.material ? Json(material_code(view, *detail.material)) : Json()},
                      {"step", detail.operation ? Json(operation_row(*detail.operation).name) : Json()},
                      {"part", detail.part ? Json(part_name(*detail.part)) : Json()},
                      {"words", detail.words.empty() ? Json() : Json(detail.words)},
                      {"quoted_s", hours ? Json(detail.quoted_time.n) : Json()},
                      {"worked_s", hours ? Json(detail.worked_time.n) : Json()},
                      {"amount", money_json(detail.amount)}};
}

Json to_json(MarginsShow const& view) {
  auto const line = [](DifferenceLine const& each) {
    return Json(Json::Object{{"because", because_name(each.because)}, {"amount", money_json(each.amount)}});
  };
  auto const detail = [&](DifferenceDetail const& each) { return detail_json(view, each); };
  Difference const& difference = view.difference;
  return Json::Object{{"job", job_json(view.seen.job)},
                      {"left_quoted", money_json(difference.left_quoted)},
                      {"left", money_json(difference.left)},
                      {"difference", money_json(view.change())},
                      {"lines", json_array(difference.lines, line)},
                      {"details", json_array(difference.details, detail)},
                      {"folder", view.folder ? Json(*view.folder) : Json()}};
}

// Hours of one step count at the rate and at the overhead: together they are what that step did.
struct Cause {
  std::string name, words;
  Money amount;
};
std::vector<Cause> causes(MarginsShow const& view) {
  std::vector<Cause> causes;
  for (DifferenceDetail const& detail : view.difference.details) {
    std::string const name = detail_name(view, detail);
    std::string words = detail_words(view, detail);
    auto const same = std::ranges::find_if(
        causes, [&](Cause const& cause) { return cause.name == name && cause.words == words; });
    if (same == causes.end())
      causes.push_back({name, std::move(words), detail.amount});
    else
      same->amount += detail.amount;
  }
  std::ranges::stable_sort(causes, std::ranges::greater{},
                           [](Cause const& cause) { return std::abs(cause.amount.minor); });
  return causes;
}

std::string share_of_it(Money part, Money whole) {
  if (whole.minor == 0) return "";
  Ratio const share(part.minor, whole.minor);
  if (share > Ratio(4, 5) && share <= Ratio(1)) return ", nearly all of it ";
  if (share >= Ratio(1, 2) && share <= Ratio(4, 5)) return ", more than half of it ";
  return "; most of all ";
}

// "41.20 EUR less was left than quoted, nearly all of it sew the sections on the supports: +2 h 10 min."
std::string in_words(MarginsShow const& view) {
  Money const change = view.change();
  if (change.minor == 0) return "Just what was quoted was left.";
  std::string text = change.minor < 0 ? fmt::format("{} less was left than quoted", money_words(-change))
                                      : fmt::format("{} more was left than quoted", money_words(change));
  std::vector<Cause> const all = causes(view);
  if (!all.empty() && std::abs(all.front().amount.minor) > 10 * std::abs(change.minor))
    return fmt::format("Nearly what was quoted was left, {}; what weighed most was {} ({}).",
                       signed_text(change), all.front().name, signed_text(all.front().amount));
  for (Cause const& cause : all) {
    if ((cause.amount.minor < 0) != (change.minor < 0)) continue;
    text += share_of_it(cause.amount, change) + cause.name;
    if (!cause.words.empty()) text += " (" + cause.words + ")";
    break;
  }
  return text + ".";
}

Document to_document(MarginsShow const& view) {
  Difference const& difference = view.difference;
  std::string const currency(difference.left.currency.code());
  Document document;
  document.heading(job_title(view.seen.job));
  document.paragraph(in_words(view));
  Table table{{{"Left"}, {currency, Align::decimal}}, {}};
  table.add({"Quoted to be left", money_text(difference.left_quoted)});
  for (DifferenceLine const& line : difference.lines)
    if (line.amount.minor != 0)
      table.add({std::string(because_words(line.because)), signed_text(line.amount)});
  table.add_total({"Left", money_text(difference.left)});
  document.add(std::move(table));
  std::vector<Cause> const all = causes(view);
  if (!all.empty()) {
    document.heading("What did it", 2);
    Table details{{{"What"}, {"How much more"}, {currency, Align::decimal}}, {}};
    for (std::size_t i = 0; i < std::min(all.size(), most_details); ++i)
      details.add({all[i].name, all[i].words, signed_text(all[i].amount)});
    document.add(std::move(details));
    if (all.size() > most_details)
      document.paragraph(fmt::format("{} smaller ones are in --json.", all.size() - most_details));
  }
  if (view.folder) document.paragraph("Figures are in " + *view.folder + ".");
  document.next("endband steps learn");
  return document;
}

// From what the buyer paid to what was quoted to be left, and from there to what was.
StairFigure stairs(MarginsShow const& view) {
  FrozenQuote const& agreed = view.seen.agreed;
  Walk const& walk = agreed.offer.walk;
  Difference const& difference = view.difference;
  StairFigure figure{
      .title = fmt::format("Of {} paid {} was left; {} was quoted to be", money_words(agreed.offer.total),
                           money_text(difference.left), money_text(difference.left_quoted)),
      .name = "walk",
      .unit = std::string(difference.left.currency.code()),
      .rows = {}};
  auto const add = [&](std::string name, Money amount, bool sum = false) {
    if (sum || amount.minor != 0)
      figure.rows.push_back(
          {std::move(name), major(amount), sum, sum ? money_text(amount) : signed_text(amount)});
  };
  add("the buyer pays", agreed.offer.total, true);
  Money const none{0, difference.left.currency};
  bool const outlet = agreed.selling.outlet.has_value();
  Money const rest = agreed.offer.total - agreed.offer.goods - agreed.offer.carriage;
  add("tax, and what rounds it", -rest);
  add("carriage", -agreed.offer.carriage);
  add("fees and exchange", -(outlet ? sale_costs(agreed) : none));
  add("materials", -agreed.sheet.materials);
  add("hours", -agreed.sheet.labour);
  add("overhead", -agreed.sheet.overhead);
  add("work by others", -agreed.sheet.outside);
  add("allowances", -(agreed.sheet.allowances + (outlet ? walk.returns : none)));
  add("quoted to be left", agreed.offer.left, true);
  for (DifferenceLine const& line : difference.lines)
    add(std::string(because_words(line.because)), line.amount);
  add("left", difference.left, true);
  return figure;
}

PairFigure hours_figure(MarginsShow const& view) {
  std::int64_t const quoted = round(view.seen.agreed.sheet.seconds, Rounding::half_away);
  PairFigure figure{.title = fmt::format("{} worked of {} quoted", hours_words(Ratio(view.seen.cost.time.n)),
                                         hours_words(Ratio(quoted))),
                    .name = "hours",
                    .first = "quoted",
                    .second = "worked",
                    .unit = "hours",
                    .aim = {},
                    .aim_words = {},
                    .rows = {}};
  for (WorkBeside const& work : view.seen.work)
    figure.rows.push_back({work_words(work), static_cast<double>(work.quoted.n) / 3600,
                           static_cast<double>(work.worked.n) / 3600,
                           more_hours(work.worked.n - work.quoted.n)});
  return figure;
}

Read<MarginsShow> seen(Context& context, db::Workshop& workshop, Args const& args) {
  db::Reading const reading(workshop);
  auto job = see_job(workshop, args, context.on);
  if (!job) return tl::unexpected(std::move(job.error()));
  if (job->job.state != db::JobState::finished)
    return refuse({FaultCode::rule_refused,
                   args.where("NUMBER"),
                   job->job.number,
                   fmt::format("a finished job; this one is {}, and endband job show {} says where it stands",
                               db::job_state_name(job->job.state), job->job.number),
                   {}});
  auto const shop = db::load_shop(workshop, context.on);
  if (!shop) return tl::unexpected(shop.error());
  auto const taken = db::load_taken_on(workshop, job->job, shop->buying);
  SaleTaken const sale = db::load_sale(workshop, job->job);
  Difference difference =
      difference_of({job->agreed, job->record, taken, sale, db::load_agreed_first(workshop, job->job),
                     job->job.price, job->job.kept});
  return MarginsShow{std::move(*job), std::move(difference), args.text("--svg")};
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto view = seen(context, **workshop, args);
  if (!view) return tl::unexpected(std::move(view.error()));
  if (view->folder) {
    std::vector<NewFile> const files{
        {view->seen.job.number + "-walk.svg", to_svg(draw_stairs(stairs(*view)))},
        {view->seen.job.number + "-hours.svg", to_svg(draw_pairs(hours_figure(*view)))}};
    if (auto const done = draw(context, args, view->folder, files); !done)
      return tl::unexpected(done.error());
  }
  return Answer(std::move(*view));
}

}  // namespace

Command margins_show() {
  return {.noun = "margins",
          .verb = "show",
          .summary = "Show why a past job left more or less than was quoted",
          .about =
              "The whole difference in parts that sum to it: prices, what lay on the shelf, quantities, "
              "spoil, hours at "
              "their rate and at the overhead, work by others, what the sale took (job sold), changes "
              "agreed, roundings. "
              "Hours are valued at the rate agreed on.",
          .words = {job_word},
          .flags = {{"--svg", FlagType::folder, "draw the figures into that folder"}},
          .examples = {"margins show 26-001", "margins show 26-001 --svg figures"},
          .refused_when = "the job is not finished",
          .writes = true,
          .writes_with = {"--svg"},
          .lists = false,
          .run = run};
}

}  // namespace endband::cli
