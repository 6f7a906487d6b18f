// Parts of a quote as JSON, for the binder.
#pragma once

#include "cli/document/json.h"
#include "db/quotes.h"
#include "engine/commission/commission.h"

#include <span>
#include <vector>

namespace endband::cli {

Json piece_json(Piece const& piece, std::span<Material const> materials);
Json warning_json(Warning const& warning, std::span<Material const> materials);
Json header_json(db::QuoteHeader const& header);
Json rung_json(Rung const& rung);
Json ladder_json(Ladder const& ladder);
Json goal_json(Goal const& goal);
Json bill_json(FrozenQuote const& quote);
Json work_json(FrozenQuote const& quote);
Json cost_json(FrozenQuote const& quote);   // totals of the cost sheet and each of its lines
Json offer_json(FrozenQuote const& quote);  // what follows from the price that is asked

// The lines of the cost sheet that cost most, dearest first; of equal ones the first.
std::vector<CostLine> largest_costs(FrozenQuote const& quote, std::size_t how_many);
Json largest_json(FrozenQuote const& quote);

std::int64_t whole_seconds(Ratio seconds);

// What a quote says beside its price: copies, volumes, repairs, custody.
Json order_json(FrozenQuote const& quote);
Json copies_json(std::vector<BuyerCopies> const& prices);
Json next_copy_json(std::vector<BuyerCopies> const& prices);
Json volumes_json(std::vector<VolumeMade> const& volumes);
Json custody_json(std::vector<InCustody> const& custody);
Json ways_json(Ways ways);
Json outside_json(FrozenQuote const& quote);

}  // namespace endband::cli
