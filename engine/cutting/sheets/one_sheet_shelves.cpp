#include "engine/cutting/sheets/one_sheet_shelves.h"

#include <algorithm>

namespace endband::cutting::one_sheet {

namespace {

__extension__ using Wide = __int128;

struct Lay {
  int want = 0;
  bool turned = false;
  std::int64_t along = 0, deep = 0, value = 0;  // along the shelf, and out of it
};
struct Column {
  Lay lay;
  std::int64_t pieces = 0;
};
struct Shelf {
  std::vector<Column> columns;
  std::int64_t deep = 0, value = 0;
};

class Shelves {
 public:
  Shelves(Task const& task, bool upright) : task_(task), upright_(upright) {
    for (std::size_t i = 0; i < task.wants.size(); ++i) {
      left_.push_back(task.wants[i].copies);
      for (bool const turned : {false, true}) {
        if (turned && !task.wants[i].turns) continue;
        int const want = static_cast<int>(i);
        Block const block = piece_block(task.wants[i], want, turned);
        if (block.width > task.width || block.height > task.height) continue;
        lays_.push_back({want, turned, upright ? block.height : block.width,
                         upright ? block.width : block.height, task.wants[i].value});
      }
    }
    std::stable_sort(lays_.begin(), lays_.end(), [](Lay const& a, Lay const& b) {
      return a.value * (static_cast<Wide>(b.along) * b.deep) >
             b.value * (static_cast<Wide>(a.along) * a.deep);
    });
  }

  std::int64_t run(Tree& tree) {
    std::int64_t room = upright_ ? task_.width : task_.height, value = 0;
    while (true) {
      Shelf best;
      for (Lay const& lay : lays_) {
        if (lay.deep > room || left_[static_cast<std::size_t>(lay.want)] <= 0) continue;
        Shelf shelf = filled(lay.deep);
        if (best.deep == 0 ||
            static_cast<Wide>(shelf.value) * best.deep > static_cast<Wide>(best.value) * shelf.deep)
          best = std::move(shelf);
      }
      if (best.deep == 0) return value;
      tree.root = join(tree, tree.root, take(tree, best), !upright_);
      room -= best.deep;
      value += best.value;
    }
  }

 private:
  Shelf filled(std::int64_t deep) const {
    Shelf shelf;
    shelf.deep = deep;
    std::int64_t room = upright_ ? task_.height : task_.width;
    std::vector<std::int64_t> left = left_;
    for (Lay const& lay : lays_) {
      std::int64_t& copies = left[static_cast<std::size_t>(lay.want)];
      for (std::int64_t const high = deep / lay.deep; high > 0 && copies > 0 && lay.along <= room;
           room -= lay.along) {
        std::int64_t const pieces = std::min(copies, high);
        copies -= pieces;
        shelf.value += pieces * lay.value;
        shelf.columns.push_back({lay, pieces});
      }
    }
    return shelf;
  }

  int take(Tree& tree, Shelf const& shelf) {
    int row = -1;
    for (Column const& column : shelf.columns) {
      auto const want = static_cast<std::size_t>(column.lay.want);
      left_[want] -= column.pieces;
      int stack = -1;
      for (std::int64_t i = 0; i < column.pieces; ++i) {
        tree.blocks.push_back(piece_block(task_.wants[want], column.lay.want, column.lay.turned));
        stack = join(tree, stack, static_cast<int>(tree.blocks.size()) - 1, !upright_);
      }
      row = join(tree, row, stack, upright_);
    }
    return row;
  }

  Task const& task_;
  bool upright_;
  std::vector<Lay> lays_;
  std::vector<std::int64_t> left_;
};

}  // namespace

Tree shelves(Task const& task) {
  Tree across, upright;
  std::int64_t const across_value = Shelves(task, false).run(across);
  return across_value >= Shelves(task, true).run(upright) ? across : upright;
}

}  // namespace endband::cutting::one_sheet
