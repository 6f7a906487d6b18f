// The closed lists that a flag or a word of the command line may be one of.
#include "cli/command/flag.h"
#include "engine/book/spec.h"
#include "engine/book/style.h"
#include "engine/commission/order.h"
namespace endband::cli {

std::vector<std::string_view> choices(FlagType type) {
  std::vector<std::string_view> names;
  switch (type) {
    case FlagType::kind:
      for (KindRow const& row : kind_table()) names.push_back(row.name);
      break;
    case FlagType::sold_by:
      for (auto how : {SoldBy::sheet, SoldBy::pad, SoldBy::skin, SoldBy::length, SoldBy::weight,
                       SoldBy::volume, SoldBy::piece, SoldBy::leaf_book})
        names.push_back(sold_by_name(how));
      break;
    case FlagType::charging:
      for (auto how : {Charging::as_used, Charging::whole_less_offcuts, Charging::whole})
        names.push_back(charging_name(how));
      break;
    case FlagType::operation:
      for (OperationRow const& row : operation_table())
        if (row.kind != OperationKind::extra_work) names.push_back(row.name);
      break;
    case FlagType::currency: return currency_codes();
    case FlagType::model:
      for (Model const& model : models()) names.push_back(model.name);
      break;
    case FlagType::binding:
      for (Style const& style : styles()) names.push_back(style.name);
      break;
    case FlagType::made_to:
      for (auto const each :
           {MadeTo::spec, MadeTo::personal, MadeTo::options, MadeTo::stock, MadeTo::business})
        names.push_back(made_to_name(each));
      break;
    case FlagType::level: return {"one-price", "components", "internal"};
    case FlagType::page_form: return {"html", "pdf"};
    case FlagType::quote_form: return {"html", "pdf", "ubl"};
    case FlagType::job_paper: return {"confirmation", "receipt"};
    case FlagType::group_by: return {"binding", "feature", "outlet", "customer", "month"};
    case FlagType::order: return {"ended", "margin", "left", "hourly", "gap"};
    default: break;
  }
  return names;
}

}  // namespace endband::cli
