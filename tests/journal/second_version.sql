PRAGMA application_id = 1953655137;
PRAGMA user_version = 2;
BEGIN TRANSACTION;
CREATE TABLE abandoned (
    id INTEGER PRIMARY KEY, case_id INTEGER NOT NULL UNIQUE REFERENCES cases (id), at TEXT NOT NULL);
INSERT INTO "abandoned" VALUES(1,3,'2026-05-04T10:00:00');
CREATE TABLE action_corrections (
    id INTEGER PRIMARY KEY, action_id INTEGER NOT NULL UNIQUE REFERENCES actions (id),
    by_id INTEGER UNIQUE REFERENCES actions (id), at TEXT NOT NULL, why TEXT NOT NULL,
    CHECK (by_id IS NULL OR by_id > action_id));
INSERT INTO "action_corrections" VALUES(1,2,3,'2026-06-01T09:00:00','a nought too many');
CREATE TABLE actions (
    id INTEGER PRIMARY KEY, case_id INTEGER NOT NULL REFERENCES cases (id), at TEXT NOT NULL,
    what TEXT NOT NULL, day TEXT NOT NULL, note TEXT NOT NULL, treatment TEXT NOT NULL DEFAULT '');
INSERT INTO "actions" VALUES(1,1,'2026-05-04T10:00:00','iron-chelate-dtpa','2026-05-05','20 g, a glass of water','');
INSERT INTO "actions" VALUES(2,1,'2026-06-01T09:00:00','iron, 200 g','2026-05-06','','iron-chelate-dtpa');
INSERT INTO "actions" VALUES(3,1,'2026-06-01T09:00:00','iron, 20 g','2026-05-06','','iron-chelate-dtpa');
CREATE TABLE answers (
    id INTEGER PRIMARY KEY, case_id INTEGER NOT NULL REFERENCES cases (id), seq INTEGER NOT NULL, at TEXT NOT NULL,
    question TEXT NOT NULL, kind TEXT NOT NULL, payload TEXT NOT NULL, undoes INTEGER,
    UNIQUE (case_id, seq), UNIQUE (case_id, undoes),
    FOREIGN KEY (case_id, undoes) REFERENCES answers (case_id, seq),
    CHECK ((kind = 'back') = (undoes IS NOT NULL)), CHECK (undoes IS NULL OR undoes < seq));
INSERT INTO "answers" VALUES(1,1,1,'2026-05-04T10:00:00','crop','crop','{"crop":"strawberry"}',NULL);
INSERT INTO "answers" VALUES(2,1,2,'2026-05-04T10:00:00','words','words','{"text":"newest leaves are pale; it''s spreading"}',NULL);
INSERT INTO "answers" VALUES(3,1,3,'2026-05-04T10:00:00','which-leaves-first','finding','{"seen":["oldest-leaves-first"]}',NULL);
INSERT INTO "answers" VALUES(4,1,4,'2026-05-04T10:00:00','which-leaves-first','back','{}',3);
INSERT INTO "answers" VALUES(5,1,5,'2026-05-04T10:00:00','which-leaves-first','finding','{"seen":["newest-leaves-first"]}',NULL);
INSERT INTO "answers" VALUES(6,2,1,'2026-05-04T10:00:00','webbing','cant-tell','{}',NULL);
INSERT INTO "answers" VALUES(7,1,6,'2026-06-01T09:00:00','how-now','finding','{"seen":["better"]}',NULL);
INSERT INTO "answers" VALUES(8,1,7,'2026-06-01T09:00:00','how-now','cant-tell','{}',NULL);
CREATE TABLE beds (
    id INTEGER PRIMARY KEY, at TEXT NOT NULL, system TEXT NOT NULL, name TEXT NOT NULL, record TEXT NOT NULL);
INSERT INTO "beds" VALUES(1,'2026-06-01T09:00:00','main','wall','{"name":"wall","kind":"media","crops":["strawberry"]}');
INSERT INTO "beds" VALUES(2,'2026-06-01T09:00:00','main','wall','{"name":"wall","kind":"media","crops":["strawberry","basil"]}');
CREATE TABLE case_places (
    id INTEGER PRIMARY KEY, case_id INTEGER NOT NULL REFERENCES cases (id), at TEXT NOT NULL,
    bed TEXT NOT NULL, plant TEXT NOT NULL);
INSERT INTO "case_places" VALUES(1,1,'2026-06-01T09:00:00','wall','row 2');
CREATE TABLE cases (
    id INTEGER PRIMARY KEY, at TEXT NOT NULL, day TEXT NOT NULL, crop TEXT NOT NULL, plant TEXT NOT NULL,
    system TEXT NOT NULL);
