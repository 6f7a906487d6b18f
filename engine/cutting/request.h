// From the needs of an order to what a solver is asked, one request for each material that is cut; and from
// its answer back to quantities of that material.
//
// Two bases. Buy new: whole sheets, skins, rolls and lengths as they are sold, as many as wanted; it alone
// makes prices. Shelf first: the pieces that lie in stock, and beside them what can be bought.
#pragma once

#include "engine/catalogue/catalogue.h"
#include "engine/cutting/lengths/lengths.h"
#include "engine/cutting/sheets/sheets.h"
#include "engine/cutting/skins/skins.h"
#include "engine/quantities/quantities.h"

#include <map>
#include <optional>
#include <span>
#include <variant>
#include <vector>

namespace endband {

struct CutRules {
  Length least_kept{80'000};    // of both sides of an offcut that is kept, and of a length
  Length kerf{};                // of the saw or shears, in board and wood; a knife takes nothing
  std::int64_t work = 100'000;  // for each request; the same work gives the same plan
  friend bool operator==(CutRules const&, CutRules const&) = default;
};

// What one row of a request's pieces is in the book.
struct CutFor {
  Item item{};
  Part part{};
  int volume = 0;
  int order = 0;         // of several that are cut together
  Length height, width;  // as the piece is named; of a length: `height`
};

// A skin that was measured. The backbone runs up.
struct Shape {
  cutting::Polygon outline;
  std::vector<cutting::Polygon> flaws;
  std::vector<cutting::Zone> zones;  // of Grade
  friend bool operator==(Shape const&, Shape const&) = default;
};

struct ShelfPiece {
  std::int64_t lot = 0;  // the caller's number for it, not 0
  MaterialId material;
  std::int64_t quantity = 0;                // in the material's base unit
  std::int64_t cost = 0;                    // of all of it, in the caller's unit
  std::optional<Length> height{}, width{};  // of an offcut: along and across the grain or the backbone
  std::optional<Shape> shape{};             // of a skin
  std::int64_t batch = 0;                   // of a skin; 0: not known
};

// Of goods in lengths: a pack of a metre or a yard is no length of its own. Any number of them comes in one
// piece.
bool is_by_the_metre(PackPrice const& price);

struct CutFrom {
  std::int64_t lot = 0;  // 0: new, as it is sold
  bool guess = false;    // a skin nobody has measured: a default shape of its area stands in
};

// How the goods are paid for, where that decides how much a plan takes of them.
struct CutSold {
  std::int64_t skin_area = 0;  // of a whole skin; 0: none can be bought
  Ratio usable{1};             // of it
  bool by_the_metre = false;   // of lengths
};

struct CutRequest {
  MaterialId material;
  std::variant<cutting::SheetRequest, cutting::SkinRequest, cutting::LengthRequest> asked;
  std::vector<CutFor> pieces;   // of each piece asked
  std::vector<CutFrom> stock;   // of each stock piece asked
  std::int64_t least_kept = 0;  // micrometres
  CutSold sold;
};
using CutAnswer = std::variant<cutting::Answer<cutting::CutSheet>, cutting::Answer<cutting::CutSkin>,
                               cutting::Answer<cutting::CutRoll>>;

// `uses` are all of one material. None: it is not cut to plan (thread, paste, leaf), or no property says how.
std::vector<CutRequest> requests(std::span<Need const> uses, Material const& material, CutRules const& rules);
std::vector<CutRequest> requests(Needs const& needs, Catalogue const& catalogue, CutRules const& rules);
// Shelf first: a piece on the shelf counts as what it cost, but never as more than the same bought new.
// `price`: of one sheet, skin or roll bought new, in the same unit as ShelfPiece::cost; nullopt: nothing can
// be bought. `shelf` may name other materials too.
std::vector<CutRequest> requests_shelf_first(std::span<Need const> uses, Material const& material,
                                             CutRules const& rules, std::span<ShelfPiece const> shelf,
                                             std::optional<std::int64_t> price);

// Solves and checks. Throws std::logic_error when the plan does not pass the check: a fault of the program.
CutAnswer plan(CutRequest const& request, cutting::Budget const& budget);
cutting::Outcome outcome_of(CutAnswer const& answer);
cutting::Proof const& proof_of(CutAnswer const& answer);
// Of a plan that was found: what is opened for it at the request's costs, whatever is kept, and what must be
// opened at least, by a second plan that keeps nothing.
cutting::Proof opened_proof(CutRequest const& request, CutAnswer const& answer,
                            cutting::Budget const& budget);

// What pricing needs of a plan to buy new.
struct PlanFacts {
  cutting::Outcome outcome = cutting::Outcome::not_found;
  // In the material's base unit: the whole sheets, skins and lengths that are cut, what is torn off a roll;
  // and of it what the pieces take, with all that is cut away and not worth keeping.
  std::int64_t opened = 0, gross = 0;
  // What is opened, in units of the request's costs, and what any plan opens at least.
  std::int64_t cost = 0, bound = 0;
  bool guess = false;
  friend bool operator==(PlanFacts const&, PlanFacts const&) = default;
};
// Plans a request to buy new. Of a skin whose rest is worth keeping the pieces
// take their area / usable share, else all of it: the outline is a guess, which says whether they fit but not
// what is lost between them. The bound is that of a second plan which keeps nothing: how little could be
// opened at least.
PlanFacts plan_to_buy(CutRequest const& request, cutting::Budget const& budget);

// Everything that a plan follows from, as plain numbers: the request, the work and the version of the
// solvers.
inline constexpr std::int64_t solver_version = 1;
using PlanKey = std::vector<std::int64_t>;
PlanKey plan_key(CutRequest const& request, std::int64_t work);
using PlanTable = std::map<PlanKey, PlanFacts>;

}  // namespace endband
