// Enumerators as the stable words that stand in the file. A word that this program does not know was written
// by a newer one or by damage, and is refused by name.
#pragma once

#include "engine/catalogue/catalogue.h"
#include "engine/commission/commission.h"
#include "engine/stock/stock.h"

#include <string>
#include <string_view>

namespace endband::db {

std::string_view word(Dimension dimension);
std::string_view word(MaterialKind kind);
std::string_view word(SoldBy sold_by);
std::string_view word(Charging charging);
std::string_view word(OperationKind operation);
std::string_view word(FigureId figure);
std::string_view word(Origin origin);
std::string_view word(Role role);
std::string_view word(Item item);
std::string_view word(Part part);
std::string_view word(Grain grain);
std::string_view word(WarningCode warning);
std::string_view word(HowFound how);
std::string_view word(CostKind kind);
std::string_view word(Component component);
std::string_view word(TaxMode mode);
std::string_view word(OutsideKind kind);
std::string_view word(OutsideBy by);
std::string_view word(SetShares shares);
std::string_view word(Lie lie);
std::string_view word(Grade grade);
std::string_view word(Outline outline);
std::string_view word(CostFormula formula);
std::string_view word(LotSource source);
std::string_view word(Costed costed);
std::string_view word(MovementKind kind);
std::string_view word(OutletKind kind);
std::string_view word(FeeBase base);
std::string_view word(FeePer per);
std::string_view word(MadeTo made_to);

template <class E>
E from_word(std::string_view text);  // StoreError(not_a_workshop) when there is none; for each type above

}  // namespace endband::db
