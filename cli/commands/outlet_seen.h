// The terms of outlets, as JSON and as pages.
#pragma once

#include "cli/document/document.h"
#include "cli/document/json.h"
#include "engine/measure/measure.h"
#include "engine/pricing/outlet.h"

#include <optional>
#include <string>
#include <vector>

namespace endband::cli {

struct OutletRow {
  Outlet outlet;
  Date since;
};

struct OutletList {
  std::vector<OutletRow> outlets;
};
Json to_json(OutletList const& view);
Document to_document(OutletList const& view);

struct OutletCard {
  OutletRow row;
  std::string text;
  Currency shop;
  std::optional<Exchange> exchange;  // none: no rate by that day
  bool own_text = false;             // --text: as its owner wrote it
};
Json to_json(OutletCard const& view);
Document to_document(OutletCard const& view);

// A text to start from.
struct OutletExample {
  std::string text;
};
Json to_json(OutletExample const& view);
Document to_document(OutletExample const& view);

}  // namespace endband::cli
