"""Making a placement better by small changes, tried in a fixed order and kept while they lower its cost.

Two neighbours of a column are exchanged, a terminal changes sides, a device its column. The same
circuit gives the same placement, and one more wire changes little.
"""

from buildsheet.packet.diagram.layout import Placement

SWEEPS = 6
DETOUR = 1  # a terminal does not change sides if its wires then pass more columns than this


def improve(p: Placement) -> None:
    """Try small changes until none helps, or the sweeps are used up."""
    for _ in range(SWEEPS):
        better = _sort_columns(p)
        better |= _turn_seats(p)
        better |= _move_devices(p)
        if not better:
            return


def _sort_columns(p: Placement) -> bool:
    better = False
    for column, items in enumerate(p.columns):
        around = (column, column + 1)
        now = p.cost(around, (column,))
        for i in range(len(items)):
            for j in (i + 1, i + 2, i + 3):
                if j >= len(items):
                    break
                for move in (0, 1):
                    if j == i + 1 and move:
                        continue
                    old = items[:]
                    item = items.pop(j if move else i)
                    items.insert(i if move else j, item)
                    new = p.cost(around, (column,))
                    if new < now - 1e-6:
                        now, better = new, True
                    else:
                        items[:] = old
    return better


def _turn_seats(p: Placement) -> bool:
    better = False
    now = p.all_cost
    for code in p.column:
        for i, seat in enumerate(p.forms[code].seats):
            for mode in range(len(seat.modes)):
                before = p.modes[code][i]
                if mode == before or p.detour(code, seat.terminals, seat.modes[mode]) > DETOUR:
                    continue
                kept = [items[:] for items in p.columns]
                p.turn(code, i, mode)
                p.relay(code)
                new = p.all_cost
                if new < now - 1e-6:
                    now, better = new, True
                else:
                    p.turn(code, i, before)
                    p.columns = kept
    return better


def _move_devices(p: Placement) -> bool:
    better = False
    now = p.all_cost
    for code in list(p.column):
        here = p.column[code]
        if code in p.spine:
            continue
        crowded = p.tall(p.columns[here]) > p.height
        for there in range(len(p.columns)) if crowded else (here - 1, here + 1):
            if there == here or not 0 <= there < len(p.columns) or p.columns[here] == [code]:
                continue
            if not crowded and _longer(p, code, there) > 0:
                continue
            kept = [items[:] for items in p.columns]
            p.columns[here].remove(code)
            p.column[code] = there
            p.columns[there].append(code)
            p.relay(code)
            items = p.columns[there]
            best, where = 1e18, len(items) - 1
            for i in range(len(items)):
                items.remove(code)
                items.insert(i, code)
                cost = p.cost((there, there + 1), (there,))
                if cost < best - 1e-6:
                    best, where = cost, i
            items.remove(code)
            items.insert(where, code)
            new = p.all_cost
            if new < now - 1e-6:
                now, better = new, True
                break
            p.column[code], p.columns = here, kept
    return better


def _longer(p: Placement, code: str, there: int) -> int:
    """How many more columns the wires of a device would pass from another column."""
    here, more = p.column[code], 0
    for seat in p.forms[code].seats:
        for name in seat.terminals:
            for other in p.partners.get((code, name), ()):
                if other[0] != code:
                    gap, now = p.gap(other), p.gap((code, name))
                    more += abs(now - here + there - gap) - abs(now - gap)
    return more
