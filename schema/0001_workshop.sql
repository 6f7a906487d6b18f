-- The workshop, first release.
--
-- Words are the stable names that --json prints; dates are civil, 'YYYY-MM-DD'; instants are UTC. Money is whole minor
-- units of the workshop's currency unless a currency stands beside it. A ratio is a pair x_num, x_den. Quantities are
-- whole numbers of the unit in their name: um, nm, mg, ul, s; an amount is in the unit of its `dimension` (um, square
-- um, mg, ul, thousandths, s). Nothing is REAL and nothing is a BLOB.
--
-- What feeds a quote is an immutable version: in force on a day is the latest valid_from, then the latest id.
-- Every row carries the entry of the command that wrote it; a row of a quote's parts carries it through its quote.

CREATE TABLE entry (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  at_utc TEXT NOT NULL CHECK (at_utc GLOB '[0-9][0-9][0-9][0-9]-[0-1][0-9]-[0-3][0-9]T[0-2][0-9]:[0-5][0-9]:[0-6][0-9]Z'),
  on_date TEXT NOT NULL CHECK (on_date IS date(on_date)),
  command TEXT NOT NULL CHECK (command <> ''),
  program TEXT NOT NULL CHECK (program <> ''),
  undoes INTEGER REFERENCES entry (seq) CHECK (undoes < seq)
) STRICT;

CREATE TABLE workshop (
  id INTEGER PRIMARY KEY CHECK (id = 1),
  currency TEXT NOT NULL CHECK (currency GLOB '[A-Z][A-Z][A-Z]'),
  entry INTEGER NOT NULL REFERENCES entry (seq)
) STRICT;

-- An empty value: from this day on as if it had never been set.
CREATE TABLE setting_version (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  name TEXT NOT NULL CHECK (name <> ''),
  value TEXT NOT NULL,
  valid_from TEXT NOT NULL CHECK (valid_from IS date(valid_from)),
  entry INTEGER NOT NULL REFERENCES entry (seq)
) STRICT;
CREATE INDEX setting_in_force ON setting_version (name, valid_from);

CREATE TABLE step_version (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  operation TEXT NOT NULL CHECK (operation <> ''),
  valid_from TEXT NOT NULL CHECK (valid_from IS date(valid_from)),
  set_up_low_s INTEGER NOT NULL CHECK (set_up_low_s >= 0),
  set_up_likely_s INTEGER NOT NULL CHECK (set_up_likely_s >= set_up_low_s),
  set_up_high_s INTEGER NOT NULL CHECK (set_up_high_s >= set_up_likely_s),
  each_low_s INTEGER NOT NULL CHECK (each_low_s >= 0),
  each_likely_s INTEGER NOT NULL CHECK (each_likely_s >= each_low_s),
  each_high_s INTEGER NOT NULL CHECK (each_high_s >= each_likely_s),
  wait_low_s INTEGER NOT NULL CHECK (wait_low_s >= 0),
  wait_high_s INTEGER NOT NULL CHECK (wait_high_s >= wait_low_s),
  caution TEXT NOT NULL,
  entry INTEGER NOT NULL REFERENCES entry (seq)
) STRICT;
CREATE INDEX step_in_force ON step_version (operation, valid_from);

CREATE TABLE material (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  code TEXT NOT NULL UNIQUE CHECK (code <> '' AND code NOT GLOB '*[^a-z0-9-]*'),
  entry INTEGER NOT NULL REFERENCES entry (seq)
) STRICT;

