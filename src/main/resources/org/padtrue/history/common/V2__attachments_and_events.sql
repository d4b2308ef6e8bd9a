ALTER TABLE article ADD COLUMN humidity_percent DOUBLE PRECISION;

-- Pictures and other files that belong to an article, by what they contain.
CREATE TABLE attachment (
  article_id BIGINT NOT NULL REFERENCES article (id),
  seq INTEGER NOT NULL,
  sha256 TEXT NOT NULL,
  file TEXT NOT NULL,
  bytes BIGINT NOT NULL,
  PRIMARY KEY (article_id, seq)
);

-- Service, a new reel: what happened to a machine between articles.
CREATE TABLE machine_event (
  id ${identity},
  recorded_at TEXT NOT NULL,
  recorded_by TEXT NOT NULL,
  happened_at TEXT NOT NULL,
  machine TEXT NOT NULL,
  kind TEXT NOT NULL,
  level TEXT NOT NULL,
  note TEXT NOT NULL
);
CREATE INDEX machine_event_by_machine ON machine_event (machine, happened_at);
