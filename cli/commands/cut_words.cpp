#include "cli/commands/cut_words.h"

#include "cli/words/values.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace endband::cli {
namespace {

std::string capital(std::string text) {
  if (!text.empty() && text.front() >= 'a' && text.front() <= 'z')
    text.front() = static_cast<char>(text.front() - 'a' + 'A');
  return text;
}

bool is_length(CutMaterial const& cut) {
  return std::holds_alternative<cutting::LengthRequest>(cut.request.asked);
}

// "29.8 mm", "1.24 m".
std::string metres(std::int64_t um) {
  constexpr std::int64_t metre = 1'000'000;
  return um < metre ? tenths_mm(Length{um}) + " mm" : sold_words({Dimension::length, um}, SoldBy::length);
}

// "boards, 219.6 x 164.4 mm", "tail cords, 295 mm".
std::string named(CutMaterial const& cut, int piece) {
  CutFor const& row = cut.request.pieces.at(static_cast<std::size_t>(piece));
  return fmt::format("{}, {}", cut_piece_words(row),
                     is_length(cut) ? tenths_mm(row.height) + " mm" : cut_size_words(row.height, row.width));
}

std::string_view stock_word(CutMaterial const& cut) {
  if (is_length(cut)) return "length";
  if (std::holds_alternative<cutting::SkinRequest>(cut.request.asked)) return "skin";
  return cut.material.sold_by == SoldBy::length ? "roll" : "sheet";
}

// "12 mm too high", "12 mm too large".
std::string over_words(CutMaterial const& cut, CutObstacle const& found) {
  std::string_view const how = is_length(cut)                        ? "long"
                               : found.side == cutting::Side::height ? "high"
                               : found.side == cutting::Side::width  ? "wide"
                                                                     : "large";
  if (found.obstacle.over <= 0) return fmt::format("too {}", how);
  return fmt::format("{} mm too {}", tenths_mm(Length{found.obstacle.over}), how);
}

int group_of(CutMaterial const& cut, int piece) {
  auto const* skins = std::get_if<cutting::SkinRequest>(&cut.request.asked);
  return skins == nullptr ? 0 : skins->pieces.at(static_cast<std::size_t>(piece)).group;
}

std::string_view group_of_words(CutMaterial const& cut, int piece) {
  auto const& skins = std::get<cutting::SkinRequest>(cut.request.asked);
  return skins.pieces.at(static_cast<std::size_t>(piece)).together == cutting::Together::one_batch ? "batch"
                                                                                                   : "skin";
}

std::string group_words(CutMaterial const& cut, int piece) {
  std::vector<std::string> names;
  int const group = group_of(cut, piece);
  for (std::size_t i = 0; i < cut.request.pieces.size(); ++i)
    if (group_of(cut, static_cast<int>(i)) == group) {
      std::string const name = cut_piece_words(cut.request.pieces[i]);
      if (std::ranges::find(names, name) == names.end()) names.push_back(name);
    }
  std::string_view const one = group_of_words(cut, piece);
  return fmt::format("{}: all of it is to come from one {}, and no one {} has room for that.",
                     capital(listed(names)), one, one);
}

std::string obstacle_words(CutMaterial const& cut, CutObstacle const& found) {
  cutting::Obstacle const& obstacle = found.obstacle;
  std::string const what = capital(named(cut, obstacle.piece));
  std::string_view const stock = stock_word(cut);
  switch (obstacle.why) {
    case cutting::Why::too_large:
      return fmt::format("{}: {} for every {} there is{}.", what, over_words(cut, found), stock,
                         is_length(cut) ? "" : ", however it may lie");
    case cutting::Why::grain:
      return fmt::format("{}: it would fit turned, but {}; as it must lie it is {}.", what,
                         stock == "skin" ? "it has to lie along the backbone" : "its grain forbids that",
                         over_words(cut, found));
    case cutting::Why::flaws:
      return fmt::format("{}: it fits the outline of a skin, but not between the flaws.", what);
    case cutting::Why::grade: {
      auto const& skins = std::get<cutting::SkinRequest>(cut.request.asked);
      auto const grade =
          static_cast<Grade>(skins.pieces.at(static_cast<std::size_t>(obstacle.piece)).least_grade);
      return fmt::format("{}: it fits a skin, but not {}.", what,
                         grade == Grade::back ? "within its back" : "without its belly");
    }
    case cutting::Why::group: return group_words(cut, obstacle.piece);
    case cutting::Why::not_enough:
      return fmt::format("Each piece fits, but there is not enough of {} for all of them.",
                         cut.material.code);
  }
  return {};
}

}  // namespace

std::string cut_size_words(Length height, Length width) {
  return fmt::format("{} x {} mm", tenths_mm(height), tenths_mm(width));
}

std::string cut_piece_words(CutFor const& piece) {
  std::string words(item_words(piece.item));
  if (piece.volume > 0) words += fmt::format(", volume {}", piece.volume);
  return words;
}

std::string cut_lie_words(CutLaid const& laid) {
  if (laid.angle != 0) return fmt::format("turned by {} deg", laid.angle);
  return laid.turned ? "turned" : "";
}

