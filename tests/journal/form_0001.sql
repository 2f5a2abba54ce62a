BEGIN TRANSACTION;
CREATE TABLE journal_entries (
	seq INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT, 
	"plan" TEXT NOT NULL, 
	id TEXT NOT NULL, 
	made_at TEXT NOT NULL, 
	received_at TEXT NOT NULL, 
	kind TEXT NOT NULL, 
	place TEXT NOT NULL, 
	"by" TEXT NOT NULL, 
	value DOUBLE, 
	words TEXT NOT NULL, 
	corrects TEXT, 
	UNIQUE ("plan", id)
);
INSERT INTO "journal_entries" VALUES(1,'square','11111111-1111-4111-8111-111111111111','2026-05-20T13:00:00.000000+00:00','2026-05-21T07:00:00.000000+00:00','finger','water side 3','Ann',0.0,'at the edge',NULL);
INSERT INTO "journal_entries" VALUES(2,'square','22222222-2222-4222-8222-222222222222','2026-05-20T13:05:00.250000+00:00','2026-05-21T07:00:00.000000+00:00','catch','water side 3','',0.3,'5 min',NULL);
INSERT INTO "journal_entries" VALUES(3,'square','33333333-3333-4333-8333-333333333333','2026-05-19T06:00:00.000000+00:00','2026-05-21T07:00:00.000000+00:00','rain','','',10.16,'',NULL);
INSERT INTO "journal_entries" VALUES(4,'square','44444444-4444-4444-8444-444444444444','2026-05-21T06:00:00.000000+00:00','2026-05-21T07:00:00.000000+00:00','finger','water side 3','Ann',1.0,'','11111111-1111-4111-8111-111111111111');
CREATE TABLE journal_version (
	version_num VARCHAR(32) NOT NULL, 
	CONSTRAINT journal_version_pkc PRIMARY KEY (version_num)
);
INSERT INTO "journal_version" VALUES('0001');
CREATE INDEX journal_entries_made ON journal_entries ("plan", made_at, id);
CREATE TRIGGER journal_entries_no_update BEFORE UPDATE ON journal_entries
BEGIN SELECT RAISE(ABORT, 'the journal is only added to; write a correction as a new entry'); END;
CREATE TRIGGER journal_entries_no_delete BEFORE DELETE ON journal_entries
BEGIN SELECT RAISE(ABORT, 'the journal is only added to; write a correction as a new entry'); END;
DELETE FROM "sqlite_sequence";
INSERT INTO "sqlite_sequence" VALUES('journal_entries',4);
COMMIT;
