-- Where books are sold and how they are sent, as their owner wrote it; what a quote keeps of the place it goes through; what is
-- listed where.

-- The text is a description of an outlet or of a carriage service, read when it is used. An empty one: from this day on there is
-- none of this name.
CREATE TABLE outlet_version (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  code TEXT NOT NULL CHECK (code <> '' AND code NOT GLOB '*[^a-z0-9-]*'),
  valid_from TEXT NOT NULL CHECK (valid_from IS date(valid_from)),
  text TEXT NOT NULL,
  entry INTEGER NOT NULL REFERENCES entry (seq)
) STRICT;
CREATE INDEX outlet_in_force ON outlet_version (code, valid_from);

CREATE TABLE carriage_version (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  code TEXT NOT NULL CHECK (code <> '' AND code NOT GLOB '*[^a-z0-9-]*'),
  valid_from TEXT NOT NULL CHECK (valid_from IS date(valid_from)),
  text TEXT NOT NULL,
  entry INTEGER NOT NULL REFERENCES entry (seq)
) STRICT;
CREATE INDEX carriage_in_force ON carriage_version (code, valid_from);

-- A goal may be a sum of money: goal_num in minor units, goal_den 1. A CHECK is changed by making its table anew.
DROP TRIGGER quote_terms_stays;
DROP TRIGGER quote_terms_kept;
CREATE TABLE quote_terms_anew (
  quote INTEGER PRIMARY KEY REFERENCES quote (id),
  pay_wanted INTEGER NOT NULL,
  charges_on_pay INTEGER NOT NULL,
  overhead INTEGER NOT NULL,
  hours_charged_s INTEGER NOT NULL CHECK (hours_charged_s > 0),
  contingency_num INTEGER NOT NULL,
  contingency_den INTEGER NOT NULL CHECK (contingency_den > 0),
  least_charge INTEGER NOT NULL,
  least_hourly INTEGER NOT NULL,
  point_step INTEGER NOT NULL CHECK (point_step > 0),
  point_below INTEGER NOT NULL CHECK (point_below >= 0 AND point_below < point_step),
  tax_mode TEXT NOT NULL CHECK (tax_mode IN ('none', 'added', 'included')),
  tax_rate_num INTEGER NOT NULL CHECK (tax_rate_num >= 0),
  tax_rate_den INTEGER NOT NULL CHECK (tax_rate_den > 0),
  tax_name TEXT NOT NULL,
  deposit_share_num INTEGER NOT NULL CHECK (deposit_share_num >= 0),
  deposit_share_den INTEGER NOT NULL CHECK (deposit_share_den > 0),
  deposit_step INTEGER NOT NULL CHECK (deposit_step > 0),
  goal TEXT NOT NULL CHECK (goal IN ('margin', 'markup', 'profit', 'hourly', 'leave')),
  goal_num INTEGER NOT NULL,
  goal_den INTEGER NOT NULL CHECK (goal_den > 0),
  delivery_carriage INTEGER NOT NULL CHECK (delivery_carriage >= 0),
  delivery_words TEXT NOT NULL,
  CHECK (goal IN ('margin', 'markup') OR goal_den = 1)
) STRICT;
INSERT INTO quote_terms_anew SELECT * FROM quote_terms;
DROP TABLE quote_terms;
ALTER TABLE quote_terms_anew RENAME TO quote_terms;

-- What quotes keep since engine rules 5. Money is the workshop's: no quote goes through an outlet of another currency.
CREATE TABLE quote_selling (
  quote INTEGER PRIMARY KEY REFERENCES quote (id),
  pieces INTEGER NOT NULL CHECK (pieces >= 1),
  first_hours INTEGER NOT NULL CHECK (first_hours >= 0)
) STRICT;

