#include "engine/book/resolve_ways.h"

#include <fmt/format.h>

#include <array>
#include <stdexcept>
#include <string>

namespace endband {
namespace {

struct Said {
  Way way;
  Hit hit;
};
using SaidWays = std::array<std::optional<Said>, axis_count>;

Axis axis_at(std::size_t index) { return static_cast<Axis>(index); }

std::size_t key_of(Axis axis) {
  auto const at = find_key(axis_row(axis).key);
  if (!at) throw std::logic_error("an axis without a key: " + std::string(axis_row(axis).key));
  return *at;
}

std::string spelled(Axis axis, Way way) {
  return fmt::format("{} = \"{}\"", axis_row(axis).key, way_row(way).name);
}

SaidWays said_ways(Layers const& layers, Style const& style, std::vector<Fault>& faults) {
  SaidWays said;
  for (std::size_t i = 0; i < axis_count; ++i) {
    Axis const axis = axis_at(i);
    Hit const& hit = layers[key_of(axis)];
    if (!hit) continue;
    auto const way = way_named(axis, std::get<std::string>(hit.entry->value));
    if (!way) throw std::logic_error("a choice that is no way: " + std::string(axis_row(axis).key));
    std::string_view const because = style.refuses(*way);
    if (because.empty())
      said[i] = Said{*way, hit};
    else if (hit.origin == Origin::said || hit.origin == Origin::model)
      faults.push_back({FaultCode::refused_part,
                        hit.entry->where,
                        fmt::format("{} with binding = \"{}\"", spelled(axis, *way), style.name),
                        std::string(because),
                        {}});
  }
  return said;
}

// What a way brings with it stands where nobody said otherwise.
Ways follow(Ways ways, SaidWays const& said, Style const& style) {
  for (Follows const& row : following_ways()) {
    Axis const axis = way_row(row.way).axis;
    auto const& chosen = said[static_cast<std::size_t>(axis)];
    if (!chosen || chosen->way != row.way || style.usual.has(row.way)) continue;
    for (std::size_t i = 0; i < axis_count; ++i)
      if (Ways const brought = row.brings.only(axis_at(i)); !said[i] && !brought.empty())
        if (style.refuses(*brought.of(axis_at(i))).empty()) ways = ways.replaced_by(brought);
  }
  return ways;
}

void check_excluded(Ways ways, SaidWays const& said, std::string const& source, std::vector<Fault>& faults) {
  for (Excludes const& row : excluded_ways()) {
    if (!ways.has(row.way)) continue;
    for (std::size_t i = 0; i < axis_count; ++i) {
      auto const other = ways.of(axis_at(i));
      if (!other || !row.never.has(*other)) continue;
      Axis const axis = way_row(row.way).axis;
      auto const& at = said[i] ? said[i] : said[static_cast<std::size_t>(axis)];
      Where const where = at ? at->hit.entry->where : Where{source, 0, 0, std::string(axis_row(axis).key)};
      faults.push_back({FaultCode::contradiction,
                        where,
                        fmt::format("{} beside {}", spelled(axis_at(i), *other), spelled(axis, row.way)),
                        std::string(row.because),
                        {}});
    }
  }
}

}  // namespace

Style const& style_of(std::span<Layer const> layers) {
  for (Layer const& layer : layers)
    if (Entry const* const entry = layer.text->find("binding"))
      if (Style const* const style = style_named(std::get<std::string>(entry->value))) return *style;
  return styles().front();
}

std::vector<Layer> with_practice(std::span<Layer const> layers) {
  std::vector<Layer> whole(layers.begin(), layers.end());
  whole.push_back({&practice(style_of(layers)), Origin::practice});
  whole.push_back({&practice(), Origin::practice});
  return whole;
}

Ways resolve_ways(Layers const& layers, Style const& style, std::vector<Fault>& faults) {
  SaidWays const said = said_ways(layers, style, faults);
  Ways ways = style.usual;
  for (auto const& each : said)
    if (each) ways = ways.replaced_by({each->way});
  ways = follow(ways, said, style);
  check_excluded(ways, said, layers.source(), faults);
  return ways;
}

}  // namespace endband