INSERT INTO "cases" VALUES(1,'2026-05-04T10:00:00','2026-05-04','','row 2','{"volume_l":1200.0,"animals":["tilapia","shrimp"],"beds":"media"}');
INSERT INTO "cases" VALUES(2,'2026-05-04T10:00:00','2026-05-04','basil','','{"volume_l":1200.0,"animals":["tilapia","shrimp"],"beds":"media"}');
INSERT INTO "cases" VALUES(3,'2026-05-04T10:00:00','2026-05-01','chard','','{"volume_l":1200.0,"animals":["tilapia","shrimp"],"beds":"media"}');
CREATE TABLE closings (
    id INTEGER PRIMARY KEY, case_id INTEGER NOT NULL REFERENCES cases (id), at TEXT NOT NULL,
    outcome TEXT NOT NULL, note TEXT NOT NULL);
INSERT INTO "closings" VALUES(1,1,'2026-05-04T10:00:00','cured','new leaves are green');
CREATE TABLE migrations (id INTEGER PRIMARY KEY, name TEXT NOT NULL, at TEXT NOT NULL);
INSERT INTO "migrations" VALUES(1,'first','2026-05-04T10:00:00');
INSERT INTO "migrations" VALUES(2,'garden','2026-06-01T09:00:00');
CREATE TABLE outcomes (
    id INTEGER PRIMARY KEY, case_id INTEGER NOT NULL REFERENCES cases (id), at TEXT NOT NULL, day TEXT NOT NULL,
    causes TEXT NOT NULL, how TEXT NOT NULL);
INSERT INTO "outcomes" VALUES(1,1,'2026-06-01T09:00:00','2026-05-14','["iron-deficiency"]','new leaves green');
CREATE TABLE photos (
    id INTEGER PRIMARY KEY, case_id INTEGER NOT NULL REFERENCES cases (id), at TEXT NOT NULL, day TEXT NOT NULL,
    path TEXT NOT NULL, sha256 TEXT NOT NULL CHECK (length(sha256) = 64), size INTEGER NOT NULL, note TEXT NOT NULL);
INSERT INTO "photos" VALUES(1,1,'2026-06-01T09:00:00','2026-05-04','/tmp/leaf.jpg','9f91161f43433e49a6de6db680d79f60159f2e4ac9172621a12846428158440b',4,'top leaf');
CREATE TABLE plants (
    id INTEGER PRIMARY KEY, at TEXT NOT NULL, system TEXT NOT NULL, name TEXT NOT NULL, record TEXT NOT NULL);
INSERT INTO "plants" VALUES(1,'2026-06-01T09:00:00','main','row 2','{"name":"row 2","bed":"wall","crop":"strawberry","planted":"2026-03-01"}');
CREATE TABLE reading_corrections (
    id INTEGER PRIMARY KEY, reading_id INTEGER NOT NULL UNIQUE REFERENCES readings (id),
    by_id INTEGER UNIQUE REFERENCES readings (id), at TEXT NOT NULL, why TEXT NOT NULL,
    CHECK (by_id IS NULL OR by_id > reading_id));
INSERT INTO "reading_corrections" VALUES(1,1,4,'2026-05-04T10:00:00','comma forgotten');
INSERT INTO "reading_corrections" VALUES(2,3,NULL,'2026-05-04T10:00:00','old kit');
CREATE TABLE readings (
    id INTEGER PRIMARY KEY, system TEXT NOT NULL, at TEXT NOT NULL,
    quantity TEXT NOT NULL, value REAL NOT NULL, unit TEXT NOT NULL, bound TEXT NOT NULL, step REAL NOT NULL,
    low REAL, high REAL, day TEXT NOT NULL, time TEXT NOT NULL, kit TEXT NOT NULL, point TEXT NOT NULL,
    note TEXT NOT NULL, derived INTEGER NOT NULL CHECK (derived IN (0, 1)));
INSERT INTO "readings" VALUES(1,'main','2026-05-04T10:00:00','ph',74.0,'','=',0.2,73.9,74.1,'2026-05-03','','drops','sump','',0);
INSERT INTO "readings" VALUES(2,'main','2026-05-04T10:00:00','tan',0.25,'mg/L','<=',0.0,NULL,0.25,'2026-05-04','','','','card, it''s pale',0);
INSERT INTO "readings" VALUES(3,'main','2026-05-04T10:00:00','iron',9.0,'','>=',0.0,9.0,NULL,'2026-05-04','','','','',0);
INSERT INTO "readings" VALUES(4,'main','2026-05-04T10:00:00','ph',7.4,'','=',0.2,7.3,7.5,'2026-05-03','','drops','sump','',0);
CREATE TABLE recheck_reports (
    id INTEGER PRIMARY KEY, recheck_id INTEGER NOT NULL UNIQUE REFERENCES rechecks (id), at TEXT NOT NULL,
    verdict TEXT NOT NULL, book_version TEXT NOT NULL, book_hash TEXT NOT NULL, summary TEXT NOT NULL,
    report TEXT NOT NULL);
