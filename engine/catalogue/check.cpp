// What a material must have to be counted with, and what no material has.
#include "engine/catalogue/check.h"

#include <fmt/format.h>

namespace endband {
namespace {

constexpr std::int64_t mm = 1000;  // micrometres
constexpr Length longest{10'000 * mm};

std::string_view example_of(Property property, SoldBy sold_by) {
  switch (property) {
    case Property::caliper: return "its thickness, such as 0.16 mm";
    case Property::grammage: return "the mass of a square metre, such as 120 g/m2";
    case Property::density: return "its density, such as 750 kg/m3";
    case Property::sheet: return "the size of a sheet, such as 640 x 900 mm, the grain along the second side";
    case Property::thread: return "its number and ply, such as 18/3";
    case Property::leaf_side: return "the side of a leaf, such as 80 mm";
    case Property::leaves_a_book: return "how many leaves a book holds, such as 25";
    case Property::usable:
      return "the largest rectangle to count on, such as 700 x 500 mm, the backbone first";
    case Property::usable_share: return "usable area / charged area, such as 65 %";
    case Property::spread:
      return sold_by == SoldBy::volume ? "what a square metre takes, such as 80 ml/m2"
                                       : "what a square metre takes, such as 150 g/m2";
    case Property::solids: return "the share that stays when dry, such as 50 %";
    case Property::piece_mass: return "the mass of one piece, such as 12 g";
    case Property::width: return "its width, such as 10 mm";
    case Property::height: return "its height, such as 60 mm";
    case Property::depth: return "its depth, such as 40 mm";
  }
  return {};
}

// Given, or following from what is given.
bool is_known(Material const& material, Property property) {
  Properties const& given = material.properties;
  switch (property) {
    case Property::grammage: return given.grammage_mg || (given.density_kg_m3 && given.caliper);
    case Property::density: return given.density_kg_m3 || (given.grammage_mg && given.caliper);
    case Property::thread: return given.thread || (given.caliper && material.sold_by != SoldBy::weight);
    case Property::spread:
      return material.sold_by == SoldBy::volume ? given.spread_ul_m2.has_value()
                                                : given.spread_mg_m2.has_value();
    default: return has_property(given, property);
  }
}

void require_known(Material const& material, Property property, Faults& faults) {
  if (!is_known(material, property))
    faults.add(FaultCode::missing_property, property_name(property), "",
               std::string(example_of(property, material.sold_by)));
}

std::string ways_of(KindRow const& row) {
  std::string words;
  for (std::size_t i = 0; i < row.sold_by.size(); ++i) {
    if (i > 0) words += i + 1 == row.sold_by.size() ? " or " : ", ";
    words += sold_by_name(row.sold_by[i]);
  }
  return words;
}

void check_kind(Material const& material, Faults& faults) {
  KindRow const& row = kind_row(material.kind);
  bool goes_together = false;
  for (SoldBy way : row.sold_by) goes_together = goes_together || way == material.sold_by;
  if (!goes_together)
    faults.add(FaultCode::contradiction, "sold-by", std::string(sold_by_name(material.sold_by)),
               fmt::format("{}, as {} is sold", ways_of(row), row.name));
  for (Property need : row.needs) require_known(material, need, faults);
  for (Property need : needs_of(material.sold_by)) require_known(material, need, faults);
  bool const off_a_roll = material.kind == MaterialKind::cloth || material.kind == MaterialKind::linen ||
                          material.kind == MaterialKind::wood_board;
  if (off_a_roll && material.sold_by == SoldBy::length) require_known(material, Property::width, faults);
}

void check_range(Property property, std::int64_t value, std::int64_t least, std::int64_t most,
                 std::string found, std::string expected, Faults& faults) {
  if (value < least || value > most)
    faults.add(FaultCode::out_of_range, property_name(property), std::move(found), std::move(expected));
}

void check_length(Property property, std::optional<Length> value, Length least, Faults& faults) {
  if (value)
    check_range(property, value->n, least.n, longest.n, length_mm(*value) + " mm",
                fmt::format("{} mm to {} mm", length_mm(least), length_mm(longest)), faults);
}

void check_count(Property property, std::optional<std::int64_t> value, std::int64_t least, std::int64_t most,
                 std::int64_t of_unit, std::string_view unit, Faults& faults) {
  if (value)
    check_range(
        property, *value, least, most, fmt::format("{}{}", ratio_text(Ratio(*value, of_unit)), unit),
        fmt::format("{} to {}{}", ratio_text(Ratio(least, of_unit)), ratio_text(Ratio(most, of_unit)), unit),
        faults);
}

void check_part(Property property, std::optional<Ratio> value, Faults& faults) {
  if (value && (*value <= Ratio(0) || *value > Ratio(1)))
    faults.add(FaultCode::out_of_range, property_name(property), percent_text(*value, 1) + " %",
               "more than 0 %, at most 100 %");
}

void check_sizes(Properties const& given, Faults& faults) {
  if (given.caliper)
    check_range(Property::caliper, given.caliper->n, 1000, 100'000'000,
                length_mm(Length{given.caliper->n / 1000}) + " mm", "0.001 mm to 100 mm", faults);
  if (given.sheet) {
    check_length(Property::sheet, given.sheet->first, Length{10 * mm}, faults);
    check_length(Property::sheet, given.sheet->second, Length{10 * mm}, faults);
  }
  if (given.thread && (given.thread->number < 1 || given.thread->number > 1000 || given.thread->ply < 1 ||
                       given.thread->ply > 100))
    faults.add(FaultCode::out_of_range, property_name(Property::thread),
               fmt::format("{}/{}", given.thread->number, given.thread->ply), "1/1 to 1000/100");
  check_length(Property::leaf_side, given.leaf_side, Length{10 * mm}, faults);
  check_length(Property::usable, given.usable_height, Length{10 * mm}, faults);
  check_length(Property::usable, given.usable_width, Length{10 * mm}, faults);
  check_length(Property::width, given.width, Length{mm / 10}, faults);
  check_length(Property::height, given.height, Length{mm / 10}, faults);
  check_length(Property::depth, given.depth, Length{mm / 10}, faults);
}

void check_figures(Properties const& given, Faults& faults) {
  check_count(Property::grammage, given.grammage_mg, 1000, 100'000'000, 1000, " g/m2", faults);
  check_count(Property::density, given.density_kg_m3, 1, 25'000, 1, " kg/m3", faults);
  check_count(Property::leaves_a_book, given.leaves_a_book, 1, 10'000, 1, "", faults);
  check_count(Property::spread, given.spread_mg_m2, 1, 10'000'000, 1000, " g/m2", faults);
  check_count(Property::spread, given.spread_ul_m2, 1, 10'000'000, 1000, " ml/m2", faults);
  if (given.piece_mass)
    check_count(Property::piece_mass, given.piece_mass->n, 1, 100'000'000, 1000, " g", faults);
  check_part(Property::usable_share, given.usable_share, faults);
  check_part(Property::solids, given.solids, faults);
}

}  // namespace

std::vector<Fault> check_material(Material const& material, Where const& where) {
  Faults faults(where);
  check_kind(material, faults);
  check_sizes(material.properties, faults);
  check_figures(material.properties, faults);
  check_shares(material, faults);
  if (material.price) check_price(material, faults);
  return faults.take();
}

}  // namespace endband
