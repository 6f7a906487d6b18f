#include "cli/commands/cut_shown.h"
#include "cli/commands/cut_words.h"
#include "cli/words/values.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

// --- what it costs and how good it is

std::string worth_words(CutMaterial const& cut) {
  bool const all_new = std::ranges::all_of(cut.uses, [&](CutUse const& use) { return bought(cut, use); });
  bool const none_new = std::ranges::none_of(cut.uses, [&](CutUse const& use) { return bought(cut, use); });
  return all_new ? "bought new" : none_new ? "from the shelf" : "from the shelf and bought new";
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

void add_pieces_on_skin(Document& document, CutMaterial const& cut, CutUse const& use,
                        std::vector<std::string> const& orders) {
  Table table{{{"No.", Align::right},
               {"Piece"},
               {"Height mm", Align::decimal},
               {"Width mm", Align::decimal},
               {"From the left", Align::decimal},
               {"From the top", Align::decimal},
               {"Lies", Align::left, 1}},
              {}};
  if (!orders.empty()) table.columns.push_back({"For"});
  for (CutLaid const& laid : use.laid) {
    CutFor const& piece = cut.request.pieces.at(static_cast<std::size_t>(laid.piece));
    std::vector<std::string> cells{std::to_string(laid.piece + 1),
                                   cut_piece_words(piece),
                                   tenths_mm(piece.height),
                                   tenths_mm(piece.width),
                                   tenths_mm(Length{laid.x}),
                                   tenths_mm(Length{laid.y}),
                                   cut_lie_words(laid)};
    if (!orders.empty()) cells.push_back(orders.at(static_cast<std::size_t>(piece.order)));
    table.add(std::move(cells));
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
    add_pieces_on_skin(document, cut, use, orders);
  else
    add_pieces(document, cut, use, orders);
  if (!use.steps.empty()) document.add(cut_steps_table(cut, use));
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
  if (!by_the_metre(cut))
    values.rows.emplace_back("How good", cut.opened && cut.opened->proved()
                                             ? "no less can be opened, proven"
                                             : cut_proof_words(cut.told_proof()));
  document.add(std::move(values));
  if (cut.apart) document.notice(NoticeKind::note, apart_words(cut, shown.currency));
  for (CutUse const& use : cut.uses) add_use(document, cut, use, shown.orders);
}

}  // namespace

Table cut_steps_table(CutMaterial const& cut, CutUse const& use) {
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
  return table;
}

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
  for (Drawing const& drawing : shown.drawings) names.push_back(cut_drawing_file(drawing));
  if (names.empty())
    document.paragraph("There is nothing to draw.");
  else
    document.paragraph(fmt::format("{} {} in {}.{}", shown.dry_run ? "Would write" : "Wrote", listed(names),
                                   *shown.folder, shown.dry_run ? " Nothing is saved." : ""));
}

}  // namespace endband::cli