INSERT INTO "recheck_reports" VALUES(1,1,'2026-06-01T09:00:00','better','0.1','f00d','Iron shortage','{"suspects":[]}');
CREATE TABLE rechecks (
    id INTEGER PRIMARY KEY, case_id INTEGER NOT NULL REFERENCES cases (id), at TEXT NOT NULL, day TEXT NOT NULL,
    after INTEGER NOT NULL CHECK (after >= 0));
INSERT INTO "rechecks" VALUES(1,1,'2026-06-01T09:00:00','2026-05-14',5);
INSERT INTO "rechecks" VALUES(2,1,'2026-06-01T09:00:00','2026-05-24',6);
CREATE TABLE reports (
    id INTEGER PRIMARY KEY, case_id INTEGER NOT NULL REFERENCES cases (id), at TEXT NOT NULL,
    book_version TEXT NOT NULL, book_hash TEXT NOT NULL, summary TEXT NOT NULL, report TEXT NOT NULL);
INSERT INTO "reports" VALUES(1,1,'2026-05-04T10:00:00','0.1','f00d','Iron shortage','{"suspects":[]}');
CREATE TABLE settings (
    id INTEGER PRIMARY KEY, at TEXT NOT NULL, name TEXT NOT NULL, value TEXT NOT NULL);
INSERT INTO "settings" VALUES(1,'2026-06-01T09:00:00','own-rates','off');
CREATE TABLE systems (
    id INTEGER PRIMARY KEY, name TEXT NOT NULL, at TEXT NOT NULL, record TEXT NOT NULL);
