// Parts of the settings that a command needs without a whole shop: a new workshop has few of them.
#pragma once

#include "db/settings.h"
#include "db/workshop.h"
#include "engine/catalogue/catalogue.h"
#include "engine/commission/order.h"

#include <string>
#include <string_view>

namespace endband::cli {

// The value in force, or the fallback of its row; empty when there is neither.
std::string setting_in_force(db::Workshop& workshop, std::string_view name, Date on);
Ratio share_setting(db::Workshop& workshop, std::string_view name, Date on);  // nothing where it is not set
// What its owner says to consumers of a book that is made so; empty: nothing yet, or nothing is needed.
std::string owner_text(db::Workshop& workshop, MadeTo made_to, Date on);
BuyingRules buying_rules(db::Workshop& workshop, Date on);

}  // namespace endband::cli