CREATE TABLE material_version (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  material INTEGER NOT NULL REFERENCES material (id),
  valid_from TEXT NOT NULL CHECK (valid_from IS date(valid_from)),
  name TEXT NOT NULL,
  buyer_words TEXT NOT NULL,
  kind TEXT NOT NULL,
  sold_by TEXT NOT NULL CHECK (sold_by IN ('sheet', 'pad', 'skin', 'length', 'weight', 'volume', 'piece', 'leaf-book')),
  caliper_nm INTEGER,
  grammage_mg_m2 INTEGER,
  density_kg_m3 INTEGER,
  sheet_first_um INTEGER,
  sheet_second_um INTEGER,
  thread_number INTEGER,
  thread_ply INTEGER,
  leaf_side_um INTEGER,
  leaves_a_book INTEGER,
  usable_height_um INTEGER,
  usable_width_um INTEGER,
  usable_share_num INTEGER,
  usable_share_den INTEGER CHECK (usable_share_den > 0),
  spread_mg_m2 INTEGER,
  spread_ul_m2 INTEGER,
  solids_num INTEGER,
  solids_den INTEGER CHECK (solids_den > 0),
  piece_mass_mg INTEGER,
  width_um INTEGER,
  height_um INTEGER,
  depth_um INTEGER,
  restricted INTEGER NOT NULL CHECK (restricted IN (0, 1)),
  not_for_copper_alloys INTEGER NOT NULL CHECK (not_for_copper_alloys IN (0, 1)),
  tarnishes INTEGER NOT NULL CHECK (tarnishes IN (0, 1)),
  spoil_num INTEGER NOT NULL CHECK (spoil_num >= 0),
  spoil_den INTEGER NOT NULL CHECK (spoil_den > spoil_num),
  dimension TEXT NOT NULL CHECK (dimension IN ('length', 'area', 'mass', 'volume', 'count', 'duration')),
  least_spoil INTEGER NOT NULL CHECK (least_spoil >= 0),
  ruin_chance_num INTEGER NOT NULL CHECK (ruin_chance_num >= 0),
  ruin_chance_den INTEGER NOT NULL CHECK (ruin_chance_den > ruin_chance_num),
  charging TEXT NOT NULL CHECK (charging IN ('as-used', 'whole-less-offcuts', 'whole')),
  kept_worth_num INTEGER NOT NULL CHECK (kept_worth_num >= 0),
  kept_worth_den INTEGER NOT NULL CHECK (kept_worth_den > 0 AND kept_worth_den >= kept_worth_num),
  entry INTEGER NOT NULL REFERENCES entry (seq),
  CHECK ((sheet_first_um IS NULL) = (sheet_second_um IS NULL)),
  CHECK ((thread_number IS NULL) = (thread_ply IS NULL)),
  CHECK ((usable_share_num IS NULL) = (usable_share_den IS NULL)),
  CHECK ((solids_num IS NULL) = (solids_den IS NULL))
) STRICT;
CREATE INDEX material_in_force ON material_version (material, valid_from);

CREATE TABLE price_version (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  material INTEGER NOT NULL REFERENCES material (id),
  valid_from TEXT NOT NULL CHECK (valid_from IS date(valid_from)),
  dimension TEXT NOT NULL CHECK (dimension IN ('length', 'area', 'mass', 'volume', 'count', 'duration')),
  pack INTEGER NOT NULL CHECK (pack > 0),
  price INTEGER NOT NULL CHECK (price >= 0),
  said INTEGER NOT NULL CHECK (said >= 0),
  said_currency TEXT NOT NULL CHECK (said_currency GLOB '[A-Z][A-Z][A-Z]'),
  rate_num INTEGER NOT NULL CHECK (rate_num > 0),
  rate_den INTEGER NOT NULL CHECK (rate_den > 0),
  carriage INTEGER NOT NULL CHECK (carriage >= 0),
  duty_num INTEGER NOT NULL CHECK (duty_num >= 0),
  duty_den INTEGER NOT NULL CHECK (duty_den > 0),
  purchase_tax_num INTEGER NOT NULL CHECK (purchase_tax_num >= 0),
  purchase_tax_den INTEGER NOT NULL CHECK (purchase_tax_den > 0),
  supplier TEXT NOT NULL,
  entry INTEGER NOT NULL REFERENCES entry (seq)
) STRICT;
CREATE INDEX price_in_force ON price_version (material, valid_from);

