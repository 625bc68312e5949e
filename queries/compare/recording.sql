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
    count(DISTINCT session_no) FILTER (s.wear = 'complete') AS complete,
    count(DISTINCT session_no) FILTER (s.wear = 'assumed') AS assumed,
    count(DISTINCT session_no) FILTER (s.wear = 'not complete') AS not_complete,
    count(DISTINCT session_no) FILTER (o.wear = 'not known') AS lacking
FROM owned_sites() AS o
JOIN scoped_sessions AS s USING (session_no);
