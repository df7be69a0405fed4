PRAGMA application_id = 1349481591;
PRAGMA user_version = 5;
BEGIN TRANSACTION;
CREATE TABLE blob (
                sha256 TEXT PRIMARY KEY,
                media TEXT NOT NULL,
                data BLOB NOT NULL
            , seal INTEGER);
INSERT INTO "blob" VALUES('a87cba1d08bc5397e7f459b9339b2427c42d824e223839840731f0a2cdd42f69','image/svg+xml',X'3C73766720786D6C6E733D27687474703A2F2F7777772E77332E6F72672F323030302F737667272F3E',173276375);
CREATE TABLE brought (
                seq INTEGER PRIMARY KEY REFERENCES event (seq),
                book TEXT NOT NULL
            , seal INTEGER);
CREATE TABLE countdown (
                panel_id INTEGER NOT NULL REFERENCES panel (panel_id),
                mix TEXT NOT NULL,
                total_s REAL NOT NULL,
                spent_s REAL NOT NULL,
                wall_utc TEXT NOT NULL,
                boot_s REAL,
                boot_id TEXT,
                running INTEGER NOT NULL,
                unsure INTEGER NOT NULL,
                surely_s REAL NOT NULL, seal INTEGER,
                PRIMARY KEY (panel_id, mix)
            );
INSERT INTO "countdown" VALUES(1,'1',1500.0,2.0,'2026-05-04T09:00:00.000000+00:00',1000.0,'boot-a',1,0,2.0,1669827072);
CREATE TABLE draft (
                draft_id INTEGER PRIMARY KEY AUTOINCREMENT,
                name TEXT NOT NULL,
                changed_utc TEXT NOT NULL,
                body TEXT NOT NULL
            , seal INTEGER);
CREATE TABLE draft_file (
                draft_id INTEGER NOT NULL REFERENCES draft (draft_id) ON DELETE CASCADE,
                role TEXT NOT NULL,
                sha256 TEXT NOT NULL,
                data BLOB NOT NULL, seal INTEGER,
                PRIMARY KEY (draft_id, role)
            );
CREATE TABLE event (
                seq INTEGER PRIMARY KEY AUTOINCREMENT,
                panel_id INTEGER NOT NULL REFERENCES panel (panel_id),
                act_id TEXT NOT NULL,
                at_utc TEXT NOT NULL,
                body TEXT NOT NULL
            , seal INTEGER);
INSERT INTO "event" VALUES(1,1,'act-0','2026-05-04T09:00:00.000000+00:00','{"version":1,"kind":"pieces_counted","mix":1,"placed":0,"at_s":0.0}',4083293413);
INSERT INTO "event" VALUES(2,1,'act-0','2026-05-04T09:00:00.000000+00:00','{"version":1,"kind":"step_begun","mix":1,"step":"set","at_s":0.0}',1936681501);
INSERT INTO "event" VALUES(3,1,'act-0','2026-05-04T09:00:00.000000+00:00','{"version":1,"kind":"note_written","text":"act 0","about":null}',431534367);
INSERT INTO "event" VALUES(4,1,'act-1','2026-05-04T09:00:00.000000+00:00','{"version":1,"kind":"pieces_counted","mix":1,"placed":1,"at_s":1.0}',547374152);
INSERT INTO "event" VALUES(5,1,'act-1','2026-05-04T09:00:00.000000+00:00','{"version":1,"kind":"step_begun","mix":1,"step":"set","at_s":1.0}',3192703973);
INSERT INTO "event" VALUES(6,1,'act-1','2026-05-04T09:00:00.000000+00:00','{"version":1,"kind":"note_written","text":"act 1","about":null}',3709187545);
INSERT INTO "event" VALUES(7,1,'act-2','2026-05-04T09:00:00.000000+00:00','{"version":1,"kind":"pieces_counted","mix":1,"placed":2,"at_s":2.0}',2409081854);
INSERT INTO "event" VALUES(8,1,'act-2','2026-05-04T09:00:00.000000+00:00','{"version":1,"kind":"step_begun","mix":1,"step":"set","at_s":2.0}',844705708);
INSERT INTO "event" VALUES(9,1,'act-2','2026-05-04T09:00:00.000000+00:00','{"version":1,"kind":"note_written","text":"act 2","about":null}',1267973842);
CREATE TABLE panel (
                panel_id INTEGER PRIMARY KEY AUTOINCREMENT,
                name TEXT NOT NULL,
                drawing_sha256 TEXT NOT NULL REFERENCES blob (sha256),
                created_utc TEXT NOT NULL
            , seal INTEGER);
INSERT INTO "panel" VALUES(1,'Lemons','a87cba1d08bc5397e7f459b9339b2427c42d824e223839840731f0a2cdd42f69','2026-05-04T09:00:00.000000+00:00',2174452440);
CREATE TABLE parted (
                panel_id INTEGER PRIMARY KEY REFERENCES panel (panel_id),
                from_panel INTEGER NOT NULL REFERENCES panel (panel_id),
                after_seq INTEGER NOT NULL
            , seal INTEGER);
CREATE TABLE setting (key TEXT PRIMARY KEY, value TEXT NOT NULL, seal INTEGER);
INSERT INTO "setting" VALUES('book_id','6d96185c92ff60b99b701f47af3532bd',2538208534);
CREATE INDEX event_by_panel ON event (panel_id, seq);
CREATE INDEX event_by_act ON event (act_id);
CREATE INDEX event_by_kind ON event (CASE WHEN json_valid(body) THEN json_extract(body, '$.kind') END);
CREATE TRIGGER event_stays BEFORE UPDATE ON event
                BEGIN SELECT RAISE (ABORT, 'an event is never rewritten'); END;
CREATE TRIGGER event_is_kept BEFORE DELETE ON event
                BEGIN SELECT RAISE (ABORT, 'an event is never removed'); END;
CREATE TRIGGER event_is_not_replaced BEFORE INSERT ON event
                WHEN EXISTS (SELECT 1 FROM event WHERE seq = NEW.seq)
                BEGIN SELECT RAISE (ABORT, 'an event is never replaced'); END;
CREATE TRIGGER blob_stays BEFORE UPDATE ON blob WHEN OLD.media <> 'lost'
                BEGIN SELECT RAISE (ABORT, 'a stored file is never rewritten'); END;
DELETE FROM "sqlite_sequence";
INSERT INTO "sqlite_sequence" VALUES('panel',1);
INSERT INTO "sqlite_sequence" VALUES('event',9);
COMMIT;
