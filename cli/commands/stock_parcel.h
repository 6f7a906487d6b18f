// A parcel as the command line says it: its lines, and the terms that all of them share.
#pragma once

#include "cli/command/args.h"
#include "db/stock.h"
#include "engine/catalogue/catalogue.h"

#include <string>
#include <string_view>
#include <vector>

namespace endband::cli {

std::vector<Flag> parcel_flags();

struct SaidParcel {
  db::Parcel parcel;
  std::vector<Material> materials;  // of each line, as of the day
};
// All faults of the flags and of all lines at once. A supplier that is not said is the one whose prices are
// in force for every line, when that is one.
Read<SaidParcel> parcel_said(db::Workshop& workshop, Args const& args, Date on);

}  // namespace endband::cli
