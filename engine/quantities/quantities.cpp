#include "engine/quantities/quantities.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <span>
#include <stdexcept>
#include <tuple>

namespace endband {
namespace {

enum class Source : std::uint8_t { piece, run, spread, strips, thing };

// What one row of the structure sorts by; rows that agree but for `index` are one use.
struct Key {
  MaterialId material;
  Part part;
  Item item;
  Source source;
  std::size_t index;
  bool same_use(Key const& other) const {
    return material == other.material && part == other.part && item == other.item && source == other.source;
  }
  bool operator<(Key const& other) const {
    return std::tie(material, part, item, source, index) <
           std::tie(other.material, other.part, other.item, other.source, other.index);
  }
};

template <class Rows>
void add_keys(std::vector<Key>& keys, Rows const& rows, Source source) {
  for (std::size_t i = 0; i < rows.size(); ++i)
    keys.push_back({rows[i].material, rows[i].part, rows[i].item, source, i});
}

std::vector<Key> keys_of(Structure const& structure) {
  std::vector<Key> keys;
  keys.reserve(structure.pieces.size() + structure.runs.size() + structure.spreads.size() +
               structure.strips.size() + structure.things.size());
  add_keys(keys, structure.pieces, Source::piece);
  add_keys(keys, structure.runs, Source::run);
  add_keys(keys, structure.spreads, Source::spread);
  add_keys(keys, structure.strips, Source::strips);
  add_keys(keys, structure.things, Source::thing);
  std::sort(keys.begin(), keys.end());
  return keys;
}

[[noreturn]] void cannot_count(Material const& material, char const* use) {
  throw std::logic_error(material.code + " is sold by " + std::string(sold_by_name(material.sold_by)) +
                         " and cannot be counted as " + use);
}

// More than the groups of any order: of each copy they are groups of their own.
constexpr int groups_a_copy = 1 << 16;

void add_of_each_copy(std::vector<Piece>& pieces, Piece const& piece) {
  if (piece.skin_group == 0 || piece.copies == 1) return pieces.push_back(piece);
  Piece one = piece;
  one.count = piece.count / piece.copies;
  one.copies = 1;
  for (int copy = 0; copy < piece.copies; ++copy) {
    one.skin_group = copy * groups_a_copy + piece.skin_group;
    pieces.push_back(one);
  }
}

void add_piece(Need& need, Piece const& piece, Material const& material) {
  switch (material.sold_by) {
    case SoldBy::sheet:
    case SoldBy::pad: need.how = HowFound::by_yield; break;
    case SoldBy::length:
      if (!material.properties.width) cannot_count(material, "pieces");
      need.how = HowFound::by_yield;
      break;
    case SoldBy::skin: need.how = HowFound::by_usable_rectangle; break;
    default: cannot_count(material, "pieces");
  }
  need.net = need.net + amount(area(piece.height, piece.width) * piece.count);
  add_of_each_copy(need.pieces, piece);
}

// tex is g/km, that is mg/m: mg = micrometres x tex / 1,000,000.
Amount amount_of_run(Length length, Material const& material) {
  if (material.sold_by == SoldBy::length) return amount(length);
  if (material.sold_by != SoldBy::weight || !material.properties.thread) cannot_count(material, "a length");
  Ratio const mg_a_micrometre = tex(*material.properties.thread) / Ratio(1'000'000);
  return amount(Mass{round_product(Ratio(length.n), mg_a_micrometre, Rounding::up)});
}

void add_run(Need& need, Run const& run, Material const& material) {
  if (run.taken < run.each) throw std::logic_error("a run takes less than is in the book");
  need.how = HowFound::by_length;
  need.net = need.net + amount_of_run(run.each * run.count, material);
  need.taken = need.taken + amount_of_run(run.taken * run.count, material);
  if (material.sold_by == SoldBy::length) need.runs.push_back(run);
}

// Spread in mg or microlitres a square metre, of 10^12 square micrometres.
Amount amount_spread(Area area, Material const& material) {
  constexpr std::int64_t square_metre = 1'000'000'000'000;
  Properties const& given = material.properties;
  if (material.sold_by == SoldBy::weight && given.spread_mg_m2)
    return amount(Mass{mul_div(area.n, *given.spread_mg_m2, square_metre, Rounding::up)});
  if (material.sold_by == SoldBy::volume && given.spread_ul_m2)
    return amount(Volume{mul_div(area.n, *given.spread_ul_m2, square_metre, Rounding::up)});
  cannot_count(material, "a spread");
}

Amount leaves_of(std::int64_t strips, Length width, Length side) {
  if (side.n <= 0 || width.n <= 0) throw std::logic_error("a strip or a leaf without extent");
  if (width > side) return amount(Count{1000} * strips * ((width.n + side.n - 1) / side.n));
  std::int64_t const strips_a_leaf = side.n / width.n;
  return amount(Count{1000} * ((strips + strips_a_leaf - 1) / strips_a_leaf));
}

class Builder {
 public:
  Builder(Structure const& structure, BookSpec const& spec, Catalogue const& catalogue)
      : structure_(structure), spec_(spec), catalogue_(catalogue) {}

