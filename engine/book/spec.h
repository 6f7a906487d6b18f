// The resolved book: what was said, completed by the model, the workshop's habits and common practice, with
// every material found in the catalogue of the day.
#pragma once

#include "engine/book/figure.h"
#include "engine/book/operation.h"
#include "engine/book/style.h"
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
  guard_paper,
  endpaper,
  joint_leather,
  thread,
  thread_wax,
  cord,
  tape,
  spine_adhesive,
  spine_lining,
  spine_paper,
  mull,
  hollow_paper,
  stiffener,
  false_band,
  board,
  board_lining,
  lacing_adhesive,
  leather,
  sides,
  corner_covering,
  side_adhesive,
  cover_paste,
  leather_dye,
  leather_dressing,
  endband_core,
  second_core,
  endband_silk_1,
  endband_silk_2,
  endband_silk_3,
  endband_silk_4,
  endband_silk_5,
  endband_silk_6,
  made_endband,
  endband_adhesive,
  ribbon,
  underlay_adhesive,
  metal_leaf,
  leaf_size,
  leaf_varnish,
  edge_colour,
  inset_adhesive,
  corner,
  corner_adhesive,
  clasp,
  rivet,
  strap_leather,
  buckle,
  stone,
  stone_adhesive,
  tie,
  box_board,
  box_cloth,
  box_lining,
  box_adhesive,
  pastedown_adhesive,
  carton,
  padding
};
inline constexpr std::size_t role_count = static_cast<std::size_t>(Role::padding) + 1;

inline constexpr std::array endband_silks{Role::endband_silk_1, Role::endband_silk_2, Role::endband_silk_3,
                                          Role::endband_silk_4, Role::endband_silk_5, Role::endband_silk_6};

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

// What lies in the cover beside underlays and stones.
enum class InsetKind : std::uint8_t { onlay, panel };
struct Inset {
  InsetKind kind = InsetKind::onlay;
  MaterialId material;
  double height_mm = 0, width_mm = 0;
  int count = 1;
  Where where;
};

struct Furniture {  // as listed
  MaterialId material;
  int count = 1;
  int rivets_each = 0;
  Where where;
};

enum class RepairKind : std::uint8_t { collate, pull, clean, guard, mend, resew, reback, other };
struct Repair {
  RepairKind kind = RepairKind::other;
  std::optional<int> count;    // none: as many as the block has
  std::string words;           // other: what is done
  Duration low, likely, high;  // other
  Where where;
};

struct Custody {  // what the customer leaves with the workshop; never stock
  std::string what, condition;
  std::string declared_value;  // decimal, in the workshop's currency; empty: none said
  Where where;
};

struct SetVolume {  // of a set; what is not said is the description's
  std::string title;
  Figures said;
  Where where;
};
enum class SetShares : std::uint8_t { nothing, batch, skin };
std::string_view set_shares_name(SetShares shares);  // as a description says it

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
enum class OutsideKind : std::uint8_t { edge_gilding, splitting, die, stone_setting, printing, other };
enum class OutsideBy : std::uint8_t { whole, piece, dm2, skin };
std::string_view outside_kind_name(OutsideKind kind);  // as a description says it: "edge-gilding"
std::string_view outside_by_name(OutsideBy by);
struct OutsideWork {  // by another's hands: its full cost on the job
  std::string words;
  std::string price;  // decimal, in the workshop's currency: of the whole, a piece, a dm2 or a skin
  OutsideKind kind = OutsideKind::other;
  OutsideBy by = OutsideBy::whole;
  std::string supplier;
  int count = 1;                       // by piece
  std::optional<Area> area;            // by dm2; none: of the edges, or of the leather
  std::string least_charge, carriage;  // decimal; empty: none
  Ratio redo;                          // chance that it must be done again, 0 <= p <= 9/10
  bool each_copy = true;
  bool at_cost = true;  // stands at cost, else earns
  Duration lead;        // days without hands
  Where where;
};

struct BookSpec {
  std::string title;
  std::string binding;                       // name of the style row: "raised-cords"
  Ways ways;                                 // one of each axis
  Figures given;                             // no computed figure yet
  std::array<Chosen, role_count> materials;  // origin none: the part is absent or needs none
  std::array<bool, part_count> present{};
  std::string letters;  // what is lettered; empty without the part
  LineKind lettering_kind = LineKind::blind;
  std::vector<Lines> lines;
  std::vector<Underlay> underlays;
  std::vector<MaterialId> silk_pattern;  // one wrap after another; empty: each silk in turn
  std::string fount;                     // letters owned; empty: nobody said
  std::vector<Inset> insets;
  std::vector<Furniture> furniture;
  std::vector<Repair> repairs;
  Ratio repair_ceiling;  // share over the likely price at which to stop and ask
  std::vector<Custody> custody;
  std::vector<SetVolume> volumes;  // none: one book
  SetShares set_shares = SetShares::nothing;
  int copies = 1;
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

// One source of values; `layers` come strongest first: said, model, workshop. Below them all lies what is
// practice in the binding that they name, and then what is practice everywhere, both built in.
struct Layer {
  BookText const* text;
  Origin origin;
};
BookText const& practice();              // everywhere
BookText const& practice(Style const&);  // in one binding
// The binding that the layers name; the plain one on raised cords when they name none.
Style const& style_of(std::span<Layer const> layers);
struct Model {
  std::string_view name, what, text;
};
std::span<Model const> models();  // ready starting points, built in; they name no material
Read<BookText> model_text(std::string_view name);

// The codes of all materials that the effective values name: what must be in the catalogue before `resolve`.
std::vector<std::string> codes_named(std::span<Layer const> layers);
Read<BookSpec> resolve(std::span<Layer const> layers, Catalogue const& catalogue);

}  // namespace endband
