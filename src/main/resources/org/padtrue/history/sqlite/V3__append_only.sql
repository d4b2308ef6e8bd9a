-- Nothing in the log is changed or deleted; a correction is a new row.
CREATE TRIGGER article_no_update BEFORE UPDATE ON article
BEGIN
  SELECT RAISE(ABORT, 'the log is append-only');
END;
CREATE TRIGGER article_no_delete BEFORE DELETE ON article
BEGIN
  SELECT RAISE(ABORT, 'the log is append-only');
END;
CREATE TRIGGER placement_no_update BEFORE UPDATE ON placement
BEGIN
  SELECT RAISE(ABORT, 'the log is append-only');
END;
CREATE TRIGGER placement_no_delete BEFORE DELETE ON placement
BEGIN
  SELECT RAISE(ABORT, 'the log is append-only');
END;
CREATE TRIGGER fit_parameter_no_update BEFORE UPDATE ON fit_parameter
BEGIN
  SELECT RAISE(ABORT, 'the log is append-only');
END;
CREATE TRIGGER fit_parameter_no_delete BEFORE DELETE ON fit_parameter
BEGIN
  SELECT RAISE(ABORT, 'the log is append-only');
END;
CREATE TRIGGER entered_trim_no_update BEFORE UPDATE ON entered_trim
BEGIN
  SELECT RAISE(ABORT, 'the log is append-only');
END;
CREATE TRIGGER entered_trim_no_delete BEFORE DELETE ON entered_trim
BEGIN
  SELECT RAISE(ABORT, 'the log is append-only');
END;
CREATE TRIGGER attachment_no_update BEFORE UPDATE ON attachment
BEGIN
  SELECT RAISE(ABORT, 'the log is append-only');
END;
CREATE TRIGGER attachment_no_delete BEFORE DELETE ON attachment
BEGIN
  SELECT RAISE(ABORT, 'the log is append-only');
END;
CREATE TRIGGER machine_event_no_update BEFORE UPDATE ON machine_event
BEGIN
  SELECT RAISE(ABORT, 'the log is append-only');
END;
CREATE TRIGGER machine_event_no_delete BEFORE DELETE ON machine_event
BEGIN
  SELECT RAISE(ABORT, 'the log is append-only');
END;
