import { bracketedRoot } from '../numerics/root.ts';
import { radiansFromDegrees } from '../quantity/angle.ts';

const STEP_RAD = radiansFromDegrees(0.5);
/** A step's remainder under this is none. */
const SLACK_RAD = 1e-12;

/** Heels from one to another in steps of half a degree, both ends among them. */
function heelsBetween(fromRad: number, toRad: number): number[] {
  const heels = [fromRad];
  for (let k = 1; fromRad + k * STEP_RAD < toRad - SLACK_RAD; k++)
    heels.push(fromRad + k * STEP_RAD);
  if (toRad > fromRad) heels.push(toRad);
  return heels;
}

/** Least heel from which a net lever is positive and rights her; null where there is none. */
export function firstRise(
  lever: (heelRad: number) => number,
  fromRad: number,
  toRad: number,
): number | null {
  const heels = heelsBetween(fromRad, toRad);
  const levers = heels.map(lever);
  if (levers[0]! > 0) return fromRad;
  for (let k = 1; k < heels.length; k++) {
    if (levers[k]! <= 0) continue;
    return levers[k - 1] === 0 ? heels[k - 1]! : bracketedRoot(lever, heels[k - 1]!, heels[k]!);
  }
  return null;
}

/** Least heel where a net lever that was positive goes to zero; null where it does not, or never was. */
export function firstFall(
  lever: (heelRad: number) => number,
  fromRad: number,
  toRad: number,
): number | null {
  const heels = heelsBetween(fromRad, toRad);
  let positive = false;
  for (const [k, heel] of heels.entries()) {
    const here = lever(heel);
    if (positive && here <= 0) return here === 0 ? heel : bracketedRoot(lever, heels[k - 1]!, heel);
    positive ||= here > 0;
  }
  return null;
}

/** The greatest lever between two heels; the least heel of several that have it. */
export function greatest(
  lever: (heelRad: number) => number,
  fromRad: number,
  toRad: number,
): { readonly heelRad: number; readonly leverM: number } {
  const heels = heelsBetween(fromRad, toRad);
  const levers = heels.map(lever);
  let best = 0;
  for (let k = 1; k < heels.length; k++) if (levers[k]! > levers[best]!) best = k;
  const heelRad = summit(
    lever,
    heels[Math.max(best - 1, 0)]!,
    heels[Math.min(best + 1, heels.length - 1)]!,
  );
  const leverM = lever(heelRad);
  return leverM > levers[best]!
    ? { heelRad, leverM }
    : { heelRad: heels[best]!, leverM: levers[best]! };
}

const GOLDEN = (Math.sqrt(5) - 1) / 2;

/** Golden section until the heel is settled to 1e-8 rad, as near as a flat summit allows. */
function summit(lever: (heelRad: number) => number, fromRad: number, toRad: number): number {
  let [low, high] = [fromRad, toRad];
  let left = high - GOLDEN * (high - low);
  let right = low + GOLDEN * (high - low);
  let [ofLeft, ofRight] = [lever(left), lever(right)];
  while (high - low > 1e-8) {
    if (ofLeft >= ofRight) {
      [high, right, ofRight] = [right, left, ofLeft];
      left = high - GOLDEN * (high - low);
      ofLeft = lever(left);
    } else {
      [low, left, ofLeft] = [left, right, ofRight];
      right = low + GOLDEN * (high - low);
      ofRight = lever(right);
    }
  }
  return (low + high) / 2;
}
