-- The shelf and the jobs: lots, what moves in and out of them, what is reserved, and what a job really took.
--
-- Movements are written once; a wrong one is answered by a counter-movement that names it in `undoes`. The tables
-- lot_state, shelf and reserved hold what the rows above them sum to: triggers keep them, nothing else writes them, and
-- `workshop check` sums anew. A CHECK there refuses to take more than there is.

-- How a material is bought and how long it keeps; feeds no quote. A quantity is in the material's dimension.
CREATE TABLE supply_version (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  material INTEGER NOT NULL REFERENCES material (id),
  valid_from TEXT NOT NULL CHECK (valid_from IS date(valid_from)),
  reorder_at INTEGER CHECK (reorder_at >= 0),
  order_size INTEGER CHECK (order_size > 0),
  lead_days INTEGER CHECK (lead_days >= 0),
  keeps_days INTEGER CHECK (keeps_days >= 0),
  keeps_opened_days INTEGER CHECK (keeps_opened_days >= 0),
  entry INTEGER NOT NULL REFERENCES entry (seq)
) STRICT;
CREATE INDEX supply_in_force ON supply_version (material, valid_from);

-- One parcel of a supplier: what all its lines share.
CREATE TABLE delivery (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  on_date TEXT NOT NULL CHECK (on_date IS date(on_date)),
  supplier TEXT NOT NULL,
  currency TEXT NOT NULL CHECK (currency GLOB '[A-Z][A-Z][A-Z]'),
  rate_num INTEGER NOT NULL CHECK (rate_num > 0),
  rate_den INTEGER NOT NULL CHECK (rate_den > 0),
  carriage INTEGER NOT NULL CHECK (carriage >= 0),
  duty_num INTEGER NOT NULL CHECK (duty_num >= 0),
  duty_den INTEGER NOT NULL CHECK (duty_den > 0),
  purchase_tax_num INTEGER NOT NULL CHECK (purchase_tax_num >= 0),
  purchase_tax_den INTEGER NOT NULL CHECK (purchase_tax_den > 0),
  tax_recovered_num INTEGER NOT NULL CHECK (tax_recovered_num >= 0),
  tax_recovered_den INTEGER NOT NULL CHECK (tax_recovered_den > 0),
  entry INTEGER NOT NULL REFERENCES entry (seq)
) STRICT;

-- L12 is a lot of goods that are alike, K3 a single item: a skin, or an offcut of one.
-- costed: at its own cost, or at the average of its material's pool. In custody: not the workshop's, worth nothing
-- here. An offcut's parent is the lot that it was cut from; one of a customer's goods stays the customer's. `job`: bought
-- for it, and serves no other until it ends.
CREATE TABLE lot (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  mark TEXT NOT NULL CHECK (mark IN ('L', 'K')),
  number INTEGER NOT NULL CHECK (number >= 1),
  material INTEGER NOT NULL REFERENCES material (id),
  dimension TEXT NOT NULL CHECK (dimension IN ('length', 'area', 'mass', 'volume', 'count', 'duration')),
  source TEXT NOT NULL CHECK (source IN ('received', 'opening', 'found', 'kept', 'custody')),
  costed TEXT NOT NULL CHECK (costed IN ('own', 'pool')),
  on_date TEXT NOT NULL CHECK (on_date IS date(on_date)),
  delivery INTEGER REFERENCES delivery (id),
  parent INTEGER REFERENCES lot (id),
  owner INTEGER REFERENCES customer (id),
  job INTEGER REFERENCES job (id),
  said TEXT NOT NULL,
  said_price INTEGER NOT NULL CHECK (said_price >= 0),
  price INTEGER NOT NULL CHECK (price >= 0),
  carriage INTEGER NOT NULL CHECK (carriage >= 0),
  duty INTEGER NOT NULL CHECK (duty >= 0),
  tax INTEGER NOT NULL CHECK (tax >= 0),
  tax_borne INTEGER NOT NULL CHECK (tax_borne >= 0 AND tax_borne <= tax),
  height_um INTEGER CHECK (height_um > 0),
  width_um INTEGER CHECK (width_um > 0),
  thickness_nm INTEGER CHECK (thickness_nm > 0),
  batch TEXT NOT NULL,
  shade TEXT NOT NULL,
  entry INTEGER NOT NULL REFERENCES entry (seq),
  UNIQUE (mark, number),
  CHECK ((source = 'custody') = (owner IS NOT NULL)),
  CHECK (parent IS NOT NULL OR source <> 'kept'),
  CHECK (parent IS NULL OR source IN ('kept', 'custody')),
  CHECK ((height_um IS NULL) = (width_um IS NULL)),
  CHECK (costed = 'own' OR source NOT IN ('kept', 'custody') AND job IS NULL AND mark = 'L')
) STRICT;
CREATE INDEX lot_of_material ON lot (material);
CREATE INDEX lot_of_parent ON lot (parent) WHERE parent IS NOT NULL;

