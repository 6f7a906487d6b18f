#include "engine/cutting/request.h"

#include "engine/cutting/geometry/outline.h"

#include <algorithm>

namespace endband {
namespace {

constexpr std::int64_t unit_cost_of_new = 1'000'000;  // buy new knows one kind of stock: any cost will do
constexpr std::int64_t roll_length{10'000'000};       // as much of a roll as one plan may need, micrometres

bool is_sheet(Material const& material) {
  return material.sold_by == SoldBy::sheet || material.sold_by == SoldBy::pad;
}
bool is_sawn(Material const& material) {
  return material.kind == MaterialKind::board || material.kind == MaterialKind::wood_board;
}
// Thread is knotted on where it ends: its runs are no single lengths.
bool is_cut_in_lengths(Material const& material) {
  switch (material.kind) {
    case MaterialKind::cord:
    case MaterialKind::core:
    case MaterialKind::ribbon:
    case MaterialKind::endband: return material.sold_by == SoldBy::length;
    default: return false;
  }
}

cutting::Worth worth_of(Material const& material) {
  return {material.kept_worth.num(), material.kept_worth.den()};
}

template <class Visit>
void each_piece(std::span<Need const> uses, Visit const& visit) {
  for (Need const& use : uses)
    for (Piece const& piece : use.pieces) visit(piece);
}

CutFor for_piece(Piece const& piece) {
  return {piece.item, piece.part, piece.volume, 0, piece.height, piece.width};
}

// --- sheets and rolls

cutting::Rect rect_of(Piece const& piece) {
  cutting::Rect rect{piece.width.n, piece.height.n, piece.count, piece.grain == Grain::any};
  if (piece.grain == Grain::along_width) std::swap(rect.width, rect.height);
  return rect;
}

cutting::SheetRequest sheets_of(std::span<Need const> uses, Material const& material, CutRules const& rules,
                                std::vector<CutFor>& pieces) {
  cutting::SheetRequest request;
  request.least_kept = rules.least_kept.n;
  request.worth = worth_of(material);
  if (is_sawn(material)) request.kerf = rules.kerf.n;
  each_piece(uses, [&](Piece const& piece) {
    request.pieces.push_back(rect_of(piece));
    pieces.push_back(for_piece(piece));
  });
  return request;
}

std::optional<cutting::Sheet> new_sheet(Material const& material) {
  Properties const& given = material.properties;
  if (is_sheet(material) && given.sheet)
    return cutting::Sheet{
        .width = given.sheet->first.n, .height = given.sheet->second.n, .cost = unit_cost_of_new};
  if (material.sold_by == SoldBy::length && given.width)
    return cutting::Sheet{
        .width = given.width->n, .height = roll_length, .cost = roll_length, .by_length = true};
  return std::nullopt;
}

// --- skins

cutting::SkinPiece skin_piece_of(Piece const& piece) {
  cutting::SkinPiece cut;
  cut.shape = cutting::rectangle(piece.width.n, piece.height.n);
  cut.copies = piece.count;
  switch (piece.lay.lie) {
    case Lie::any: cut.angles = {0, 90}; break;
    case Lie::backbone_along_height: cut.angles = {0}; break;
    case Lie::backbone_along_width: cut.angles = {90}; break;
  }
  cut.least_grade = static_cast<int>(piece.grade);
  cut.group = piece.skin_group;
  return cut;
}

cutting::SkinRequest skins_of(std::span<Need const> uses, Material const& material, CutRules const& rules,
                              std::vector<CutFor>& pieces) {
  cutting::SkinRequest request;
  request.least_kept = rules.least_kept.n;
  request.worth = worth_of(material);
  each_piece(uses, [&](Piece const& piece) {
    request.pieces.push_back(skin_piece_of(piece));
    pieces.push_back(for_piece(piece));
  });
  return request;
}

cutting::Skin skin_of_shape(Shape const& shape) {
  cutting::Skin skin;
  skin.outline = shape.outline;
  skin.flaws = shape.flaws;
  skin.zones = shape.zones;
  skin.grade = static_cast<int>(Grade::back);
  return skin;
}

std::optional<cutting::Skin> guessed_skin(Material const& material, std::int64_t area) {
  Properties const& given = material.properties;
  if (!given.usable_height || !given.usable_width) return std::nullopt;
  auto const shape = cutting::default_skin(area, given.usable_height->n, given.usable_width->n);
  if (!shape) return std::nullopt;
  // Without its zones: where the back of a skin ends nobody knows before it was looked at.
  return skin_of_shape({shape->outline, {}, {}});
}

// --- lengths

cutting::LengthRequest lengths_of(std::span<Need const> uses, std::vector<CutFor>& pieces) {
  cutting::LengthRequest request;
  for (Need const& use : uses)
    for (Run const& run : use.runs) {
      request.pieces.push_back({run.taken.n, run.count});
      pieces.push_back({run.item, run.part, 0, 0, run.taken, {}});
    }
  return request;
}

bool any_pieces(std::span<Need const> uses) {
  return std::any_of(uses.begin(), uses.end(), [](Need const& use) { return !use.pieces.empty(); });
}
bool any_runs(std::span<Need const> uses) {
  return std::any_of(uses.begin(), uses.end(), [](Need const& use) { return !use.runs.empty(); });
}

// --- what lies on the shelf

std::optional<cutting::Sheet> sheet_on_shelf(ShelfPiece const& piece, Material const& material) {
  if (piece.height && piece.width) return cutting::Sheet{piece.width->n, piece.height->n, piece.cost, 1};
  auto sheet = new_sheet(material);
  if (!sheet) return std::nullopt;
  if (sheet->by_length) {
    sheet->height = std::min(piece.quantity, roll_length);
    sheet->cost = mul_div(piece.cost, sheet->height, piece.quantity, Rounding::half_away);
    sheet->copies = 1;
  } else {  // whole ones only: nobody knows the shape of a part of a sheet
    sheet->copies = piece.quantity / 1000;
    if (*sheet->copies == 0) return std::nullopt;
    sheet->cost = mul_div(piece.cost, 1000, piece.quantity, Rounding::half_away);
  }
  return sheet;
}

std::optional<cutting::Skin> skin_on_shelf(ShelfPiece const& piece, Material const& material, bool& guess) {
  std::optional<cutting::Skin> skin;
  if (piece.shape)
    skin = skin_of_shape(*piece.shape);
  else if (piece.height && piece.width)
    skin = skin_of_shape({cutting::rectangle(piece.width->n, piece.height->n), {}, {}});
  else if ((skin = guessed_skin(material, piece.quantity)))
    guess = true;
  if (!skin) return std::nullopt;
  skin->cost = piece.cost;
  skin->copies = 1;
  skin->batch = static_cast<int>(piece.batch);
  return skin;
}

// Of how much a price to buy new is; 0: nothing says.
std::int64_t bought_unit(Material const& material) {
  if (is_sheet(material)) return 1000;
  if (material.sold_by == SoldBy::length && material.properties.width && !is_cut_in_lengths(material))
    return roll_length;
  return material.price ? material.price->pack.n : 0;
}
// What lies there serves before what would have to be bought, also where it cost more than it would today.
std::int64_t a_little_less(std::int64_t cost) { return mul_div(cost, 999, 1000, Rounding::down); }

// Adds what lies there and, at `price`, what can be bought. `add(ShelfPiece, guess)` and `add_new()` say
// whether it serves.
template <class OnShelf, class New>
void add_stock(CutRequest& request, Material const& material, std::span<ShelfPiece const> shelf,
               std::optional<std::int64_t> price, OnShelf const& on_shelf, New const& bought) {
  std::int64_t const unit = bought_unit(material);
  for (ShelfPiece piece : shelf) {
    if (piece.material != material.id || piece.quantity <= 0) continue;
    if (price && unit > 0)
      piece.cost = std::min(piece.cost, a_little_less(mul_div(*price, piece.quantity, unit, Rounding::down)));
    bool guess = false;
    if (on_shelf(piece, guess)) request.stock.push_back({piece.lot, guess});
  }
  bool guess = false;
  if (price && bought(*price, guess)) request.stock.push_back({0, guess});
}

template <class T>
bool append(std::vector<T>& list, std::optional<T> one) {
  if (one) list.push_back(std::move(*one));
  return one.has_value();
}

// A request on what the shelf holds and on new goods at `price`.
void fill(CutRequest& request, Material const& material, std::span<ShelfPiece const> shelf,
          std::optional<std::int64_t> price) {
  if (auto* sheets = std::get_if<cutting::SheetRequest>(&request.asked)) {
    add_stock(
        request, material, shelf, price,
        [&](ShelfPiece const& piece, bool&) {
          return append(sheets->sheets, sheet_on_shelf(piece, material));
        },
        [&](std::int64_t cost, bool&) {
          auto sheet = new_sheet(material);
          if (sheet) sheet->cost = cost;
          return append(sheets->sheets, sheet);
        });
  } else if (auto* skins = std::get_if<cutting::SkinRequest>(&request.asked)) {
    add_stock(
        request, material, shelf, price,
        [&](ShelfPiece const& piece, bool& guess) {
          return append(skins->skins, skin_on_shelf(piece, material, guess));
        },
        [&](std::int64_t cost, bool& guess) {
          auto skin = material.price ? guessed_skin(material, material.price->pack.n) : std::nullopt;
          if (skin) {
            skin->cost = cost;
            skin->copies = std::nullopt;
          }
          guess = true;
          return append(skins->skins, skin);
        });
  } else {
    auto& lengths = std::get<cutting::LengthRequest>(request.asked);
    add_stock(
        request, material, shelf, price,
        [&](ShelfPiece const& piece, bool&) {
          lengths.rolls.push_back({piece.quantity, piece.cost, 1});
          return true;
        },
        [&](std::int64_t cost, bool&) {
          if (!material.price) return false;
          std::int64_t const pack = material.price->pack.n;
          std::int64_t const packs =
              !is_by_the_metre(*material.price) ? 1 : std::max<std::int64_t>(roll_length / pack, 1);
          lengths.rolls.push_back({checked_mul(pack, packs), checked_mul(cost, packs), std::nullopt});
          return true;
        });
  }
}

std::vector<CutRequest> unfilled(std::span<Need const> uses, Material const& material,
                                 CutRules const& rules) {
  std::vector<CutRequest> list;
  if (any_pieces(uses)) {
    CutRequest request;
    request.material = material.id;
    request.least_kept = rules.least_kept.n;
    if (material.sold_by == SoldBy::skin) {
      request.asked = skins_of(uses, material, rules, request.pieces);
      request.sold.skin_area = material.price ? material.price->pack.n : 0;
      request.sold.usable = material.properties.usable_share.value();
    } else {
      request.asked = sheets_of(uses, material, rules, request.pieces);
    }
    list.push_back(std::move(request));
  }
  if (any_runs(uses) && is_cut_in_lengths(material)) {
    CutRequest request;
    request.material = material.id;
    request.least_kept = rules.least_kept.n;
    request.asked = lengths_of(uses, request.pieces);
    request.sold.by_the_metre = material.price && is_by_the_metre(*material.price);
    list.push_back(std::move(request));
  }
  return list;
}

// New goods at one price for all: what they cost is the bill's business.
std::int64_t buy_new_price(CutRequest const& request, Material const& material) {
  bool const roll = std::holds_alternative<cutting::SheetRequest>(request.asked) && !is_sheet(material);
  return roll ? roll_length : unit_cost_of_new;
}

}  // namespace

bool is_by_the_metre(PackPrice const& price) { return price.pack.n <= 1'000'000; }

std::vector<CutRequest> requests(std::span<Need const> uses, Material const& material,
                                 CutRules const& rules) {
  auto list = unfilled(uses, material, rules);
  for (CutRequest& request : list) fill(request, material, {}, buy_new_price(request, material));
  std::erase_if(list, [](CutRequest const& request) { return request.stock.empty(); });
  return list;
}

std::vector<CutRequest> requests(Needs const& needs, Catalogue const& catalogue, CutRules const& rules) {
  std::vector<CutRequest> list;
  for (auto first = needs.needs.begin(); first != needs.needs.end();) {
    auto const last = std::find_if(first, needs.needs.end(),
                                   [&](Need const& need) { return need.material != first->material; });
    for (CutRequest& request : requests({first, last}, catalogue.at(first->material), rules))
      list.push_back(std::move(request));
    first = last;
  }
  return list;
}

std::vector<CutRequest> requests_shelf_first(std::span<Need const> uses, Material const& material,
                                             CutRules const& rules, std::span<ShelfPiece const> shelf,
                                             std::optional<std::int64_t> price) {
  auto list = unfilled(uses, material, rules);
  for (CutRequest& request : list) fill(request, material, shelf, price);
  return list;
}

}  // namespace endband
