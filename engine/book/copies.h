// Several books made as one piece of work: the volumes of a set, and the copies of a book or a set. What is
// done once for all of them is counted once; everything else is counted for each.
#pragma once

#include "engine/book/structure.h"

#include <cstddef>
#include <span>
#include <vector>

namespace endband {

// The description with what one volume of its set says instead. `index` < max(1, volumes); of a description
// without volumes the book itself.
BookSpec volume_of(BookSpec const& set, std::size_t index);
// One for each volume, in their order; one of a description without volumes.
std::vector<Structure> volumes_of(BookSpec const& set, Catalogue const& catalogue);

// The books of a set as one: what each is made of, in the order of the set, and one line of work for each
// operation. Figures, mass and closed size stay those of the first volume; each volume has a frame and a
// parcel of its own. Covers share a skin where the set says so, else each volume has its own.
Structure together(std::span<Structure const> volumes, SetShares shares);

// N copies of a book or a set. Counted once: the setting up of the frame with the cord that it wastes,
// mixtures, and what is done beside the bench for an order (enquiry, proof, photograph, ordering, custody,
// accounts). A parcel is packed and posted for each copy. Mass and closed size stay those of one.
// Throws std::logic_error for less than one copy.
Structure times(Structure one, int copies);

// Is this done once for all the copies and volumes of an order?
bool once_an_order(OperationKind kind);

}  // namespace endband
