-- Schema 2. Up to which total the amounts of table given are kept, so that none is added twice.
CREATE TABLE given_until (
  output TEXT PRIMARY KEY,
  cumulative_amount REAL NOT NULL
) STRICT, WITHOUT ROWID;