-- What may change about a lot; the latest row of a fact stands. An empty value takes it away.
CREATE TABLE lot_fact (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  lot INTEGER NOT NULL REFERENCES lot (id),
  fact TEXT NOT NULL CHECK (fact IN ('place', 'opened-on', 'keeps-until', 'note', 'shape')),
  value TEXT NOT NULL,
  entry INTEGER NOT NULL REFERENCES entry (seq)
) STRICT;
CREATE INDEX lot_fact_of ON lot_fact (lot, fact);

-- Into the lot positive, out of it negative, quantity and value alike. For each lot (and, where the average is
-- used, for each pool in value)
--   opening + received + found = used + cut away + spoiled + scrapped + missing + written down - kept + on hand
-- where what a job gave back counts against what it used, and `kept` is an offcut that goes on the shelf again.
CREATE TABLE movement (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  on_date TEXT NOT NULL CHECK (on_date IS date(on_date)),
  lot INTEGER NOT NULL REFERENCES lot (id),
  material INTEGER NOT NULL REFERENCES material (id),
  kind TEXT NOT NULL CHECK (kind IN ('opening', 'received', 'found', 'used', 'cut-away', 'spoiled', 'kept', 'scrapped', 'missing',
                                     'written-down', 'custody', 'given-back')),
  quantity INTEGER NOT NULL,
  value INTEGER NOT NULL,
  job INTEGER REFERENCES job (id),
  reason TEXT NOT NULL,
  undoes INTEGER REFERENCES movement (id) CHECK (undoes < id),
  entry INTEGER NOT NULL REFERENCES entry (seq),
  CHECK ((quantity = 0) = (kind = 'written-down')),
  CHECK (quantity >= 0 AND value >= 0 OR quantity <= 0 AND value <= 0),
  CHECK (undoes IS NOT NULL OR kind IN ('used', 'cut-away', 'spoiled') OR
         (quantity > 0) = (kind IN ('opening', 'received', 'found', 'kept', 'custody'))),
  CHECK (kind NOT IN ('used', 'cut-away', 'spoiled', 'kept') OR job IS NOT NULL)
) STRICT;
-- Most rows undo nothing, and need no place in it.
CREATE UNIQUE INDEX movement_undone ON movement (undoes) WHERE undoes IS NOT NULL;
-- In the order of the days, which is that of the rows.
CREATE INDEX movement_of_lot ON movement (lot, on_date);
CREATE INDEX movement_of_job ON movement (job) WHERE job IS NOT NULL;
CREATE INDEX movement_of_material ON movement (material, on_date);
CREATE INDEX movement_of_entry ON movement (entry);

CREATE TABLE lot_state (
  lot INTEGER PRIMARY KEY REFERENCES lot (id),
  material INTEGER NOT NULL REFERENCES material (id),
  quantity INTEGER NOT NULL CHECK (quantity >= 0),
  value INTEGER NOT NULL CHECK (value >= 0),
  moved_on TEXT NOT NULL
) STRICT;
CREATE INDEX lot_open ON lot_state (material, lot) WHERE quantity > 0;

