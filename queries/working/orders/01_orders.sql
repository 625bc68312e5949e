-- The guards and orders of a scope, worked out once for all questions about them that are asked
-- together or one after the other. Parameters as in the questions.

CREATE OR REPLACE TEMP TABLE scoped_guards AS
SELECT *
FROM scope_guards(
    $seasons, $until, $departments, $teams, $sports, $sexes, $position_groups,
    $kinds, $areas, $sides, $made_of
);

CREATE OR REPLACE TEMP TABLE scoped_orders AS
SELECT *
FROM scope_orders(
    $seasons, $until, $departments, $teams, $sports, $sexes, $position_groups,
    $kinds, $areas, $sides, $made_of
);
