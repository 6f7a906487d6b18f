-- The bench: who works when, what a step may occupy, and on which days nobody works; what a quote of it promises.
-- Versions are dated and written once, like those of steps and materials.

-- week: the hours of each day, "Mon-Fri 09:00-12:30 13:30-17:00, Sat 10:00-13:00". rate: an hour; NULL: the workshop's.
-- overtime_s: at most so much a working day beyond those hours. gone: from that day on not of the bench.
CREATE TABLE person_version (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  code TEXT NOT NULL CHECK (code <> '' AND code NOT GLOB '*[^a-z0-9-]*'),
  valid_from TEXT NOT NULL CHECK (valid_from IS date(valid_from)),
  name TEXT NOT NULL,
  week TEXT NOT NULL,
  rate INTEGER CHECK (rate >= 0),
  overtime_s INTEGER NOT NULL CHECK (overtime_s BETWEEN 0 AND 86400),
  gone INTEGER NOT NULL CHECK (gone IN (0, 1)),
  entry INTEGER NOT NULL REFERENCES entry (seq)
) STRICT;
CREATE INDEX person_in_force ON person_version (code, valid_from);

-- A press, a drying place. count: books at once; 0: from that day on there is none.
CREATE TABLE place_version (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  code TEXT NOT NULL CHECK (code <> '' AND code NOT GLOB '*[^a-z0-9-]*'),
  valid_from TEXT NOT NULL CHECK (valid_from IS date(valid_from)),
  name TEXT NOT NULL,
  count INTEGER NOT NULL CHECK (count >= 0),
  entry INTEGER NOT NULL REFERENCES entry (seq)
) STRICT;
CREATE INDEX place_in_force ON place_version (code, valid_from);

-- Both ends included. person: a code; '' for the whole workshop. A row that undoes another takes its days back; where that
-- row is undone in its turn, they are off again.
CREATE TABLE day_off (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  person TEXT NOT NULL,
  first TEXT NOT NULL CHECK (first IS date(first)),
  last TEXT NOT NULL CHECK (last IS date(last)),
  words TEXT NOT NULL,
  undoes INTEGER REFERENCES day_off (id) CHECK (undoes < id),
  entry INTEGER NOT NULL REFERENCES entry (seq),
  CHECK (first <= last)
) STRICT;
CREATE INDEX day_off_undone ON day_off (undoes) WHERE undoes IS NOT NULL;

-- Codes parted by a blank; '': anyone, nothing, no step. A version of before has none.
ALTER TABLE step_version ADD COLUMN who TEXT NOT NULL DEFAULT '';
ALTER TABLE step_version ADD COLUMN place TEXT NOT NULL DEFAULT '';
ALTER TABLE step_version ADD COLUMN after TEXT NOT NULL DEFAULT '';

-- Beside the row of quote_work at the same position: its rate an hour; NULL: the workshop's. A quote of engine rules before
-- 4 has no rows here: all its hours are at the workshop's rate.
CREATE TABLE quote_hand (
  quote INTEGER NOT NULL REFERENCES quote (id),
  position INTEGER NOT NULL,
  rate INTEGER CHECK (rate >= 0),
  PRIMARY KEY (quote, position)
) STRICT, WITHOUT ROWID;

-- The simulated contingency that the offer follows from, and what it was simulated with. Without a row, as in every
-- quote of engine rules before 4, the contingency is the plain share of quote_terms.
CREATE TABLE quote_risk (
  quote INTEGER NOT NULL REFERENCES quote (id),
  position INTEGER NOT NULL CHECK (position = 0),
  runs INTEGER NOT NULL CHECK (runs >= 1),
  seed INTEGER NOT NULL,
  confidence_num INTEGER NOT NULL CHECK (confidence_num > 0),
  confidence_den INTEGER NOT NULL CHECK (confidence_den >= confidence_num),
  contingency INTEGER NOT NULL CHECK (contingency >= 0),
  PRIMARY KEY (quote, position)
) STRICT, WITHOUT ROWID;

-- Hours beyond the week's, and the share they are paid beyond the hourly rate. Without a row, as in every quote of engine
-- rules before 4, there are none.
CREATE TABLE quote_overtime (
  quote INTEGER NOT NULL REFERENCES quote (id),
  position INTEGER NOT NULL CHECK (position = 0),
  seconds_num INTEGER NOT NULL CHECK (seconds_num > 0),
  seconds_den INTEGER NOT NULL CHECK (seconds_den > 0),
  share_num INTEGER NOT NULL CHECK (share_num >= 0),
  share_den INTEGER NOT NULL CHECK (share_den > 0),
  PRIMARY KEY (quote, position)
) STRICT, WITHOUT ROWID;

