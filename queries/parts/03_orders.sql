-- What a guard is that was asked for in another's place, by the reason recorded.
CREATE MACRO remake_or_replacement(reason) AS CASE
    WHEN reason IN ('fit', 'damage', 'print fault', 'scan fault') THEN 'remake'
    WHEN reason IN ('lost', 'body change', 'worn out') THEN 'replacement'
    ELSE 'reason not recorded'
END;

-- The time zone of every athlete's department. Of an athlete at two, the first by key.
CREATE MACRO athlete_zones() AS TABLE
SELECT r.athlete_no, min_by(d.time_zone, d.department) AS time_zone
FROM store.roster AS r
JOIN store.teams AS t USING (team)
JOIN store.departments AS d USING (department)
GROUP BY r.athlete_no;

-- Every roster place with the team it belongs to and the end of that team's season. Where a season
-- has no session, `over_at` and its day there, `over_on`, are NULL.
CREATE MACRO roster_places() AS TABLE
SELECT
    r.*, t.department, t.sport,
    t.sex::VARCHAR AS sex,
    d.plan::VARCHAR AS plan,
    d.time_zone, s.over_at,
    (s.over_at AT TIME ZONE d.time_zone)::DATE AS over_on
FROM store.roster AS r
JOIN store.teams AS t USING (team)
JOIN store.departments AS d USING (department)
LEFT JOIN (
    SELECT team, season, max(starts_at) AS over_at FROM store.sessions GROUP BY team, season
) AS s USING (team, season);

-- What an athlete's roster places are ordered by to find the one that something belongs to: the one
-- whose season was the first to end after it, else the last. `is_over`: its season was over before.
CREATE MACRO place_order(is_over, over_at) AS {
    'is_over': coalesce(is_over, true),
    'away': CASE WHEN is_over THEN -epoch(over_at) ELSE epoch(over_at) END
};

-- Guards of the scope, each with the roster place it was made for: the one that its first news
-- belongs to (its first stage known by `until`, else the first session it was worn in by then).
-- Guards of every purpose.
CREATE MACRO scope_guards(
    seasons, until, departments, teams, sports, sexes, position_groups, kinds, areas, sides, made_of
) AS TABLE
WITH places AS (SELECT * FROM roster_places()),
guards AS (
    SELECT *
    FROM store.guards
    WHERE kind IN (FROM asked_kinds(kinds, areas))
      AND is_asked_side(sides, side)
      AND is_made_of(made_of, guard_no)
      AND athlete_no IN (
          SELECT athlete_no
          FROM places
          WHERE is_asked(seasons, season)
            AND is_asked(departments, department)
            AND is_asked(teams, team)
      )
),
zones AS (SELECT athlete_no, min(time_zone) AS time_zone FROM places GROUP BY athlete_no),
first_stages AS (
    SELECT guard_no, min(reached_at) AS first_at
    FROM store.stages
    JOIN guards USING (guard_no)
    JOIN zones USING (athlete_no)
    WHERE (reached_at AT TIME ZONE time_zone)::DATE < until
    GROUP BY guard_no
),
first_worn AS (
    SELECT w.guard_no, min(s.starts_at) AS first_at
    FROM worn_guards() AS w
    JOIN store.sessions AS s USING (session_no)
    WHERE s.played_on < until
    GROUP BY w.guard_no
),
heard_of AS (
    SELECT g.*, coalesce(q.first_at, w.first_at) AS first_at
    FROM guards AS g
    LEFT JOIN first_stages AS q USING (guard_no)
    LEFT JOIN first_worn AS w USING (guard_no)
),
placed AS (
    SELECT
        g.* EXCLUDE (load_no), p.team, p.season, p.name, p.position, p.position_group,
        p.department, p.sport, p.sex, p.plan, p.time_zone
    FROM heard_of AS g
    JOIN places AS p USING (athlete_no)
    QUALIFY row_number() OVER (
        PARTITION BY g.guard_no
        ORDER BY place_order(p.over_at < g.first_at, p.over_at), p.team, p.season
    ) = 1
)
SELECT
    p.guard_no, p.guard, p.athlete_no, n.athlete, p.name, p.position, p.position_group, p.team,
    p.season, p.department, p.sport, p.sex, p.plan, p.time_zone, p.kind,
    p.side::VARCHAR AS side,
    p.purpose::VARCHAR AS purpose,
    p.scan_method::VARCHAR AS scan_method,
    p.printer, p.print_hours, p.contact_pct, p.promised_on, p.remake_of,
    p.remake_reason::VARCHAR AS remake_reason,
    p.first_at
FROM placed AS p
JOIN store.athletes AS n ON n.athlete_no = p.athlete_no
SEMI JOIN asked_teams(departments, teams, sports, sexes) AS t ON t.team = p.team
WHERE is_asked(seasons, p.season)
  AND is_asked(position_groups, p.position_group);

