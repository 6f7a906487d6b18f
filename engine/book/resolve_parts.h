// Which parts a book has, and which material each role takes. Private to engine/book.
#pragma once

#include "engine/book/resolve_layers.h"
#include "engine/book/style.h"

#include <array>
#include <string>
#include <string_view>
#include <vector>

namespace endband {

// Which parts are there, what is left out, and why. Faults: a part that is left out and described by the same
// layer; one that the binding cannot have.
class Parts {
 public:
  Parts(Layers const& layers, Style const& style, Ways ways, std::vector<Fault>& faults);

  bool has(Part part) const { return present_[static_cast<std::size_t>(part)]; }
  bool left_out(std::string_view name) const;  // "dye"
  bool is(Way way) const { return ways_.has(way); }
  bool is_any(Ways ways) const { return ways_.meet(ways); }  // of one axis
  std::array<bool, part_count> const& present() const { return present_; }

 private:
  Layers const& layers_;
  Ways ways_;
  std::array<bool, part_count> present_{};
};

enum class MaterialWanted : std::uint8_t { no, if_named, yes };

// Does this book need a material in this role?
MaterialWanted wanted(Role role, Layers const& layers, Parts const& parts);

struct Named {  // what a role's material is called, and by whom
  std::string_view code;
  Origin origin = Origin::none;
  Where where;
};
// Following the roles whose material is taken otherwise; origin none: nobody named one.
Named named(Role role, Layers const& layers);

}  // namespace endband
