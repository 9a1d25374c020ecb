import { Fault } from '../fault/fault.ts';
import type { ShipPoint, Waterline } from './waterline.ts';

/** What lies below the water, in ship axes. Volume 0 has no centre: a fault where it is asked for. */
export interface Immersed {
  readonly volumeM3: number;
  readonly centre: ShipPoint;
}

/**
 * The water's surface inside the hull, a plane figure. Second moments are about axes through its
 * centroid in its own plane: `alongM4` about the axis in which her centre plane's fore and aft line
 * lies (gives BM transverse), `acrossM4` about the axis square to it (gives BM longitudinal),
 * `productM4` the product of inertia of the two.
 */
export interface Waterplane {
  readonly areaM2: number;
  readonly centroid: ShipPoint;
  readonly transverseM4: number;
  readonly longitudinalM4: number;
  readonly productM4: number;
}

/** A body that can be cut by any waterline. Made by `hullFromStations`. */
export interface Hull {
  readonly name: string;
  /** Fore and aft ends, metres from the after perpendicular. */
  readonly fromXM: number;
  readonly toXM: number;
}

/** Volume and centre below a waterline, exactly. */
export function immersed(hull: Hull, waterline: Waterline): Immersed {
  throw new Fault('program-fault', 'immersed', `${hull.name} ${waterline.levelM}`);
}

/** The surface of the water inside the hull, exactly. */
export function waterplane(hull: Hull, waterline: Waterline): Waterplane {
  throw new Fault('program-fault', 'waterplane', `${hull.name} ${waterline.levelM}`);
}
