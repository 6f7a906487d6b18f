// Outlets and carriage services as texts: what a command that keeps one reads and checks.
#pragma once

#include "cli/command/args.h"
#include "cli/command/context.h"
#include "db/outlets.h"
#include "engine/pricing/tax.h"

#include <string>

namespace endband::cli {

// A code of lower case letters, digits and '-'. Faults: bad_value.
Read<std::string> text_code(Args const& args);
// The file that is named, read as an outlet; what it takes of a price is checked with the workshop's tax.
struct OutletText {
  std::string text;
  Outlet outlet;
};
Read<OutletText> outlet_said(Context& context, db::Workshop& workshop, std::string const& code,
                             std::string const& file);
struct CarriageText {
  std::string text;
  CarriageService service;
};
Read<CarriageText> carriage_said(Context& context, db::Workshop& workshop, std::string const& code,
                                 std::string const& file);
// The outlet of a code, with its exchange. An unknown one is told at `where`; a rate that is missing, as what
// the workshop lacks.
Read<db::OutletInForce> outlet_at(db::Workshop& workshop, std::string_view code, Date on, Where const& where);
// The workshop's tax on a day; none where its settings do not say it yet.
TaxRules tax_in_force(db::Workshop& workshop, Date on);

}  // namespace endband::cli
