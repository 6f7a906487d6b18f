// What becomes of a quote: sent, accepted, declined.
#include "cli/commands/commands.h"
#include "cli/commands/sendable.h"
#include "cli/words/book_words.h"
#include "cli/words/values.h"
#include "db/jobs.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

struct Moved {
  db::QuoteHeader quote;
  db::QuoteState state = db::QuoteState::open;  // after it
  Date on;
  std::string words;
  bool dry_run = false;
};

Json to_json(Moved const& view) {
  return Json::Object{{"dry_run", view.dry_run},
                      {"number", db::number_text(view.quote.number)},
                      {"state", db::quote_state_name(view.state)},
                      {"on", date_text(view.on)},
                      {"words", view.words}};
}

std::string quote_title(db::QuoteHeader const& quote) {
  return fmt::format("Quote {}, {}, for {}", db::number_text(quote.number),
                     quote.title.empty() ? "a book" : quote.title,
                     quote.customer_name.empty() ? "nobody yet" : quote.customer_name);
}

Document to_document(Moved const& view) {
  std::string const number = db::number_text(view.quote.number);
  bool const sent = view.state == db::QuoteState::sent;
  Document document;
  document.heading(quote_title(view.quote));
  document.paragraph(fmt::format("{} on {}{}.{}", sent ? "Sent" : "Declined", date_text(view.on),
                                 sent ? ", holds until " + date_text(view.quote.valid_until) : "",
                                 view.dry_run ? " Nothing is saved." : ""));
  if (!view.dry_run)
    document.next(sent ? "endband quote accept " + number
                       : fmt::format("endband quote revise {} book.toml", number));
  return document;
}

Read<db::QuoteHeader> quote_meant(db::Workshop& workshop, Args const& args) {
  return located(db::find_quote(workshop, args.word(0)), args.where("NUMBER"));
}

Read<Answer> run_move(Context& context, Args const& args, db::QuoteState to) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto view = in_one_writing(context, **workshop, [&](db::Writing& writing) -> Read<Moved> {
    auto quote = quote_meant(writing.workshop(), args);
    if (!quote) return tl::unexpected(std::move(quote.error()));
    std::string words = args.text("--words").value_or("");
    if (to == db::QuoteState::sent) {
      if (auto missing = not_sendable(writing.workshop(), *quote, args); !missing.empty())
        return tl::unexpected(std::move(missing));
      if (auto const permit = args.text("--permit"))
        words += (words.empty() ? "permit: " : "; permit: ") + *permit;
    }
    auto const done = to == db::QuoteState::sent ? db::quote_send(writing, *quote, context.on, words)
                                                 : db::quote_decline(writing, *quote, context.on, words);
    if (!done) return tl::unexpected(done.error());
    return Moved{std::move(*quote), to, context.on, std::move(words), context.dry_run};
  });
  if (!view) return tl::unexpected(std::move(view.error()));
  return Answer(std::move(*view));
}

Read<Answer> run_send(Context& context, Args const& args) {
  return run_move(context, args, db::QuoteState::sent);
}
Read<Answer> run_decline(Context& context, Args const& args) {
  return run_move(context, args, db::QuoteState::declined);
}

// What was wanted of a material, what could be set aside, and what is short.
struct SetAside {
  db::Reserved reserved;
  std::string name;
  SoldBy sold_by = SoldBy::piece;
  Amount short_of() const {
    return {reserved.wanted.dimension, std::max<std::int64_t>(0, reserved.wanted.n - reserved.reserved.n)};
  }
};

struct Accepted {
  db::QuoteHeader quote;
  db::AcceptedJob job;
  std::optional<Date> needed_on;
  std::vector<SetAside> materials;  // in the bill's order
  Date on;
  bool dry_run = false;
};

std::vector<std::string> marks_of(SetAside const& row) {
  std::vector<std::string> marks;
  for (LotMark const& mark : row.reserved.items) marks.push_back(mark_text(mark));
  return marks;
}

Json to_json(Accepted const& view) {
  auto const row_json = [](SetAside const& row) {
    return Json(Json::Object{{"code", row.reserved.code},
                             {"name", row.name},
                             {"wanted", amount_json(row.reserved.wanted)},
                             {"set_aside", amount_json(row.reserved.reserved)},
                             {"short_of", amount_json(row.short_of())},
                             {"lots", json_words(marks_of(row))}});
  };
  return Json::Object{{"dry_run", view.dry_run},
                      {"number", db::number_text(view.quote.number)},
                      {"job", view.job.number},
                      {"on", date_text(view.on)},
                      {"needed_on", view.needed_on ? Json(date_text(*view.needed_on)) : Json()},
                      {"to_pay", money_json(view.quote.total)},
                      {"deposit", money_json(view.job.deposit)},
                      {"materials", json_array(view.materials, row_json)}};
}

