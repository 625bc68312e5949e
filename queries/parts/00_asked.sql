-- Whether a value is among those asked for; a list of NULL asks for all there are.
CREATE MACRO is_asked(asked, value) AS asked IS NULL OR list_contains(asked, value);

-- Whether a guard's side is among those asked for; one of both sides is of each.
CREATE MACRO is_asked_side(asked, side) AS side = 'both' OR is_asked(asked, side::VARCHAR);

-- The teams asked for.
CREATE MACRO asked_teams(departments, teams, sports, sexes) AS TABLE
SELECT *
FROM store.teams
WHERE is_asked(departments, department)
  AND is_asked(teams, team)
  AND is_asked(sports, sport)
  AND is_asked(sexes, sex::VARCHAR);

-- The guard kinds asked for, of those that cover an area asked for.
CREATE MACRO asked_kinds(kinds, areas) AS TABLE
SELECT DISTINCT kind FROM store.kinds
WHERE list_contains(kinds, kind) AND is_asked(areas, area::VARCHAR);

-- What is recorded of how each guard was made, a row for each part of it: part `lot`, `lot PETG-03`.
CREATE MACRO guard_build() AS TABLE
SELECT guard_no, part, concat(part, ' ', value) AS made_of
FROM (
    UNPIVOT (
        SELECT
            guard_no, lot, profile, material, printer, operator,
            scan_method::VARCHAR AS "scan method",
            scan_quality::VARCHAR AS "scan quality",
            model_version AS "model version",
            inspection::VARCHAR AS inspection
        FROM store.guards
    )
    ON COLUMNS(* EXCLUDE guard_no) INTO NAME part VALUE value
);

-- The guards made of what is asked for: of each part that is named, one of the things named.
CREATE MACRO guards_made_of(asked) AS TABLE
WITH found AS (SELECT * FROM guard_build() WHERE list_contains(asked, made_of))
SELECT guard_no
FROM found
GROUP BY guard_no
HAVING count(*) = (SELECT count(DISTINCT part) FROM found);

-- Whether a guard is made of what is asked for; NULL asks for none of it.
CREATE MACRO is_made_of(asked, guard_no) AS
asked IS NULL OR guard_no IN (FROM guards_made_of(asked));

-- The sides of a site in a body area: the midline, or those that a guard or an injury names.
CREATE MACRO sides_of(area, side) AS CASE
    WHEN area IN ('head', 'neck', 'chest', 'thoracic spine', 'lumbosacral', 'abdomen')
    THEN ['midline']
    WHEN side = 'both' THEN ['left', 'right']
    ELSE [side]
END;

-- Whether a guard of a side covers a site of its area.
CREATE MACRO covers(guard_side, side) AS
guard_side = 'both' OR side IN (guard_side::VARCHAR, 'midline');

-- Text in small plain letters, as it is searched in: without accents, and with the letters that
-- have none written in plain ones.
CREATE MACRO folded(text) AS replace(replace(replace(
    translate(strip_accents(lower(text)), 'øłđðı', 'olddi'), 'ß', 'ss'), 'æ', 'ae'), 'œ', 'oe');

-- The guards that were worn, session by session; a guard recorded as not worn is none of them.
CREATE MACRO worn_guards() AS TABLE
SELECT session_no, guard_no, kept_on
FROM store.wear
WHERE worn IS DISTINCT FROM 'no';
