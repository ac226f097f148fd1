-- Schema 1. STRICT and WITHOUT ROWID: SQLite 3.37 or later, which the driver brings.
-- Times are monotonic_s (s, within one boot) and unix_time_s (wall clock, right only where
-- clock_trusted is 1). Amounts: g of chlorine (as Cl2), mL of acid as fed.

-- 'LIMN': tells a ledger from another program's database.
PRAGMA application_id = 1279872334;

-- Boots by number, since the 36 characters of an id in every row would double the readings.
CREATE TABLE boot (
  id INTEGER PRIMARY KEY,
  boot_id TEXT NOT NULL UNIQUE
) STRICT;

-- The last booking of each output only: amounts are cumulative.
CREATE TABLE booking (
  output TEXT PRIMARY KEY,
  cumulative_amount REAL NOT NULL,
  monotonic_s REAL NOT NULL,
  unix_time_s REAL NOT NULL,
  clock_trusted INTEGER NOT NULL,
  boot INTEGER NOT NULL REFERENCES boot
) STRICT, WITHOUT ROWID;

-- One row: the newest state.
CREATE TABLE state (
  id INTEGER PRIMARY KEY CHECK (id = 1),
  json BLOB NOT NULL,
  monotonic_s REAL NOT NULL,
  unix_time_s REAL NOT NULL,
  clock_trusted INTEGER NOT NULL,
  boot INTEGER NOT NULL REFERENCES boot
) STRICT;

CREATE TABLE given (
  hour_unix_s INTEGER NOT NULL,
  output TEXT NOT NULL,
  amount REAL NOT NULL,
  PRIMARY KEY (hour_unix_s, output)
) STRICT, WITHOUT ROWID;

CREATE TABLE readings (
  id INTEGER PRIMARY KEY,
  monotonic_s REAL NOT NULL,
  unix_time_s REAL NOT NULL,
  clock_trusted INTEGER NOT NULL,
  boot INTEGER NOT NULL REFERENCES boot,
  ph REAL,
  orp_mv REAL,
  water_c REAL,
  free_chlorine_mg_l REAL,
  free_chlorine_sd_mg_l REAL,
  demand_mg_l_day REAL,
  duty REAL,
  chlorine_g REAL,
  acid_ml REAL
) STRICT;

CREATE TABLE event (
  id INTEGER PRIMARY KEY,
  monotonic_s REAL NOT NULL,
  unix_time_s REAL NOT NULL,
  clock_trusted INTEGER NOT NULL,
  boot INTEGER NOT NULL REFERENCES boot,
  kind TEXT NOT NULL,
  json TEXT NOT NULL
) STRICT;

CREATE TABLE water_test (
  id INTEGER PRIMARY KEY,
  monotonic_s REAL NOT NULL,
  unix_time_s REAL NOT NULL,
  clock_trusted INTEGER NOT NULL,
  boot INTEGER NOT NULL REFERENCES boot,
  json TEXT NOT NULL
) STRICT;

CREATE TABLE setting (
  id INTEGER PRIMARY KEY,
  monotonic_s REAL NOT NULL,
  unix_time_s REAL NOT NULL,
  clock_trusted INTEGER NOT NULL,
  boot INTEGER NOT NULL REFERENCES boot,
  name TEXT NOT NULL,
  json TEXT NOT NULL,
  origin TEXT NOT NULL
) STRICT;