-- The workshop's own goods of a material; `pooled` those at the average, which moved last on `pooled_on`; `reserved`
-- what all jobs have set aside.
CREATE TABLE shelf (
  material INTEGER PRIMARY KEY REFERENCES material (id),
  quantity INTEGER NOT NULL CHECK (quantity >= 0),
  value INTEGER NOT NULL CHECK (value >= 0),
  pooled INTEGER NOT NULL CHECK (pooled >= 0),
  pooled_value INTEGER NOT NULL CHECK (pooled_value >= 0),
  pooled_on TEXT,
  reserved INTEGER NOT NULL CHECK (reserved >= 0)
) STRICT;

CREATE TRIGGER lot_begins AFTER INSERT ON lot BEGIN
  INSERT INTO lot_state (lot, material, quantity, value, moved_on) VALUES (NEW.id, NEW.material, 0, 0, NEW.on_date);
  INSERT INTO shelf (material, quantity, value, pooled, pooled_value, reserved) VALUES (NEW.material, 0, 0, 0, 0, 0)
    ON CONFLICT DO NOTHING;
END;
CREATE TRIGGER movement_own AFTER INSERT ON movement
  WHEN (SELECT costed = 'own' AND source <> 'custody' FROM lot WHERE id = NEW.lot) BEGIN
  UPDATE lot_state SET quantity = quantity + NEW.quantity, value = value + NEW.value, moved_on = max(moved_on, NEW.on_date)
    WHERE lot = NEW.lot;
  UPDATE shelf SET quantity = quantity + NEW.quantity, value = value + NEW.value WHERE material = NEW.material;
END;
CREATE TRIGGER movement_pooled AFTER INSERT ON movement WHEN (SELECT costed = 'pool' FROM lot WHERE id = NEW.lot) BEGIN
  UPDATE lot_state SET quantity = quantity + NEW.quantity, moved_on = max(moved_on, NEW.on_date) WHERE lot = NEW.lot;
  UPDATE shelf SET quantity = quantity + NEW.quantity, value = value + NEW.value, pooled = pooled + NEW.quantity,
    pooled_value = pooled_value + NEW.value, pooled_on = max(ifnull(pooled_on, NEW.on_date), NEW.on_date)
    WHERE material = NEW.material;
END;
CREATE TRIGGER movement_custody AFTER INSERT ON movement WHEN (SELECT source = 'custody' FROM lot WHERE id = NEW.lot) BEGIN
  SELECT RAISE (ABORT, 'goods in custody have no value here') WHERE NEW.value <> 0;
  UPDATE lot_state SET quantity = quantity + NEW.quantity, moved_on = max(moved_on, NEW.on_date) WHERE lot = NEW.lot;
END;

-- What became of a quote. The latest that is not undone stands; `lapsed` is not written, it follows from the day.
CREATE TABLE quote_event (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  quote INTEGER NOT NULL REFERENCES quote (id),
  event TEXT NOT NULL CHECK (event IN ('sent', 'accepted', 'declined', 'revised', 'withdrawn')),
  on_date TEXT NOT NULL CHECK (on_date IS date(on_date)),
  words TEXT NOT NULL,
  undoes INTEGER UNIQUE REFERENCES quote_event (id) CHECK (undoes < id),
  entry INTEGER NOT NULL REFERENCES entry (seq)
) STRICT;
CREATE INDEX event_of_quote ON quote_event (quote);

-- A job bears the number of its commission, and keeps it when its acceptance is taken back and said anew.
CREATE TABLE job (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  commission INTEGER NOT NULL UNIQUE REFERENCES commission (id),
  on_date TEXT NOT NULL CHECK (on_date IS date(on_date)),
  entry INTEGER NOT NULL REFERENCES entry (seq)
) STRICT;