std::string cut_from_words(CutMaterial const& cut, CutUse const& use) {
  CutStock const& stock = cut.stock.at(static_cast<std::size_t>(use.stock));
  std::string const begin = stock.mark.empty() ? "new," : stock.mark + ",";
  SheetSize const size{{use.width}, {use.height}};
  switch (use.goods) {
    case CutGoods::sheet:
      if (stock.offcut)
        return fmt::format("{} an offcut of {}", begin, cut_size_words({use.height}, {use.width}));
      if (stock.mark.empty()) return "new sheet " + sheet_words(size);
      return fmt::format("{} a sheet of {}", begin, sheet_words(size));
    case CutGoods::roll:
      return fmt::format("{} {} torn off the roll, {} wide", begin, metres(use.height),
                         millimetres({use.width}));
    case CutGoods::skin:
      if (stock.mark.empty())
        return "new skin, " + sold_words(cut.material.price->pack, cut.material.sold_by);
      if (stock.offcut)
        return fmt::format("{} an offcut of {}", begin, cut_size_words({use.height}, {use.width}));
      return fmt::format("{} {}", begin, sold_words({Dimension::area, stock.quantity}, cut.material.sold_by));
    case CutGoods::length: return fmt::format("{} {}", begin, metres(use.height));
    case CutGoods::by_the_metre: return fmt::format("new, {} by the metre", metres(use.height));
  }
  return {};
}

std::string cut_how_words(CutStep const& step) {
  return fmt::format("{} at {}", step.across ? "across" : "down", tenths_mm(Length{step.at}));
}

std::string cut_part_words(CutMaterial const& cut, CutPart const& part) {
  std::string const size = fmt::format("{} x {}", tenths_mm({part.height}), tenths_mm({part.width}));
  switch (part.what) {
    case CutMade::nothing: return "";
    case CutMade::piece:
      return fmt::format("{}. {}", part.piece + 1,
                         cut_piece_words(cut.request.pieces.at(static_cast<std::size_t>(part.piece))));
    case CutMade::kept: return size + " left over";
    case CutMade::waste: return "waste";
    case CutMade::cut_further: return size;
  }
  return {};
}

std::string cut_left_words(CutUse const& use) {
  if (use.goods == CutGoods::by_the_metre || use.goods == CutGoods::roll)
    if (use.left.empty()) return "";
  if (use.left.empty()) return "nothing is left that is worth keeping";
  std::vector<std::pair<std::string, int>> sizes;
  for (CutLeft const& left : use.left) {
    std::string size =
        use.goods == CutGoods::length ? metres(left.height) : cut_size_words({left.height}, {left.width});
    auto const same = std::ranges::find(sizes, size, &std::pair<std::string, int>::first);
    if (same == sizes.end())
      sizes.emplace_back(std::move(size), 1);
    else
      ++same->second;
  }
  std::vector<std::string> words;
  for (auto const& [size, count] : sizes)
    words.push_back(count == 1 ? size : fmt::format("{} of {}", count, size));
  return "left over: " + listed(words);
}

std::string permille_words(std::int64_t permille) {
  return permille % 10 == 0 ? fmt::format("{} %", permille / 10)
                            : fmt::format("{}.{} %", permille / 10, permille % 10);
}

std::string cut_proof_words(cutting::Proof const& proof) {
  auto const permille = within_permille(proof);
  constexpr std::int64_t says_nothing = 1000;  // a bound this far off is none to go by
  if (!permille || *permille > says_nothing) return "how near it is to the least possible is not known";
  if (*permille == 0) return "least cost, proven";
  // Tenths say something of small shares only.
  std::int64_t const shown = *permille < 100 ? *permille : (*permille + 9) / 10 * 10;
  return fmt::format("within {} of the least possible", permille_words(shown));
}

std::vector<CutObstacle> cut_obstacles(CutMaterial const& cut) {
  std::vector<CutObstacle> all;
  if (!cut.answer) return all;
  auto const* sheets = std::get_if<cutting::SheetRequest>(&cut.request.asked);
  std::visit(
      [&](auto const& answer) {
        for (cutting::Obstacle const& obstacle : answer.obstacles) {
          CutObstacle found{obstacle, obstacle.side};
          auto const at = static_cast<std::size_t>(obstacle.piece);
          // A piece whose grain runs along its width was asked for on its side.
          if (sheets != nullptr && sheets->pieces.at(at).width != cut.request.pieces.at(at).width.n) {
            if (obstacle.side == cutting::Side::width) found.side = cutting::Side::height;
            if (obstacle.side == cutting::Side::height) found.side = cutting::Side::width;
          }
          all.push_back(found);
        }
      },
      *cut.answer);
  return all;
}

std::vector<std::string> cut_obstacle_words(CutMaterial const& cut) {
  if (!cut.answer)
    return {fmt::format(
        "Nothing of {} that could be cut lies on the shelf, and no price is in force to buy it at.",
        cut.material.code)};
  if (outcome_of(*cut.answer) == cutting::Outcome::not_found)
    return {"No plan was found with so much work; there may be one: say more with --work."};
  std::vector<std::string> words;
  for (CutObstacle const& found : cut_obstacles(cut)) {
    std::string sentence = obstacle_words(cut, found);
    if (std::ranges::find(words, sentence) == words.end()) words.push_back(std::move(sentence));
  }
  return words;
}

}  // namespace endband::cli
