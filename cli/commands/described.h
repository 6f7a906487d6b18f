// From a description file to the resolved book, and to a commission that can be priced.
#pragma once

#include "cli/command/args.h"
#include "cli/command/context.h"
#include "db/outlets.h"
#include "db/settings.h"
#include "engine/commission/commission.h"

#include <optional>
#include <string>
#include <vector>

namespace endband::cli {

// A description completed by its model, the workshop's habits and common practice.
struct Described {
  std::string text;        // as given
  std::string model_name;  // empty: none
  BookText said;
  db::Shop shop;
  std::vector<std::string> codes;  // of all materials it names
  Catalogue catalogue;
  BookSpec book;
};
// Reads the file, and from the workshop only what it names. All faults of the description at once.
Read<Described> describe(Context& context, db::Workshop& workshop, std::string const& file);

struct DescriptionText {
  std::string source, text;
};
// The habits of the workshop complete what is not said; materials, prices and rates are of another day where
// a book already agreed on is priced anew.
struct DescriptionDays {
  Date prices, habits;
};
Read<Described> describe_text(db::Workshop& workshop, DescriptionText description, DescriptionDays days);

// The same book with other words said: an option taken, another carton.
Read<Described> described_with(db::Workshop& workshop, Described const& base, BookText said, Date on);
// The same from materials that are there already: of many such books none asks the workshop.
Read<BookSpec> book_with(Described const& base, BookText const& said, Catalogue const& catalogue);

// What a quote asks beside the book: flags come before the description's [quote] table, that before the
// workshop.
struct Asked {
  std::string customer;  // code; empty: nobody yet
  std::string customer_name;
  Date valid_until;
  Goal goal;
  std::optional<Money> at_price;  // as the buyer sees it, instead of a goal
  Delivery delivery;
  std::optional<db::OutletInForce> outlet;
  std::optional<Discount> discount;
  std::optional<MadeToOrder> made_to;
  std::optional<Sending> sending;
  std::optional<Money> budget;
};
Read<Asked> asked_of(Context& context, db::Workshop& workshop, Args const& args, Described const& described);

// In the smallest carton on the shelf, where it is sent by a service.
Read<Commission> commission_of(Described const& described, Asked const& asked, StepLibrary steps);

// What the engine refuses of carriage, told at the flags that ask for it.
std::vector<Fault> at_flags(std::vector<Fault> faults, std::string const& command);

}  // namespace endband::cli
