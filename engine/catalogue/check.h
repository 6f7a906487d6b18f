// What the checks of a material share; for the .cpp files of this module only.
#pragma once

#include "engine/catalogue/catalogue.h"

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace endband {

class Faults {
 public:
  explicit Faults(Where const& where) : where_(where) {}
  void add(FaultCode code, std::string_view field, std::string found, std::string expected) {
    Where at = where_;
    at.field = field;
    faults_.push_back({code, std::move(at), std::move(found), std::move(expected), {}});
  }
  std::vector<Fault> take() { return std::move(faults_); }

 private:
  Where const& where_;
  std::vector<Fault> faults_;
};

void check_shares(Material const& material, Faults& faults);  // spoil, ruin, charging, an offcut's worth
void check_price(Material const& material, Faults& faults);   // the pack and its price

}  // namespace endband