-- Which quote the job is made by, and for how much: the latest row stands; the first is the quote accepted, each later one a change.
-- price: agreed, without tax; to_pay: with tax and carriage. thrown_away: charged for work and goods no longer of use.
-- needed_on: the day the materials are needed, when that was said.
CREATE TABLE job_agreed (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  job INTEGER NOT NULL REFERENCES job (id),
  quote INTEGER NOT NULL REFERENCES quote (id),
  on_date TEXT NOT NULL CHECK (on_date IS date(on_date)),
  price INTEGER NOT NULL CHECK (price >= 0),
  to_pay INTEGER NOT NULL CHECK (to_pay >= 0),
  deposit INTEGER NOT NULL CHECK (deposit >= 0),
  needed_on TEXT CHECK (needed_on IS date(needed_on)),
  thrown_away INTEGER NOT NULL CHECK (thrown_away >= 0),
  words TEXT NOT NULL,
  undoes INTEGER UNIQUE REFERENCES job_agreed (id) CHECK (undoes < id),
  entry INTEGER NOT NULL REFERENCES entry (seq)
) STRICT;
CREATE INDEX agreed_of_job ON job_agreed (job);

-- A gate waits for the customer: held, then approved. given-back: what the customer left here went home. finished and
-- cancelled end the job; the latest not undone stands.
CREATE TABLE job_event (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  job INTEGER NOT NULL REFERENCES job (id),
  event TEXT NOT NULL CHECK (event IN ('held', 'approved', 'given-back', 'finished', 'cancelled')),
  gate TEXT NOT NULL,
  words TEXT NOT NULL,
  on_date TEXT NOT NULL CHECK (on_date IS date(on_date)),
  undoes INTEGER UNIQUE REFERENCES job_event (id) CHECK (undoes < id),
  entry INTEGER NOT NULL REFERENCES entry (seq)
) STRICT;
CREATE INDEX event_of_job ON job_event (job);

-- Hours worked; a correction is a negative row. began and ended when they were said.
CREATE TABLE job_time (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  job INTEGER NOT NULL REFERENCES job (id),
  operation TEXT NOT NULL,
  part TEXT NOT NULL,
  seconds INTEGER NOT NULL CHECK (seconds <> 0),
  began TEXT CHECK (began GLOB '[0-2][0-9]:[0-5][0-9]'),
  ended TEXT CHECK (ended GLOB '[0-2][0-9]:[0-5][0-9]'),
  on_date TEXT NOT NULL CHECK (on_date IS date(on_date)),
  words TEXT NOT NULL,
  undoes INTEGER UNIQUE REFERENCES job_time (id) CHECK (undoes < id),
  entry INTEGER NOT NULL REFERENCES entry (seq),
  CHECK ((operation = '') <> (part = '')),
  CHECK ((began IS NULL) = (ended IS NULL))
) STRICT;
CREATE INDEX time_of_job ON job_time (job);

-- Work by other hands as it was billed.
CREATE TABLE job_outside (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  job INTEGER NOT NULL REFERENCES job (id),
  words TEXT NOT NULL CHECK (words <> ''),
  price INTEGER NOT NULL,
  on_date TEXT NOT NULL CHECK (on_date IS date(on_date)),
  undoes INTEGER UNIQUE REFERENCES job_outside (id) CHECK (undoes < id),
  entry INTEGER NOT NULL REFERENCES entry (seq)
) STRICT;
CREATE INDEX outside_of_job ON job_outside (job);

-- What the customer paid; given back is negative.
CREATE TABLE job_payment (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  job INTEGER NOT NULL REFERENCES job (id),
  amount INTEGER NOT NULL CHECK (amount <> 0),
  words TEXT NOT NULL,
  on_date TEXT NOT NULL CHECK (on_date IS date(on_date)),
  undoes INTEGER UNIQUE REFERENCES job_payment (id) CHECK (undoes < id),
  entry INTEGER NOT NULL REFERENCES entry (seq)
) STRICT;
CREATE INDEX payment_of_job ON job_payment (job);

