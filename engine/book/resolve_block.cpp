#include "engine/book/resolve_block.h"

#include <fmt/format.h>

#include <algorithm>
#include <initializer_list>

namespace endband {
namespace {

std::string spelled(std::size_t index, Hit const& hit) {
  return fmt::format("{} = {}", path_of(index),
                     value_text(key_table::rows[index].row.type, hit.entry->value));
}

Fault contradiction(std::size_t index, Hit const& hit, std::string expected) {
  return {FaultCode::contradiction, hit.entry->where, spelled(index, hit), std::move(expected), {}};
}

std::int64_t whole(Hit const& hit) { return std::get<std::int64_t>(hit.entry->value); }

std::int64_t rounded_up(std::int64_t a, std::int64_t b) { return (a + b - 1) / b; }

bool in_line_order(Hit const& a, Hit const& b) {
  return std::pair(a.entry->where.line, a.entry->where.column) <
         std::pair(b.entry->where.line, b.entry->where.column);
}

// A block that the customer brings is measured, not folded.
void settle_given_block(Layers& layers, std::vector<Fault>& faults) {
  Hit const given = layers[key("text.given")];
  for (std::size_t const index :
       {key("text.paper"), key("text.folds"), key("text.sheets"), key("text.sheets_per_section"),
        key("text.compression"), key("text.caliper")}) {
    Hit const& hit = layers[index];
    if (!hit) continue;
    if (hit.layer == given.layer)
      faults.push_back(contradiction(
          index, hit, "no such key: a given block is measured, by text.thickness and text.sections"));
    layers.drop(index);
  }
  for (std::size_t const index : {key("pages"), key("text.sections"), key("text.thickness")})
    if (layers[index] && layers[index].layer > given.layer) layers.drop(index);
}

// Pages, sheets and sections each fix the number of sheets.
struct SheetCount {
  std::int64_t leaves_a_sheet = 2;
  std::int64_t sheets_a_section = 1;

