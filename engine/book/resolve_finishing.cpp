// Lettering, and metal leaf that is named and not used.
#include "engine/book/lettering.h"
#include "engine/book/resolve.h"

#include <fmt/format.h>

namespace endband {
namespace {

bool said(Hit const& hit) { return hit && hit.origin == Origin::said; }

void refuse(Resolving& to, std::size_t index, std::string_view expected) {
  Hit const& hit = to.layers[index];
  to.fault(FaultCode::contradiction, hit.entry->where,
           value_text(key_table::rows[index].row.type, hit.entry->value), std::string(expected));
}

// The words' own breaks decide; a number that is said beside them must be theirs.
void resolve_lines_of_lettering(Resolving& to, Hit const& words) {
  Hit const& lines = to.layers[key("lettering.lines")];
  double const wanted = lines ? number_of(ValueType::count, lines.entry->value) : 1;
  if (auto const own = own_lines(to.spec.letters)) {
    if (lines && lines.layer <= words.layer && wanted != *own)
      refuse(to, key("lettering.lines"), fmt::format("{}, as \"{}\" has them", *own, to.spec.letters));
    to.spec.given.set(FigureId::letter_lines, *own, words.origin);
    return;
  }
  auto const most = static_cast<double>(words_of(to.spec.letters));
  if (wanted > most) refuse(to, key("lettering.lines"), fmt::format("at most {:g}, for as many words", most));
}

void resolve_lettering(Resolving& to) {
  if (!to.parts.has(Part::lettering)) return;
  Hit words = to.layers[key("lettering.words")];
  if (!words) words = to.layers[key("title")];
  if (!words) {
    to.fault(FaultCode::missing_key, {to.layers.source(), 0, 0, "lettering.words"}, {},
             "words = \"...\" in [lettering], or a title");
    return;
  }
  to.spec.letters = std::get<std::string>(words.entry->value);
  to.spec.given.set(FigureId::letters, static_cast<double>(letters_of(to.spec.letters)), words.origin);
  resolve_lines_of_lettering(to, words);
  if (Hit const& fount = to.layers[key("lettering.fount")])
    to.spec.fount = std::get<std::string>(fount.entry->value);
  Hit const& kind = to.layers[key("lettering.kind")];
  bool const leaf = kind && std::get<std::string>(kind.entry->value) == "leaf";
  to.spec.lettering_kind = leaf ? LineKind::leaf : LineKind::blind;
  if (leaf) return;
  if (said(to.layers[key("lettering.layers")]))
    refuse(to, key("lettering.layers"), "lettering.kind = \"leaf\", or no layers");
  to.spec.given.set(FigureId::letter_layers, 0, kind ? kind.origin : Origin::practice);
}

// A habit of the workshop waits for a book that needs it; what is said of this book is meant for it.
void check_leaf_is_used(Resolving& to) {
  if (wanted(Role::metal_leaf, to.layers, to.parts) != MaterialWanted::no) return;
  for (std::size_t const index : {key("finishing.leaf"), key("finishing.size"), key("finishing.varnish")})
    if (said(to.layers[index]))
      refuse(to, index,
             "lines or lettering of kind = \"leaf\", or edges.kind = \"gilt\": nothing here takes leaf");
}

}  // namespace

void resolve_finishing(Resolving& to) {
  resolve_lettering(to);
  check_leaf_is_used(to);
}

}  // namespace endband
