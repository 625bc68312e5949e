-- question: Of how many sessions is it known whether guards were worn, and how?
-- works on: scope
-- scope: sites
-- grain: one row
-- columns:
--   complete BIGINT      sessions with an owner that are marked as recorded for everybody
--   assumed BIGINT       such sessions taken for complete, for nobody said anything of the kind
--   not_complete BIGINT  such sessions that are not complete
--   lacking BIGINT       sessions with an owner of whom nobody recorded whether it was worn
SELECT
    count(*) FILTER (s.wear = 'complete') AS complete,
    count(*) FILTER (s.wear = 'assumed') AS assumed,
    count(*) FILTER (s.wear = 'not complete') AS not_complete,
    count(*) FILTER (o.is_lacking) AS lacking
FROM (
    SELECT session_no, bool_or(wear = 'not known') AS is_lacking
    FROM owned_sites()
    GROUP BY session_no
) AS o
JOIN scoped_sessions AS s USING (session_no);
