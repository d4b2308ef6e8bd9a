-- Reel or lot that the part came from; null where the files did not say.
ALTER TABLE placement ADD COLUMN lot TEXT;
