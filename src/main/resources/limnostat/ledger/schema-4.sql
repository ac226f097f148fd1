-- Schema 4. What people put into the pool by hand, and took back.
CREATE TABLE addition (
  id INTEGER PRIMARY KEY,
  monotonic_s REAL NOT NULL,
  unix_time_s REAL NOT NULL,
  clock_trusted INTEGER NOT NULL,
  boot INTEGER NOT NULL REFERENCES boot,
  json TEXT NOT NULL
) STRICT;