INSERT INTO "systems" VALUES(1,'main','2026-05-04T10:00:00','{"volume_l":1000.0}');
INSERT INTO "systems" VALUES(2,'main','2026-05-04T10:00:00','{"volume_l":1200.0,"animals":["tilapia","shrimp"],"beds":"media"}');
CREATE INDEX systems_by_name ON systems (name);
CREATE INDEX readings_by_quantity ON readings (system, quantity, point, day, time, value);
CREATE INDEX readings_by_day ON readings (system, day, time);
CREATE INDEX cases_by_day ON cases (day);
CREATE INDEX reports_by_case ON reports (case_id);
CREATE INDEX actions_by_case ON actions (case_id);
CREATE INDEX closings_by_case ON closings (case_id);
CREATE TRIGGER systems_no_update BEFORE UPDATE ON systems BEGIN SELECT RAISE(ABORT, 'systems is append-only'); END;
CREATE TRIGGER systems_no_delete BEFORE DELETE ON systems BEGIN SELECT RAISE(ABORT, 'systems is append-only'); END;
CREATE TRIGGER readings_no_update BEFORE UPDATE ON readings BEGIN SELECT RAISE(ABORT, 'readings is append-only'); END;
CREATE TRIGGER readings_no_delete BEFORE DELETE ON readings BEGIN SELECT RAISE(ABORT, 'readings is append-only'); END;
CREATE TRIGGER reading_corrections_no_update BEFORE UPDATE ON reading_corrections BEGIN SELECT RAISE(ABORT, 'reading_corrections is append-only'); END;
CREATE TRIGGER reading_corrections_no_delete BEFORE DELETE ON reading_corrections BEGIN SELECT RAISE(ABORT, 'reading_corrections is append-only'); END;
CREATE TRIGGER cases_no_update BEFORE UPDATE ON cases BEGIN SELECT RAISE(ABORT, 'cases is append-only'); END;
CREATE TRIGGER cases_no_delete BEFORE DELETE ON cases BEGIN SELECT RAISE(ABORT, 'cases is append-only'); END;
CREATE TRIGGER answers_no_update BEFORE UPDATE ON answers BEGIN SELECT RAISE(ABORT, 'answers is append-only'); END;
CREATE TRIGGER answers_no_delete BEFORE DELETE ON answers BEGIN SELECT RAISE(ABORT, 'answers is append-only'); END;
CREATE TRIGGER reports_no_update BEFORE UPDATE ON reports BEGIN SELECT RAISE(ABORT, 'reports is append-only'); END;
CREATE TRIGGER reports_no_delete BEFORE DELETE ON reports BEGIN SELECT RAISE(ABORT, 'reports is append-only'); END;
CREATE TRIGGER abandoned_no_update BEFORE UPDATE ON abandoned BEGIN SELECT RAISE(ABORT, 'abandoned is append-only'); END;
CREATE TRIGGER abandoned_no_delete BEFORE DELETE ON abandoned BEGIN SELECT RAISE(ABORT, 'abandoned is append-only'); END;
CREATE TRIGGER actions_no_update BEFORE UPDATE ON actions BEGIN SELECT RAISE(ABORT, 'actions is append-only'); END;
CREATE TRIGGER actions_no_delete BEFORE DELETE ON actions BEGIN SELECT RAISE(ABORT, 'actions is append-only'); END;
CREATE TRIGGER closings_no_update BEFORE UPDATE ON closings BEGIN SELECT RAISE(ABORT, 'closings is append-only'); END;
CREATE TRIGGER closings_no_delete BEFORE DELETE ON closings BEGIN SELECT RAISE(ABORT, 'closings is append-only'); END;
CREATE INDEX beds_by_name ON beds (system, name);
CREATE INDEX plants_by_name ON plants (system, name);
CREATE INDEX case_places_by_case ON case_places (case_id);
CREATE INDEX rechecks_by_case ON rechecks (case_id);
CREATE INDEX photos_by_case ON photos (case_id);
CREATE INDEX outcomes_by_case ON outcomes (case_id);
CREATE TRIGGER beds_no_update BEFORE UPDATE ON beds BEGIN SELECT RAISE(ABORT, 'beds is append-only'); END;
CREATE TRIGGER beds_no_delete BEFORE DELETE ON beds BEGIN SELECT RAISE(ABORT, 'beds is append-only'); END;
CREATE TRIGGER plants_no_update BEFORE UPDATE ON plants BEGIN SELECT RAISE(ABORT, 'plants is append-only'); END;
CREATE TRIGGER plants_no_delete BEFORE DELETE ON plants BEGIN SELECT RAISE(ABORT, 'plants is append-only'); END;
CREATE TRIGGER case_places_no_update BEFORE UPDATE ON case_places BEGIN SELECT RAISE(ABORT, 'case_places is append-only'); END;
CREATE TRIGGER case_places_no_delete BEFORE DELETE ON case_places BEGIN SELECT RAISE(ABORT, 'case_places is append-only'); END;
CREATE TRIGGER rechecks_no_update BEFORE UPDATE ON rechecks BEGIN SELECT RAISE(ABORT, 'rechecks is append-only'); END;
CREATE TRIGGER rechecks_no_delete BEFORE DELETE ON rechecks BEGIN SELECT RAISE(ABORT, 'rechecks is append-only'); END;
CREATE TRIGGER recheck_reports_no_update BEFORE UPDATE ON recheck_reports BEGIN SELECT RAISE(ABORT, 'recheck_reports is append-only'); END;
CREATE TRIGGER recheck_reports_no_delete BEFORE DELETE ON recheck_reports BEGIN SELECT RAISE(ABORT, 'recheck_reports is append-only'); END;
CREATE TRIGGER photos_no_update BEFORE UPDATE ON photos BEGIN SELECT RAISE(ABORT, 'photos is append-only'); END;
CREATE TRIGGER photos_no_delete BEFORE DELETE ON photos BEGIN SELECT RAISE(ABORT, 'photos is append-only'); END;
CREATE TRIGGER outcomes_no_update BEFORE UPDATE ON outcomes BEGIN SELECT RAISE(ABORT, 'outcomes is append-only'); END;
CREATE TRIGGER outcomes_no_delete BEFORE DELETE ON outcomes BEGIN SELECT RAISE(ABORT, 'outcomes is append-only'); END;
CREATE TRIGGER action_corrections_no_update BEFORE UPDATE ON action_corrections BEGIN SELECT RAISE(ABORT, 'action_corrections is append-only'); END;
CREATE TRIGGER action_corrections_no_delete BEFORE DELETE ON action_corrections BEGIN SELECT RAISE(ABORT, 'action_corrections is append-only'); END;
CREATE TRIGGER settings_no_update BEFORE UPDATE ON settings BEGIN SELECT RAISE(ABORT, 'settings is append-only'); END;
CREATE TRIGGER settings_no_delete BEFORE DELETE ON settings BEGIN SELECT RAISE(ABORT, 'settings is append-only'); END;
COMMIT;
