-- question: How many guards of the scope have no stage recorded at all?
-- params:
--   seasons VARCHAR[]          seasons of the scope, NULL for all (so too the lists below)
--   departments VARCHAR[]      departments
--   teams VARCHAR[]            teams
--   sports VARCHAR[]           sports
--   sexes VARCHAR[]            sexes of the teams
--   position_groups VARCHAR[]  position groups, as in roster
--   kinds VARCHAR[]            guard kinds; never NULL
--   areas VARCHAR[]            body areas, of those the kinds cover
--   sides VARCHAR[]            sides of the guards; a guard of both sides is of each
-- grain: one row
-- columns:
--   guards BIGINT  guards whose making is not recorded: nothing can be said about their time
SELECT count(*) AS guards
FROM scope_guards(
    $seasons, $departments, $teams, $sports, $sexes, $position_groups, $kinds, $areas, $sides
) AS g
ANTI JOIN store.stages AS s USING (guard_no);
