#include "cli/commands/text_read.h"

#include "db/settings.h"
#include "engine/pricing/terms_text.h"
#include "engine/pricing/walk.h"

namespace endband::cli {
namespace {

std::string source_of(std::string const& file) { return file == "-" ? std::string(standard_input) : file; }

}  // namespace

Read<std::string> text_code(Args const& args) {
  std::string const& code = args.word(0);
  if (code.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") == std::string::npos) return code;
  return refuse({FaultCode::bad_value, args.where("CODE"), code, "lower case letters, digits and '-'", {}});
}

Read<db::OutletInForce> outlet_at(db::Workshop& workshop, std::string_view code, Date on,
                                  Where const& where) {
  auto outlet = db::load_outlet(workshop, code, on);
  if (outlet || outlet.error().front().code == FaultCode::missing_setting) return outlet;
  return located(std::move(outlet), where);
}

TaxRules tax_in_force(db::Workshop& workshop, Date on) {
  auto const shop = db::load_shop(workshop, on);
  return shop ? shop->selling.tax : TaxRules{};
}

Read<OutletText> outlet_said(Context& context, db::Workshop& workshop, std::string const& code,
                             std::string const& file) {
  auto text = context.read_file(file);
  if (!text) return tl::unexpected(std::move(text.error()));
  auto outlet = read_outlet(*text, source_of(file), code, workshop.currency());
  if (!outlet) return tl::unexpected(std::move(outlet.error()));
  std::vector<Fault> faults = faults_of(*outlet, tax_in_force(workshop, context.on));
  for (Fault& fault : faults) fault.where.source = source_of(file);
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  return OutletText{std::move(*text), std::move(*outlet)};
}

Read<CarriageText> carriage_said(Context& context, db::Workshop& workshop, std::string const& code,
                                 std::string const& file) {
  auto text = context.read_file(file);
  if (!text) return tl::unexpected(std::move(text.error()));
  auto service = read_carriage(*text, source_of(file), code, workshop.currency());
  if (!service) return tl::unexpected(std::move(service.error()));
  return CarriageText{std::move(*text), std::move(*service)};
}

}  // namespace endband::cli
