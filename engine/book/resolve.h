// What the steps of resolve share. Private to engine/book.
#pragma once

#include "engine/book/resolve_layers.h"
#include "engine/book/resolve_parts.h"

#include <span>
#include <vector>

namespace endband {

struct Resolving {
  Layers const& layers;
  Parts const& parts;
  Catalogue const& catalogue;
  BookSpec& spec;
  std::vector<Fault>& faults;

  void fault(FaultCode code, Where where, std::string found, std::string expected,
             std::vector<std::string> near = {});
  // Of a value that stands at `where`; the material must be of one of `kinds`, or any when there are none.
  // nullptr: faulted.
  Material const* find(std::string_view code, std::span<MaterialKind const> kinds, Where const& where);
};

// A number of a value, in the unit of figures: mm, degrees, kg/m3, 0 or 1.
double number_of(ValueType type, Value const& value);

// Each fills its part of the spec and adds its faults.
void resolve_materials(Resolving& to);
void resolve_figures(Resolving& to);
void resolve_lists(Resolving& to);
void resolve_endbands(Resolving& to);   // the pattern of their silks
void resolve_finishing(Resolving& to);  // lettering, and whether leaf is used
void resolve_insets(Resolving& to);
void resolve_furniture(Resolving& to);
void resolve_outside(Resolving& to);
void resolve_repairs(Resolving& to);                 // and what is left in custody
bool volumes_say_their_pages(Layers const& layers);  // there are some, and each says its own
void resolve_order(Resolving& to);                   // copies, and the volumes of a set
// Has a book of these ways a use for the value of a key that comes from `origin`?
bool has_use(std::size_t key_index, Ways ways, Origin origin);
void check_use(Resolving& to);  // what is said and has none
// What holds between figures and materials: nothing may be cut to less than nothing.
void check_together(Resolving& to);
void check_limits(Resolving& to);  // what a bench can fold and sew
void check_insets(Resolving& to);
void check_covering(Resolving& to);
void check_volumes(Resolving& to);  // the same of each volume of a set

}  // namespace endband
