// What is listed where and since when, at which ticket.
#pragma once

#include "db/jobs.h"
#include "db/workshop.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace endband::db {

// What a listed book costs, as it was when it was posted: what a walk of its ticket needs.
struct ListedCost {
  Money total, labour, standing, carriage;
  std::int64_t pieces = 1;
  Ratio seconds;
  Money outside;                        // work by others that earns
  std::vector<Money> part_shares = {};  // what earns, by Part; none: of no part
};
struct Listing {
  std::int64_t id = 0;
  std::string outlet;  // code
  std::string job;     // "26-014"; empty: made when somebody orders it
  std::string title;
  Date since;
  ListedCost cost;
  Money ticket;  // of the outlet's currency, as it stands on the day asked about
  Date ticket_since;
  std::string ended;  // "sold", "ended"; empty: it stands
  std::optional<Date> ended_on;
};
struct NewListing {
  std::string outlet;
  std::optional<std::int64_t> job;
  std::string title;
  ListedCost cost;
  Money ticket;
};
std::int64_t post_listing(Writing& writing, NewListing const& listing, Date on);
// The ticket from a day on. Faults rule_refused: it has ended, or the day is before the last change.
Read<std::int64_t> set_ticket(Writing& writing, Listing const& listing, Money ticket, Date on,
                              std::string_view words);
// `how`: "sold" or "ended". Faults rule_refused: it has ended already, or the day is before its posting.
Read<std::int64_t> end_listing(Writing& writing, Listing const& listing, std::string_view how, Date on,
                               std::string_view words);
// As of a day, by number; those that had ended by then only where asked for.
std::vector<Listing> list_listings(Workshop& workshop, Date on, bool ended_too);
Read<Listing> find_listing(Workshop& workshop, std::int64_t number, Date on);  // unknown_code
// The lowest ticket of the days from `from` to the day before `until`; none: it was not listed then.
std::optional<Money> lowest_ticket(Workshop& workshop, Listing const& listing, Date from, Date until);

}  // namespace endband::db
