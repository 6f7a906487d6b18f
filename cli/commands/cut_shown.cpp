#include "cli/commands/cut_shown.h"

#include "cli/commands/cut_words.h"
#include "cli/document/svg.h"
#include "cli/drawings/cut_drawing.h"
#include "cli/process/put_files.h"
#include "cli/words/values.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

std::string file_of(Drawing const& drawing) { return drawing.name + ".svg"; }

std::string size_of(CutMaterial const& cut, CutFor const& piece) {
  bool const length = std::holds_alternative<cutting::LengthRequest>(cut.request.asked);
  return length ? tenths_mm(piece.height) : cut_size_words(piece.height, piece.width);
}

CutNames names_of(CutMaterial const& cut, CutUse const& use, std::string const& of) {
  CutNames names;
  names.of = of;
  names.stock = fmt::format("{}, {}", cut.material.name, cut_from_words(cut, use));
  names.guess = cut.stock.at(static_cast<std::size_t>(use.stock)).guess;
  for (CutFor const& piece : cut.request.pieces) {
    names.pieces.push_back(cut_piece_words(piece));
    names.sizes.push_back(size_of(cut, piece));
  }
  return names;
}

// --- what it costs and how good it is

std::string worth_words(CutMaterial const& cut) {
  bool const all_new = std::ranges::all_of(cut.uses, [&](CutUse const& use) { return bought(cut, use); });
  bool const none_new = std::ranges::none_of(cut.uses, [&](CutUse const& use) { return bought(cut, use); });
  return all_new ? "bought new" : none_new ? "at the shelf's value" : "at the shelf's value and bought new";
}

std::string cost_words(CutMaterial const& cut, Currency currency) {
  CutCost const cost = cost_of(cut);
  auto const opened = cut.money(cost.opened, currency);
  auto const all = cut.money(cost.cost(), currency);
  if (!opened || !all) return "no price is in force";
  if (cost.kept <= 0) return fmt::format("{}, {}", money_words(*all), worth_words(cut));
  return fmt::format("{}: {} {}, less {} for what is kept", money_words(*all), money_text(*opened),
                     worth_words(cut), money_text(*opened - *all));
}

// By the metre nothing is lost, whatever the plan.
bool by_the_metre(CutMaterial const& cut) {
  return std::ranges::any_of(cut.uses, [](CutUse const& use) { return use.goods == CutGoods::by_the_metre; });
}

std::string apart_words(CutMaterial const& cut, Currency currency) {
  auto const money = cut.money(*cut.apart, currency);
  return fmt::format("From skins of their own, as they fit, the pieces would cost {}.",
                     money ? money_words(*money) : "less");
}

// --- one piece of stock

void add_pieces_on_skin(Document& document, CutMaterial const& cut, CutUse const& use) {
  Table table{{{"No.", Align::right},
               {"Piece"},
               {"Height mm", Align::decimal},
               {"Width mm", Align::decimal},
               {"From the left", Align::decimal},
               {"From the top", Align::decimal},
               {"Lies", Align::left, 1}},
              {}};
  for (CutLaid const& laid : use.laid) {
    CutFor const& piece = cut.request.pieces.at(static_cast<std::size_t>(laid.piece));
    table.add({std::to_string(laid.piece + 1), cut_piece_words(piece), tenths_mm(piece.height),
               tenths_mm(piece.width), tenths_mm(Length{laid.x}), tenths_mm(Length{laid.y}),
               cut_lie_words(laid)});
  }
  document.add(std::move(table));
}

// "2 turned" where some lie turned; "turned" where all do.
std::string turned_words(CutUse const& use, int piece, std::int64_t count) {
  auto const turned = std::ranges::count_if(
      use.laid, [&](CutLaid const& laid) { return laid.piece == piece && laid.turned; });
  if (turned == 0) return "";
  return turned == count ? "turned" : fmt::format("{} turned", turned);
}

void add_pieces(Document& document, CutMaterial const& cut, CutUse const& use,
                std::vector<std::string> const& orders) {
  bool const lengths = std::holds_alternative<cutting::LengthRequest>(cut.request.asked);
  Table table{{{"No.", Align::right}, {"Piece"}, {"Count", Align::right}}, {}};
  table.columns.push_back({lengths ? "Length mm" : "Height mm", Align::decimal});
  if (!lengths) table.columns.push_back({"Width mm", Align::decimal});
  if (!lengths) table.columns.push_back({"Lies"});
  if (!orders.empty()) table.columns.push_back({"For"});
  for (auto const& [number, count] : use.counts) {
    CutFor const& piece = cut.request.pieces.at(static_cast<std::size_t>(number));
    std::vector<std::string> cells{std::to_string(number + 1), cut_piece_words(piece), std::to_string(count),
                                   tenths_mm(piece.height)};
    if (!lengths) cells.push_back(tenths_mm(piece.width));
    if (!lengths) cells.push_back(turned_words(use, number, count));
    if (!orders.empty()) cells.push_back(orders.at(static_cast<std::size_t>(piece.order)));
    table.add(std::move(cells));
  }
  document.add(std::move(table));
}

void add_steps(Document& document, CutMaterial const& cut, CutUse const& use) {
  if (use.steps.empty()) return;
  Table table{{{"Cut", Align::right}, {"Of what is, mm"}, {"How"}, {"Gives, mm"}}, {}};
  for (std::size_t i = 0; i < use.steps.size(); ++i) {
    CutStep const& step = use.steps[i];
    std::string gives = cut_part_words(cut, step.first);
    std::string const second = cut_part_words(cut, step.second);
    if (!second.empty()) gives += (step.across ? "; below it " : "; beside it ") + second;
    table.add({fmt::format("{}.", i + 1),
               fmt::format("{} x {}", tenths_mm({step.of.height}), tenths_mm({step.of.width})),
               cut_how_words(step), std::move(gives)});
  }
  document.add(std::move(table));
}

