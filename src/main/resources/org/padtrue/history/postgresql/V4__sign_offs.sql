-- Who answers for an article. A later sign-off or a withdrawal is a new row.
CREATE TABLE sign_off (
  id BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
  article_id BIGINT NOT NULL REFERENCES article (id),
  signed_at TEXT NOT NULL,
  recorded_by TEXT NOT NULL,
  name TEXT NOT NULL,
  role TEXT NOT NULL,
  note TEXT NOT NULL,
  withdraws BIGINT REFERENCES sign_off (id)
);
CREATE INDEX sign_off_by_article ON sign_off (article_id, id);
CREATE UNIQUE INDEX sign_off_withdrawn_once ON sign_off (withdraws) WHERE withdraws IS NOT NULL;
CREATE TRIGGER sign_off_append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON sign_off
  FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
