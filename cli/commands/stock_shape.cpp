#include "cli/commands/stock_shape.h"

#include "cli/commands/shape_said.h"
#include "cli/commands/stock_parts.h"
#include "cli/words/values.h"
#include "db/cutting.h"

#include <fmt/format.h>

#include <array>

namespace endband::cli {
namespace {

constexpr std::array outline_flags{std::string_view("--stations"), std::string_view("--corners"),
                                   std::string_view("--outline")};

// Which flags go together.
std::vector<Fault> contradictions(Args const& args) {
  std::vector<Fault> faults;
  auto const add = [&](std::string_view flag, std::string expected) {
    faults.push_back({FaultCode::contradiction, args.where(flag), "", std::move(expected), {}});
  };
  std::vector<std::string_view> said;
  for (std::string_view flag : outline_flags)
    if (args.has(flag)) said.push_back(flag);
  for (std::size_t i = 1; i < said.size(); ++i)
    add(said[i],
        fmt::format("one of --stations, --corners and --outline: {} says the outline already", said[0]));
  for (std::string_view flag : {"--flaw", "--flank", "--belly"})
    if (said.empty() && args.has(flag))
      add(flag, "--stations, --corners or --outline with it: an outline is said whole");
  if (!args.has("--outline") && args.has("--svg-unit")) add("--svg-unit", "--outline with it, the drawing");
  return faults;
}

// What a file's reader says of a description is said of a drawing.
std::optional<std::string> drawing_in(Context& context, std::string const& file, std::vector<Fault>& faults) {
  auto text = context.read_file(file);
  if (text) return std::move(*text);
  for (Fault& fault : text.error()) {
    fault.where.field = "--outline";
    fault.expected = "an SVG drawing that can be read";
    faults.push_back(std::move(fault));
  }
  return std::nullopt;
}

}  // namespace

std::vector<Flag> shape_flags() {
  return {
      {"--stations", FlagType::text,
       "of one skin, along its backbone from the tail: how far along, and how far it reaches to the left "
       "and to the right there, or how wide it is: \"0 240, 250 230 240, 700 180 mm\""},
      {"--corners", FlagType::text,
       "of one skin, its corners in order, each across and along: \"0 0, 640 0, 600 480, 20 500 mm\""},
      {"--outline", FlagType::file,
       "of one skin, an SVG drawing with the backbone upright: its first path, whose further closed parts "
       "are flaws"},
      {"--svg-unit", FlagType::words, "how long one unit of the drawing is: \"1 mm\""},
      {"--flaw", FlagType::text,
       "what cannot be used, parted by semicolons: a round one across, along and how wide, or its corners: "
       "\"220 310 15 mm; 90 80, 120 80, 100 140 mm\". Across is counted as for --corners; with --stations "
       "from the backbone, left of it below 0; of a drawing from its left, and along from its foot"},
      {"--flank", FlagType::text,
       "where it is flank and no longer back, by corners as for --flaw; what asks for the back is not cut "
       "there"},
      {"--belly", FlagType::text, "where it is belly, loose and stretching, likewise"}};
}

std::optional<std::string_view> shape_flag_said(Args const& args) {
  for (std::string_view flag :
       {"--stations", "--corners", "--outline", "--svg-unit", "--flaw", "--flank", "--belly"})
    if (args.has(flag)) return flag;
  return std::nullopt;
}

Read<std::optional<endband::Shape>> shape_said(Context& context, Args const& args) {
  if (!shape_flag_said(args)) return std::optional<endband::Shape>();
  std::vector<Fault> faults = contradictions(args);
  ShapeTexts said{args.text("--stations"), args.text("--corners"), std::nullopt,
                  args.text("--svg-unit"), args.text("--flaw"),    {},
                  args.text("--flank"),    args.text("--belly")};
  if (auto const file = args.text("--outline")) {
    said.drawing_name = *file == "-" ? std::string(standard_input) : *file;
    said.drawing = drawing_in(context, *file, faults);
  }
  bool const something = said.stations || said.corners || said.drawing;
  // With two outlines, or with none, nothing can be checked but what each of them says by itself.
  auto shape = something ? read_shape(said) : Read<endband::Shape>(endband::Shape{});
  if (!shape)
    for (Fault& fault : shape.error()) {
      if (fault.where.source.empty()) fault.where.source = args.where({}).source;
      faults.push_back(std::move(fault));
    }
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  return std::optional<endband::Shape>(std::move(*shape));
}

bool has_outline(db::LotRow const& lot) {
  return lot.sold_by == SoldBy::skin && lot.source != LotSource::kept;
}

std::optional<Fault> refuse_outline_of(db::LotRow const& lot, Where const& where) {
  if (lot.sold_by != SoldBy::skin)
    return Fault{FaultCode::wrong_kind, where, lot_text(lot), "a skin: " + lot.code + " is none", {}};
  if (lot.source == LotSource::kept)
    return Fault{FaultCode::wrong_kind,
                 where,
                 lot_text(lot),
                 "a whole skin: an offcut has the size it was kept with",
                 {}};
  if (lot.quantity.n <= 0)
    return Fault{FaultCode::contradiction, where, lot_text(lot), "a skin of which something is left", {}};
  return std::nullopt;
}

Outlined outlined(std::optional<endband::Shape> const& shape) {
  if (!shape) return {};
  cutting::Box const box = cutting::box_of(shape->outline);
  return {.measured = true,
          .extent = {{box.top - box.bottom}, {box.right - box.left}},
          .area = {(cutting::twice_area(shape->outline) + 1) / 2},
          .flaws = static_cast<int>(shape->flaws.size())};
}

Outlines outlines_of(db::Workshop& workshop, std::vector<db::LotRow> const& lots) {
  Outlines outlines;
  for (db::LotRow const& lot : lots)
    if (has_outline(lot)) outlines.emplace(lot.id, outlined(db::find_shape(workshop, lot.id)));
  return outlines;
}

std::string outline_words(Outlined const& outline) {
  if (!outline.measured) return "not measured";
  std::string const flaws =
      outline.flaws == 0 ? "" : fmt::format(", {} flaw{}", outline.flaws, outline.flaws == 1 ? "" : "s");
  return fmt::format("{}, {}{}", sheet_words(outline.extent), sold_words(amount(outline.area), SoldBy::skin),
                     flaws);
}

namespace {

Json outline_json(Outlined const& outline) {
  auto const um = [&](Length length) { return outline.measured ? Json(length.n) : Json(); };
  return Json::Object{{"measured", outline.measured},
                      {"height_um", um(outline.extent.first)},
                      {"width_um", um(outline.extent.second)},
                      {"area_um2", outline.measured ? Json(outline.area.n) : Json()},
                      {"flaws", outline.flaws}};
}

}  // namespace

Json lot_and_shape_json(db::LotRow const& lot, Outlines const& outlines) {
  Json::Object all = std::get<Json::Object>(lot_json(lot).value());
  auto const outline = outlines.find(lot.id);
  all.emplace_back("shape", outline == outlines.end() ? Json() : outline_json(outline->second));
  return all;
}

std::optional<AreaApart> area_apart(db::LotRow const& lot, Outlined const& outline) {
  std::int64_t const apart =
      outline.area.n > lot.quantity.n ? outline.area.n - lot.quantity.n : lot.quantity.n - outline.area.n;
  if (!outline.measured || checked_mul(apart, 10) <= lot.quantity.n) return std::nullopt;
  return AreaApart{lot_text(lot), {lot.quantity.n}, outline.area};
}

Json area_apart_json(std::optional<AreaApart> const& apart) {
  if (!apart) return {};
  return Json::Object{{"lot", apart->lot}, {"said_um2", apart->said.n}, {"measured_um2", apart->measured.n}};
}

void add_area_apart(Document& document, std::optional<AreaApart> const& apart) {
  if (!apart) return;
  document.notice(NoticeKind::note,
                  fmt::format("{} is {} as it was said, and {} as it was measured: more than a tenth apart. "
                              "Look at the unit and the corners again; the books keep what was said.",
                              apart->lot, sold_words(amount(apart->said), SoldBy::skin),
                              sold_words(amount(apart->measured), SoldBy::skin)));
}

}  // namespace endband::cli
