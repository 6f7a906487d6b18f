// Measures the book of a description: every value with where it comes from, every piece to cut.
#include "cli/commands/commands.h"
#include "cli/commands/described.h"
#include "cli/commands/quote_json.h"
#include "cli/words/book_words.h"
#include "cli/words/values.h"
#include "engine/book/rule.h"
#include "engine/book/structure.h"

#include <fmt/format.h>

#include <cmath>

namespace endband::cli {
namespace {

struct Measured {
  std::string title, binding, model;
  BookSpec book;
  Structure structure;
  std::vector<Material> materials;
};

std::int64_t millionths(double value) { return std::llround(value * 1e6); }

Json figure_json(FigureId id, Figure const& figure, Ways ways) {
  FigureRow const& row = figure_row(id);
  Rule const* const rule = figure.origin == Origin::computed ? rule_of(id, ways) : nullptr;
  return Json::Object{{"figure", row.name},
                      {"words", row.words},
                      {"symbol", row.symbol},
                      {"part", part_name(row.part)},
                      {"unit", unit_name(row.unit)},
                      {"value_millionths", millionths(figure.value)},
                      {"origin", origin_name(figure.origin)},
                      {"formula", rule == nullptr ? Json() : Json(rule->formula)},
                      {"source", rule == nullptr ? Json() : Json(rule->source)}};
}

Json to_json(Measured const& view) {
  Json::Array figures;
  for (std::size_t i = 0; i < figure_count; ++i)
    if (auto const id = static_cast<FigureId>(i); view.structure.figures.has(id))
      figures.push_back(figure_json(id, view.structure.figures[id], view.book.ways));
  Json::Array materials;
  for (std::size_t i = 0; i < role_count; ++i)
    if (Chosen const& chosen = view.book.materials[i]; chosen.origin != Origin::none)
      materials.push_back(Json::Object{{"key", role_row(static_cast<Role>(i)).key},
                                       {"material", material_of(view.materials, chosen.material)->code},
                                       {"origin", origin_name(chosen.origin)}});
  auto const piece = [&](Piece const& each) { return piece_json(each, view.materials); };
  auto const warning = [&](Warning const& each) { return warning_json(each, view.materials); };
  return Json::Object{{"title", view.title},
                      {"binding", view.binding},
                      {"model", view.model},
                      {"closed_height_um", view.structure.closed_height.n},
                      {"closed_width_um", view.structure.closed_width.n},
                      {"closed_thickness_um", view.structure.closed_thickness.n},
                      {"mass_mg", view.structure.mass.n},
                      {"figures", std::move(figures)},
                      {"materials", std::move(materials)},
                      {"pieces", json_array(view.structure.pieces, piece)},
                      {"warnings", json_array(view.structure.warnings, warning)}};
}

std::string from_where(FigureId id, Figure const& figure, Ways ways) {
  if (figure.origin != Origin::computed) return std::string(origin_name(figure.origin));
  Rule const* const rule = rule_of(id, ways);
  return rule == nullptr ? std::string("computed") : std::string(rule->formula);
}

// One table, so that the columns of all parts stand under each other.
Table figure_table(Measured const& view) {
  Table table{{{"Figure"}, {""}, {"Value", Align::right}, {"From"}, {"Name", Align::left, 1}}, {}};
  for (std::size_t part = 0; part < part_count; ++part) {
    bool named = false;
    for (std::size_t i = 0; i < figure_count; ++i) {
      auto const id = static_cast<FigureId>(i);
      FigureRow const& row = figure_row(id);
      if (static_cast<std::size_t>(row.part) != part || !view.structure.figures.has(id)) continue;
      if (!named) table.add({std::string(part_name(row.part)), "", "", "", ""});
      named = true;
      Figure const& figure = view.structure.figures[id];
      table.add({"  " + std::string(row.words), std::string(row.symbol), figure_words(id, figure.value),
                 from_where(id, figure, view.book.ways), std::string(row.name)});
    }
  }
  return table;
}

Table material_table(Measured const& view) {
  Table table{{{"Key"}, {"Material"}, {"Name", Align::left, 1}, {"From", Align::left, 2}}, {}};
  for (std::size_t i = 0; i < role_count; ++i) {
    Chosen const& chosen = view.book.materials[i];
    if (chosen.origin == Origin::none) continue;
    Material const* const material = material_of(view.materials, chosen.material);
    table.add({std::string(role_row(static_cast<Role>(i)).key), material->code, material->name,
               std::string(origin_name(chosen.origin))});
  }
  return table;
}

Table piece_table(Measured const& view) {
  Table table{{{"Piece"},
               {"Count", Align::right},
               {"Height mm", Align::decimal},
               {"Width mm", Align::decimal},
               {"Grain", Align::left, 1},
               {"From", Align::left, 2}},
              {}};
  for (Piece const& piece : view.structure.pieces)
    table.add({std::string(item_words(piece.item)), std::to_string(piece.count), tenths_mm(piece.height),
               tenths_mm(piece.width), std::string(grain_words(piece.grain)),
               material_name(view.materials, piece.material)});
  return table;
}

Document to_document(Measured const& view) {
  Document document;
  Structure const& structure = view.structure;
  document.heading(view.title.empty() ? std::string("A book without a title") : view.title);
  document.paragraph(
      fmt::format("Closed {} x {} x {} mm, {}.", tenths_mm(structure.closed_height),
                  tenths_mm(structure.closed_width), tenths_mm(structure.closed_thickness),
                  figure_words(FigureId::book_mass, static_cast<double>(structure.mass.n) / 1000)));
  for (Warning const& warning : structure.warnings)
    document.notice(NoticeKind::warning, warning_words(warning, view.materials));
  document.heading("Figures", 2).add(figure_table(view));
  document.heading("Materials", 2).add(material_table(view));
  document.heading("Pieces to cut", 2).add(piece_table(view));
  document.next("endband quote make with the same file");
  return document;
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  db::Reading const reading(**workshop);
  auto described = describe(context, **workshop, args.word(0));
  if (!described) return tl::unexpected(described.error());
  Measured view;
  view.title = described->book.title;
  view.binding = described->book.binding;
  view.model = described->model_name;
  view.structure = structure(described->book, described->catalogue);
  view.materials = described->catalogue.materials;
  view.book = std::move(described->book);
  return Answer(std::move(view));
}

}  // namespace

Command book_measure() {
  return {.noun = "book",
          .verb = "measure",
          .summary = "Measure the book that a description describes",
          .about =
              "Every value with where it comes from: said, model, workshop, practice, catalogue, or the rule "
              "that "
              "computes it. Then every piece to cut. Nothing is priced.",
          .words = {{"FILE", FlagType::file, "a description, or - for standard input"}},
          .flags = {},
          .examples = {"book measure book.toml", "book measure book.toml --json"},
          .refused_when = "a material lacks a figure the book needs",
          .writes = false,
          .lists = false,
          .run = run};
}

}  // namespace endband::cli