void add_use(Document& document, CutMaterial const& cut, CutUse const& use,
             std::vector<std::string> const& orders) {
  std::string text = fmt::format("{}. {}", use.number, cut_from_words(cut, use));
  if (use.times > 1) text += fmt::format(", {} of them alike, each", use.times);
  std::int64_t const used = use.whole == 0 ? 0 : mul_div(use.taken, 1000, use.whole, Rounding::half_away);
  text += fmt::format(": {} used", permille_words(used));
  if (std::string const left = cut_left_words(use); !left.empty()) text += "; " + left;
  text += ".";
  if (cut.stock.at(static_cast<std::size_t>(use.stock)).guess)
    text += " Its outline is a guess: nobody has measured it.";
  document.paragraph(std::move(text));
  if (use.goods == CutGoods::skin)
    add_pieces_on_skin(document, cut, use);
  else
    add_pieces(document, cut, use, orders);
  add_steps(document, cut, use);
}

void add_material(Document& document, CutMaterial const& cut, CutShown const& shown) {
  document.heading(fmt::format("{} ({})", cut.material.name, cut.material.code), 2);
  if (!cut.planned()) {
    for (std::string const& words : cut_obstacle_words(cut)) document.notice(NoticeKind::warning, words);
    if (cut.apart) document.notice(NoticeKind::note, apart_words(cut, shown.currency));
    return;
  }
  KeyValues values;
  values.rows.emplace_back("Cost", cost_words(cut, shown.currency));
  if (!by_the_metre(cut)) values.rows.emplace_back("How good", cut_proof_words(proof_of(*cut.answer)));
  document.add(std::move(values));
  if (cut.apart) document.notice(NoticeKind::note, apart_words(cut, shown.currency));
  for (CutUse const& use : cut.uses) add_use(document, cut, use, shown.orders);
}

// --- JSON

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

Json optional_money(std::optional<Money> money) { return money ? money_json(*money) : Json(); }

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
      {"drawing", written ? Json(file_of(*drawing)) : Json()}};
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
    return cut.planned() ? optional_money(cut.money(amount, shown.currency)) : Json();
  };
  auto const within = cut.planned() ? within_permille(proof_of(*cut.answer)) : std::nullopt;
  return Json::Object{
      {"code", cut.material.code},
      {"name", cut.material.name},
      {"outcome", outcome_word(cut)},
      {"cost", of_plan(cost.cost())},
      {"opened_cost", of_plan(cost.opened)},
      {"proved", cut.planned() && proof_of(*cut.answer).proved()},
      {"within_permille", within},
      {"cost_from_several_skins", cut.apart ? optional_money(cut.money(*cut.apart, shown.currency)) : Json()},
      {"pieces", pieces_json(cut, shown)},
      {"used", json_array(cut.uses, use)},
      {"obstacles", json_array(cut_obstacles(cut), obstacle)},
      {"reasons", cut.planned() ? Json(Json::Array{}) : Json(json_words(cut_obstacle_words(cut)))}};
}

}  // namespace

bool CutShown::all_planned() const {
  return std::ranges::all_of(materials, [](CutMaterial const& cut) { return cut.planned(); });
}

std::vector<Drawing> cut_drawings(std::span<CutMaterial const> materials, std::string const& of) {
  std::vector<Drawing> drawings;
  for (CutMaterial const& cut : materials)
    for (CutUse const& use : cut.uses)
      if (auto drawing = draw_cut(use, names_of(cut, use, of))) drawings.push_back(std::move(*drawing));
  return drawings;
}

Read<void> write_cut_drawings(Context& context, Args const& args, CutShown const& shown) {
  if (!shown.folder) return {};
  std::vector<NewFile> files;
  for (Drawing const& drawing : shown.drawings) files.push_back({file_of(drawing), to_svg(drawing)});
  std::vector<Fault> faults;
  if (!context.yes)
    for (std::string const& path : files_there(*shown.folder, files))
      faults.push_back({FaultCode::already_exists, args.where("--svg"), path, "--yes, to write over it", {}});
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  if (context.dry_run || files.empty()) return {};
  if (auto const put = put_files(*shown.folder, files); !put) return tl::unexpected(put.error());
  return {};
}

std::int64_t cut_work(Args const& args) { return args.get<std::int64_t>("--work").value_or(CutRules{}.work); }

void add_cuts(Document& document, CutShown const& shown) {
  document.paragraph(
      "Sizes are height by width. Cuts are measured from the upper or left edge of what is cut.");
  document.notice(NoticeKind::caution,
                  "Knives and shears: cut away from the hand that holds, and guard the board shears as "
                  "their maker says.");
  for (CutMaterial const& cut : shown.materials) add_material(document, cut, shown);
  if (shown.left_out.empty()) return;
  document.heading("Not cut", 2);
  for (CutLeftOut const& each : shown.left_out)
    document.notice(NoticeKind::note, fmt::format("{} ({}): {}.", each.name, each.code, each.why));
}

void add_cut_drawings(Document& document, CutShown const& shown) {
  if (!shown.folder) return;
  std::vector<std::string> names;
  for (Drawing const& drawing : shown.drawings) names.push_back(file_of(drawing));
  if (names.empty())
    document.paragraph("There is nothing to draw.");
  else
    document.paragraph(fmt::format("{} {} in {}.{}", shown.dry_run ? "Would write" : "Wrote", listed(names),
                                   *shown.folder, shown.dry_run ? " Nothing is saved." : ""));
}

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
