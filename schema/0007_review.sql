-- Looking back: what the sale of a job's book really took, told once the bills of it are there. What is not told is as it was
-- quoted. Several of one kind add up; less than nothing corrects.
CREATE TABLE job_sale (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  job INTEGER NOT NULL REFERENCES job (id),
  kind TEXT NOT NULL CHECK (kind IN ('fees', 'carriage', 'exchange', 'returned', 'tax')),
  amount INTEGER NOT NULL,
  on_date TEXT NOT NULL CHECK (on_date IS date(on_date)),
  words TEXT NOT NULL,
  undoes INTEGER UNIQUE REFERENCES job_sale (id) CHECK (undoes < id),
  entry INTEGER NOT NULL REFERENCES entry (seq)
) STRICT;
CREATE INDEX sale_of_job ON job_sale (job);
CREATE INDEX result_of_job ON job_result (job);

CREATE TRIGGER job_sale_stays BEFORE UPDATE ON job_sale BEGIN SELECT RAISE (ABORT, 'job_sale is written once'); END;
CREATE TRIGGER job_sale_kept BEFORE DELETE ON job_sale BEGIN SELECT RAISE (ABORT, 'job_sale is written once'); END;

PRAGMA user_version = 7;
