#include "engine/pricing/component.h"

#include <array>
#include <stdexcept>

namespace endband {

std::string_view component_name(Component component) {
  static constexpr std::array<std::string_view, component_count> names{
      "text-block",  "binding",   "endbands-and-registers",
      "finishing",   "furniture", "stone-setting",
      "box",         "repairs",   "extras",
      "outside-work"};
  return names.at(static_cast<std::size_t>(component));
}

std::optional<Component> component_of(Part part) {
  switch (part) {
    case Part::text_block:
    case Part::guards:
    case Part::edges:
    case Part::sewing:
    case Part::endpapers: return Component::text_block;
    case Part::spine:
    case Part::false_bands:
    case Part::insets:
    case Part::boards:
    case Part::underlays:
    case Part::cover: return Component::binding;
    case Part::endbands:
    case Part::registers: return Component::endbands_and_registers;
    case Part::lines:
    case Part::lettering: return Component::finishing;
    case Part::corners:
    case Part::clasps:
    case Part::furniture:
    case Part::tie:
    case Part::strap: return Component::furniture;
    case Part::stone: return Component::stone_setting;
    case Part::box: return Component::box;
    case Part::repairs: return Component::repairs;
    case Part::extras: return Component::extras;
    case Part::whole_book:
    case Part::packing:
    case Part::office: return std::nullopt;
  }
  throw std::logic_error("no such part");
}

}  // namespace endband
