import { type Body, intervalAt, sectionAt } from './body.ts';
import type { Hull } from './hull.ts';
import { halfBreadthAtM } from './spot-check.ts';
import { draughtAtM, type Waterline } from './waterline.ts';

/** Where an upright waterline ends fore and aft, and its greatest beam; of the hull proper. */
export interface WaterlineExtent {
  readonly fromXM: number;
  readonly toXM: number;
  readonly beamM: number;
}

const PLACES = 240;
const HALVINGS = 50;

/** Null where the hull proper does not meet the water. Beam to the deck edge where that is under. */
export function waterlineExtent(hull: Hull, upright: Waterline): WaterlineExtent | null {
  const { main } = hull;
  const length = hull.toXM - hull.fromXM;
  const room = new Float64Array(2 * main.nodes);
  const wetM = (xM: number) => draughtAtM(upright, xM) - heightsAt(main, xM, room).footM;
  const places = Array.from({ length: PLACES + 1 }, (_, k) => hull.fromXM + (length * k) / PLACES);
  const wet = places.filter((xM) => wetM(xM) > 0);
  if (wet.length === 0) return null;
  const step = length / PLACES;
  const [aft, fore] = [wet[0]!, wet.at(-1)!];
  return {
    fromXM: aft === hull.fromXM ? aft : endOf(wetM, aft, aft - step),
    toXM: fore >= hull.toXM ? hull.toXM : endOf(wetM, fore, Math.min(fore + step, hull.toXM)),
    beamM: 2 * Math.max(...wet.map((xM) => halfBreadthThere(hull, xM, upright, room))),
  };
}

function halfBreadthThere(hull: Hull, xM: number, upright: Waterline, room: Float64Array): number {
  const { footM, topM } = heightsAt(hull.main, xM, room);
  const zM = Math.min(draughtAtM(upright, xM), topM);
  return zM > footM && zM < topM ? halfBreadthAtM(hull, xM, zM) : deckHalfBreadth(hull, room);
}

/** Of the section that was read into `room` last. */
function deckHalfBreadth(hull: Hull, room: Float64Array): number {
  return room[2 * hull.deckNode]!;
}

/** Lowest and highest point of the section at an x. */
function heightsAt(body: Body, xM: number, room: Float64Array): { footM: number; topM: number } {
  const place = intervalAt(body, xM);
  if (place === null) return { footM: Number.POSITIVE_INFINITY, topM: Number.NEGATIVE_INFINITY };
  sectionAt(body, place.interval, place.share, room, 0);
  let [footM, topM] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let k = 1; k < room.length; k += 2) {
    footM = Math.min(footM, room[k]!);
    // the deck's middle may stand higher than its edge, by the camber
    if (k <= 2 * (body.nodes - 2) + 1) topM = Math.max(topM, room[k]!);
  }
  return { footM, topM };
}

/** Between a wet place and a dry one: where the keel line leaves the water. */
function endOf(wetM: (xM: number) => number, wetXM: number, dryXM: number): number {
  let [wet, dry] = [wetXM, dryXM];
  for (let count = 0; count < HALVINGS; count++) {
    const middle = (wet + dry) / 2;
    if (wetM(middle) > 0) wet = middle;
    else dry = middle;
  }
  return wet;
}
