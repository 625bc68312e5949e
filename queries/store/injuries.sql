-- question: Which injuries does the store hold, as they are loaded?
-- grain: one row per injury
-- columns:
--   injury       VARCHAR  key
--   athlete      VARCHAR  key
--   occurred_on  DATE     day
--   session      VARCHAR  key; NULL when not given
--   area         VARCHAR  one of its word list
--   side         VARCHAR  one of its word list
--   tissue       VARCHAR  one of its word list; NULL when not given
--   pathology    VARCHAR  one of its word list; NULL when not given
--   onset        VARCHAR  one of its word list; NULL when not given
--   mechanism    VARCHAR  one of its word list; NULL when not given
--   history      VARCHAR  one of its word list; NULL when not given
--   reported_on  DATE     day; NULL when not given
--   returned_on  DATE     day; NULL when not given
--   note         VARCHAR  as written; NULL when not given
SELECT
    injuries.injury AS injury,
    athletes.athlete AS athlete,
    injuries.occurred_on AS occurred_on,
    sessions.session AS session,
    CAST(injuries.area AS VARCHAR) AS area,
    CAST(injuries.side AS VARCHAR) AS side,
    CAST(injuries.tissue AS VARCHAR) AS tissue,
    CAST(injuries.pathology AS VARCHAR) AS pathology,
    CAST(injuries.onset AS VARCHAR) AS onset,
    CAST(injuries.mechanism AS VARCHAR) AS mechanism,
    CAST(injuries.history AS VARCHAR) AS history,
    injuries.reported_on AS reported_on,
    injuries.returned_on AS returned_on,
    injuries.note AS note
FROM store.injuries AS injuries
JOIN store.athletes AS athletes ON athletes.athlete_no = injuries.athlete_no
LEFT JOIN store.sessions AS sessions ON sessions.session_no = injuries.session_no
ORDER BY injury
