-- Writes the guards of the view `incoming`; $load_no is the load. Their athletes have numbers.
-- New guards are numbered from the largest number on, by athlete and key. A guard already there
-- keeps its number and its load and takes the new cells.
INSERT INTO store.guards (
    guard_no, guard, athlete_no, kind, side, purpose, function, scan_method, material, shell_mm,
    liner_mm, contact_pct, mass_g, printer, print_hours, remake_of, remake_reason, load_no
)
SELECT
    coalesce(
        held.guard_no,
        (SELECT coalesce(max(guards.guard_no), 0) FROM store.guards AS guards)
        + row_number() OVER (
            PARTITION BY held.guard_no IS NULL
            ORDER BY athletes.athlete_no, incoming.guard
        )
    ) AS guard_no,
    incoming.guard,
    athletes.athlete_no,
    incoming.kind,
    incoming.side,
    incoming.purpose,
    incoming.function,
    incoming.scan_method,
    incoming.material,
    incoming.shell_mm,
    incoming.liner_mm,
    incoming.contact_pct,
    incoming.mass_g,
    incoming.printer,
    incoming.print_hours,
    incoming.remake_of,
    incoming.remake_reason,
    $load_no
FROM incoming
JOIN store.athletes AS athletes ON athletes.athlete = incoming.athlete
LEFT JOIN store.guards AS held ON held.guard = incoming.guard
ON CONFLICT (guard_no) DO UPDATE SET
    athlete_no = excluded.athlete_no,
    kind = excluded.kind,
    side = excluded.side,
    purpose = excluded.purpose,
    function = excluded.function,
    scan_method = excluded.scan_method,
    material = excluded.material,
    shell_mm = excluded.shell_mm,
    liner_mm = excluded.liner_mm,
    contact_pct = excluded.contact_pct,
    mass_g = excluded.mass_g,
    printer = excluded.printer,
    print_hours = excluded.print_hours,
    remake_of = excluded.remake_of,
    remake_reason = excluded.remake_reason
