// One hide filled as far as may be, or all pieces from several hides.
#include "tests/bench/cutting/skin_lines.h"

#include <algorithm>

namespace endband::cutting::bench {
namespace {

std::int64_t scale_of(Json const& instance) {
  return instance.value("units", std::string("mm")).find("0.1 mm") == std::string::npos ? 1000 : 100;
}

std::vector<Json> hides_of(Json const& instance) {
  if (instance.contains("hide")) return {instance["hide"]};
  return instance["hides"].get<std::vector<Json>>();
}

// The best there is, over all hides: of what lies in no zone where it is not said.
int top_grade(std::vector<Json> const& hides) {
  int top = 0;
  for (Json const& hide : hides) {
    int zones = 0;
    if (hide.contains("zones"))
      for (Json const& zone : hide["zones"]) zones = std::max(zones, zone["quality"].get<int>());
    top = std::max(
        top, hide.contains("base_quality") ? std::max(hide["base_quality"].get<int>(), zones) : zones + 1);
  }
  return top;
}

Skin read_skin(Json const& hide, std::int64_t scale, int top) {
  Skin skin;
  skin.outline = read_polygon(hide["outline"], scale);
  skin.grade = hide.value("base_quality", top);
  if (hide.contains("holes"))
    for (Json const& hole : hide["holes"]) skin.flaws.push_back(read_polygon(hole, scale));
  if (hide.contains("zones"))
    for (Json const& zone : hide["zones"]) {
      int const grade = zone["quality"].get<int>();
      Polygon polygon = read_polygon(zone["polygon"], scale);
      if (grade == 0)
        skin.flaws.push_back(std::move(polygon));
      else
        skin.zones.push_back({std::move(polygon), grade});
    }
  skin.cost = twice_area(skin.outline) / 2'000'000;  // square millimetres
  return skin;
}

Result filled(Json const& instance, Skin const& skin, std::vector<SkinPiece> const& pieces,
              std::int64_t scale, Budgets const& budgets) {
  auto const [answer, took] = timed([&] { return fill_skin(skin, pieces, 0, budgets.of(Solver::skins)); });
  double const placed = static_cast<double>(answer.twice_area);
  double const usable = placed + static_cast<double>(answer.cut.twice_area_left);
  Result result;
  result.variant = "fill";
  result.greatest = true;
  result.took = took;
  result.work = answer.work;
  result.faults = names_of(check(skin, pieces, 0, answer));
  result.stated = 100 * placed / usable;
  result.bound = std::min(100.0, 100 * total_area(pieces) / usable);
  result.proved = answer.all;
  result.more["fill_pct"] = result.stated;
  result.more["area_share_pct"] = 100 * placed / total_area(pieces);
  result.more["all_placed"] = answer.all;
  result.more["zones"] = skin.zones.size();
  if (instance.contains("values")) {
    Json const& values = instance["values"];
    if (values.contains("best_known_fill_pct"))
      result.best_known = values["best_known_fill_pct"].get<double>();
    if (values.value("all_pieces_fit", false)) result.best_known = result.bound;
    for (char const* peer : {"peer_fill_pct", "peer_area_pct"})
      if (values.contains(peer)) result.more["peer"] = values[peer];
  }
  add_laid(result.placements, 0, answer.cut, pieces, scale);
  return result;
}

Result planned(std::vector<Skin> const& skins, std::vector<SkinPiece> const& pieces, std::int64_t scale,
               Budgets const& budgets) {
  SkinRequest request;
  request.skins = skins;
  request.pieces = pieces;
  auto const [answer, took] = timed([&] { return plan_skins(request, budgets.of(Solver::skins)); });
  Result result;
  result.variant = "plan";
  result.took = took;
  take_answer(result, answer);
  result.faults = names_of(check(request, answer));
  double usable = 0;
  for (CutSkin const& cut : answer.used) usable += static_cast<double>(cut.twice_area_left);
  double const placed = answer.outcome == Outcome::planned ? total_area(pieces) : 0;
  result.more["zones"] =
      std::count_if(skins.begin(), skins.end(), [](Skin const& skin) { return !skin.zones.empty(); });
  result.more["skins_used"] = answer.used.size();
  result.more["all_placed"] = answer.outcome == Outcome::planned;
  if (placed > 0) result.more["fill_pct"] = 100 * placed / (usable + placed);
  for (std::size_t i = 0; i < answer.used.size(); ++i)
    add_laid(result.placements, i, answer.used[i], pieces, scale);
  return result;
}

}  // namespace

std::vector<Result> run_skins(Json const& instance, Budgets const& budgets) {
  std::int64_t const scale = scale_of(instance);
  std::vector<Json> const hides = hides_of(instance);
  int const top = top_grade(hides);
  std::vector<Skin> skins;
  for (Json const& hide : hides) skins.push_back(read_skin(hide, scale, top));
  std::vector<SkinPiece> const pieces = read_skin_pieces(instance["items"], scale, top);
  if (skins.size() > 1) return {planned(skins, pieces, scale, budgets)};
  std::vector<Result> results{filled(instance, skins[0], pieces, scale, budgets)};
  if (instance.contains("values") && instance["values"].value("all_pieces_fit", false)) {
    results.push_back(planned(skins, pieces, scale, budgets));
    results.back().best_known = static_cast<double>(skins[0].cost);
  }
  return results;
}

}  // namespace endband::cutting::bench