-- The outlet as it was; without a row the workshop sold the book itself.
CREATE TABLE quote_outlet (
  quote INTEGER NOT NULL REFERENCES quote (id),
  position INTEGER NOT NULL CHECK (position = 0),
  version INTEGER NOT NULL REFERENCES outlet_version (id),
  code TEXT NOT NULL,
  name TEXT NOT NULL,
  kind TEXT NOT NULL CHECK (kind IN ('own', 'marketplace', 'sale-or-return', 'trade')),
  discount_num INTEGER NOT NULL CHECK (discount_num >= 0),
  discount_den INTEGER NOT NULL CHECK (discount_den > discount_num),
  tax_mode TEXT CHECK (tax_mode IN ('none', 'added', 'included')),
  tax_rate_num INTEGER CHECK (tax_rate_num >= 0),
  tax_rate_den INTEGER CHECK (tax_rate_den > 0),
  collects_tax INTEGER NOT NULL CHECK (collects_tax IN (0, 1)),
  cash_step INTEGER NOT NULL CHECK (cash_step >= 1),
  point_step INTEGER CHECK (point_step >= 1),
  point_below INTEGER CHECK (point_below >= 0 AND point_below < point_step),
  paid_after_days INTEGER NOT NULL CHECK (paid_after_days >= 0),
  days_to_sell INTEGER NOT NULL CHECK (days_to_sell >= 0),
  change_of_mind_num INTEGER NOT NULL CHECK (change_of_mind_num >= 0),
  change_of_mind_den INTEGER NOT NULL CHECK (change_of_mind_den > change_of_mind_num),
  carriage_back INTEGER NOT NULL CHECK (carriage_back >= 0),
  handling_s INTEGER NOT NULL CHECK (handling_s >= 0),
  loss_of_value_num INTEGER NOT NULL CHECK (loss_of_value_num >= 0),
  loss_of_value_den INTEGER NOT NULL CHECK (loss_of_value_den > 0),
  fault_num INTEGER NOT NULL CHECK (fault_num >= 0),
  fault_den INTEGER NOT NULL CHECK (fault_den > fault_num),
  mending_s INTEGER NOT NULL CHECK (mending_s >= 0),
  lost_num INTEGER NOT NULL CHECK (lost_num >= 0),
  lost_den INTEGER NOT NULL CHECK (lost_den > lost_num),
  insured INTEGER NOT NULL CHECK (insured >= 0),
  excess INTEGER NOT NULL CHECK (excess >= 0),
  unsold_num INTEGER NOT NULL CHECK (unsold_num >= 0),
  unsold_den INTEGER NOT NULL CHECK (unsold_den > unsold_num),
  return_carriage INTEGER NOT NULL CHECK (return_carriage >= 0),
  PRIMARY KEY (quote, position),
  CHECK ((tax_rate_num IS NULL) = (tax_rate_den IS NULL)),
  CHECK ((point_step IS NULL) = (point_below IS NULL))
) STRICT, WITHOUT ROWID;

