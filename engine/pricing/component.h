// What a buyer pays for, in the order of the paper.
#pragma once

#include "engine/book/figure.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>

namespace endband {

enum class Component : std::uint8_t {
  text_block,
  binding,
  endbands_and_registers,
  finishing,
  furniture,
  stone_setting,
  box,
  repairs,
  extras,
  outside_work
};
inline constexpr std::size_t component_count = 10;
std::string_view component_name(Component component);
// The whole book, packing and office have none: what they cost is spread over the others.
std::optional<Component> component_of(Part part);

}  // namespace endband
