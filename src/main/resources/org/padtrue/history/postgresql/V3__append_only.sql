-- Nothing in the log is changed or deleted; a correction is a new row.
CREATE FUNCTION refuse_change() RETURNS trigger AS $$
BEGIN
  RAISE EXCEPTION 'the log is append-only';
END;
$$ LANGUAGE plpgsql;
CREATE TRIGGER article_append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON article
  FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER placement_append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON placement
  FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER fit_parameter_append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON fit_parameter
  FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER entered_trim_append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON entered_trim
  FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER attachment_append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON attachment
  FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER machine_event_append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON machine_event
  FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
