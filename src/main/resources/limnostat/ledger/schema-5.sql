-- Schema 5. One row: what the file stands for, by the newest commit that changed its account
-- (a booking, a state); the record beside the file has the same. checksum: CRC-32C.
CREATE TABLE seal (
  id INTEGER PRIMARY KEY CHECK (id = 1),
  ledger_id TEXT NOT NULL,
  machine TEXT NOT NULL,
  commits INTEGER NOT NULL,
  checksum INTEGER NOT NULL
) STRICT;