CREATE TABLE quote_fee (
  quote INTEGER NOT NULL REFERENCES quote (id),
  position INTEGER NOT NULL,
  name TEXT NOT NULL,
  base TEXT NOT NULL CHECK (base IN ('goods', 'goods-with-tax', 'goods-and-carriage', 'paid')),
  per TEXT NOT NULL CHECK (per IN ('order', 'piece', 'listing')),
  on_whole INTEGER NOT NULL CHECK (on_whole IN (0, 1)),
  fixed INTEGER NOT NULL CHECK (fixed >= 0),
  least INTEGER CHECK (least >= 0),
  most INTEGER CHECK (most >= 0),
  every_days INTEGER NOT NULL CHECK (every_days >= 0),
  payment INTEGER NOT NULL CHECK (payment IN (0, 1)),
  kept INTEGER NOT NULL CHECK (kept IN (0, 1)),
  PRIMARY KEY (quote, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE quote_fee_step (
  quote INTEGER NOT NULL REFERENCES quote (id),
  position INTEGER NOT NULL,
  fee INTEGER NOT NULL CHECK (fee >= 0),
  from_sum INTEGER NOT NULL CHECK (from_sum >= 0),
  share_num INTEGER NOT NULL CHECK (share_num >= 0),
  share_den INTEGER NOT NULL CHECK (share_den > share_num),
  PRIMARY KEY (quote, position)
) STRICT, WITHOUT ROWID;

-- From what the buyer pays to what stays, where there is an outlet. Its fees, by position, are the rows of quote_fee_taken.
CREATE TABLE quote_walk (
  quote INTEGER NOT NULL REFERENCES quote (id),
  position INTEGER NOT NULL CHECK (position = 0),
  ticket INTEGER NOT NULL,
  discount INTEGER NOT NULL,
  goods_shown INTEGER NOT NULL,
  carriage_shown INTEGER NOT NULL,
  tax INTEGER NOT NULL,
  cash_rounding INTEGER NOT NULL,
  paid INTEGER NOT NULL,
  goods INTEGER NOT NULL,
  all_fees INTEGER NOT NULL,
  payout INTEGER NOT NULL,
  exchange_cost INTEGER NOT NULL,
  received INTEGER NOT NULL,
  tax_due INTEGER NOT NULL,
  carriage INTEGER NOT NULL,
  yours INTEGER NOT NULL,
  returns INTEGER NOT NULL,
  cost INTEGER NOT NULL,
  money_left INTEGER NOT NULL,
  price INTEGER NOT NULL,
  PRIMARY KEY (quote, position),
  CHECK (payout = received + exchange_cost),
  CHECK (yours = received - tax_due - carriage),
  CHECK (money_left = yours - returns - cost)
) STRICT, WITHOUT ROWID;

CREATE TABLE quote_fee_taken (
  quote INTEGER NOT NULL REFERENCES quote (id),
  position INTEGER NOT NULL,
  amount INTEGER NOT NULL CHECK (amount >= 0),
  PRIMARY KEY (quote, position)
) STRICT, WITHOUT ROWID;

-- What bears another tax rate than the goods at large; the component '' is carriage.
CREATE TABLE quote_tax_of_line (
  quote INTEGER NOT NULL REFERENCES quote (id),
  position INTEGER NOT NULL,
  component TEXT NOT NULL,
  name TEXT NOT NULL,
  rate_num INTEGER NOT NULL CHECK (rate_num >= 0),
  rate_den INTEGER NOT NULL CHECK (rate_den > 0),
  PRIMARY KEY (quote, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE quote_discount (
  quote INTEGER NOT NULL REFERENCES quote (id),
  position INTEGER NOT NULL CHECK (position = 0),
  share_num INTEGER NOT NULL CHECK (share_num >= 0),
  share_den INTEGER NOT NULL CHECK (share_den >= share_num),
  reason TEXT NOT NULL CHECK (reason <> ''),
  PRIMARY KEY (quote, position)
) STRICT, WITHOUT ROWID;

-- Differences from the book as it is described.
CREATE TABLE quote_option (
  quote INTEGER NOT NULL REFERENCES quote (id),
  position INTEGER NOT NULL,
  words TEXT NOT NULL CHECK (words <> ''),
  either TEXT NOT NULL,
  shown INTEGER NOT NULL,
  cost INTEGER NOT NULL,
  money_left INTEGER NOT NULL,
  seconds_num INTEGER NOT NULL,
  seconds_den INTEGER NOT NULL CHECK (seconds_den > 0),
  PRIMARY KEY (quote, position)
) STRICT, WITHOUT ROWID;

-- Why the book is, or is not, made to order.
CREATE TABLE quote_made_to (
  quote INTEGER NOT NULL REFERENCES quote (id),
  position INTEGER NOT NULL CHECK (position = 0),
  made_to TEXT NOT NULL CHECK (made_to IN ('spec', 'personal', 'options', 'stock', 'business')),
  because TEXT NOT NULL,
  PRIMARY KEY (quote, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE quote_parcel (
  quote INTEGER NOT NULL REFERENCES quote (id),
  position INTEGER NOT NULL CHECK (position = 0),
  version INTEGER NOT NULL REFERENCES carriage_version (id),
  service TEXT NOT NULL,
  country TEXT NOT NULL CHECK (country GLOB '[A-Z][A-Z]'),
  mass_mg INTEGER NOT NULL CHECK (mass_mg > 0),
  volumetric_mg INTEGER NOT NULL CHECK (volumetric_mg >= 0),
  counted_mg INTEGER NOT NULL CHECK (counted_mg >= mass_mg AND counted_mg >= volumetric_mg),
  price INTEGER NOT NULL CHECK (price >= 0),
  insurance INTEGER NOT NULL CHECK (insurance >= 0),
  insured INTEGER NOT NULL CHECK (insured >= 0),
  PRIMARY KEY (quote, position)
) STRICT, WITHOUT ROWID;

-- What is offered where: a book of a job, or one that is made when somebody orders it. What it costs is kept as it was when it
-- was posted.
CREATE TABLE listing (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  outlet TEXT NOT NULL CHECK (outlet <> ''),
  job INTEGER REFERENCES job (id),
  title TEXT NOT NULL CHECK (title <> ''),
  on_date TEXT NOT NULL CHECK (on_date IS date(on_date)),
  cost INTEGER NOT NULL,
  labour INTEGER NOT NULL,
  standing INTEGER NOT NULL,
  outside INTEGER NOT NULL,
  carriage INTEGER NOT NULL CHECK (carriage >= 0),
  pieces INTEGER NOT NULL CHECK (pieces >= 1),
  seconds_num INTEGER NOT NULL CHECK (seconds_num >= 0),
  seconds_den INTEGER NOT NULL CHECK (seconds_den > 0),
  entry INTEGER NOT NULL REFERENCES entry (seq)
) STRICT;
CREATE INDEX listing_of_job ON listing (job);

-- What earns of its cost, by part: parts of other tax rates share a ticket by it.
CREATE TABLE listing_share (
  listing INTEGER NOT NULL REFERENCES listing (id),
  part TEXT NOT NULL,
  amount INTEGER NOT NULL,
  PRIMARY KEY (listing, part)
) STRICT, WITHOUT ROWID;

-- The ticket from a day on, in the outlet's currency; a sale ends with the day before the next row.
CREATE TABLE listing_price (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  listing INTEGER NOT NULL REFERENCES listing (id),
  on_date TEXT NOT NULL CHECK (on_date IS date(on_date)),
  currency TEXT NOT NULL CHECK (currency GLOB '[A-Z][A-Z][A-Z]'),
  ticket INTEGER NOT NULL CHECK (ticket >= 0),
  words TEXT NOT NULL,
  undoes INTEGER UNIQUE REFERENCES listing_price (id) CHECK (undoes < id),
  entry INTEGER NOT NULL REFERENCES entry (seq)
) STRICT;
CREATE INDEX price_of_listing ON listing_price (listing, on_date);

CREATE TABLE listing_event (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  listing INTEGER NOT NULL REFERENCES listing (id),
  event TEXT NOT NULL CHECK (event IN ('ended', 'sold', 'withdrawn')),
  on_date TEXT NOT NULL CHECK (on_date IS date(on_date)),
  words TEXT NOT NULL,
  undoes INTEGER UNIQUE REFERENCES listing_event (id) CHECK (undoes < id),
  entry INTEGER NOT NULL REFERENCES entry (seq)
) STRICT;
CREATE INDEX event_of_listing ON listing_event (listing);

CREATE TRIGGER outlet_version_stays BEFORE UPDATE ON outlet_version BEGIN SELECT RAISE (ABORT, 'outlet_version is written once'); END;
CREATE TRIGGER outlet_version_kept BEFORE DELETE ON outlet_version BEGIN SELECT RAISE (ABORT, 'outlet_version is written once'); END;
CREATE TRIGGER carriage_version_stays BEFORE UPDATE ON carriage_version BEGIN SELECT RAISE (ABORT, 'carriage_version is written once'); END;
CREATE TRIGGER carriage_version_kept BEFORE DELETE ON carriage_version BEGIN SELECT RAISE (ABORT, 'carriage_version is written once'); END;
CREATE TRIGGER quote_terms_stays BEFORE UPDATE ON quote_terms BEGIN SELECT RAISE (ABORT, 'quote_terms is written once'); END;
CREATE TRIGGER quote_terms_kept BEFORE DELETE ON quote_terms BEGIN SELECT RAISE (ABORT, 'quote_terms is written once'); END;
CREATE TRIGGER quote_selling_stays BEFORE UPDATE ON quote_selling BEGIN SELECT RAISE (ABORT, 'quote_selling is written once'); END;
CREATE TRIGGER quote_selling_kept BEFORE DELETE ON quote_selling BEGIN SELECT RAISE (ABORT, 'quote_selling is written once'); END;
CREATE TRIGGER quote_outlet_stays BEFORE UPDATE ON quote_outlet BEGIN SELECT RAISE (ABORT, 'quote_outlet is written once'); END;
CREATE TRIGGER quote_outlet_kept BEFORE DELETE ON quote_outlet BEGIN SELECT RAISE (ABORT, 'quote_outlet is written once'); END;
CREATE TRIGGER quote_fee_stays BEFORE UPDATE ON quote_fee BEGIN SELECT RAISE (ABORT, 'quote_fee is written once'); END;
CREATE TRIGGER quote_fee_kept BEFORE DELETE ON quote_fee BEGIN SELECT RAISE (ABORT, 'quote_fee is written once'); END;
CREATE TRIGGER quote_fee_step_stays BEFORE UPDATE ON quote_fee_step BEGIN SELECT RAISE (ABORT, 'quote_fee_step is written once'); END;
CREATE TRIGGER quote_fee_step_kept BEFORE DELETE ON quote_fee_step BEGIN SELECT RAISE (ABORT, 'quote_fee_step is written once'); END;
CREATE TRIGGER quote_walk_stays BEFORE UPDATE ON quote_walk BEGIN SELECT RAISE (ABORT, 'quote_walk is written once'); END;
CREATE TRIGGER quote_walk_kept BEFORE DELETE ON quote_walk BEGIN SELECT RAISE (ABORT, 'quote_walk is written once'); END;
CREATE TRIGGER quote_fee_taken_stays BEFORE UPDATE ON quote_fee_taken BEGIN SELECT RAISE (ABORT, 'quote_fee_taken is written once'); END;
CREATE TRIGGER quote_fee_taken_kept BEFORE DELETE ON quote_fee_taken BEGIN SELECT RAISE (ABORT, 'quote_fee_taken is written once'); END;
CREATE TRIGGER quote_tax_of_line_stays BEFORE UPDATE ON quote_tax_of_line BEGIN SELECT RAISE (ABORT, 'quote_tax_of_line is written once'); END;
CREATE TRIGGER quote_tax_of_line_kept BEFORE DELETE ON quote_tax_of_line BEGIN SELECT RAISE (ABORT, 'quote_tax_of_line is written once'); END;
CREATE TRIGGER quote_discount_stays BEFORE UPDATE ON quote_discount BEGIN SELECT RAISE (ABORT, 'quote_discount is written once'); END;
CREATE TRIGGER quote_discount_kept BEFORE DELETE ON quote_discount BEGIN SELECT RAISE (ABORT, 'quote_discount is written once'); END;
CREATE TRIGGER quote_option_stays BEFORE UPDATE ON quote_option BEGIN SELECT RAISE (ABORT, 'quote_option is written once'); END;
CREATE TRIGGER quote_option_kept BEFORE DELETE ON quote_option BEGIN SELECT RAISE (ABORT, 'quote_option is written once'); END;
CREATE TRIGGER quote_made_to_stays BEFORE UPDATE ON quote_made_to BEGIN SELECT RAISE (ABORT, 'quote_made_to is written once'); END;
CREATE TRIGGER quote_made_to_kept BEFORE DELETE ON quote_made_to BEGIN SELECT RAISE (ABORT, 'quote_made_to is written once'); END;
CREATE TRIGGER quote_parcel_stays BEFORE UPDATE ON quote_parcel BEGIN SELECT RAISE (ABORT, 'quote_parcel is written once'); END;
CREATE TRIGGER quote_parcel_kept BEFORE DELETE ON quote_parcel BEGIN SELECT RAISE (ABORT, 'quote_parcel is written once'); END;
CREATE TRIGGER listing_stays BEFORE UPDATE ON listing BEGIN SELECT RAISE (ABORT, 'listing is written once'); END;
CREATE TRIGGER listing_kept BEFORE DELETE ON listing BEGIN SELECT RAISE (ABORT, 'listing is written once'); END;
CREATE TRIGGER listing_share_stays BEFORE UPDATE ON listing_share BEGIN SELECT RAISE (ABORT, 'listing_share is written once'); END;
CREATE TRIGGER listing_share_kept BEFORE DELETE ON listing_share BEGIN SELECT RAISE (ABORT, 'listing_share is written once'); END;
CREATE TRIGGER listing_price_stays BEFORE UPDATE ON listing_price BEGIN SELECT RAISE (ABORT, 'listing_price is written once'); END;
CREATE TRIGGER listing_price_kept BEFORE DELETE ON listing_price BEGIN SELECT RAISE (ABORT, 'listing_price is written once'); END;
CREATE TRIGGER listing_event_stays BEFORE UPDATE ON listing_event BEGIN SELECT RAISE (ABORT, 'listing_event is written once'); END;
CREATE TRIGGER listing_event_kept BEFORE DELETE ON listing_event BEGIN SELECT RAISE (ABORT, 'listing_event is written once'); END;

PRAGMA user_version = 6;