  std::int64_t sections(std::size_t index, std::int64_t value) const {
    if (index == key("text.sections")) return value;
    std::int64_t const sheets = index == key("pages") ? rounded_up(value, 2 * leaves_a_sheet) : value;
    return rounded_up(sheets, sheets_a_section);
  }
  // Do two counts, in the order of `counts` below, speak of the same block?
  bool agree(std::size_t a, std::int64_t value_a, std::size_t b, std::int64_t value_b) const {
    if (a == key("pages") && b == key("text.sheets"))
      return rounded_up(value_a, 2 * leaves_a_sheet) == value_b;
    return sections(a, value_a) == sections(b, value_b);
  }
};

void settle_made_block(Layers& layers, std::vector<Fault>& faults) {
  constexpr std::array counts{key("pages"), key("text.sheets"), key("text.sections")};
  SheetCount sheets;
  if (Hit const& folds = layers[key("text.folds")]) sheets.leaves_a_sheet = std::int64_t{1} << whole(folds);
  if (Hit const& in_section = layers[key("text.sheets_per_section")])
    sheets.sheets_a_section = whole(in_section);
  for (std::size_t i = 0; i < counts.size(); ++i)
    for (std::size_t j = i + 1; j < counts.size(); ++j) {
      Hit const a = layers[counts[i]];
      Hit const b = layers[counts[j]];
      if (!a || !b) continue;
      if (a.layer != b.layer) {
        layers.drop(a.layer > b.layer ? counts[i] : counts[j]);
      } else if (!sheets.agree(counts[i], whole(a), counts[j], whole(b))) {
        bool const a_first = in_line_order(a, b);
        faults.push_back(
            contradiction(a_first ? counts[j] : counts[i], a_first ? b : a,
                          "what agrees with " + spelled(a_first ? counts[i] : counts[j], a_first ? a : b)));
      }
    }
}

// Two keys of which a book can have one.
void one_of(Layers& layers, std::size_t one, std::size_t other, std::vector<Fault>& faults) {
  Hit const a = layers[one];
  Hit const b = layers[other];
  if (!a || !b) return;
  if (a.layer != b.layer) return layers.drop(a.layer > b.layer ? one : other);
  bool const a_first = in_line_order(a, b);
  faults.push_back(contradiction(a_first ? other : one, a_first ? b : a,
                                 fmt::format("{} or {}, not both", path_of(one), path_of(other))));
}

// Keys that mean nothing when a flag stands (or does not): said beside it by the same layer they are a
// mistake.
void only_if(Layers const& layers, std::size_t flag, bool value, std::initializer_list<std::size_t> indices,
             std::vector<Fault>& faults) {
  Hit const& decides = layers[flag];
  if (layers.flag(flag) == value) return;
  for (std::size_t const index : indices)
    if (Hit const& hit = layers[index];
        hit && decides && hit.layer <= decides.layer && hit.origin == Origin::said)
      faults.push_back(
          contradiction(index, hit, fmt::format("{} = {}, or no such key", path_of(flag), value)));
}

// Sewn through one fold, all sheets are one section.
void settle_one_section(Layers& layers, std::vector<Fault>& faults) {
  constexpr std::size_t count = key("text.sections");
  if (Hit const& hit = layers[count]; hit && hit.origin == Origin::said && whole(hit) != 1)
    faults.push_back(
        contradiction(count, hit, "sections = 1, or no such key: all its sheets are one section"));
  layers.drop(count);
}

// Only a block that the customer brings can be sewn already.
void settle_kept_sewing(Layers& layers, std::vector<Fault>& faults) {
  if (layers.flag(key("text.given"))) return;
  for (Hit const& hit : layers.all(key("without"))) {
    auto const& names = std::get<std::vector<std::string>>(hit.entry->value);
    if (std::find(names.begin(), names.end(), "sewing") == names.end()) continue;
    faults.push_back(
        contradiction(key("without"), hit, "given = true in [text]: a block that is made here is sewn"));
    return;
  }
}

struct Meaningless {
  Ways when;
  std::vector<std::size_t> keys;
  std::string_view expected;
};

// Keys that mean nothing in a book of these ways: the habit of other books, or a mistake where they are said.
void settle_ways(Layers& layers, Ways ways, std::vector<Fault>& faults) {
  using enum Way;
  static constexpr Ways on_supports{raised_cords, recessed_cords, tapes};
  static std::array const rows{
      Meaningless{{unsupported},
                  {key("sewing.supports"), key("sewing.support_rule"), key("sewing.cord"),
                   key("sewing.slip_length"), key("sewing.frame_allowance"), key("sewing.holes_a_support")},
                  "no such key: it is sewn without supports"},
      Meaningless{{unsupported, recessed_cords, tapes},
                  {key("sewing.turns")},
                  "no such key: the thread goes round raised cords only"},
      Meaningless{{unsupported, raised_cords, recessed_cords},
                  {key("sewing.tape"), key("sewing.tape_width")},
                  "no such key: it is not sewn on tapes"},
      Meaningless{{tapes}, {key("sewing.cord")}, "no such key: it is sewn on tapes"},
      Meaningless{on_supports, {key("sewing.stations")}, "no such key: its holes are at its supports"},
      Meaningless{{all_along, two_on, link_stitch, long_stitch},
                  {key("sewing.knot_tail")},
                  "no such key: only the thread of a pamphlet is knotted"},
      Meaningless{
          {link_stitch, pamphlet}, {key("sewing.stitch_allowance")}, "no such key: its sewing has none"},
      Meaningless{
          {pamphlet}, {key("text.sheets_per_section")}, "no such key: all its sheets are one section"},
      // What is said stands: a head may be trimmed where the other edges are not.
      Meaningless{{uncut}, {key("text.head_tail_trim"), key("text.fore_edge_trim")}, {}},
      Meaningless{{single, made, sewn}, {key("endpapers.joint")}, "kind = \"leather-joint\" in [endpapers]"},
  };
  for (Meaningless const& row : rows) {
    if (!ways.meet(row.when)) continue;
    for (std::size_t const index : row.keys) {
      Hit const& hit = layers[index];
      if (!hit) continue;
      bool const said = hit.origin == Origin::said;
      if (said && row.expected.empty()) continue;
      if (said) faults.push_back(contradiction(index, hit, std::string(row.expected)));
      layers.drop(index);
    }
  }
}

}  // namespace

void settle_block(Layers& layers, Ways ways, std::vector<Fault>& faults) {
  settle_ways(layers, ways, faults);
  settle_kept_sewing(layers, faults);
  if (ways.has(Way::pamphlet)) settle_one_section(layers, faults);
  if (layers.flag(key("text.given")))
    settle_given_block(layers, faults);
  else
    settle_made_block(layers, faults);
}

void settle_alternatives(Layers& layers, std::vector<Fault>& faults) {
  one_of(layers, key("leather"), key("cover.material"), faults);
  one_of(layers, key("quote.margin"), key("quote.markup"), faults);
  // A length that is said needs no rule, whichever.
  if (layers.flag(key("registers.diagonal")))
    one_of(layers, key("registers.length"), key("registers.diagonal"), faults);
  only_if(layers, key("strap.wraps_round"), false, {key("strap.reach"), key("strap.tail")}, faults);
  only_if(layers, key("strap.wraps_round"), true, {key("strap.overlap")}, faults);
}

}  // namespace endband
