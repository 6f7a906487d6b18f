-- Cutting by plan. A plan to buy new follows from its key alone: the request, the work spent on it and the version of
-- the solvers, as plain numbers. What was found is kept, so that pricing again asks no solver.
CREATE TABLE plan (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  key TEXT NOT NULL UNIQUE,
  outcome TEXT NOT NULL CHECK (outcome IN ('planned', 'impossible', 'not-found')),
  opened INTEGER NOT NULL CHECK (opened >= 0),
  gross INTEGER NOT NULL CHECK (gross >= 0),
  cost INTEGER NOT NULL,
  bound INTEGER NOT NULL,
  guess INTEGER NOT NULL CHECK (guess IN (0, 1)),
  entry INTEGER NOT NULL REFERENCES entry (seq)
) STRICT;

-- Of each line of a quote's bill, in the unit of its plan: what the plan costs, and what any plan costs at least; both 0
-- where it was not found by plan. A quote of engine rules before 3 has no rows here.
CREATE TABLE quote_plan (
  quote INTEGER NOT NULL REFERENCES quote (id),
  position INTEGER NOT NULL,
  cost INTEGER NOT NULL,
  bound INTEGER NOT NULL,
  guess INTEGER NOT NULL CHECK (guess IN (0, 1)),
  PRIMARY KEY (quote, position)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER plan_stays BEFORE UPDATE ON plan BEGIN SELECT RAISE (ABORT, 'plan is written once'); END;
CREATE TRIGGER plan_kept BEFORE DELETE ON plan BEGIN SELECT RAISE (ABORT, 'plan is written once'); END;
CREATE TRIGGER quote_plan_stays BEFORE UPDATE ON quote_plan BEGIN SELECT RAISE (ABORT, 'quote_plan is written once'); END;
CREATE TRIGGER quote_plan_kept BEFORE DELETE ON quote_plan BEGIN SELECT RAISE (ABORT, 'quote_plan is written once'); END;

PRAGMA user_version = 4;
