// What a job takes of the shelf, and all of a quote's bill at once.
#pragma once

#include "cli/commands/job_seen.h"

#include <cstdint>
#include <string>
#include <vector>

namespace endband::cli {

// One taking: so much of a material, from a lot or from whatever serves, as used, cut away or spoiled.
struct Taking {
  std::string code, lot;  // empty lot: whatever serves
  SoldBy sold_by = SoldBy::piece;
  Amount quantity;
  MovementKind kind = MovementKind::used;
};

// All of the bill that is not yet taken: net as used, what is lost in cutting as cut away, spoil as spoiled.
// Of goods charged whole what is opened beyond that is cut away too, until it is said to be kept; of skins
// these are whole items, those set aside first.
struct Lack {
  std::string code;
  SoldBy sold_by = SoldBy::piece;
  Amount wanted, there;  // there: what the job may take
};
struct TakingAll {
  std::vector<Taking> takings;      // in the order of the bill
  std::vector<Lack> lacks;          // what is short; its takings are not among them
  std::vector<std::string> opened;  // charged whole, less what is kept of it: codes whose rest is to be said
};
TakingAll taking_as_quoted(db::Workshop& workshop, JobSeen const& seen);

}  // namespace endband::cli
