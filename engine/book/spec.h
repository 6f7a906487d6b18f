// The resolved book: what was said, completed by the model, the workshop's habits and common practice, with
// every material found in the catalogue of the day.
#pragma once

#include "engine/book/figure.h"
#include "engine/book/operation.h"
#include "engine/catalogue/catalogue.h"
#include "engine/description/description.h"
#include "engine/fault/fault.h"

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace endband {

// The places of a book that one material fills.
enum class Role : std::uint8_t {
  text_paper,
  endpaper,
  thread,
  thread_wax,
  cord,
  spine_adhesive,
  spine_lining,
  spine_paper,
  board,
  lacing_adhesive,
  leather,
  cover_paste,
  leather_dye,
  leather_dressing,
  endband_core,
  endband_silk_1,
  endband_silk_2,
  endband_adhesive,
  ribbon,
  underlay_adhesive,
  metal_leaf,
  leaf_size,
  leaf_varnish,
  corner,
  corner_adhesive,
  clasp,
  rivet,
  strap_leather,
  buckle,
  stone,
  stone_adhesive,
  pastedown_adhesive,
  carton,
  padding
};
inline constexpr std::size_t role_count = static_cast<std::size_t>(Role::padding) + 1;

struct RoleRow {
  Role role;
  std::string_view key;  // "sewing.thread"
  Part part;
  std::span<MaterialKind const> kinds;  // what may stand here
  std::optional<Role> otherwise;  // whose material is taken when nobody named one: the strap's is the cover's
};
RoleRow const& role_row(Role role);

struct Chosen {
  MaterialId material;
  Origin origin = Origin::none;
  Where where;
};

enum class LineKind : std::uint8_t { blind, leaf };
// Where a set of lines runs: a frame set in from the edges of each board, both sides of every band across the
// spine, or a length that is said.
enum class LineLayout : std::uint8_t { frame, bands, length };
struct Lines {
  LineKind kind = LineKind::blind;
  LineLayout layout = LineLayout::frame;
  double inset_mm = 0;  // frame: from the board's edges
  double width_mm = 0;
  double length_mm = 0;  // length: of one
  int count = 1;         // frame: frames on each board; length: how many
  int layers = 1;        // of leaf
  Where where;
};

struct Underlay {  // a panel or shape of card under the leather
  MaterialId card;
  double height_mm = 0, width_mm = 0;
  int layers = 1;
  int count = 1;
  Where where;
};

struct ExtraMaterial {
  MaterialId material;
  Amount net;
  Where where;
};
struct ExtraWork {
  std::string words;
  Duration low, likely, high;
  Where where;
};
struct OutsideWork {  // by another's hands: its full cost on the job
  std::string words;
  std::string price;    // decimal, in the workshop's currency
  bool at_cost = true;  // stands at cost, else earns
  Duration lead;        // days without hands
  Where where;
};

struct BookSpec {
  std::string title;
  std::string binding;                       // name of the style row: "raised-cords"
  Figures given;                             // no computed figure yet
  std::array<Chosen, role_count> materials;  // origin none: the part is absent or needs none
  std::array<bool, part_count> present{};
  std::string letters;  // what is lettered; empty without the part
  LineKind lettering_kind = LineKind::blind;
  std::vector<Lines> lines;
  std::vector<Underlay> underlays;
  std::vector<ExtraMaterial> extra_materials;
  std::vector<ExtraWork> extra_work;
  std::vector<OutsideWork> outside;
  std::vector<MaterialId> customer_supplies;  // cost nothing, are still cut, weighed and on the job
  bool has(Part part) const { return present[static_cast<std::size_t>(part)]; }
  Chosen const& chosen(Role role) const { return materials[static_cast<std::size_t>(role)]; }
};

// The keys of a description: what read_description checks a text by. The [quote] table (customer, goal,
// delivery) is among them and is read by the command, not by resolve.
std::span<KeyRow const> description_keys();

// One source of values; `layers` come strongest first: said, model, workshop, practice.
struct Layer {
  BookText const* text;
  Origin origin;
};
BookText const& practice();  // the (cp) values of the styles, built in
struct Model {
  std::string_view name, what, text;
};
std::span<Model const> models();  // ready starting points, built in; they name no material
Read<BookText> model_text(std::string_view name);

// The codes of all materials that the effective values name: what must be in the catalogue before `resolve`.
std::vector<std::string> codes_named(std::span<Layer const> layers);
Read<BookSpec> resolve(std::span<Layer const> layers, Catalogue const& catalogue);

}  // namespace endband