-- Said to be not needed after all: `finish` does not ask for it.
CREATE TABLE job_without (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  job INTEGER NOT NULL REFERENCES job (id),
  material INTEGER NOT NULL REFERENCES material (id),
  undoes INTEGER UNIQUE REFERENCES job_without (id) CHECK (undoes < id),
  entry INTEGER NOT NULL REFERENCES entry (seq)
) STRICT;
CREATE INDEX without_of_job ON job_without (job);

-- The end of a job in figures, at `finish` or `cancel`. kept: of the price, without tax; to_pay: with tax and carriage.
CREATE TABLE job_result (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  job INTEGER NOT NULL REFERENCES job (id),
  materials INTEGER NOT NULL,
  labour INTEGER NOT NULL,
  overhead INTEGER NOT NULL,
  outside INTEGER NOT NULL,
  total INTEGER NOT NULL CHECK (total = materials + labour + overhead + outside),
  seconds INTEGER NOT NULL,
  kept INTEGER NOT NULL,
  to_pay INTEGER NOT NULL,
  undoes INTEGER UNIQUE REFERENCES job_result (id) CHECK (undoes < id),
  entry INTEGER NOT NULL REFERENCES entry (seq)
) STRICT;

-- Set aside for a job: of a material, or a lot of it. Positive reserves, negative lets go.
CREATE TABLE reservation (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  job INTEGER NOT NULL REFERENCES job (id),
  material INTEGER NOT NULL REFERENCES material (id),
  lot INTEGER REFERENCES lot (id),
  quantity INTEGER NOT NULL CHECK (quantity <> 0),
  undoes INTEGER UNIQUE REFERENCES reservation (id) CHECK (undoes < id),
  entry INTEGER NOT NULL REFERENCES entry (seq)
) STRICT;
CREATE INDEX reservation_of_job ON reservation (job);

-- lot 0: any of the material.
CREATE TABLE reserved (
  job INTEGER NOT NULL REFERENCES job (id),
  material INTEGER NOT NULL REFERENCES material (id),
  lot INTEGER NOT NULL,
  quantity INTEGER NOT NULL CHECK (quantity >= 0),
  PRIMARY KEY (job, material, lot)
) STRICT, WITHOUT ROWID;
CREATE INDEX reserved_of_material ON reserved (material) WHERE quantity > 0;

CREATE TRIGGER reservation_counts AFTER INSERT ON reservation BEGIN
  INSERT INTO reserved (job, material, lot, quantity) VALUES (NEW.job, NEW.material, ifnull(NEW.lot, 0), 0) ON CONFLICT DO NOTHING;
  UPDATE reserved SET quantity = quantity + NEW.quantity
    WHERE job = NEW.job AND material = NEW.material AND lot = ifnull(NEW.lot, 0);
  UPDATE shelf SET reserved = reserved + NEW.quantity WHERE material = NEW.material;
END;