-- The first stamp of each stage of a group of stamps, NULL where it was not reached: of several
-- stamps of one stage the first counts (a second “fitted” is a doubt, not a second guard).
CREATE MACRO first_stamps(stage, reached_at) AS {
    'requested_at': min(reached_at) FILTER (stage = 'requested'),
    'scanned_at': min(reached_at) FILTER (stage = 'scanned'),
    'modelled_at': min(reached_at) FILTER (stage = 'modelled'),
    'printed_at': min(reached_at) FILTER (stage = 'printed'),
    'finished_at': min(reached_at) FILTER (stage = 'finished'),
    'shipped_at': min(reached_at) FILTER (stage = 'shipped'),
    'delivered_at': min(reached_at) FILTER (stage = 'delivered'),
    'fitted_at': min(reached_at) FILTER (stage = 'fitted'),
    'retired_at': min(reached_at) FILTER (stage = 'retired'),
    'cancelled_at': min(reached_at) FILTER (stage = 'cancelled')
};

-- What became of an order, by its stamps; it is open until it is fitted, cancelled or retired.
CREATE MACRO order_state(fitted_at, cancelled_at, retired_at) AS CASE
    WHEN fitted_at IS NOT NULL THEN 'fitted'
    WHEN cancelled_at IS NOT NULL THEN 'cancelled'
    WHEN retired_at IS NOT NULL THEN 'retired'
    ELSE 'open'
END;

-- The stage it reached last, by its place in the row of stages; or cancelled, where it was neither
-- fitted nor retired.
CREATE MACRO order_stage(last_stage, fitted_at, cancelled_at, retired_at) AS CASE
    WHEN cancelled_at IS NOT NULL AND fitted_at IS NULL AND retired_at IS NULL THEN 'cancelled'
    ELSE last_stage::VARCHAR
END;

-- Orders of the scope as they were known by `until`: guards of which a stage was known by then.
-- A stage is known from its day in the department's time zone. `as_of` is the end of the day before
-- `until` there. `over_at` is when it stopped being open. `is_by_day`: of a stage of it the day alone
-- is known, and it stands at noon.
CREATE MACRO scope_orders(
    seasons, until, departments, teams, sports, sexes, position_groups, kinds, areas, sides, made_of
) AS TABLE
WITH guards AS (
    SELECT *
    FROM scope_guards(
        seasons, until, departments, teams, sports, sexes, position_groups, kinds, areas, sides,
        made_of
    )
),
stamps AS (
    SELECT
        g.guard_no,
        first_stamps(s.stage, s.reached_at) AS first,
        min(s.reached_at) AS first_stage_at,
        max(s.reached_at) AS last_stage_at,
        max(s.stage) FILTER (s.stage <> 'cancelled') AS last_stage,
        bool_or(coalesce(s.timed = 'no', false)) AS is_by_day
    FROM guards AS g
    JOIN store.stages AS s USING (guard_no)
    WHERE (s.reached_at AT TIME ZONE g.time_zone)::DATE < until
    GROUP BY g.guard_no
)
SELECT
    g.* EXCLUDE (first_at),
    first.*, s.first_stage_at, s.last_stage_at, s.is_by_day,
    (until::TIMESTAMP AT TIME ZONE g.time_zone) AS as_of,
    order_stage(s.last_stage, first.fitted_at, first.cancelled_at, first.retired_at) AS stage,
    order_state(first.fitted_at, first.cancelled_at, first.retired_at) AS state,
    least(first.fitted_at, first.cancelled_at, first.retired_at) AS over_at
FROM guards AS g
JOIN stamps AS s USING (guard_no);

-- The next game of every team in the scope as seen at the end of the day before `until`: its first
-- game after that day, or on that day when nobody's attendance of it was recorded.
CREATE MACRO next_games(until, departments, teams, sports, sexes) AS TABLE
SELECT
    s.team,
    min_by(s.session_no, (s.starts_at, s.session_no)) AS session_no,
    min_by(s.session, (s.starts_at, s.session_no)) AS session,
    min(s.starts_at) AS starts_at,
    min_by(s.played_on, (s.starts_at, s.session_no)) AS played_on,
    min_by(s.label, (s.starts_at, s.session_no)) AS label
FROM store.sessions AS s
SEMI JOIN asked_teams(departments, teams, sports, sexes) AS t USING (team)
WHERE s.setting = 'game'
  AND s.played_on >= until::DATE - 1
  AND (
      s.played_on >= until
      OR NOT EXISTS (SELECT 1 FROM store.attendance AS a WHERE a.session_no = s.session_no)
  )
GROUP BY s.team;
