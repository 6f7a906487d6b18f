#include "cli/commands/cut_shown.h"
#include "cli/commands/cut_words.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

std::string_view outcome_word(CutMaterial const& cut) {
  if (!cut.answer) return "no-stock";
  switch (outcome_of(*cut.answer)) {
    case cutting::Outcome::planned: return "planned";
    case cutting::Outcome::impossible: return "impossible";
    case cutting::Outcome::not_found: break;
  }
  return "not-found";
}

std::string_view why_word(cutting::Why why) {
  switch (why) {
    case cutting::Why::too_large: return "too-large";
    case cutting::Why::grain: return "grain";
    case cutting::Why::flaws: return "flaws";
    case cutting::Why::grade: return "grade";
    case cutting::Why::group: return "group";
    case cutting::Why::not_enough: break;
  }
  return "not-enough";
}

std::string_view side_word(cutting::Side side) {
  switch (side) {
    case cutting::Side::none: break;
    case cutting::Side::width: return "width";
    case cutting::Side::height: return "height";
  }
  return "none";
}

std::string_view made_word(CutMade what) {
  switch (what) {
    case CutMade::nothing: break;
    case CutMade::piece: return "piece";
    case CutMade::kept: return "left-over";
    case CutMade::waste: return "waste";
    case CutMade::cut_further: return "cut-further";
  }
  return "nothing";
}

Json part_json(CutPart const& part) {
  return Json::Object{{"what", made_word(part.what)},
                      {"piece", part.what == CutMade::piece ? Json(part.piece + 1) : Json()},
                      {"height_um", part.height},
                      {"width_um", part.width}};
}

Json step_json(CutStep const& step, int number) {
  return Json::Object{{"cut", number},
                      {"of_height_um", step.of.height},
                      {"of_width_um", step.of.width},
                      {"way", step.across ? "across" : "down"},
                      {"at_um", step.at},
                      {"first", part_json(step.first)},
                      {"second", part_json(step.second)}};
}

Json use_json(CutMaterial const& cut, CutUse const& use, CutShown const& shown) {
  auto const stock = cut.stock.at(static_cast<std::size_t>(use.stock));
  auto const count = [](std::pair<int, std::int64_t> const& each) {
    return Json(Json::Object{{"piece", each.first + 1}, {"count", each.second}});
  };
  auto const laid = [](CutLaid const& each) {
    return Json(Json::Object{{"piece", each.piece + 1},
                             {"from_left_um", each.x},
                             {"from_top_um", each.y},
                             {"across_um", each.width},
                             {"down_um", each.height},
                             {"turned", each.turned},
                             {"angle_deg", each.angle}});
  };
  auto const left = [](CutLeft const& each) {
    return Json(Json::Object{{"from_left_um", each.x},
                             {"from_top_um", each.y},
                             {"height_um", each.height},
                             {"width_um", each.width}});
  };
  Json::Array steps;
  for (std::size_t i = 0; i < use.steps.size(); ++i)
    steps.push_back(step_json(use.steps[i], static_cast<int>(i) + 1));
  std::string const name = fmt::format("cut-{}", use.number);
  auto const drawing = std::ranges::find(shown.drawings, name, &Drawing::name);
  bool const written = shown.folder && drawing != shown.drawings.end();
  return Json::Object{
      {"number", use.number},
      {"times", use.times},
      {"from", stock.mark.empty() ? Json() : Json(stock.mark)},
      {"words", cut_from_words(cut, use)},
      {"guess", stock.guess},
      {"height_um", use.height},
      {"width_um", use.width},
      {"used_permille", use.whole == 0 ? 0 : mul_div(use.taken, 1000, use.whole, Rounding::half_away)},
      {"pieces", json_array(use.counts, count)},
      {"laid", json_array(use.laid, laid)},
      {"cuts", std::move(steps)},
      {"left", json_array(use.left, left)},
      {"drawing", written ? Json(cut_drawing_file(*drawing)) : Json()}};
}

Json::Array pieces_json(CutMaterial const& cut, CutShown const& shown) {
  Json::Array pieces;
  for (std::size_t i = 0; i < cut.request.pieces.size(); ++i) {
    CutFor const& piece = cut.request.pieces[i];
    pieces.push_back(Json::Object{
        {"number", static_cast<std::int64_t>(i) + 1},
        {"item", item_name(piece.item)},
        {"words", item_words(piece.item)},
        {"part", part_name(piece.part)},
        {"volume", piece.volume},
        {"for", shown.orders.empty() ? Json() : Json(shown.orders.at(static_cast<std::size_t>(piece.order)))},
        {"height_um", piece.height.n},
        {"width_um", piece.width.n}});
  }
  return pieces;
}

Json material_json(CutMaterial const& cut, CutShown const& shown) {
  auto const obstacle = [](CutObstacle const& each) {
    return Json(Json::Object{{"piece", each.obstacle.piece + 1},
                             {"why", why_word(each.obstacle.why)},
                             {"side", side_word(each.side)},
                             {"over_um", each.obstacle.over}});
  };
  auto const use = [&](CutUse const& each) { return use_json(cut, each, shown); };
  CutCost const cost = cost_of(cut);
  auto const of_plan = [&](std::int64_t amount) {
    return cut.planned() ? money_json(cut.money(amount, shown.currency)) : Json();
  };
  auto const within = cut.planned() ? within_permille(cut.told_proof()) : std::nullopt;
  return Json::Object{
      {"code", cut.material.code},
      {"name", cut.material.name},
      {"outcome", outcome_word(cut)},
      {"cost", of_plan(cost.cost())},
      {"opened_cost", of_plan(cost.opened)},
      {"proved", cut.planned() && cut.told_proof().proved()},
      {"within_permille", within},
      {"cost_from_several_skins", cut.apart ? money_json(cut.money(*cut.apart, shown.currency)) : Json()},
      {"pieces", pieces_json(cut, shown)},
      {"used", json_array(cut.uses, use)},
      {"obstacles", json_array(cut_obstacles(cut), obstacle)},
      {"reasons", cut.planned() ? Json(Json::Array{}) : Json(json_words(cut_obstacle_words(cut)))}};
}

}  // namespace

Json::Object cuts_json(CutShown const& shown) {
  auto const material = [&](CutMaterial const& cut) { return material_json(cut, shown); };
  auto const left_out = [](CutLeftOut const& each) {
    return Json(Json::Object{{"code", each.code}, {"name", each.name}, {"why", each.why}});
  };
  return Json::Object{{"basis", shown.buy_new ? "buy-new" : "shelf-first"},
                      {"work", shown.work},
                      {"materials", json_array(shown.materials, material)},
                      {"left_out", json_array(shown.left_out, left_out)},
                      {"folder", shown.folder},
                      {"dry_run", shown.dry_run}};
}

}  // namespace endband::cli