void add_materials(Document& document, Accepted const& view) {
  bool const lacks =
      std::ranges::any_of(view.materials, [](SetAside const& row) { return row.short_of().n > 0; });
  Table table{{{"Material"}, {"Needed", Align::right}, {"Set aside", Align::right}}, {}};
  if (lacks) table.columns.push_back({"Short of", Align::right});
  for (SetAside const& row : view.materials) {
    auto const words = [&](Amount amount) { return amount.n == 0 ? "" : sold_words(amount, row.sold_by); };
    std::string aside = words(row.reserved.reserved);
    if (auto const marks = marks_of(row); !marks.empty()) aside += " in " + listed(marks);
    std::vector<std::string> cells{row.reserved.code, words(row.reserved.wanted), std::move(aside)};
    if (lacks) cells.push_back(words(row.short_of()));
    table.add(std::move(cells));
  }
  if (!table.rows.empty()) document.add(std::move(table));
  document.paragraph(lacks ? "Of some the shelf has too little; what is to buy: endband stock to-buy"
                           : "The shelf has all of it, and it is set aside.");
}

Document to_document(Accepted const& view) {
  Document document;
  document.heading(quote_title(view.quote));
  std::string text =
      fmt::format("Accepted on {}: {} job {}. {} to pay", date_text(view.on),
                  view.dry_run ? "it would be" : "it is", view.job.number, money_words(view.quote.total));
  if (view.job.deposit.minor > 0) text += fmt::format(", of it {} to begin", money_words(view.job.deposit));
  text += view.needed_on ? fmt::format("; needed on {}.", date_text(*view.needed_on)) : ".";
  document.paragraph(text + (view.dry_run ? " Nothing is saved." : ""));
  add_materials(document, view);
  if (!view.dry_run)
    document.next(view.job.deposit.minor > 0
                      ? fmt::format("endband job paid {} {}", view.job.number, money_text(view.job.deposit))
                      : "endband job show " + view.job.number);
  return document;
}

Read<Accepted> accepted(db::Writing& writing, Context const& context, Args const& args) {
  auto quote = quote_meant(writing.workshop(), args);
  if (!quote) return tl::unexpected(std::move(quote.error()));
  auto const needed_on = args.get<Date>("--needed-on");
  auto job = db::quote_accept(writing, *quote, context.on, needed_on);
  if (!job) return tl::unexpected(std::move(job.error()));
  FrozenQuote const frozen = db::load_quote(writing.workshop(), quote->id);
  Accepted view{std::move(*quote), std::move(*job), needed_on, {}, context.on, context.dry_run};
  for (db::Reserved const& reserved : view.job.reserved) {
    Material const* const material = material_of(frozen.materials, reserved.material);
    view.materials.push_back({reserved, material == nullptr ? reserved.code : material->name,
                              material == nullptr ? SoldBy::piece : material->sold_by});
  }
  return view;
}

Read<Answer> run_accept(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto view = in_one_writing(context, **workshop,
                             [&](db::Writing& writing) { return accepted(writing, context, args); });
  if (!view) return tl::unexpected(std::move(view.error()));
  return Answer(std::move(*view));
}

constexpr Word number_word{"NUMBER", FlagType::quote,
                           "the quote's number: 26-001a, or 26-001 for its latest issue"};
constexpr Flag words_flag{"--words", FlagType::words, "what else is to be kept of it"};

}  // namespace

Command quote_send() {
  return {.noun = "quote",
          .verb = "send",
          .summary = "Record that a quote went to the customer",
          .about =
              "It must say how it is delivered, who it comes from and why it is, or is not, made to "
              "order; your own text of that case is printed on it, never one of endband's. No legal advice.",
          .words = {number_word},
          .flags = {words_flag,
                    {"--permit", FlagType::words, "the papers under which restricted materials go abroad"}},
          .examples = {"quote send 26-001 --words \"by letter\"", "quote send 1 --dry-run"},
          .refused_when =
              "it was accepted, declined or revised, has lapsed, or lacks what a customer must be told",
          .writes = true,
          .lists = false,
          .run = run_send};
}

Command quote_accept() {
  return {
      .noun = "quote",
      .verb = "accept",
      .summary = "Make a job of a quote that the customer accepted",
      .about =
          "What lies on the shelf of all that it needs is set aside for the job, and what is short is said.",
      .words = {number_word},
      .flags = {{"--needed-on", FlagType::date, "the day the materials are needed on"}},
      .examples = {"quote accept 26-001 --needed-on 2026-12-20 --dry-run", "quote accept 26-001"},
      .refused_when = "it was revised or has lapsed, or another issue was accepted",
      .writes = true,
      .lists = false,
      .run = run_accept};
}

Command quote_decline() {
  return {
      .noun = "quote",
      .verb = "decline",
      .summary = "Record that the customer declined a quote",
      .about = "It may still be accepted while it holds.",
      .words = {number_word},
      .flags = {words_flag},
      .examples = {"quote decline 26-001 --dry-run", "quote decline 26-001 --words \"too dear this year\""},
      .refused_when = "it was accepted, declined or revised already",
      .writes = true,
      .lists = false,
      .run = run_decline};
}

}  // namespace endband::cli
