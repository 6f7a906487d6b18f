// The outline of one skin as a bench can give it: widths along the backbone, corners, or a drawing; and what
// is known of the outlines of skins.
#pragma once

#include "cli/command/args.h"
#include "cli/command/context.h"
#include "cli/document/document.h"
#include "cli/document/json.h"
#include "db/stock.h"
#include "engine/cutting/request.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace endband::cli {

std::vector<Flag> shape_flags();

// The first of the flags that is said; nullopt: none of them.
std::optional<std::string_view> shape_flag_said(Args const& args);
// All faults of the flags at once, each naming its flag. Nullopt: none was said. No zones: grades are not
// known of a skin that was measured.
Read<std::optional<endband::Shape>> shape_said(Context& context, Args const& args);

// A whole skin: it is cut by its outline, or by a guess when nobody measured it. Of an offcut the size is
// known.
bool has_outline(db::LotRow const& lot);
// Why no outline can be said of this lot.
std::optional<Fault> refuse_outline_of(db::LotRow const& lot, Where const& where);

struct Outlined {
  bool measured = false;
  SheetSize extent;  // the largest: along the backbone, across it
  Area area;         // within the outline, flaws and all
  int flaws = 0;
};
Outlined outlined(std::optional<endband::Shape> const& shape);
using Outlines = std::map<LotId, Outlined>;  // of the skins among some lots
Outlines outlines_of(db::Workshop& workshop, std::vector<db::LotRow> const& lots);

std::string outline_words(Outlined const& outline);  // "700 x 480 mm, 0.31 m2, 2 flaws"; "not measured"
Json lot_and_shape_json(db::LotRow const& lot, Outlines const& outlines);

// A measured area that is more than a tenth away from the one said: one of the two may be wrong.
struct AreaApart {
  std::string lot;
  Area said, measured;
};
std::optional<AreaApart> area_apart(db::LotRow const& lot, Outlined const& outline);
Json area_apart_json(std::optional<AreaApart> const& apart);
void add_area_apart(Document& document, std::optional<AreaApart> const& apart);

}  // namespace endband::cli