  // All keys are one use.
  Need need_of(std::span<Key const> keys) {
    Key const& first = keys.front();
    if (material_ == nullptr || material_->id != first.material) {
      material_ = &catalogue_.at(first.material);
      auto const& theirs = spec_.customer_supplies;
      customer_supplied_ = std::find(theirs.begin(), theirs.end(), first.material) != theirs.end();
    }
    Need need;
    need.item = first.item;
    need.part = first.part;
    need.material = first.material;
    need.customer_supplied = customer_supplied_;
    fill(need, keys);
    return need;
  }

 private:
  void fill(Need& need, std::span<Key const> keys) {
    Dimension const own = dimension_of(material_->sold_by);
    need.net.dimension = need.taken.dimension = keys.front().source == Source::piece ? Dimension::area : own;
    switch (keys.front().source) {
      case Source::piece:
        for (Key const& key : keys) add_piece(need, structure_.pieces[key.index], *material_);
        need.taken = need.net;
        break;
      case Source::run:
        for (Key const& key : keys) add_run(need, structure_.runs[key.index], *material_);
        break;
      case Source::spread: add_spreads(need, keys); break;
      case Source::strips: add_strips(need, keys); break;
      case Source::thing: add_things(need, keys); break;
    }
  }

  void add_spreads(Need& need, std::span<Key const> keys) {
    Area sum;
    for (Key const& key : keys) {
      Spread const& spread = structure_.spreads[key.index];
      sum += spread.area * spread.coats * spread.faces;
    }
    need.how = HowFound::by_spread;
    need.net = need.taken = amount_spread(sum, *material_);
  }

  void add_strips(Need& need, std::span<Key const> keys) {
    if (material_->sold_by != SoldBy::leaf_book) cannot_count(*material_, "strips of leaf");
    auto const strips = [this](Key const& key) -> Strips const& { return structure_.strips[key.index]; };
    for (std::size_t i = 0; i < keys.size(); ++i) {
      Length const width = strips(keys[i]).width;
      bool counted = false;
      for (std::size_t before = 0; before < i; ++before)
        counted = counted || strips(keys[before]).width == width;
      if (counted) continue;
      std::int64_t sum = 0;
      for (Key const& key : keys.subspan(i))
        if (strips(key).width == width) sum = checked_add(sum, strips(key).strips);
      need.net = need.net + leaves_of(sum, width, strips(keys[i]).leaf_side);
    }
    need.taken = need.net;
  }

  void add_things(Need& need, std::span<Key const> keys) {
    for (Key const& key : keys) need.net = need.net + structure_.things[key.index].net;
    need.how = need.item == Item::extra ? HowFound::as_said : HowFound::counted;
    need.taken = need.net;
  }

  Structure const& structure_;
  BookSpec const& spec_;
  Catalogue const& catalogue_;
  Material const* material_ = nullptr;
  bool customer_supplied_ = false;
};

}  // namespace

std::string_view how_found_name(HowFound how) {
  constexpr std::array<std::string_view, how_found_count> names{
      "as-said", "counted", "by-length", "by-spread", "by-yield", "by-usable-rectangle", "by-plan"};
  return names.at(static_cast<std::size_t>(how));
}

Needs quantities(Structure const& structure, BookSpec const& spec, Catalogue const& catalogue) {
  std::vector<Key> const keys = keys_of(structure);
  Builder builder(structure, spec, catalogue);
  Needs result;
  result.needs.reserve(keys.size());
  for (auto first = keys.begin(); first != keys.end();) {
    auto const last = std::find_if(first, keys.end(), [&](Key const& key) { return !key.same_use(*first); });
    result.needs.push_back(builder.need_of({first, last}));
    first = last;
  }
  return result;
}

}  // namespace endband