-- The days named, counted from `starts`, the day of the customer's word; asked_by: the day the customer asked for.
-- Without a row, as in every quote of engine rules before 4 and of a workshop without hours, no day was named.
CREATE TABLE quote_promise (
  quote INTEGER NOT NULL REFERENCES quote (id),
  position INTEGER NOT NULL CHECK (position = 0),
  starts TEXT NOT NULL CHECK (starts IS date(starts)),
  asked_by TEXT CHECK (asked_by IS date(asked_by)),
  earliest TEXT NOT NULL CHECK (earliest IS date(earliest)),
  ready_50 TEXT NOT NULL CHECK (ready_50 IS date(ready_50)),
  ready_80 TEXT NOT NULL CHECK (ready_80 IS date(ready_80)),
  ready_95 TEXT NOT NULL CHECK (ready_95 IS date(ready_95)),
  CHECK (starts <= earliest AND ready_50 <= ready_80 AND ready_80 <= ready_95),
  PRIMARY KEY (quote, position)
) STRICT, WITHOUT ROWID;

-- Said to be finished: nothing of the operation is left to do on the job, however long it took.
CREATE TABLE job_done (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  job INTEGER NOT NULL REFERENCES job (id),
  operation TEXT NOT NULL,
  part TEXT NOT NULL,
  on_date TEXT NOT NULL CHECK (on_date IS date(on_date)),
  undoes INTEGER UNIQUE REFERENCES job_done (id) CHECK (undoes < id),
  entry INTEGER NOT NULL REFERENCES entry (seq),
  CHECK ((operation = '') <> (part = ''))
) STRICT;
CREATE INDEX done_of_job ON job_done (job);

CREATE TRIGGER person_version_stays BEFORE UPDATE ON person_version BEGIN SELECT RAISE (ABORT, 'person_version is written once'); END;
CREATE TRIGGER person_version_kept BEFORE DELETE ON person_version BEGIN SELECT RAISE (ABORT, 'person_version is written once'); END;
CREATE TRIGGER place_version_stays BEFORE UPDATE ON place_version BEGIN SELECT RAISE (ABORT, 'place_version is written once'); END;
CREATE TRIGGER place_version_kept BEFORE DELETE ON place_version BEGIN SELECT RAISE (ABORT, 'place_version is written once'); END;
CREATE TRIGGER day_off_stays BEFORE UPDATE ON day_off BEGIN SELECT RAISE (ABORT, 'day_off is written once'); END;
CREATE TRIGGER day_off_kept BEFORE DELETE ON day_off BEGIN SELECT RAISE (ABORT, 'day_off is written once'); END;
CREATE TRIGGER quote_hand_stays BEFORE UPDATE ON quote_hand BEGIN SELECT RAISE (ABORT, 'quote_hand is written once'); END;
CREATE TRIGGER quote_hand_kept BEFORE DELETE ON quote_hand BEGIN SELECT RAISE (ABORT, 'quote_hand is written once'); END;
CREATE TRIGGER quote_risk_stays BEFORE UPDATE ON quote_risk BEGIN SELECT RAISE (ABORT, 'quote_risk is written once'); END;
CREATE TRIGGER quote_risk_kept BEFORE DELETE ON quote_risk BEGIN SELECT RAISE (ABORT, 'quote_risk is written once'); END;
CREATE TRIGGER quote_overtime_stays BEFORE UPDATE ON quote_overtime BEGIN SELECT RAISE (ABORT, 'quote_overtime is written once'); END;
CREATE TRIGGER quote_overtime_kept BEFORE DELETE ON quote_overtime BEGIN SELECT RAISE (ABORT, 'quote_overtime is written once'); END;
CREATE TRIGGER quote_promise_stays BEFORE UPDATE ON quote_promise BEGIN SELECT RAISE (ABORT, 'quote_promise is written once'); END;
CREATE TRIGGER quote_promise_kept BEFORE DELETE ON quote_promise BEGIN SELECT RAISE (ABORT, 'quote_promise is written once'); END;
CREATE TRIGGER job_done_stays BEFORE UPDATE ON job_done BEGIN SELECT RAISE (ABORT, 'job_done is written once'); END;
CREATE TRIGGER job_done_kept BEFORE DELETE ON job_done BEGIN SELECT RAISE (ABORT, 'job_done is written once'); END;

PRAGMA user_version = 5;
