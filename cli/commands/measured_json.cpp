#include "cli/commands/measured.h"
#include "cli/commands/quote_json.h"
#include "cli/words/book_words.h"
#include "cli/words/making_words.h"
#include "engine/book/copies.h"
#include "engine/book/rule.h"

#include <cmath>

namespace endband::cli {
namespace {

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

Json::Array figures_json(Structure const& structure, Ways ways) {
  Json::Array figures;
  for (std::size_t i = 0; i < figure_count; ++i)
    if (auto const id = static_cast<FigureId>(i); structure.figures.has(id))
      figures.push_back(figure_json(id, structure.figures[id], ways));
  return figures;
}

Json::Array ways_json(BookSpec const& book) {
  Json::Array ways;
  for (Way const way : ways_of(book))
    ways.push_back(Json::Object{{"axis", axis_row(way_row(way).axis).key},
                                {"way", way_row(way).name},
                                {"words", way_row(way).words}});
  return ways;
}

Json::Array materials_json(Measured const& view) {
  Json::Array materials;
  for (std::size_t i = 0; i < role_count; ++i)
    if (Chosen const& chosen = view.book.materials[i]; chosen.origin != Origin::none)
      materials.push_back(Json::Object{{"key", role_row(static_cast<Role>(i)).key},
                                       {"material", material_of(view.materials, chosen.material)->code},
                                       {"origin", origin_name(chosen.origin)}});
  return materials;
}

Json::Array pieces_json(Measured const& view) {
  Json::Array pieces;
  for (Piece const& piece : view.whole.pieces) {
    Material const* const material = material_of(view.materials, piece.material);
    pieces.push_back(Json::Object{{"number", static_cast<std::int64_t>(pieces.size()) + 1},
                                  {"item", item_name(piece.item)},
                                  {"words", item_words(piece.item)},
                                  {"part", part_name(piece.part)},
                                  {"material", material == nullptr ? Json() : Json(material->code)},
                                  {"count", piece.count},
                                  {"height_um", piece.height.n},
                                  {"width_um", piece.width.n},
                                  {"outline", outline_name(piece.outline)},
                                  {"grain", grain_words(piece.grain)},
                                  {"lie", lie_name(piece.lay.lie)},
                                  {"within_deg", piece.lay.within_deg},
                                  {"grade", grade_name(piece.grade)},
                                  {"skin_group", piece.skin_group},
                                  {"trim_height_um", piece.trim_height.n},
                                  {"trim_width_um", piece.trim_width.n},
                                  {"volume", piece.volume},
                                  {"copies", piece.copies}});
  }
  return pieces;
}

Json::Array drawings_json(Measured const& view) {
  Json::Array drawings;
  for (Drawing const& drawing : view.drawings)
    drawings.push_back(
        Json::Object{{"drawing", drawing.name},
                     {"title", drawing.title},
                     {"words", drawing.words},
                     {"scale_thousandths", static_cast<std::int64_t>(std::llround(1000 / drawing.scale))},
                     {"file", view.folder ? Json(drawing_file(drawing)) : Json()}});
  return drawings;
}

Json::Object size_json(Structure const& structure) {
  return {{"closed_height_um", structure.closed_height.n},
          {"closed_width_um", structure.closed_width.n},
          {"closed_thickness_um", structure.closed_thickness.n},
          {"mass_mg", structure.mass.n}};
}

// What the other volumes of a set measure; of the first, all that is not said here.
Json::Array volumes_json(Measured const& view) {
  Json::Array volumes;
  if (view.volumes.size() < 2) return volumes;
  for (std::size_t i = 0; i < view.volumes.size(); ++i) {
    BookSpec const book = volume_of(view.book, i);
    Json::Object volume{{"volume", static_cast<std::int64_t>(i) + 1}, {"title", book.title}};
    for (auto& member : size_json(view.volumes[i])) volume.push_back(std::move(member));
    volume.emplace_back("figures", figures_json(view.volumes[i], book.ways));
    volumes.push_back(std::move(volume));
  }
  return volumes;
}

}  // namespace

Json to_json(Measured const& view) {
  auto const warning = [&](Warning const& each) { return warning_json(each, view.materials); };
  Json::Object all{{"title", view.book.title}, {"binding", view.binding}, {"model", view.model}};
  for (auto& member : size_json(view.first())) all.push_back(std::move(member));
  Json::Object rest{{"ways", ways_json(view.book)},
                    {"figures", figures_json(view.first(), view.book.ways)},
                    {"materials", materials_json(view)},
                    {"pieces", pieces_json(view)},
                    {"warnings", json_array(view.whole.warnings, warning)},
                    {"volumes", volumes_json(view)},
                    {"copies", view.book.copies},
                    {"drawings", drawings_json(view)},
                    {"folder", view.folder},
                    {"dry_run", view.dry_run}};
  for (auto& member : rest) all.push_back(std::move(member));
  return all;
}

}  // namespace endband::cli
