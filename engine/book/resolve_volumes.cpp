// How many are made, and the volumes of a set: what each says in place of the description.
#include "engine/book/copies.h"
#include "engine/book/lettering.h"
#include "engine/book/resolve.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace endband {
namespace {

using F = FigureId;

std::string field(std::size_t volume, std::size_t index) {
  std::string path(path_of(index));
  path.replace(path.find("[]"), 2, fmt::format("[{}]", volume + 1));
  return path;
}

double value_of(Entry const& entry, std::size_t index) {
  return number_of(key_table::rows[index].row.type, entry.value);
}

class VolumeRow {
 public:
  VolumeRow(Resolving& to, Row const& row, std::size_t place) : to_(to), row_(row), place_(place) {
    volume_.where = row.where;
  }

  SetVolume read() && {
    if (Entry const* const title = row_.find(key("volumes[].title"))) take_title(*title);
    if (to_.layers.flag(key("text.given")))
      take_given_block();
    else
      take_made_block();
    if (Entry const* const thickness = row_.find(key("volumes[].thickness")))
      say(F::block_thickness, value_of(*thickness, key("volumes[].thickness")));
    return std::move(volume_);
  }

 private:
  // A volume that is lettered with the title of the book is lettered with its own.
  void take_title(Entry const& title) {
    volume_.title = std::get<std::string>(title.value);
    bool const by_title = to_.parts.has(Part::lettering) && !to_.layers[key("lettering.words")];
    if (by_title) say(F::letters, static_cast<double>(letters_of(volume_.title)));
  }

  // What a customer's block holds is counted.
  void take_given_block() {
    if (Entry const* const pages = row_.find(key("volumes[].pages")))
      say(F::pages, value_of(*pages, key("volumes[].pages")));
    if (Entry const* const sheets = row_.find(key("volumes[].sheets")))
      refuse(*sheets, key("volumes[].sheets"),
             "no such key: a given block is measured, by thickness and sections");
    if (Entry const* const sections = row_.find(key("volumes[].sections")))
      say(F::sections, value_of(*sections, key("volumes[].sections")));
  }

  // Pages, sheets and sections each fix the number of sheets: one of them will do.
  void take_made_block() {
    static constexpr std::array counts{key("volumes[].pages"), key("volumes[].sheets"),
                                       key("volumes[].sections")};
    Entry const* said = nullptr;
    std::size_t which = 0;
    for (std::size_t const index : counts) {
      Entry const* const entry = row_.find(index);
      if (entry == nullptr) continue;
      if (said != nullptr) {
        refuse(*entry, index, fmt::format("{} alone", path_of(which).substr(path_of(which).rfind('.') + 1)));
        continue;
      }
      said = entry;
      which = index;
    }
    if (said == nullptr) return;
    double const count = value_of(*said, which);
    if (which == key("volumes[].pages")) return say(F::pages_wanted, count);
    if (which == key("volumes[].sheets")) return say(F::sheets, count);
    Hit const& in_section = to_.layers[key("text.sheets_per_section")];
    if (!in_section) return refuse(*said, which, "sheets_per_section in [text], or pages or sheets");
    say(F::sections, count);
    say(F::sheets, count * number_of(ValueType::count, in_section.entry->value));
  }

  void say(F id, double value) { volume_.said.set(id, value, Origin::said); }

  void refuse(Entry const& entry, std::size_t index, std::string expected) {
    Where where = entry.where;
    where.field = field(place_, index);
    to_.fault(FaultCode::contradiction, std::move(where),
              value_text(key_table::rows[index].row.type, entry.value), std::move(expected));
  }

  Resolving& to_;
  Row const& row_;
  std::size_t place_;
  SetVolume volume_;
};

// In the order of its enum.
constexpr std::array<std::string_view, 3> shares_names{"nothing", "batch", "skin"};

SetShares shares_of(Layers const& layers) {
  Hit const& hit = layers[key("set.same")];
  if (!hit) return SetShares::nothing;
  auto const& name = std::get<std::string>(hit.entry->value);
  auto const said = std::find(shares_names.begin(), shares_names.end(), name);
  return static_cast<SetShares>(said - shares_names.begin());  // the reader lets no other word through
}

bool says_its_pages(Row const& row) {
  return row.find(key("volumes[].pages")) != nullptr || row.find(key("volumes[].sheets")) != nullptr ||
         row.find(key("volumes[].sections")) != nullptr;
}

// A description that leaves the pages to its volumes has those of the first.
void take_pages_of_first(Resolving& to) {
  Layers const& layers = to.layers;
  if (layers[key("pages")] || layers[key("text.sheets")] || layers[key("text.sections")]) return;
  if (!layers.flag(key("text.given")) && volumes_say_their_pages(layers))
    to.spec.given = volume_of(to.spec, 0).given;
}

}  // namespace

bool volumes_say_their_pages(Layers const& layers) {
  std::vector<Row> const& rows = layers.rows("volumes").rows;
  return !rows.empty() && std::all_of(rows.begin(), rows.end(), says_its_pages);
}

std::string_view set_shares_name(SetShares shares) {
  return shares_names.at(static_cast<std::size_t>(shares));
}

void resolve_order(Resolving& to) {
  if (Hit const& copies = to.layers[key("copies")])
    to.spec.copies = static_cast<int>(std::get<std::int64_t>(copies.entry->value));
  if (to.spec.copies > 1 && to.layers.flag(key("text.given")))
    to.fault(FaultCode::contradiction, to.layers[key("copies")].entry->where,
             fmt::format("copies = {}", to.spec.copies),
             "copies = 1: the text block that the customer brings is there once; several are [[volumes]]");
  to.spec.set_shares = shares_of(to.layers);
  std::vector<Row> const& rows = to.layers.rows("volumes").rows;
  if (Hit const& same = to.layers[key("set.same")]; same && rows.empty() && same.origin == Origin::said)
    to.fault(FaultCode::contradiction, same.entry->where, std::get<std::string>(same.entry->value),
             "[[volumes]] of the set, or no such key");
  for (std::size_t i = 0; i < rows.size(); ++i) to.spec.volumes.push_back(VolumeRow(to, rows[i], i).read());
  take_pages_of_first(to);
}

// Each volume must hold together as the book does; what is wrong with one is told where the volume stands.
void check_volumes(Resolving& to) {
  for (std::size_t i = 0; i < to.spec.volumes.size(); ++i) {
    BookSpec volume = volume_of(to.spec, i);
    std::vector<Fault> faults;
    Resolving one{to.layers, to.parts, to.catalogue, volume, faults};
    check_together(one);
    for (Fault& fault : faults) {
      fault.where = to.spec.volumes[i].where;
      fault.where.field = fmt::format("volumes[{}]", i + 1);
      to.faults.push_back(std::move(fault));
    }
  }
}

}  // namespace endband