CREATE TRIGGER supply_version_stays BEFORE UPDATE ON supply_version BEGIN SELECT RAISE (ABORT, 'supply_version is written once'); END;
CREATE TRIGGER supply_version_kept BEFORE DELETE ON supply_version BEGIN SELECT RAISE (ABORT, 'supply_version is written once'); END;
CREATE TRIGGER delivery_stays BEFORE UPDATE ON delivery BEGIN SELECT RAISE (ABORT, 'delivery is written once'); END;
CREATE TRIGGER delivery_kept BEFORE DELETE ON delivery BEGIN SELECT RAISE (ABORT, 'delivery is written once'); END;
CREATE TRIGGER lot_stays BEFORE UPDATE ON lot BEGIN SELECT RAISE (ABORT, 'lot is written once'); END;
CREATE TRIGGER lot_kept BEFORE DELETE ON lot BEGIN SELECT RAISE (ABORT, 'lot is written once'); END;
CREATE TRIGGER lot_fact_stays BEFORE UPDATE ON lot_fact BEGIN SELECT RAISE (ABORT, 'lot_fact is written once'); END;
CREATE TRIGGER lot_fact_kept BEFORE DELETE ON lot_fact BEGIN SELECT RAISE (ABORT, 'lot_fact is written once'); END;
CREATE TRIGGER movement_stays BEFORE UPDATE ON movement BEGIN SELECT RAISE (ABORT, 'movement is written once'); END;
CREATE TRIGGER movement_kept BEFORE DELETE ON movement BEGIN SELECT RAISE (ABORT, 'movement is written once'); END;
CREATE TRIGGER quote_event_stays BEFORE UPDATE ON quote_event BEGIN SELECT RAISE (ABORT, 'quote_event is written once'); END;
CREATE TRIGGER quote_event_kept BEFORE DELETE ON quote_event BEGIN SELECT RAISE (ABORT, 'quote_event is written once'); END;
CREATE TRIGGER job_stays BEFORE UPDATE ON job BEGIN SELECT RAISE (ABORT, 'job is written once'); END;
CREATE TRIGGER job_kept BEFORE DELETE ON job BEGIN SELECT RAISE (ABORT, 'job is written once'); END;
CREATE TRIGGER job_agreed_stays BEFORE UPDATE ON job_agreed BEGIN SELECT RAISE (ABORT, 'job_agreed is written once'); END;
CREATE TRIGGER job_agreed_kept BEFORE DELETE ON job_agreed BEGIN SELECT RAISE (ABORT, 'job_agreed is written once'); END;
CREATE TRIGGER job_event_stays BEFORE UPDATE ON job_event BEGIN SELECT RAISE (ABORT, 'job_event is written once'); END;
CREATE TRIGGER job_event_kept BEFORE DELETE ON job_event BEGIN SELECT RAISE (ABORT, 'job_event is written once'); END;
CREATE TRIGGER job_time_stays BEFORE UPDATE ON job_time BEGIN SELECT RAISE (ABORT, 'job_time is written once'); END;
CREATE TRIGGER job_time_kept BEFORE DELETE ON job_time BEGIN SELECT RAISE (ABORT, 'job_time is written once'); END;
CREATE TRIGGER job_outside_stays BEFORE UPDATE ON job_outside BEGIN SELECT RAISE (ABORT, 'job_outside is written once'); END;
CREATE TRIGGER job_outside_kept BEFORE DELETE ON job_outside BEGIN SELECT RAISE (ABORT, 'job_outside is written once'); END;
CREATE TRIGGER job_payment_stays BEFORE UPDATE ON job_payment BEGIN SELECT RAISE (ABORT, 'job_payment is written once'); END;
CREATE TRIGGER job_payment_kept BEFORE DELETE ON job_payment BEGIN SELECT RAISE (ABORT, 'job_payment is written once'); END;
CREATE TRIGGER job_without_stays BEFORE UPDATE ON job_without BEGIN SELECT RAISE (ABORT, 'job_without is written once'); END;
CREATE TRIGGER job_without_kept BEFORE DELETE ON job_without BEGIN SELECT RAISE (ABORT, 'job_without is written once'); END;
CREATE TRIGGER job_result_stays BEFORE UPDATE ON job_result BEGIN SELECT RAISE (ABORT, 'job_result is written once'); END;
CREATE TRIGGER job_result_kept BEFORE DELETE ON job_result BEGIN SELECT RAISE (ABORT, 'job_result is written once'); END;
CREATE TRIGGER reservation_stays BEFORE UPDATE ON reservation BEGIN SELECT RAISE (ABORT, 'reservation is written once'); END;
CREATE TRIGGER reservation_kept BEFORE DELETE ON reservation BEGIN SELECT RAISE (ABORT, 'reservation is written once'); END;

PRAGMA user_version = 3;
