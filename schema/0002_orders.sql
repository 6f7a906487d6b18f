-- What a quote keeps beside its first parts: how the book is made, copies and volumes, how work by other hands is
-- priced, the range of repairs, what the customer left. A quote of engine rules 1 has no rows here.

CREATE TABLE quote_way (
  quote INTEGER NOT NULL REFERENCES quote (id),
  position INTEGER NOT NULL,
  axis TEXT NOT NULL,
  way TEXT NOT NULL,
  PRIMARY KEY (quote, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE quote_order (
  quote INTEGER PRIMARY KEY REFERENCES quote (id),
  copies INTEGER NOT NULL CHECK (copies >= 1),
  set_shares TEXT NOT NULL CHECK (set_shares IN ('nothing', 'batch', 'skin'))
) STRICT;

CREATE TABLE quote_volume (
  quote INTEGER NOT NULL REFERENCES quote (id),
  position INTEGER NOT NULL,
  title TEXT NOT NULL,
  height_um INTEGER NOT NULL,
  width_um INTEGER NOT NULL,
  thickness_um INTEGER NOT NULL,
  pages INTEGER NOT NULL,
  sections INTEGER NOT NULL,
  mass_mg INTEGER NOT NULL,
  PRIMARY KEY (quote, position)
) STRICT, WITHOUT ROWID;

-- One copy, those asked for, one more; without carriage.
CREATE TABLE quote_copies (
  quote INTEGER NOT NULL REFERENCES quote (id),
  position INTEGER NOT NULL,
  copies INTEGER NOT NULL CHECK (copies >= 1),
  shown INTEGER NOT NULL,
  cost INTEGER NOT NULL,
  seconds_num INTEGER NOT NULL,
  seconds_den INTEGER NOT NULL CHECK (seconds_den > 0),
  PRIMARY KEY (quote, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE quote_repair (
  quote INTEGER NOT NULL REFERENCES quote (id),
  position INTEGER NOT NULL CHECK (position = 0),
  ceiling_num INTEGER NOT NULL CHECK (ceiling_num >= 0),
  ceiling_den INTEGER NOT NULL CHECK (ceiling_den > 0),
  low INTEGER NOT NULL,
  likely INTEGER NOT NULL,
  high INTEGER NOT NULL,
  ceiling INTEGER NOT NULL CHECK (ceiling >= likely),
  PRIMARY KEY (quote, position)
) STRICT, WITHOUT ROWID;

-- No value of ours: what the customer says that it is worth.
CREATE TABLE quote_custody (
  quote INTEGER NOT NULL REFERENCES quote (id),
  position INTEGER NOT NULL,
  what TEXT NOT NULL,
  condition TEXT NOT NULL,
  declared INTEGER CHECK (declared >= 0),
  PRIMARY KEY (quote, position)
) STRICT, WITHOUT ROWID;

-- Beside the row of quote_outside at the same position: its price is each x quantity, no less than the least
-- charge, and carriage. By the dm2 the quantity is an area.
CREATE TABLE quote_outside_detail (
  quote INTEGER NOT NULL,
  position INTEGER NOT NULL,
  kind TEXT NOT NULL,
  priced_by TEXT NOT NULL,
  supplier TEXT NOT NULL,
  each INTEGER NOT NULL,
  dimension TEXT NOT NULL CHECK (dimension IN ('count', 'area')),
  quantity INTEGER NOT NULL CHECK (quantity >= 0),
  least_charge INTEGER NOT NULL,
  carriage INTEGER NOT NULL,
  redo_num INTEGER NOT NULL CHECK (redo_num >= 0),
  redo_den INTEGER NOT NULL CHECK (redo_den > redo_num),
  lead_s INTEGER NOT NULL CHECK (lead_s >= 0),
  PRIMARY KEY (quote, position),
  FOREIGN KEY (quote, position) REFERENCES quote_outside (quote, position)
) STRICT, WITHOUT ROWID;

-- Beside the row of quote_piece at the same position.
CREATE TABLE quote_piece_detail (
  quote INTEGER NOT NULL,
  position INTEGER NOT NULL,
  lie TEXT NOT NULL,
  within_deg INTEGER NOT NULL,
  grade TEXT NOT NULL,
  outline TEXT NOT NULL,
  trim_height_um INTEGER NOT NULL,
  trim_width_um INTEGER NOT NULL,
  volume INTEGER NOT NULL CHECK (volume >= 0),
  copies INTEGER NOT NULL CHECK (copies >= 1),
  PRIMARY KEY (quote, position),
  FOREIGN KEY (quote, position) REFERENCES quote_piece (quote, position)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER quote_way_stays BEFORE UPDATE ON quote_way BEGIN SELECT RAISE (ABORT, 'quote_way is written once'); END;
CREATE TRIGGER quote_way_kept BEFORE DELETE ON quote_way BEGIN SELECT RAISE (ABORT, 'quote_way is written once'); END;
CREATE TRIGGER quote_order_stays BEFORE UPDATE ON quote_order BEGIN SELECT RAISE (ABORT, 'quote_order is written once'); END;
CREATE TRIGGER quote_order_kept BEFORE DELETE ON quote_order BEGIN SELECT RAISE (ABORT, 'quote_order is written once'); END;
CREATE TRIGGER quote_volume_stays BEFORE UPDATE ON quote_volume BEGIN SELECT RAISE (ABORT, 'quote_volume is written once'); END;
CREATE TRIGGER quote_volume_kept BEFORE DELETE ON quote_volume BEGIN SELECT RAISE (ABORT, 'quote_volume is written once'); END;
CREATE TRIGGER quote_copies_stays BEFORE UPDATE ON quote_copies BEGIN SELECT RAISE (ABORT, 'quote_copies is written once'); END;
CREATE TRIGGER quote_copies_kept BEFORE DELETE ON quote_copies BEGIN SELECT RAISE (ABORT, 'quote_copies is written once'); END;
CREATE TRIGGER quote_repair_stays BEFORE UPDATE ON quote_repair BEGIN SELECT RAISE (ABORT, 'quote_repair is written once'); END;
CREATE TRIGGER quote_repair_kept BEFORE DELETE ON quote_repair BEGIN SELECT RAISE (ABORT, 'quote_repair is written once'); END;
CREATE TRIGGER quote_custody_stays BEFORE UPDATE ON quote_custody BEGIN SELECT RAISE (ABORT, 'quote_custody is written once'); END;
CREATE TRIGGER quote_custody_kept BEFORE DELETE ON quote_custody BEGIN SELECT RAISE (ABORT, 'quote_custody is written once'); END;
CREATE TRIGGER quote_outside_detail_stays BEFORE UPDATE ON quote_outside_detail BEGIN SELECT RAISE (ABORT, 'quote_outside_detail is written once'); END;
CREATE TRIGGER quote_outside_detail_kept BEFORE DELETE ON quote_outside_detail BEGIN SELECT RAISE (ABORT, 'quote_outside_detail is written once'); END;
CREATE TRIGGER quote_piece_detail_stays BEFORE UPDATE ON quote_piece_detail BEGIN SELECT RAISE (ABORT, 'quote_piece_detail is written once'); END;
CREATE TRIGGER quote_piece_detail_kept BEFORE DELETE ON quote_piece_detail BEGIN SELECT RAISE (ABORT, 'quote_piece_detail is written once'); END;

PRAGMA user_version = 2;
