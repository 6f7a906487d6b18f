// What tests of the store share: a folder of their own, a workshop in it, and a few materials.
#pragma once

#include "db/customers.h"
#include "db/materials.h"
#include "db/settings.h"
#include "db/steps.h"
#include "db/workshop.h"

#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <stdexcept>
#include <string>
#include <string_view>

namespace endband::db::test {

class Folder {
 public:
  // In memory where there is such a place: a test waits for no disk.
  Folder()
      : path_((std::filesystem::is_directory("/dev/shm") ? std::filesystem::path("/dev/shm")
                                                         : std::filesystem::temp_directory_path()) /
              "endband-test-XXXXXX") {
    if (::mkdtemp(path_.data()) == nullptr) throw std::runtime_error("no folder for a test");
  }
  ~Folder() { std::filesystem::remove_all(path_); }
  Folder(Folder const&) = delete;
  Folder& operator=(Folder const&) = delete;
  std::string file(std::string_view name) const { return path_ + "/" + std::string(name); }
  std::string const& path() const { return path_; }

 private:
  std::string path_;
};

inline Date day(std::string_view text) { return read_date(text).value(); }
inline Currency euro() { return read_currency("EUR").value(); }
inline Money eur(std::int64_t cents) { return {cents, euro()}; }
inline EntryInfo info(std::string command = "a test", std::string_view on = "2026-11-25") {
  return {0, "2026-11-25T09:10:05Z", day(on), std::move(command), "endband test"};
}

inline Workshop new_workshop(std::string const& path) {
  return Workshop::create(path, euro(), "Alder Lane Bindery", "2026-11-25T09:10:05Z", day("2026-11-25"))
      .value();
}

// Runs `change(writing)` in one committed entry and gives what it gives.
template <class Change>
auto write(Workshop& workshop, Change&& change) {
  Writing writing(workshop, info());
  auto result = change(writing);
  writing.commit();
  return result;
}

inline void set_all(Workshop& workshop,
                    std::initializer_list<std::pair<std::string_view, std::string_view>> values,
                    std::string_view from = "2026-01-01") {
  Writing writing(workshop, info());
  for (auto const& [name, value] : values) {
    Setting setting = check_setting(workshop, name, value).value();
    setting.valid_from = day(from);
    set(writing, setting);
  }
  writing.commit();
}

inline Material paper(std::string code) {
  Material material;
  material.code = std::move(code);
  material.name = "Laid paper, 120 g/m²";
  material.buyer_words = "laid paper";
  material.kind = MaterialKind::paper;
  material.sold_by = SoldBy::sheet;
  material.properties.caliper = Thickness{160'000};
  material.properties.grammage_mg = 120'000;
  material.properties.sheet = SheetSize{{640'000}, {900'000}};
  material.spoil = Ratio(5, 100);
  material.least_spoil = {Dimension::count, 2000};
  return material;
}

inline PackPrice pack_of_sheets(std::int64_t sheets, std::int64_t cents, std::string_view from) {
  PackPrice price;
  price.valid_from = day(from);
  price.pack = {Dimension::count, sheets * 1000};
  price.price = price.said = eur(cents);
  price.carriage = eur(0);
  price.purchase_tax = Ratio(19, 100);
  price.supplier = "Harrow Paper Store";
  return price;
}

}  // namespace endband::db::test
