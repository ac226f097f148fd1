-- Schema 3. Messages that the broker has not acknowledged; the number is the order of sending.
CREATE TABLE outbox (
  number INTEGER PRIMARY KEY,
  topic TEXT NOT NULL,
  worth TEXT NOT NULL,
  payload BLOB NOT NULL
) STRICT;
