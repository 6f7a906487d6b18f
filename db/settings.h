// The workshop's settings: dated, immutable versions of named values; and the typed rules that the engine
// takes.
#pragma once

#include "db/workshop.h"
#include "engine/catalogue/catalogue.h"
#include "engine/costing/costing.h"
#include "engine/cutting/request.h"
#include "engine/description/description.h"
#include "engine/labour/labour.h"
#include "engine/pricing/pricing.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace endband::db {

// name                 type      for people
// maker.name           words     letterhead: name, maker.address, maker.email
// tax.mode             choice    none | added | included
// tax.rate             share     tax.name words
// tax.recovered        share     of purchase tax
// price.step           money     price.below money
// deposit.share        share     deposit.step money
// quote.valid-days     count
// goal.margin          share     the margin asked when a quote names none
// contingency          share
// least.charge         money     least.hourly money
// year.pay             money     year.charges money, year.hours duration ("1100 h")
// enquiries.an-order   number
// learning.rate        share     learning.plateau count: of copies
// learning.model       choice    unit | cumulative-average
// overtime.share       share     beyond the hourly rate
// promise.confidence   share     of a simulated contingency
// stock.formula        choice    first-in-first-out | moving-average; stands from the first movement on
// tax-rate.<class>     share     tax-class.<component> code: which class a component, or carriage, is of
// paper.numbers        choice    1234.50 | 1,234.50 | 1.234,50 | 1 234,50
// word.<name>          words     of db/paper_words.h: the owner's word on papers
// exchange.<currency>  number    exchange-spread.<currency> share
// text.<made to>       words     what a consumer is told; tax.exempt-words; maker.country
// cut.least-kept       length    cut.kerf length: for cutting plans
// order.cost           money     holding.share share: for suggested order sizes
// overhead.<name>      money     a year's: "overhead.rent"; several; each may name what it covers, see
// covers.<name> covers.<name>        code      the material kind or step that overhead.<name> pays for: its
// one home default.<key>        words     value of a description key when nobody says it:
// "default.sewing.thread" = "linen-18-3" An empty value takes a setting back: from that day on it is as if it
// had never been set.
struct SettingRow {
  std::string_view name;      // "overhead.*" and the like stand for a family
  ValueType type;             // default.*: the type of the description's key
  std::string_view choices;   // "none|added|included"
  std::string_view fallback;  // value in force when never set; empty: none
  std::string_view help;
  std::int64_t least = 0;  // both ends allowed, in the unit people write: whole money, percent, hours, number
  std::int64_t most = 0;
  std::string_view example;  // a value that is right
};
std::span<SettingRow const> setting_table();
SettingRow const* setting_row(std::string_view name);  // of a name or of its family; nullptr: there is none

struct Setting {
  std::string name, value;
  Date valid_from;
  std::int64_t version = 0;
};
// Checks name, form and range; the value is stored in its canonical form. Faults: unknown_code with near,
// bad_value ...
Read<Setting> read_setting(Workshop& workshop, std::string_view name, std::string_view value);
// And whether it may be set now: the cost formula stands from the first movement on (rule_refused).
Read<Setting> check_setting(Workshop& workshop, std::string_view name, std::string_view value);
void set(Writing& writing, Setting const& setting);
std::vector<Setting> settings(Workshop& workshop, Date on);

struct Shop {  // everything of the settings that a price takes
  WorkRules work;
  BuyingRules buying;
  ShopRules shop;
  SellingRules selling;
  CutRules cutting;
  std::optional<Goal> goal;
  Ratio overtime_share;  // what an hour beyond the week's is paid over a plain one
  Ratio confidence;      // of the contingency where a job is simulated
  int valid_days = 30;
  std::string maker_name, maker_address, maker_email, maker_country;
  std::string exempt_words;  // the owner's, where no tax is charged
  BookText defaults;         // the default.* values as a description layer
};
// Faults: missing_setting, all at once, `expected` being the words that set it: "workshop set
// year.hours=\"1100 h\"".
Read<Shop> load_shop(Workshop& workshop, Date on);

}  // namespace endband::db
