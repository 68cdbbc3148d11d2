-- Invented: one table for each thing that can be odd about a table.
CREATE SCHEMA land;
CREATE TABLE land.lonlat (id int PRIMARY KEY, name text, geom geometry(Polygon, 4326));
INSERT INTO land.lonlat VALUES (1, 'A', ST_GeomFromText('POLYGON((-8.7 46.2,-8.6 46.2,-8.6 46.3,-8.7 46.2))', 4326)),
 (2, 'B', ST_GeomFromText('POLYGON EMPTY', 4326)), (3, 'C', NULL);
-- 500000 m east is the central meridian of zone 29, 9 degrees west (EPSG Guidance Note 7-2: UTM).
CREATE TABLE land.utm (id bigint PRIMARY KEY, owner text, area numeric(12, 2), long_number numeric(30, 3), free boolean,
  since date, seen timestamptz, share double precision, photo bytea, geom geometry(MultiPolygon, 25829));
INSERT INTO land.utm VALUES (9007199254740993, 'O''Brien "x"', 12.50, 123456789012345678901234.125, true, '2026-05-14',
  '2026-05-14 09:30:00Z', 0.1, '\x00ff', ST_GeomFromText(
  'MULTIPOLYGON(((500000 5000000,500010 5000000,500010 5000010,500000 5000000)),
                ((500020 5000000,500040 5000000,500040 5000020,500020 5000020,500020 5000000),
                 (500025 5000005,500030 5000005,500030 5000010,500025 5000005)))', 25829)),
  (-1, NULL, NULL, NULL, NULL, NULL, NULL, NULL, NULL,
  ST_GeomFromText('MULTIPOLYGON(((500000 5000000,500010 5000000,500010 5000010,500000 5000000)))', 25829));
CREATE TABLE land.curves (id int, geom geometry(CurvePolygon, 3857));
INSERT INTO land.curves VALUES (1, ST_GeomFromText('CURVEPOLYGON(CIRCULARSTRING(0 0,100 100,200 0,100 -100,0 0))', 3857));
CREATE VIEW land.leases AS SELECT id, owner AS "The Owner", ST_Transform(geom, 4326) AS shape FROM land.utm;
CREATE SCHEMA "Odd.Schema";
CREATE TABLE "Odd.Schema"."Par ""cels"" (x)" (id int PRIMARY KEY, "Own er's" text, "g 1" geometry(Point, 4326),
  "g;2" geometry(Polygon, 4326));
INSERT INTO "Odd.Schema"."Par ""cels"" (x)" VALUES (1, 'it', ST_SetSRID(ST_MakePoint(1, 2), 4326),
  ST_GeomFromText('POLYGON((3 4,4 4,4 5,3 4))', 4326));
CREATE TABLE land.mixed (id int, geom geometry);
INSERT INTO land.mixed VALUES (1, ST_SetSRID(ST_MakePoint(1, 2), 4326)), (2, ST_SetSRID(ST_MakePoint(1, 2), 3857));
CREATE TABLE land.unknown (id int, geom geometry(Point));
INSERT INTO land.unknown VALUES (1, ST_MakePoint(500000, 5000000));
INSERT INTO spatial_ref_sys (srid, srtext, proj4text) VALUES (990001, '', '');
CREATE TABLE land.own_srid (id int, geom geometry(Point, 990001));
INSERT INTO land.own_srid VALUES (1, ST_SetSRID(ST_MakePoint(500000, 5000000), 990001));
DELETE FROM spatial_ref_sys WHERE srid = 990001;
CREATE TABLE land.globe (id int, place geography(Point, 4326));
INSERT INTO land.globe VALUES (1, 'POINT(179.5 10)');
CREATE TABLE land.secret (id int, geom geometry(Point, 4326));
CREATE TABLE land.texts (id int, words text);
CREATE TABLE land.numbers (id int, words text, geom geometry(Point, 4326));
INSERT INTO land.numbers SELECT i, CASE i WHEN 3000 THEN 'x' ELSE i::text END, ST_SetSRID(ST_MakePoint(1, 2), 4326)
  FROM generate_series(1, 5000) i;
CREATE TABLE land.victim (id int);
INSERT INTO land.victim VALUES (1);
DROP ROLE IF EXISTS visitor;
CREATE ROLE visitor LOGIN PASSWORD 'let me in';
GRANT USAGE ON SCHEMA land TO visitor;
GRANT SELECT ON land.lonlat TO visitor;
GRANT SELECT (id, geom) ON land.utm TO visitor;
