-- One row per recorded article. Times are UTC, ISO 8601, so that they sort as text.
CREATE TABLE article (
  id ${identity},
  content_hash TEXT NOT NULL,
  recorded_at TEXT NOT NULL,
  recorded_by TEXT NOT NULL,
  measured_at TEXT NOT NULL,
  machine TEXT NOT NULL,
  job TEXT NOT NULL,
  file TEXT NOT NULL,
  stage TEXT NOT NULL,
  reference TEXT NOT NULL,
  shift TEXT NOT NULL,
  operator TEXT NOT NULL,
  temperature_c DOUBLE PRECISION,
  minutes_running DOUBLE PRECISION,
  placements_since_service DOUBLE PRECISION,
  notes TEXT NOT NULL,
  corrects BIGINT REFERENCES article (id),
  reason TEXT NOT NULL
);
-- The same article is recorded once; only a correction may repeat its content.
CREATE UNIQUE INDEX article_once ON article (content_hash) WHERE corrects IS NULL;
-- A row is corrected once; a second correction corrects the first.
CREATE UNIQUE INDEX article_corrected_once ON article (corrects) WHERE corrects IS NOT NULL;
CREATE INDEX article_by_machine ON article (machine, measured_at);

-- What was measured, panel frame, mm and degrees.
CREATE TABLE placement (
  article_id BIGINT NOT NULL REFERENCES article (id),
  seq INTEGER NOT NULL,
  panel TEXT NOT NULL,
  board_column INTEGER NOT NULL,
  board_row INTEGER NOT NULL,
  ref TEXT NOT NULL,
  part TEXT NOT NULL,
  nozzle TEXT,
  feeder TEXT,
  head TEXT,
  x_mm DOUBLE PRECISION NOT NULL,
  y_mm DOUBLE PRECISION NOT NULL,
  rotation_deg DOUBLE PRECISION NOT NULL,
  dx_mm DOUBLE PRECISION,
  dy_mm DOUBLE PRECISION,
  drotation_deg DOUBLE PRECISION,
  u_mm DOUBLE PRECISION,
  used SMALLINT NOT NULL,
  excluded_as TEXT NOT NULL,
  PRIMARY KEY (article_id, seq)
);

-- What was fitted, unshrunk, with standard errors.
CREATE TABLE fit_parameter (
  article_id BIGINT NOT NULL REFERENCES article (id),
  seq INTEGER NOT NULL,
  panel TEXT NOT NULL,
  name TEXT NOT NULL,
  unit TEXT NOT NULL,
  value DOUBLE PRECISION NOT NULL,
  standard_error DOUBLE PRECISION,
  PRIMARY KEY (article_id, seq)
);

-- Corrections entered into the machine before the article: increments that add up.
CREATE TABLE entered_trim (
  article_id BIGINT NOT NULL REFERENCES article (id),
  seq INTEGER NOT NULL,
  name TEXT NOT NULL,
  unit TEXT NOT NULL,
  increment DOUBLE PRECISION NOT NULL,
  scope TEXT NOT NULL,
  source_hash TEXT NOT NULL,
  PRIMARY KEY (article_id, seq)
);
CREATE INDEX entered_trim_by_source ON entered_trim (source_hash);
