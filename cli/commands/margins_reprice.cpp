// Past quotes at today's prices, rates and steps: which of them would now be under their cost, what did it,
// and what would have to be asked.
#include "cli/commands/commands.h"
#include "cli/document/document.h"
#include "cli/document/json.h"
#include "cli/process/stream_together.h"
#include "cli/words/values.h"
#include "db/materials.h"
#include "db/repricing.h"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <memory>

namespace endband::cli {
namespace {

constexpr std::size_t batch = 64;
constexpr std::size_t most_rows = 15;
constexpr std::size_t most_kept = 1000;  // of very many quotes those that lose most are told
constexpr std::int64_t told_every = 20'000;

struct RepricedQuote {
  std::string number, title, binding;
  Date on;
  Repriced of;
};

struct MarginsReprice {
  Date on;
  std::vector<std::string> supposed;
  std::int64_t quotes = 0, under = 0, under_then = 0, below_goal = 0, not_priced = 0;
  Money cost_then, cost_now;
  std::vector<RepricedQuote> rows;  // under their cost or below their goal, those that leave least first
  std::vector<std::pair<std::int64_t, std::string>> codes;  // of materials
};

std::string code_of(MarginsReprice const& view, MaterialId id) {
  auto const found = std::ranges::find(view.codes, id.value, &std::pair<std::int64_t, std::string>::first);
  return found == view.codes.end() ? std::string() : found->second;
}

std::string_view kind_name(ChangeKind kind) {
  constexpr std::array<std::string_view, 5> names{"material", "step", "rate", "overhead", "rules"};
  return names.at(static_cast<std::size_t>(kind));
}

std::string change_words(MarginsReprice const& view, Repriced const& of) {
  if (!of.largest) return {};
  SingleChange const& change = *of.largest;
  std::string text(kind_name(change.kind));
  if (change.material) text = code_of(view, *change.material);
  if (change.operation) text = operation_row(*change.operation).name;
  text += " " + signed_text(change.dearer);
  return of.alone ? text + ", alone" : text;
}

Json row_json(MarginsReprice const& view, RepricedQuote const& row) {
  Repriced const& of = row.of;
  auto const change = [&](SingleChange const& single) {
    return Json(
        Json::Object{{"what", kind_name(single.kind)},
                     {"material", single.material ? Json(code_of(view, *single.material)) : Json()},
                     {"step", single.operation ? Json(operation_row(*single.operation).name) : Json()},
                     {"dearer", money_json(single.dearer)}});
  };
  return Json::Object{{"quote", row.number},
                      {"title", row.title},
                      {"binding", row.binding},
                      {"on", date_text(row.on)},
                      {"price", money_json(of.price)},
                      {"cost_then", money_json(of.cost_then)},
                      {"cost_now", money_json(of.cost_now)},
                      {"left_then", money_json(of.left_then)},
                      {"left_now", money_json(of.left_now)},
                      {"under", of.under},
                      {"below_goal", of.below_goal},
                      {"ticket_then", money_json(of.ticket_then)},
                      {"ticket_now", money_json(of.ticket)},
                      {"largest", of.largest ? change(*of.largest) : Json()},
                      {"alone", of.alone},
                      {"not_priced", of.not_priced}};
}

Json to_json(MarginsReprice const& view) {
  return Json::Object{
      {"on", date_text(view.on)},
      {"supposed", json_words(view.supposed)},
      {"quotes", view.quotes},
      {"under", view.under},
      {"under_then", view.under_then},
      {"below_goal", view.below_goal},
      {"not_priced", view.not_priced},
      {"cost_then", money_json(view.cost_then)},
      {"cost_now", money_json(view.cost_now)},
      {"rows", json_array(view.rows, [&](RepricedQuote const& row) { return row_json(view, row); })}};
}

std::string headline(MarginsReprice const& view) {
  std::string text = fmt::format(
      "Of {} quote{} {} would now be under {} cost, {} below the goal they were made with.", view.quotes,
      view.quotes == 1 ? "" : "s", view.under, view.quotes == 1 ? "its" : "their", view.below_goal);
  if (view.under_then > 0)
    text += fmt::format(" When they were made {} {} under it already, gifts among them.", view.under_then,
                        view.under_then == 1 ? "was" : "were");
  if (view.cost_then.minor > 0)
    text += fmt::format(" All together cost {} %.", [&] {
      Ratio const change(view.cost_now.minor - view.cost_then.minor, view.cost_then.minor);
      return (change < Ratio(0) ? "" : "+") + percent_text(change, 1);
    }());
  return text;
}

// The kind of change that most often was the largest.
std::string what_did_it(MarginsReprice const& view) {
  std::vector<std::pair<std::string, int>> counts;
  for (RepricedQuote const& row : view.rows) {
    if (!row.of.largest) continue;
    SingleChange const& change = *row.of.largest;
    std::string const name = change.material ? "the price of " + code_of(view, *change.material)
                             : change.operation
                                 ? "the times of " + std::string(operation_row(*change.operation).name)
                             : change.kind == ChangeKind::rate     ? "what an hour is paid"
                             : change.kind == ChangeKind::overhead ? "what an hour bears of overhead"
                                                                   : "the workshop's rules";
    auto const found = std::ranges::find(counts, name, &std::pair<std::string, int>::first);
    if (found == counts.end())
      counts.emplace_back(name, 1);
    else
      ++found->second;
  }
  if (counts.empty()) return {};
  auto const most = std::ranges::max_element(counts, {}, &std::pair<std::string, int>::second);
  return fmt::format("What did most: {}, in {} of them.", most->first, most->second);
}

Document to_document(MarginsReprice const& view) {
  Document document;
  document.heading("Past quotes as of " + date_text(view.on) +
                   (view.supposed.empty() ? std::string() : ", if " + listed(view.supposed)));
  if (view.quotes == 0)
    return document.paragraph("There is no quote of that kind.").next("endband quote list");
  document.paragraph(headline(view));
  if (auto const did = what_did_it(view); !did.empty()) document.paragraph(did);
  Table table{{{"Quote"},
               {"Title", Align::left, 2},
               {"Asked", Align::decimal},
               {"Cost then", Align::decimal, 3},
               {"Cost now", Align::decimal},
               {"Left now", Align::decimal},
               {"Ask now", Align::decimal},
               {"What did most", Align::left, 1}},
              {}};
  std::size_t const shown = std::min(view.rows.size(), most_rows);
  for (std::size_t i = 0; i < shown; ++i) {
    RepricedQuote const& row = view.rows[i];
    Repriced const& of = row.of;
    table.add({row.number, row.title, money_text(of.ticket_then), money_text(of.cost_then),
               money_text(of.cost_now), money_text(of.left_now),
               of.ticket       ? money_text(*of.ticket)
               : of.below_goal ? "no price"
                               : "",
               change_words(view, of)});
  }
  if (shown > 0) document.add(std::move(table));
  std::int64_t const concerned = std::max(view.below_goal, view.under);
  if (concerned > static_cast<std::int64_t>(shown))
    document.paragraph(fmt::format("{} more leave more than these; --json tells {}.",
                                   concerned - static_cast<std::int64_t>(shown),
                                   view.rows.size() < static_cast<std::size_t>(concerned)
                                       ? fmt::format("the {} that leave least", view.rows.size())
                                       : "all"));
  if (view.not_priced > 0)
    document.notice(
        NoticeKind::note,
        fmt::format("{} use a material that has no price on that day; it counts as it was quoted.",
                    view.not_priced));
  if (shown > 0)
    document.notice(
        NoticeKind::note,
        "Quantities and cutting plans are kept. Nothing is changed by this; a quote that was sent stands.");
  return document;
}

bool leaves_less(RepricedQuote const& a, RepricedQuote const& b) {
  return std::pair(a.of.left_now, a.number) < std::pair(b.of.left_now, b.number);
}

// Keeps those that leave least, so that memory does not grow with the quotes.
void keep(MarginsReprice& view, RepricedQuote row) {
  view.rows.push_back(std::move(row));
  if (view.rows.size() < 2 * most_kept) return;
  std::ranges::sort(view.rows, leaves_less);
  view.rows.resize(most_kept);
}

void tell(MarginsReprice const& view, std::int64_t all) {
  if (::isatty(STDERR_FILENO) == 1 && all > told_every)
    std::fprintf(stderr, "\r%lld of %lld quotes%s", static_cast<long long>(view.quotes),
                 static_cast<long long>(all), view.quotes == all ? "\n" : "");
}

void reprice_all(db::Workshop& workshop, db::QuotesWanted const& wanted, Today const& today,
                 MarginsReprice& view) {
  std::int64_t const all = db::count_quotes(workshop, wanted);
  db::QuoteStream stream(workshop, wanted);
  stream_together([&]() -> std::optional<Streamed> {
    auto quotes = std::make_shared<std::vector<db::PastQuote>>(stream.next(batch));
    if (quotes->empty()) return std::nullopt;
    auto results = std::make_shared<std::vector<Repriced>>();
    return Streamed{
        [quotes, results, &today] {
          results->reserve(quotes->size());
          for (db::PastQuote const& each : *quotes) results->push_back(repriced(each.quote, today));
        },
        [quotes, results, &view, all] {
          for (std::size_t i = 0; i < quotes->size(); ++i) {
            Repriced const& of = (*results)[i];
            db::PastQuote const& quote = (*quotes)[i];
            ++view.quotes;
            view.under += of.under ? 1 : 0;
            view.under_then += of.left_then.minor < 0 ? 1 : 0;

            view.below_goal += of.below_goal ? 1 : 0;
            view.not_priced += of.not_priced ? 1 : 0;
            view.cost_then += of.cost_then;
            view.cost_now += of.cost_now;
            if (of.under || of.below_goal)
              keep(view, {db::number_text(quote.number), quote.title, quote.binding, quote.on, of});
          }
          if (view.quotes % told_every < static_cast<std::int64_t>(batch) || view.quotes == all)
            tell(view, all);
        }};
  });
  std::ranges::sort(view.rows, leaves_less);
  if (view.rows.size() > most_kept) view.rows.resize(most_kept);
}

std::vector<std::string> lines_of(std::string const& text) {
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < text.size();) {
    std::size_t const end = std::min(text.find('\n', at), text.size());
    if (end > at) lines.push_back(text.substr(at, end - at));
    at = end + 1;
  }
  return lines;
}

Read<MarginsReprice> seen(Context& context, db::Workshop& workshop, Args const& args) {
  db::Reading const reading(workshop);
  auto today = db::load_today(workshop, context.on);
  if (!today) return tl::unexpected(std::move(today.error()));
  MarginsReprice view;
  view.on = context.on;
  view.cost_then = view.cost_now = {0, workshop.currency()};
  view.supposed = lines_of(args.text("--if").value_or(""));
  std::vector<Fault> faults;
  for (std::string const& what : view.supposed)
    if (auto const done = today->suppose(what); !done)
      for (Fault fault : done.error()) {
        fault.where = args.where("--if");
        faults.push_back(std::move(fault));
      }
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  for (Material const& material : db::list_materials(workshop, context.on, std::nullopt))
    view.codes.emplace_back(material.id.value, material.code);
  reprice_all(workshop, {args.get<Date>("--since"), args.has("--accepted"), args.has("--every-issue")},
              *today, view);
  return view;
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto view = seen(context, **workshop, args);
  if (!view) return tl::unexpected(std::move(view.error()));
  return Answer(std::move(*view));
}

}  // namespace

Command margins_reprice() {
  return {.noun = "margins",
          .verb = "reprice",
          .summary = "Cost every past quote at today's prices, rates and steps",
          .about =
              "Which quotes would now be under their cost or below their goal, what each would have to ask, "
              "and which single "
              "change did most. --if supposes more: a material's price, rate (what an hour is paid), "
              "overhead (what it bears), "
              "step.NAME; each by a share (+12%) or, but for steps, by a sum (+2.00).",
          .words = {},
          .flags = {{"--if", FlagType::supposition, "what is supposed beside: goat-moss-08=+12%, rate=+2.00",
                     '\0', true},
                    {"--since", FlagType::date, "only quotes made on that day or later"},
                    {"--accepted", FlagType::on, "only those that became jobs"},
                    {"--every-issue", FlagType::on, "every issue, not only the newest of each commission"}},
          .examples = {"margins reprice", "margins reprice --if goat-moss-08=+12% --if rate=+2.00"},
          .refused_when = "a setting of the day is missing",
          .writes = false,
          .lists = true,
          .run = run};
}

}  // namespace endband::cli
