CREATE VIRTUAL TABLE `prints_search` USING fts5(
  object_number, title, maker, people, subjects, inscription_front, inscription_back, provenance, credit, notes,
  content='prints', content_rowid='id', tokenize='unicode61 remove_diacritics 2', prefix='2 3'
);
--> statement-breakpoint
CREATE TRIGGER `prints_search_insert` AFTER INSERT ON `prints` BEGIN
  INSERT INTO prints_search(rowid, object_number, title, maker, people, subjects, inscription_front, inscription_back, provenance, credit, notes)
  VALUES (new.id, new.object_number, new.title, new.maker, new.people, new.subjects, new.inscription_front, new.inscription_back, new.provenance, new.credit, new.notes);
END;
--> statement-breakpoint
CREATE TRIGGER `prints_search_delete` AFTER DELETE ON `prints` BEGIN
  INSERT INTO prints_search(prints_search, rowid, object_number, title, maker, people, subjects, inscription_front, inscription_back, provenance, credit, notes)
  VALUES ('delete', old.id, old.object_number, old.title, old.maker, old.people, old.subjects, old.inscription_front, old.inscription_back, old.provenance, old.credit, old.notes);
END;
--> statement-breakpoint
CREATE TRIGGER `prints_search_update` AFTER UPDATE ON `prints` BEGIN
  INSERT INTO prints_search(prints_search, rowid, object_number, title, maker, people, subjects, inscription_front, inscription_back, provenance, credit, notes)
  VALUES ('delete', old.id, old.object_number, old.title, old.maker, old.people, old.subjects, old.inscription_front, old.inscription_back, old.provenance, old.credit, old.notes);
  INSERT INTO prints_search(rowid, object_number, title, maker, people, subjects, inscription_front, inscription_back, provenance, credit, notes)
  VALUES (new.id, new.object_number, new.title, new.maker, new.people, new.subjects, new.inscription_front, new.inscription_back, new.provenance, new.credit, new.notes);
END;
--> statement-breakpoint
CREATE TRIGGER `events_never_change` BEFORE UPDATE ON `events` BEGIN
  SELECT raise(ABORT, 'history is only ever added to');
END;
--> statement-breakpoint
CREATE TRIGGER `events_never_go` BEFORE DELETE ON `events` BEGIN
  SELECT raise(ABORT, 'history is only ever added to');
END;
--> statement-breakpoint
CREATE TRIGGER `fixity_checks_never_change` BEFORE UPDATE ON `fixity_checks` BEGIN
  SELECT raise(ABORT, 'fixity checks are only ever added to');
END;
--> statement-breakpoint
INSERT INTO `users` (`name`, `role`) VALUES ('Keeper', 'keeper');
