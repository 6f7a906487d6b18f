#include "cli/commands/sendable.h"

#include "cli/commands/shop_parts.h"
#include "cli/words/selling_words.h"
#include "db/customers.h"

#include <fmt/format.h>

namespace endband::cli {
namespace {

class Sendable {
 public:
  Sendable(db::Workshop& workshop, db::QuoteHeader const& header, Args const& args)
      : workshop_(workshop), header_(header), args_(args), quote_(db::load_quote(workshop, header.id)) {}

  std::vector<Fault> faults() {
    if (quote_.rules < first_rules_of_selling) return {};
    check_delivery();
    check_letterhead();
    check_made_to();
    check_restricted();
    return std::move(faults_);
  }

 private:
  void add(std::string const& field, std::string expected) {
    faults_.push_back({FaultCode::rule_refused,
                       args_.where(field),
                       db::number_text(header_.number),
                       std::move(expected),
                       {}});
  }
  std::string anew(std::string_view flag) const {
    return fmt::format("endband quote revise {} FILE {}", db::number_text(header_.number), flag);
  }

  void check_delivery() {
    if (quote_.delivery.words.empty() && quote_.delivery.carriage.minor == 0)
      add("delivery", "a word of how it is delivered: " + anew("--delivery \"collected at the workshop\""));
  }

  void check_letterhead() {
    for (std::string_view const name : {"maker.name", "maker.address"})
      if (setting_in_force(workshop_, name, header_.on).empty())
        add(std::string(name),
            fmt::format("who it comes from, first: endband workshop set {}=\"...\"", name));
  }

  // A quote to nobody yet is an offer that anybody may read; who accepts it is a customer.
  void check_made_to() {
    if (!quote_.made_to) {
      add("made-to", "the reason why it is, or is not, made to order: " +
                         anew("--made-to spec --because \"own dimensions and drawing\""));
      return;
    }
    MadeTo const what = quote_.made_to->what;
    if (what != MadeTo::business && owner_text(workshop_, what, header_.on).empty())
      add("text", fmt::format("your own text for a book that is {}: endband workshop set text.{}=\"...\"",
                              made_to_words(what), made_to_name(what)));
  }

  void check_restricted() {
    if (!args_.text("--permit").value_or("").empty()) return;
    std::string const home = setting_in_force(workshop_, "maker.country", header_.on);
    std::string const to = destination();
    if (to.empty() || to == home) return;
    for (Material const& material : quote_.materials)
      if (material.flags.restricted)
        add("permit", fmt::format("{} may not leave for {} without its papers; --permit says which",
                                  material.code, to));
  }

  std::string destination() {
    if (quote_.sent_by) return quote_.sent_by->country;
    if (header_.customer.empty()) return "";
    auto const customer = db::find_customer(workshop_, header_.customer);
    return customer ? customer->country : "";
  }

  db::Workshop& workshop_;
  db::QuoteHeader const& header_;
  Args const& args_;
  FrozenQuote quote_;
  std::vector<Fault> faults_;
};

}  // namespace

std::vector<Fault> not_sendable(db::Workshop& workshop, db::QuoteHeader const& header, Args const& args) {
  return Sendable(workshop, header, args).faults();
}

}  // namespace endband::cli
