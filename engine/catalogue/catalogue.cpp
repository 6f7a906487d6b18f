// Finding materials.
#include "engine/catalogue/catalogue.h"

#include <algorithm>
#include <stdexcept>

namespace endband {

Material const* Catalogue::find(std::string_view code) const {
  auto const at =
      std::lower_bound(materials.begin(), materials.end(), code,
                       [](Material const& row, std::string_view word) { return row.code < word; });
  return at != materials.end() && at->code == code ? &*at : nullptr;
}

// A book names some forty materials: one pass over their ids costs less than keeping an index that every
// changed copy could leave stale.
Material const& Catalogue::at(MaterialId id) const {
  auto const at =
      std::find_if(materials.begin(), materials.end(), [id](Material const& row) { return row.id == id; });
  if (at == materials.end())
    throw std::out_of_range("material " + std::to_string(id.value) + " is not in the catalogue");
  return *at;
}

}  // namespace endband
