-- Invented: a grid of uneven quadrilaterals, some with a hole, in two parts, or of curious text.
CREATE TABLE land.many (fid bigint PRIMARY KEY, number text, owner text, area double precision, ward int,
  geom geometry(MultiPolygon, 25829));
INSERT INTO land.many
SELECT i, 'P-' || i, CASE WHEN i % 7 = 0 THEN NULL WHEN i % 11 = 0 THEN 'Ωmega "' || i || '"' ELSE 'owner ' || i % 997 END,
  i / 3.0, i % 12, CASE WHEN i % 5 = 0 THEN ST_Union(shape, ST_Translate(shape, 0, 40)) ELSE
    ST_Multi(CASE WHEN i % 3 = 0 THEN ST_Difference(shape, ST_Buffer(ST_Centroid(shape), 2, 2)) ELSE shape END) END
FROM (SELECT i, ST_SetSRID(ST_MakePolygon(ST_MakeLine(ARRAY[
    ST_MakePoint(x + sin(i) * 3, y + cos(i) * 3), ST_MakePoint(x + 20 + sin(i * 2) * 3, y),
    ST_MakePoint(x + 20, y + 20 + cos(i * 3) * 3), ST_MakePoint(x, y + 20),
    ST_MakePoint(x + sin(i) * 3, y + cos(i) * 3)])), 25829) AS shape
  FROM (SELECT i, 500000.0 + (i % 400) * 25 AS x, 5000000.0 + (i / 400) * 25 AS y FROM generate_series(1, 100000) i) a) b;