CREATE TABLE customer (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  code TEXT NOT NULL UNIQUE CHECK (code <> '' AND code NOT GLOB '*[^a-z0-9-]*'),
  since TEXT NOT NULL CHECK (since IS date(since)),
  entry INTEGER NOT NULL REFERENCES entry (seq)
) STRICT;

-- Apart from everything that refers to a customer, so that it can be changed and forgotten.
CREATE TABLE customer_address (
  customer INTEGER PRIMARY KEY REFERENCES customer (id),
  name TEXT NOT NULL,
  email TEXT NOT NULL,
  address TEXT NOT NULL,
  country TEXT NOT NULL,
  notes TEXT NOT NULL,
  entry INTEGER NOT NULL REFERENCES entry (seq)
) STRICT;

-- A commission has one number, year and count; its quotes are issues a, b, c of it.
CREATE TABLE commission (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  year INTEGER NOT NULL CHECK (year BETWEEN 1900 AND 9999),
  count INTEGER NOT NULL CHECK (count >= 1),
  entry INTEGER NOT NULL REFERENCES entry (seq),
  UNIQUE (year, count)
) STRICT;

CREATE TABLE quote (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  commission INTEGER NOT NULL REFERENCES commission (id),
  issue TEXT NOT NULL CHECK (issue GLOB '[a-z]'),
  customer INTEGER REFERENCES customer (id),
  on_date TEXT NOT NULL CHECK (on_date IS date(on_date)),
  valid_until TEXT NOT NULL CHECK (valid_until IS date(valid_until)),
  rules INTEGER NOT NULL CHECK (rules >= 1),
  title TEXT NOT NULL,
  binding TEXT NOT NULL,
  model TEXT NOT NULL,
  description TEXT NOT NULL,
  mass_mg INTEGER NOT NULL,
  entry INTEGER NOT NULL REFERENCES entry (seq),
  UNIQUE (commission, issue)
) STRICT;
CREATE INDEX quote_of_customer ON quote (customer);

-- The workshop's rules that the offer followed from.
CREATE TABLE quote_terms (
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
  goal TEXT NOT NULL CHECK (goal IN ('margin', 'markup')),
  goal_num INTEGER NOT NULL,
  goal_den INTEGER NOT NULL CHECK (goal_den > 0),
  delivery_carriage INTEGER NOT NULL CHECK (delivery_carriage >= 0),
  delivery_words TEXT NOT NULL
) STRICT;

