// Explains a quote to the workshop, or one figure of its book.
#include "cli/commands/commands.h"
#include "cli/commands/explained.h"
#include "cli/commands/quote_json.h"
#include "cli/words/book_words.h"
#include "db/quotes.h"
#include "db/steps.h"

#include <fmt/format.h>

#include <cmath>
#include <set>

namespace endband::cli {
namespace {

Read<Explained> explained(db::Workshop& workshop, std::string const& number) {
  db::Reading const reading(workshop);
  auto header = db::find_quote(workshop, number);
  if (!header) return tl::unexpected(std::move(header.error()));
  Explained view{std::move(*header), {}, {}};
  view.quote = db::load_quote(workshop, view.header.id);
  auto const library = db::load_steps(workshop, view.quote.on);
  std::set<OperationKind> seen;
  for (WorkLine const& line : view.quote.work.lines) {
    if (!seen.insert(line.kind).second) continue;
    Step const* const step = library.find(line.kind);
    if (step != nullptr && !step->caution.empty())
      view.cautions.push_back({std::string(operation_row(line.kind).name), step->caution});
  }
  return view;
}

// --- one figure

struct Why {
  db::QuoteHeader header;
  FigureId figure;
  std::vector<Reason> reasons;  // the figure, then what it reads, then what that reads
};

Json to_json(Why const& view) {
  auto const name = [](FigureId id) { return Json(figure_row(id).name); };
  auto const reason_json = [&](Reason const& reason) {
    FigureRow const& row = figure_row(reason.figure);
    return Json(Json::Object{{"figure", row.name},
                             {"words", row.words},
                             {"symbol", row.symbol},
                             {"unit", unit_name(row.unit)},
                             {"value_millionths", std::int64_t{std::llround(reason.value * 1e6)}},
                             {"origin", origin_name(reason.origin)},
                             {"formula", reason.formula.empty() ? Json() : Json(reason.formula)},
                             {"source", reason.source.empty() ? Json() : Json(reason.source)},
                             {"inputs", json_array(reason.inputs, name)}});
  };
  Json::Object members;
  members.emplace_back("quote", header_json(view.header));
  for (char const* absent : {"goal", "bill", "work", "rates", "cost", "ladder", "offer", "order", "selling"})
    members.emplace_back(absent, Json());
  for (char const* none : {"ways", "pieces", "outside", "options", "largest_costs", "warnings", "cautions"})
    members.emplace_back(none, Json::Array{});
  members.emplace_back("figure", figure_row(view.figure).name);
  members.emplace_back("reasons", json_array(view.reasons, reason_json));
  return members;
}

Document to_document(Why const& view) {
  Document document;
  document.heading(
      fmt::format("Why {} in quote {}", figure_row(view.figure).words, db::number_text(view.header.number)));
  Table table{{{"Figure"}, {""}, {"Value", Align::right}, {"Rule, or where it is from"}, {"Source"}}, {}};
  for (Reason const& reason : view.reasons) {
    FigureRow const& row = figure_row(reason.figure);
    table.add({std::string(row.words), std::string(row.symbol), figure_words(reason.figure, reason.value),
               reason.formula.empty() ? std::string(origin_name(reason.origin)) : std::string(reason.formula),
               std::string(reason.source)});
  }
  document.add(std::move(table));
  return document;
}

Read<FigureId> figure_named(FrozenQuote const& quote, std::string const& name, Where const& where) {
  std::vector<std::string_view> known;
  for (FrozenFigure const& figure : quote.figures) {
    FigureRow const& row = figure_row(figure.id);
    if (row.name == name || (!name.empty() && row.symbol == name)) return figure.id;
    known.push_back(row.name);
  }
  Fault fault{FaultCode::unknown_code,
              where,
              name,
              "a figure of this book, such as arc; endband book measure lists them",
              {}};
  fault.near = nearest(name, known);
  return refuse(std::move(fault));
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto view = explained(**workshop, args.word(0));
  if (!view) return tl::unexpected(std::move(view.error()));
  if (args.word_count() == 1) return Answer(std::move(*view));
  auto const figure = figure_named(view->quote, args.word(1), args.where("FIGURE"));
  if (!figure) return tl::unexpected(figure.error());
  return Answer(Why{std::move(view->header), *figure, why(view->quote, *figure)});
}

}  // namespace

Command quote_explain() {
  return {.noun = "quote",
          .verb = "explain",
          .summary = "Explain a quote to the workshop, line by line",
          .about =
              "Every material and step with its rule and numbers, the rates, the ladder of prices, what an "
              "hour earns "
              "at each. With a FIGURE of the book: its formula, what it reads, and where that is from.",
          .words = {{"NUMBER", FlagType::quote, "the quote's number"},
                    {.name = "FIGURE",
                     .type = FlagType::figure,
                     .help = "a figure of the book by its name or symbol, such as arc or A",
                     .needed = false,
                     .many = false}},
          .flags = {},
          .examples = {"quote explain 26-001a", "quote explain 26-001a arc"},
          .refused_when = "",
          .writes = false,
          .lists = false,
          .run = run};
}

}  // namespace endband::cli
