import type { SectionCurve } from './section-curve.ts';

/** How unlike in share of girth two knuckles of neighbouring sections may be and still be one line. */
const FARTHEST_SHARE = 0.35;

interface Line {
  /** Share of the girth at each station it passes as a knuckle. */
  readonly shares: Map<number, number>;
}

/**
 * The knuckle lines of a body: shares of the girth, one row for a station, one column for a line,
 * ascending in each row. Knuckles of neighbouring sections belong to one line in their order up
 * the section, one to one where the counts agree, else so that the shares differ least. Where a
 * line has faded out it goes on at the share it would have between its neighbouring lines.
 */
export function knuckleLines(curves: readonly SectionCurve[]): number[][] {
  const lines = joined(curves);
  const ordered = inOrder(lines, curves.length);
  return curves.map((_, station) => sharesAt(ordered, station));
}

function joined(curves: readonly SectionCurve[]): Line[] {
  const lines: Line[] = [];
  let before: Line[] = [];
  curves.forEach((curve, station) => {
    const partner = matched(
      before.map((line) => line.shares.get(station - 1)!),
      curve.knuckles,
    );
    before = curve.knuckles.map((share, k) => {
      const line = partner[k] === null ? undefined : before[partner[k]!];
      if (line !== undefined) {
        line.shares.set(station, share);
        return line;
      }
      const begun: Line = { shares: new Map([[station, share]]) };
      lines.push(begun);
      return begun;
    });
  });
  return lines;
}

/** For each knuckle, the one before it belongs to, or null: the dearest order-keeping pairing. */
function matched(before: readonly number[], now: readonly number[]): (number | null)[] {
  if (before.length === now.length) return now.map((_, k) => k);
  const cost: number[][] = [];
  for (let i = 0; i <= before.length; i++) {
    cost.push([]);
    for (let j = 0; j <= now.length; j++) {
      if (i === 0 || j === 0) {
        cost[i]!.push((i + j) * FARTHEST_SHARE * 0.5);
        continue;
      }
      const pair = cost[i - 1]![j - 1]! + Math.abs(before[i - 1]! - now[j - 1]!);
      const alone = Math.min(cost[i - 1]![j]!, cost[i]![j - 1]!) + FARTHEST_SHARE * 0.5;
      cost[i]!.push(Math.min(pair, alone));
    }
  }
  const partner: (number | null)[] = now.map(() => null);
  let [i, j] = [before.length, now.length];
  while (i > 0 && j > 0) {
    const pair = cost[i - 1]![j - 1]! + Math.abs(before[i - 1]! - now[j - 1]!);
    if (cost[i]![j] === pair) {
      partner[j - 1] = i - 1;
      i--;
      j--;
    } else if (cost[i]![j] === cost[i - 1]![j]! + FARTHEST_SHARE * 0.5) i--;
    else j--;
  }
  return partner;
}

/** All lines from the keel up: by the stations they share, else by their mean share. */
function inOrder(lines: readonly Line[], stations: number): Line[] {
  const mean = (line: Line) => {
    const shares = [...line.shares.values()];
    return shares.reduce((sum, one) => sum + one, 0) / shares.length;
  };
  const left = [...lines].sort((a, b) => mean(a) - mean(b));
  const below = (a: Line, b: Line) => {
    for (let station = 0; station < stations; station++) {
      const [x, y] = [a.shares.get(station), b.shares.get(station)];
      if (x !== undefined && y !== undefined && x < y) return true;
    }
    return false;
  };
  const ordered: Line[] = [];
  while (left.length > 0) {
    const next = left.findIndex((line) => !left.some((other) => below(other, line)));
    ordered.push(...left.splice(Math.max(0, next), 1));
  }
  return ordered;
}

function sharesAt(lines: readonly Line[], station: number): number[] {
  const row = lines.map((line) => line.shares.get(station) ?? Number.NaN);
  for (let from = 0; from < row.length; from++) {
    if (!Number.isNaN(row[from]!)) continue;
    let to = from;
    while (to + 1 < row.length && Number.isNaN(row[to + 1]!)) to++;
    fill(lines, row, from, to, station);
    from = to;
  }
  return row;
}

/** Places the faded lines `from` to `to` between the ones that stand. */
function fill(lines: readonly Line[], row: number[], from: number, to: number, station: number) {
  const low = from === 0 ? 0 : row[from - 1]!;
  const high = to + 1 === row.length ? 1 : row[to + 1]!;
  const places = lines.slice(from, to + 1).map((line) => {
    const nearest = nearestStation(line, station);
    const lowThere = from === 0 ? 0 : (lines[from - 1]!.shares.get(nearest) ?? 0);
    const highThere = to + 1 === row.length ? 1 : (lines[to + 1]!.shares.get(nearest) ?? 1);
    return (line.shares.get(nearest)! - lowThere) / (highThere - lowThere);
  });
  const sorted = places.sort((a, b) => a - b);
  sorted.forEach((place, k) => {
    // Lines of different stations may meet; they are kept a little apart so that none is empty.
    const least = (k + 1) / (sorted.length + 1) / 50;
    const most = 1 - (sorted.length - k) / (sorted.length + 1) / 50;
    row[from + k] = low + (high - low) * Math.min(most, Math.max(least, place));
  });
}

function nearestStation(line: Line, station: number): number {
  let nearest = Number.NaN;
  for (const one of line.shares.keys()) {
    if (Number.isNaN(nearest) || Math.abs(one - station) < Math.abs(nearest - station)) {
      nearest = one;
    }
  }
  return nearest;
}
