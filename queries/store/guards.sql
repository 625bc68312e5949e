-- question: Which guards does the store hold, as they are loaded?
-- grain: one row per guard
-- columns:
--   guard          VARCHAR  key
--   athlete        VARCHAR  key
--   kind           VARCHAR  key
--   side           VARCHAR  one of its word list
--   purpose        VARCHAR  one of its word list
--   function       VARCHAR  one of its word list; NULL when not given
--   scan_method    VARCHAR  one of its word list; NULL when not given
--   material       VARCHAR  as written; NULL when not given
--   shell_mm       DOUBLE   millimetres; NULL when not given
--   liner_mm       DOUBLE   millimetres; NULL when not given
--   contact_pct    DOUBLE   per cent of the area, 0 to 100; NULL when not given
--   mass_g         DOUBLE   grams; NULL when not given
--   printer        VARCHAR  as written; NULL when not given
--   print_hours    DOUBLE   hours; NULL when not given
--   remake_of      VARCHAR  key; NULL when not given
--   remake_reason  VARCHAR  one of its word list; NULL when not given
SELECT
    guards.guard AS guard,
    athletes.athlete AS athlete,
    guards.kind AS kind,
    CAST(guards.side AS VARCHAR) AS side,
    CAST(guards.purpose AS VARCHAR) AS purpose,
    CAST(guards.function AS VARCHAR) AS function,
    CAST(guards.scan_method AS VARCHAR) AS scan_method,
    guards.material AS material,
    guards.shell_mm AS shell_mm,
    guards.liner_mm AS liner_mm,
    guards.contact_pct AS contact_pct,
    guards.mass_g AS mass_g,
    guards.printer AS printer,
    guards.print_hours AS print_hours,
    guards.remake_of AS remake_of,
    CAST(guards.remake_reason AS VARCHAR) AS remake_reason
FROM store.guards AS guards
JOIN store.athletes AS athletes ON athletes.athlete_no = guards.athlete_no
ORDER BY guard
