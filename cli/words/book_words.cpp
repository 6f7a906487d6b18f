#include "cli/words/book_words.h"

#include <fmt/format.h>

#include <array>

namespace endband::cli {
namespace {

std::string trimmed(double value, int decimals) {
  std::string text = fmt::format("{:.{}f}", value, decimals);
  if (text.find('.') == std::string::npos) return text;
  while (text.ends_with('0')) text.pop_back();
  if (text.ends_with('.')) text.pop_back();
  return text == "-0" ? "0" : text;
}

std::string mm(double value) { return trimmed(value, 2) + " mm"; }

std::string between(Warning const& warning) {
  return fmt::format("usual is {} to {}", mm(warning.least), mm(warning.most));
}

std::string count(double value) { return trimmed(value, 1); }

// Swell against what the round needs.
std::string swell_warning(Warning const& warning) {
  std::string const is = fmt::format("the swell is {}", mm(warning.is));
  if (warning.code == WarningCode::swell_too_great)
    return fmt::format(
        "Too much swell: {}, and more than {} makes an unsound back. Thinner thread, fewer and "
        "thicker sections.",
        is, mm(warning.most));
  if (warning.code == WarningCode::will_not_back)
    return fmt::format(
        "This will not back: {}, and the shoulders alone need {}. Thicker thread, more and thinner "
        "sections, or a smaller round.",
        is, mm(warning.least));
  return fmt::format(
      "Little swell for this round: {}, and half the round needs {}. Thicker thread, more and thinner "
      "sections, or a smaller round.",
      is, mm(warning.least));
}

}  // namespace

std::string_view unit_name(Unit unit) {
  switch (unit) {
    case Unit::mm: return "mm";
    case Unit::mm2: return "mm2";
    case Unit::count: return "count";
    case Unit::share: return "share";
    case Unit::degree: return "degree";
    case Unit::gram: return "g";
    case Unit::gram_m2: return "g/m2";
    case Unit::yes_no: return "yes-no";
    case Unit::tex: return "tex";
    case Unit::kg_m3: return "kg/m3";
  }
  return "";
}

std::string figure_words(FigureId id, double value) {
  switch (figure_row(id).unit) {
    case Unit::mm: return value >= 10000 ? trimmed(value / 1000, 2) + " m" : mm(value);
    case Unit::mm2: return trimmed(value / 100, 1) + " cm2";
    case Unit::count: return trimmed(value, 3);
    case Unit::share: return trimmed(value * 100, 2) + " %";
    case Unit::degree: return trimmed(value, 1) + " deg";
    case Unit::gram: return trimmed(value, 1) + " g";
    case Unit::gram_m2: return trimmed(value, 1) + " g/m2";
    case Unit::yes_no: return value != 0 ? "yes" : "no";
    case Unit::tex: return trimmed(value, 1) + " tex";
    case Unit::kg_m3: return trimmed(value, 1) + " kg/m3";
  }
  return {};
}

std::string_view grain_words(Grain grain) {
  switch (grain) {
    case Grain::any: return "either";
    case Grain::along_height: return "head to tail";
    case Grain::along_width: return "across";
  }
  return "";
}

Material const* material_of(std::span<Material const> materials, MaterialId id) {
  for (Material const& material : materials)
    if (material.id == id) return &material;
  return nullptr;
}

std::string material_name(std::span<Material const> materials, MaterialId id) {
  Material const* material = material_of(materials, id);
  return material == nullptr ? fmt::format("material {}", id.value) : material->name;
}

// A code point as UTF-8.
std::string letter_text(double code_point) {
  auto const c = static_cast<unsigned>(code_point);
  auto const tail = [c](unsigned shift) { return static_cast<char>(0x80U | ((c >> shift) & 0x3FU)); };
  if (c < 0x80) return {static_cast<char>(c)};
  if (c < 0x800) return {static_cast<char>(0xC0U | (c >> 6U)), tail(0)};
  if (c < 0x10000) return {static_cast<char>(0xE0U | (c >> 12U)), tail(6), tail(0)};
  return {static_cast<char>(0xF0U | (c >> 18U)), tail(12), tail(6), tail(0)};
}

std::string warning_words(Warning const& warning, std::span<Material const> materials) {
  auto const it = [&] { return material_name(materials, warning.material); };
  switch (warning.code) {
    case WarningCode::grain_across:
      return fmt::format("Grain runs across the book in {}: it will not open well and may warp.", it());
    case WarningCode::creep_over_trim:
      return fmt::format("The sections creep more than is trimmed off the fore-edge: trimmed {}, creep {}.",
                         mm(warning.is), mm(warning.least));
    case WarningCode::short_last_section:
      return fmt::format("The last section has {} of {} sheets.", count(warning.is), count(warning.least));
    case WarningCode::swell_too_great:
    case WarningCode::swell_too_small:
    case WarningCode::will_not_back: return swell_warning(warning);
    case WarningCode::thin_leather:
      return fmt::format("Thin leather for a heavy book: {}, at least {} for more than a kilogram.",
                         mm(warning.is), mm(warning.least));
    case WarningCode::register_short:
      return fmt::format("The register is short: {}, and {} would stand out enough to be found.",
                         mm(warning.is), mm(warning.least));
    case WarningCode::not_for_brass:
      return fmt::format("{} attacks brass and copper: not for these corners.", it());
    case WarningCode::leaf_tarnishes: return fmt::format("{} is not gold and darkens in time.", it());
    case WarningCode::restricted_material:
      return fmt::format("{} needs papers when it crosses some borders.", it());
    case WarningCode::square_unusual:
      return fmt::format("Unusual squares: {}, {}.", mm(warning.is), between(warning));
    case WarningCode::turn_in_unusual:
      return fmt::format("Unusual turn-ins: {}, {}.", mm(warning.is), between(warning));
    case WarningCode::bands_unusual:
      return fmt::format("An unusual number of bands: {}, usual is {} to {}.", count(warning.is),
                         count(warning.least), count(warning.most));
    case WarningCode::section_unusual:
      return fmt::format("Unusual sections: as thick as {} folios, usual is {} to {}.", count(warning.is),
                         count(warning.least), count(warning.most));
    case WarningCode::customer_piece_cannot_be_replaced:
      return fmt::format("{} comes from the customer and cannot be replaced if it is spoiled.", it());
    case WarningCode::carton_too_small:
      return fmt::format("The book does not go into {} with its padding.", it());
    case WarningCode::letter_missing:
      return fmt::format("The fount has {} of the letter {}, and {} are needed at once.", count(warning.is),
                         letter_text(warning.most), count(warning.least));
    case WarningCode::endband_too_high:
      return fmt::format("The endbands stand out over the boards: {} high, the square is {}.", mm(warning.is),
                         mm(warning.most));
  }
  return {};
}

std::string work_line_words(WorkLine const& line) {
  return line.words.empty() ? std::string(operation_row(line.kind).what) : line.words;
}

std::string cost_line_words(FrozenQuote const& quote, CostLine const& line) {
  auto const source = static_cast<std::size_t>(line.source < 0 ? 0 : line.source);
  switch (line.kind) {
    case CostKind::material: return material_name(quote.materials, quote.bill.lines.at(source).material);
    case CostKind::labour: return work_line_words(quote.work.lines.at(source));
    case CostKind::overhead: return "overhead of all hours";
    case CostKind::outside: return quote.outside.at(source).words;
    case CostKind::ruin:
      return "allowance for a ruined piece of " +
             material_name(quote.materials, quote.bill.lines.at(source).material);
    case CostKind::contingency: return "contingency";
    case CostKind::redo: return "allowance to have it done again: " + quote.outside.at(source).words;
    case CostKind::overtime: return "overtime";
  }
  return {};
}

std::string_view rung_words(std::size_t rung) {
  static constexpr std::array<std::string_view, 5> words{"Cash floor", "Walk away below", "Full cost",
                                                         "Target", "Asked"};
  return words.at(rung);
}

}  // namespace endband::cli
