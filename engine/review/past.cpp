#include "engine/review/past.h"

#include <algorithm>
#include <array>
#include <map>
#include <stdexcept>

namespace endband {
namespace {

using Kinds = std::span<OperationKind const>;

constexpr std::array sewn_on{OperationKind::sew_sections};
constexpr std::array linked{OperationKind::link_sections, OperationKind::long_stitch_sections};
constexpr std::array laced{OperationKind::lace_boards};
constexpr std::array sewn_endbands{OperationKind::sew_endbands};
constexpr std::array stuck_endbands{OperationKind::stick_endbands};
constexpr std::array registers{OperationKind::fix_registers};
constexpr std::array sprinkled{OperationKind::sprinkle_edges};
constexpr std::array gilt{OperationKind::gild_edges};
constexpr std::array leather{OperationKind::cut_leather};
constexpr std::array dyed{OperationKind::dye_leather};
constexpr std::array corners{OperationKind::put_on_corners};
constexpr std::array panels{OperationKind::let_in_panels};
constexpr std::array leaf{OperationKind::lay_leaf};
constexpr std::array blind{OperationKind::blind_lines};
constexpr std::array lettering{OperationKind::letter_title, OperationKind::set_type};
constexpr std::array onlays{OperationKind::lay_onlays};
constexpr std::array metal_corners{OperationKind::fit_corners};
constexpr std::array clasps{OperationKind::fit_clasps};
constexpr std::array strap{OperationKind::make_strap};
constexpr std::array ties{OperationKind::make_ties};
constexpr std::array stone{OperationKind::set_stone};
constexpr std::array box{OperationKind::build_box};
constexpr std::array repairs{OperationKind::pull_block, OperationKind::guard_folds,
                             OperationKind::mend_leaves, OperationKind::resew_block,
                             OperationKind::reback_book};
constexpr std::array guards{OperationKind::set_guards};

constexpr std::array table{
    FeatureRow{"supported-sewing", "sewn on cords or tapes", sewn_on},
    FeatureRow{"link-sewing", "a link or long stitch", linked},
    FeatureRow{"laced-boards", "boards laced on", laced},
    FeatureRow{"sewn-endbands", "endbands sewn by hand", sewn_endbands},
    FeatureRow{"stuck-endbands", "endbands stuck on", stuck_endbands},
    FeatureRow{"registers", "register ribbons", registers},
    FeatureRow{"sprinkled-edges", "sprinkled edges", sprinkled},
    FeatureRow{"gilt-edges", "gilt edges", gilt},
    FeatureRow{"leather", "leather", leather},
    FeatureRow{"dyed-leather", "leather dyed by hand", dyed},
    FeatureRow{"covered-corners", "corners of the covering material", corners},
    FeatureRow{"let-in-panels", "panels let in", panels},
    FeatureRow{"leaf", "leaf laid", leaf},
    FeatureRow{"blind-lines", "blind lines", blind},
    FeatureRow{"lettering", "lettering", lettering},
    FeatureRow{"onlays", "onlays", onlays},
    FeatureRow{"metal-corners", "metal corners", metal_corners},
    FeatureRow{"clasps", "clasps", clasps},
    FeatureRow{"strap", "a strap", strap},
    FeatureRow{"ties", "ties", ties},
    FeatureRow{"stone", "a stone set in", stone},
    FeatureRow{"box", "a box", box},
    FeatureRow{"repairs", "repairs", repairs},
    FeatureRow{"guards", "guards", guards},
};
static_assert(table.size() <= most_features);

std::string month_of(Date date) { return date_text(date).substr(0, 7); }

}  // namespace

std::span<FeatureRow const> feature_table() { return table; }

Features features_made_by(OperationKind kind) {
  Features made;
  for (std::size_t i = 0; i < table.size(); ++i)
    if (std::ranges::find(table.at(i).kinds, kind) != table.at(i).kinds.end()) made.set(i);
  return made;
}

PastSum::PastSum(Currency currency)
    : full_price{0, currency},
      given_away{0, currency},
      left_given{0, currency},
      left_quoted{0, currency},
      left{0, currency},
      labour{0, currency} {}

void PastSum::add(PastJob const& job) {
  ++count;
  full_price += job.full_price;
  given_away += job.given_away();
  left_given += job.left_given;
  left_quoted += job.left_quoted;
  left += job.left;
  labour += job.labour;
  seconds_quoted += job.seconds_quoted;
  seconds += job.seconds;
}

std::optional<Ratio> PastSum::margin_quoted() const {
  if (full_price.minor == 0) return std::nullopt;
  return Ratio(left_quoted.minor + left_given.minor, full_price.minor);
}

std::optional<Ratio> PastSum::margin() const {
  if (full_price.minor == 0) return std::nullopt;
  return Ratio(left.minor + left_given.minor, full_price.minor);
}

std::optional<Money> PastSum::hourly() const {
  if (seconds <= 0) return std::nullopt;
  return scale(left + left_given + labour, Ratio(3600, seconds), Rounding::half_away);
}

std::string_view group_by_name(GroupBy by) {
  switch (by) {
    case GroupBy::binding: return "binding";
    case GroupBy::feature: return "feature";
    case GroupBy::outlet: return "outlet";
    case GroupBy::customer: return "customer";
    case GroupBy::month: return "month";
  }
  throw std::logic_error("no such grouping");
}

std::optional<GroupBy> group_by_named(std::string_view name) {
  for (GroupBy const by :
       {GroupBy::binding, GroupBy::feature, GroupBy::outlet, GroupBy::customer, GroupBy::month})
    if (group_by_name(by) == name) return by;
  return std::nullopt;
}

std::vector<PastGroup> grouped(std::span<PastJob const> jobs, GroupBy by, Currency currency) {
  std::map<std::string, PastSum, std::less<>> groups;
  auto const add = [&](std::string const& name, PastJob const& job) {
    groups.try_emplace(name, currency).first->second.add(job);
  };
  for (PastJob const& job : jobs) switch (by) {
      case GroupBy::binding: add(job.binding, job); break;
      case GroupBy::outlet: add(job.outlet, job); break;
      case GroupBy::customer: add(job.customer, job); break;
      case GroupBy::month: add(month_of(job.ended), job); break;
      case GroupBy::feature:
        if (job.features.none()) add("without", job);
        for (std::size_t i = 0; i < table.size(); ++i)
          if (job.features[i]) add(std::string(table.at(i).name), job);
        break;
    }
  std::vector<PastGroup> result;
  result.reserve(groups.size());
  for (auto& [name, sum] : groups) result.push_back({name, sum});
  return result;
}

}  // namespace endband
