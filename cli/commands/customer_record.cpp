#include "cli/commands/customer_record.h"

namespace endband::cli {

std::vector<Flag> customer_flags() {
  return {{"--name", FlagType::words, "the name that stands on a quote"},
          {"--email", FlagType::words, "where answers go"},
          {"--address", FlagType::words, "where parcels go"},
          {"--country", FlagType::country, "two letters, such as AT"},
          {"--notes", FlagType::text, "for the bench only, never on a paper"}};
}

Fields fields_of(db::Customer const& customer) {
  return {{"name", customer.name},
          {"email", customer.email},
          {"address", customer.address},
          {"country", customer.country},
          {"notes", customer.notes}};
}

db::Customer customer_changed(Args const& args, db::Customer customer) {
  if (auto const value = args.text("--name")) customer.name = *value;
  if (auto const value = args.text("--email")) customer.email = *value;
  if (auto const value = args.text("--address")) customer.address = *value;
  if (auto const value = args.text("--country")) customer.country = *value;
  if (auto const value = args.text("--notes")) customer.notes = *value;
  return customer;
}

Read<db::Customer> customer_said(Args const& args, std::string const& code, Date since) {
  db::Customer customer;
  customer.code = code;
  customer.since = since;
  customer = customer_changed(args, std::move(customer));
  if (customer.name.empty())
    return refuse({FaultCode::bad_command, args.where("--name"), "", "the name that stands on a quote", {}});
  return customer;
}

}  // namespace endband::cli