CREATE TABLE quote_figure (
  quote INTEGER NOT NULL REFERENCES quote (id),
  position INTEGER NOT NULL,
  figure TEXT NOT NULL,
  value_e6 INTEGER NOT NULL,
  origin TEXT NOT NULL,
  PRIMARY KEY (quote, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE quote_choice (
  quote INTEGER NOT NULL REFERENCES quote (id),
  position INTEGER NOT NULL,
  role TEXT NOT NULL,
  material INTEGER NOT NULL REFERENCES material (id),
  origin TEXT NOT NULL,
  PRIMARY KEY (quote, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE quote_piece (
  quote INTEGER NOT NULL REFERENCES quote (id),
  position INTEGER NOT NULL,
  item TEXT NOT NULL,
  part TEXT NOT NULL,
  material INTEGER NOT NULL REFERENCES material (id),
  count INTEGER NOT NULL,
  height_um INTEGER NOT NULL,
  width_um INTEGER NOT NULL,
  grain TEXT NOT NULL,
  skin_group INTEGER NOT NULL,
  PRIMARY KEY (quote, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE quote_warning (
  quote INTEGER NOT NULL REFERENCES quote (id),
  position INTEGER NOT NULL,
  warning TEXT NOT NULL,
  is_e6 INTEGER NOT NULL,
  least_e6 INTEGER NOT NULL,
  most_e6 INTEGER NOT NULL,
  material INTEGER REFERENCES material (id),
  PRIMARY KEY (quote, position)
) STRICT, WITHOUT ROWID;

-- The versions used, by material: names, words, flags, properties and price as they were are the rows named here.
CREATE TABLE quote_material (
  quote INTEGER NOT NULL REFERENCES quote (id),
  position INTEGER NOT NULL,
  material_version INTEGER NOT NULL REFERENCES material_version (id),
  price_version INTEGER REFERENCES price_version (id),
  PRIMARY KEY (quote, position)
) STRICT, WITHOUT ROWID;

-- consumed = net + spoil + cutting_loss; opened = consumed + kept + pack_remainder. A line of what the customer
-- supplies has no unit cost.
CREATE TABLE quote_bill (
  quote INTEGER NOT NULL REFERENCES quote (id),
  position INTEGER NOT NULL,
  material INTEGER NOT NULL REFERENCES material (id),
  material_version INTEGER NOT NULL REFERENCES material_version (id),
  price_version INTEGER REFERENCES price_version (id),
  how_found TEXT NOT NULL,
  dimension TEXT NOT NULL CHECK (dimension IN ('length', 'area', 'mass', 'volume', 'count', 'duration')),
  net INTEGER NOT NULL,
  spoil INTEGER NOT NULL,
  cutting_loss INTEGER NOT NULL,
  kept INTEGER NOT NULL,
  pack_remainder INTEGER NOT NULL,
  opened INTEGER NOT NULL,
  charged INTEGER NOT NULL,
  units_opened INTEGER NOT NULL,
  customer_supplied INTEGER NOT NULL CHECK (customer_supplied IN (0, 1)),
  charging TEXT NOT NULL,
  unit_minor INTEGER NOT NULL,
  unit_dimension TEXT NOT NULL,
  unit_pack INTEGER NOT NULL,
  unit_currency TEXT CHECK (unit_currency IS NOT NULL OR unit_minor = 0),
  kept_worth_num INTEGER NOT NULL,
  kept_worth_den INTEGER NOT NULL CHECK (kept_worth_den > 0),
  ruin_chance_num INTEGER NOT NULL,
  ruin_chance_den INTEGER NOT NULL CHECK (ruin_chance_den > 0),
  PRIMARY KEY (quote, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE quote_use (
  quote INTEGER NOT NULL,
  bill INTEGER NOT NULL,
  position INTEGER NOT NULL,
  item TEXT NOT NULL,
  part TEXT NOT NULL,
  dimension TEXT NOT NULL,
  net INTEGER NOT NULL,
  PRIMARY KEY (quote, bill, position),
  FOREIGN KEY (quote, bill) REFERENCES quote_bill (quote, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE quote_work (
  quote INTEGER NOT NULL REFERENCES quote (id),
  position INTEGER NOT NULL,
  operation TEXT NOT NULL,
  part TEXT NOT NULL,
  step_version INTEGER REFERENCES step_version (id),
  count INTEGER NOT NULL,
  mean_s_num INTEGER NOT NULL,
  mean_s_den INTEGER NOT NULL CHECK (mean_s_den > 0),
  low_s_num INTEGER NOT NULL,
  low_s_den INTEGER NOT NULL CHECK (low_s_den > 0),
  high_s_num INTEGER NOT NULL,
  high_s_den INTEGER NOT NULL CHECK (high_s_den > 0),
  wait_low_s INTEGER NOT NULL,
  wait_high_s INTEGER NOT NULL,
  words TEXT NOT NULL,
  PRIMARY KEY (quote, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE quote_outside (
  quote INTEGER NOT NULL REFERENCES quote (id),
  position INTEGER NOT NULL,
  words TEXT NOT NULL,
  price INTEGER NOT NULL,
  at_cost INTEGER NOT NULL CHECK (at_cost IN (0, 1)),
  PRIMARY KEY (quote, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE quote_cost (
  quote INTEGER NOT NULL REFERENCES quote (id),
  position INTEGER NOT NULL,
  kind TEXT NOT NULL,
  part TEXT NOT NULL,
  source INTEGER NOT NULL CHECK (source >= -1),
  at_cost INTEGER NOT NULL CHECK (at_cost IN (0, 1)),
  amount INTEGER NOT NULL,
  PRIMARY KEY (quote, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE quote_part_share (
  quote INTEGER NOT NULL REFERENCES quote (id),
  position INTEGER NOT NULL,
  amount INTEGER NOT NULL,
  PRIMARY KEY (quote, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE quote_sheet (
  quote INTEGER PRIMARY KEY REFERENCES quote (id),
  materials INTEGER NOT NULL,
  labour INTEGER NOT NULL,
  overhead INTEGER NOT NULL,
  outside INTEGER NOT NULL,
  allowances INTEGER NOT NULL,
  earning INTEGER NOT NULL,
  standing INTEGER NOT NULL,
  total INTEGER NOT NULL,
  outlay INTEGER NOT NULL,
  seconds_num INTEGER NOT NULL,
  seconds_den INTEGER NOT NULL CHECK (seconds_den > 0)
) STRICT;

-- The ladder: cash floor, walk-away, full cost, target, asked, from position 0.
CREATE TABLE quote_rung (
  quote INTEGER NOT NULL REFERENCES quote (id),
  position INTEGER NOT NULL CHECK (position BETWEEN 0 AND 4),
  price INTEGER NOT NULL,
  money_left INTEGER NOT NULL,
  hourly INTEGER NOT NULL,
  PRIMARY KEY (quote, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE quote_offer_line (
  quote INTEGER NOT NULL REFERENCES quote (id),
  position INTEGER NOT NULL,
  component TEXT NOT NULL,
  net INTEGER NOT NULL,
  shown INTEGER NOT NULL,
  PRIMARY KEY (quote, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE quote_offer (
  quote INTEGER PRIMARY KEY REFERENCES quote (id),
  goods INTEGER NOT NULL,
  goods_shown INTEGER NOT NULL,
  carriage INTEGER NOT NULL,
  carriage_shown INTEGER NOT NULL,
  tax INTEGER NOT NULL,
  total INTEGER NOT NULL,
  deposit INTEGER NOT NULL,
  balance INTEGER NOT NULL,
  money_left INTEGER NOT NULL,
  margin_num INTEGER NOT NULL,
  margin_den INTEGER NOT NULL CHECK (margin_den > 0)
) STRICT;

-- A number over all values of a part of a quote, so that a changed one is seen.
CREATE TABLE quote_seal (
  quote INTEGER NOT NULL REFERENCES quote (id),
  part TEXT NOT NULL,
  seal INTEGER NOT NULL,
  PRIMARY KEY (quote, part)
) STRICT, WITHOUT ROWID;

-- Written once: entries, versions and quotes are never changed or deleted. (Only customer_address may be.)
CREATE TRIGGER entry_stays BEFORE UPDATE ON entry BEGIN SELECT RAISE (ABORT, 'entry is written once'); END;
CREATE TRIGGER entry_kept BEFORE DELETE ON entry BEGIN SELECT RAISE (ABORT, 'entry is written once'); END;
CREATE TRIGGER workshop_stays BEFORE UPDATE ON workshop BEGIN SELECT RAISE (ABORT, 'workshop is written once'); END;
CREATE TRIGGER workshop_kept BEFORE DELETE ON workshop BEGIN SELECT RAISE (ABORT, 'workshop is written once'); END;
CREATE TRIGGER setting_version_stays BEFORE UPDATE ON setting_version BEGIN SELECT RAISE (ABORT, 'setting_version is written once'); END;
CREATE TRIGGER setting_version_kept BEFORE DELETE ON setting_version BEGIN SELECT RAISE (ABORT, 'setting_version is written once'); END;
CREATE TRIGGER step_version_stays BEFORE UPDATE ON step_version BEGIN SELECT RAISE (ABORT, 'step_version is written once'); END;
CREATE TRIGGER step_version_kept BEFORE DELETE ON step_version BEGIN SELECT RAISE (ABORT, 'step_version is written once'); END;
CREATE TRIGGER material_stays BEFORE UPDATE ON material BEGIN SELECT RAISE (ABORT, 'material is written once'); END;
CREATE TRIGGER material_kept BEFORE DELETE ON material BEGIN SELECT RAISE (ABORT, 'material is written once'); END;
CREATE TRIGGER material_version_stays BEFORE UPDATE ON material_version BEGIN SELECT RAISE (ABORT, 'material_version is written once'); END;
CREATE TRIGGER material_version_kept BEFORE DELETE ON material_version BEGIN SELECT RAISE (ABORT, 'material_version is written once'); END;
CREATE TRIGGER price_version_stays BEFORE UPDATE ON price_version BEGIN SELECT RAISE (ABORT, 'price_version is written once'); END;
CREATE TRIGGER price_version_kept BEFORE DELETE ON price_version BEGIN SELECT RAISE (ABORT, 'price_version is written once'); END;
CREATE TRIGGER customer_stays BEFORE UPDATE ON customer BEGIN SELECT RAISE (ABORT, 'customer is written once'); END;
CREATE TRIGGER customer_kept BEFORE DELETE ON customer BEGIN SELECT RAISE (ABORT, 'customer is written once'); END;
CREATE TRIGGER commission_stays BEFORE UPDATE ON commission BEGIN SELECT RAISE (ABORT, 'commission is written once'); END;
CREATE TRIGGER commission_kept BEFORE DELETE ON commission BEGIN SELECT RAISE (ABORT, 'commission is written once'); END;
CREATE TRIGGER quote_stays BEFORE UPDATE ON quote BEGIN SELECT RAISE (ABORT, 'quote is written once'); END;
CREATE TRIGGER quote_kept BEFORE DELETE ON quote BEGIN SELECT RAISE (ABORT, 'quote is written once'); END;
CREATE TRIGGER quote_terms_stays BEFORE UPDATE ON quote_terms BEGIN SELECT RAISE (ABORT, 'quote_terms is written once'); END;
CREATE TRIGGER quote_terms_kept BEFORE DELETE ON quote_terms BEGIN SELECT RAISE (ABORT, 'quote_terms is written once'); END;
CREATE TRIGGER quote_figure_stays BEFORE UPDATE ON quote_figure BEGIN SELECT RAISE (ABORT, 'quote_figure is written once'); END;
CREATE TRIGGER quote_figure_kept BEFORE DELETE ON quote_figure BEGIN SELECT RAISE (ABORT, 'quote_figure is written once'); END;
CREATE TRIGGER quote_choice_stays BEFORE UPDATE ON quote_choice BEGIN SELECT RAISE (ABORT, 'quote_choice is written once'); END;
CREATE TRIGGER quote_choice_kept BEFORE DELETE ON quote_choice BEGIN SELECT RAISE (ABORT, 'quote_choice is written once'); END;
CREATE TRIGGER quote_piece_stays BEFORE UPDATE ON quote_piece BEGIN SELECT RAISE (ABORT, 'quote_piece is written once'); END;
CREATE TRIGGER quote_piece_kept BEFORE DELETE ON quote_piece BEGIN SELECT RAISE (ABORT, 'quote_piece is written once'); END;
CREATE TRIGGER quote_warning_stays BEFORE UPDATE ON quote_warning BEGIN SELECT RAISE (ABORT, 'quote_warning is written once'); END;
CREATE TRIGGER quote_warning_kept BEFORE DELETE ON quote_warning BEGIN SELECT RAISE (ABORT, 'quote_warning is written once'); END;
CREATE TRIGGER quote_material_stays BEFORE UPDATE ON quote_material BEGIN SELECT RAISE (ABORT, 'quote_material is written once'); END;
CREATE TRIGGER quote_material_kept BEFORE DELETE ON quote_material BEGIN SELECT RAISE (ABORT, 'quote_material is written once'); END;
CREATE TRIGGER quote_bill_stays BEFORE UPDATE ON quote_bill BEGIN SELECT RAISE (ABORT, 'quote_bill is written once'); END;
CREATE TRIGGER quote_bill_kept BEFORE DELETE ON quote_bill BEGIN SELECT RAISE (ABORT, 'quote_bill is written once'); END;
CREATE TRIGGER quote_use_stays BEFORE UPDATE ON quote_use BEGIN SELECT RAISE (ABORT, 'quote_use is written once'); END;
CREATE TRIGGER quote_use_kept BEFORE DELETE ON quote_use BEGIN SELECT RAISE (ABORT, 'quote_use is written once'); END;
CREATE TRIGGER quote_work_stays BEFORE UPDATE ON quote_work BEGIN SELECT RAISE (ABORT, 'quote_work is written once'); END;
CREATE TRIGGER quote_work_kept BEFORE DELETE ON quote_work BEGIN SELECT RAISE (ABORT, 'quote_work is written once'); END;
CREATE TRIGGER quote_outside_stays BEFORE UPDATE ON quote_outside BEGIN SELECT RAISE (ABORT, 'quote_outside is written once'); END;
CREATE TRIGGER quote_outside_kept BEFORE DELETE ON quote_outside BEGIN SELECT RAISE (ABORT, 'quote_outside is written once'); END;
CREATE TRIGGER quote_cost_stays BEFORE UPDATE ON quote_cost BEGIN SELECT RAISE (ABORT, 'quote_cost is written once'); END;
CREATE TRIGGER quote_cost_kept BEFORE DELETE ON quote_cost BEGIN SELECT RAISE (ABORT, 'quote_cost is written once'); END;
CREATE TRIGGER quote_part_share_stays BEFORE UPDATE ON quote_part_share BEGIN SELECT RAISE (ABORT, 'quote_part_share is written once'); END;
CREATE TRIGGER quote_part_share_kept BEFORE DELETE ON quote_part_share BEGIN SELECT RAISE (ABORT, 'quote_part_share is written once'); END;
CREATE TRIGGER quote_sheet_stays BEFORE UPDATE ON quote_sheet BEGIN SELECT RAISE (ABORT, 'quote_sheet is written once'); END;
CREATE TRIGGER quote_sheet_kept BEFORE DELETE ON quote_sheet BEGIN SELECT RAISE (ABORT, 'quote_sheet is written once'); END;
CREATE TRIGGER quote_rung_stays BEFORE UPDATE ON quote_rung BEGIN SELECT RAISE (ABORT, 'quote_rung is written once'); END;
CREATE TRIGGER quote_rung_kept BEFORE DELETE ON quote_rung BEGIN SELECT RAISE (ABORT, 'quote_rung is written once'); END;
CREATE TRIGGER quote_offer_line_stays BEFORE UPDATE ON quote_offer_line BEGIN SELECT RAISE (ABORT, 'quote_offer_line is written once'); END;
CREATE TRIGGER quote_offer_line_kept BEFORE DELETE ON quote_offer_line BEGIN SELECT RAISE (ABORT, 'quote_offer_line is written once'); END;
CREATE TRIGGER quote_offer_stays BEFORE UPDATE ON quote_offer BEGIN SELECT RAISE (ABORT, 'quote_offer is written once'); END;
CREATE TRIGGER quote_offer_kept BEFORE DELETE ON quote_offer BEGIN SELECT RAISE (ABORT, 'quote_offer is written once'); END;
CREATE TRIGGER quote_seal_stays BEFORE UPDATE ON quote_seal BEGIN SELECT RAISE (ABORT, 'quote_seal is written once'); END;
CREATE TRIGGER quote_seal_kept BEFORE DELETE ON quote_seal BEGIN SELECT RAISE (ABORT, 'quote_seal is written once'); END;

-- A name can be forgotten by emptying it; the row stays with its customer.
CREATE TRIGGER customer_address_kept BEFORE DELETE ON customer_address BEGIN SELECT RAISE (ABORT, 'empty it instead'); END;

PRAGMA application_id = 1164862562; -- 'Endb'
PRAGMA user_version = 1;
