// All pieces from equal sheets (sheet), sheets and offcuts with costs (sheets), or the least length of a roll
// (strip_width).
#include "tests/bench/cutting/sheet_lines.h"

namespace endband::cutting::bench {
namespace {

constexpr std::int64_t milli = 1000;

std::int64_t number(Json const& json, char const* key) { return json[key].get<std::int64_t>(); }

// Grain said of each piece: an order of our own, in millimetres.
bool says_grain(Json const& instance) { return instance["items"][0].contains("grain_locked"); }

std::vector<Rect> read_pieces(Json const& items, std::int64_t scale, bool turns) {
  std::vector<Rect> pieces;
  for (Json const& item : items)
    pieces.push_back({number(item, "w") * scale, number(item, "h") * scale,
                      item.value("copies", std::int64_t{1}),
                      item.contains("grain_locked") ? !item["grain_locked"].get<bool>() : turns});
  return pieces;
}

std::vector<Sheet> read_sheets(Json const& instance, std::vector<Rect> const& pieces, std::int64_t scale) {
  if (instance.contains(
          "strip_width")) {  // of a roll long enough for one piece above another; a unit of length costs one
    std::int64_t height = 0;
    for (Rect const& piece : pieces)
      height += piece.copies * (piece.turns ? std::max(piece.width, piece.height) : piece.height);
    return {{number(instance, "strip_width") * scale, height, height / scale, std::nullopt, true}};
  }
  if (instance.contains("sheet"))
    return {
        {number(instance["sheet"], "w") * scale, number(instance["sheet"], "h") * scale, 1, std::nullopt}};
  std::vector<Sheet> sheets;
  for (Json const& one : instance["sheets"]) {
    Sheet sheet{number(one, "w") * scale, number(one, "h") * scale,
                one.value("cost", number(one, "w") * number(one, "h")), std::nullopt};
    if (one.contains("copies") && !one["copies"].is_null()) sheet.copies = number(one, "copies");
    sheets.push_back(sheet);
  }
  return sheets;
}

std::optional<double> first_number(Json const& json, std::initializer_list<char const*> keys) {
  for (char const* key : keys)
    if (json.contains(key) && json[key].is_number()) return json[key].get<double>();
  return std::nullopt;
}

// What the classes of variable sheets (MB_*) say is in the sheets' areas, not in the costs beside them: every
// value is a sum of areas, most are no sum of costs. So they are run in both, and held against the values in
// areas.
bool in_areas(std::string const& key) { return key.find("nonguillotine") != std::string::npos; }
constexpr char const* by_area = "_area";

// A number of its own, or in a block named after the variant ("oriented_2stage") or the length.
std::optional<double> best_known(Json const& values, std::string const& variant, bool area) {
  if (auto const cost = first_number(values, {"best_known_cost", "optimum_cost"})) return cost;
  for (auto const& [key, block] : values.items()) {
    bool const named = key == "length" || (!variant.empty() && key.rfind(variant, 0) == 0);
    if (!block.is_object() || !named || in_areas(key) != area) continue;
    if (auto const cost = first_number(
            block, {"guillotine_optimum", "guillotine_3stage_best_known", "best_known", "value"}))
      return cost;
  }
  return std::nullopt;
}

Result run_variant(Json const& instance, Budgets const& budgets, std::string const& variant,
                   bool area = false) {
  std::int64_t const scale = says_grain(instance) ? milli : 1;
  SheetRequest request;
  request.pieces = read_pieces(instance["items"], scale, variant == "rotation");
  request.sheets = read_sheets(instance, request.pieces, scale);
  if (area)
    for (Sheet& sheet : request.sheets) sheet.cost = sheet.width * sheet.height;
  request.kerf = instance.value("kerf", std::int64_t{0}) * scale;
  request.trim = instance.value("trim", std::int64_t{0}) * scale;
  auto const [answer, took] = timed([&] { return plan_sheets(request, budgets.of(Solver::sheets)); });
  Result result;
  result.variant = variant + (area ? by_area : "");
  result.took = took;
  take_answer(result, answer);
  result.faults = names_of(check(request, answer));
  if (instance.contains("values")) {
    Json const& values = instance["values"];
    result.best_known = best_known(values, variant, area);
    for (char const* peer : {"peer_3stage", "peer"})
      if (values.contains(peer)) result.more["peer"] = values[peer];
  }
  if (!result.faults.empty()) return result;
  for (std::size_t i = 0; i < answer.used.size(); ++i)
    add_laid(result.placements, i, answer.used[i], request.pieces, scale);
  return result;
}

}  // namespace

std::vector<Result> run_sheets(Json const& instance, Budgets const& budgets) {
  if (says_grain(instance)) return {run_variant(instance, budgets, "")};
  std::vector<Result> results;
  for (std::string const variant : {"oriented", "rotation"}) {
    bool known = variant == "oriented" || instance.contains("sheet");
    bool area = false;
    if (instance.contains("values"))
      for (auto const& [key, value] : instance["values"].items())
        if (key.rfind(variant, 0) == 0) {
          known = true;
          area = area || (in_areas(key) && instance.contains("sheets"));
        }
    if (known) results.push_back(run_variant(instance, budgets, variant));
    if (area) results.push_back(run_variant(instance, budgets, variant, true));
  }
  return results;
}

}  // namespace endband::cutting::bench
