import { Fault } from '../fault/fault.ts';
import type { ShipPoint } from '../hull/waterline.ts';
import type { LiquidAboard } from '../reduction/liquids.ts';
import type { MassCause } from '../survey/lightship.ts';
import {
  type MassMoments,
  momentsAt,
  momentsCentre,
  momentsTogether,
  NO_MASS,
} from '../survey/mass-moments.ts';
import { freeSurfaceTM } from './free-surface.ts';
import { type ItemInput, itemMoments } from './item.ts';
import { type LightshipInput, lightshipCauses, lightshipMoments } from './lightship-input.ts';
import { liquidCentre } from './liquid-at-heel.ts';
import { type FillingInput, liquidFrom, type Space } from './space.ts';

/** One row of a loading table. */
export interface ConditionRow {
  readonly what: string;
  readonly kind: 'lightship' | 'liquid' | 'item';
  readonly massT: number;
  readonly at: ShipPoint;
  /** Second moment of a liquid's surface times its density; 0 of what is solid. */
  readonly freeSurfaceTM: number;
}

/** Lightship and all that is aboard. Liquids lie as they do upright and on an even keel. */
export interface LoadedCondition {
  readonly name: string;
  readonly rows: readonly ConditionRow[];
  readonly moments: MassMoments;
  /** Centre of gravity with the liquids as if solid: its height is KG solid. */
  readonly centre: ShipPoint;
  readonly liquids: readonly LiquidAboard[];
  /** Sum over the liquids of second moment times density, t m. */
  readonly freeSurfaceTM: number;
  /** Errors of the weights, independent of each other; null where the lightship's are not known. */
  readonly causes: readonly MassCause[] | null;
}

export interface ConditionParts {
  readonly name: string;
  readonly lightship: LightshipInput;
  readonly spaces: ReadonlyMap<string, Space>;
  readonly fillings: readonly FillingInput[];
  readonly items: readonly ItemInput[];
}

/** The sum. Throws what `liquidFrom` throws, and `input-contradiction` for a space filled twice. */
export function loadedCondition(parts: ConditionParts): LoadedCondition {
  const { name, lightship, items } = parts;
  checkFilledOnce(parts.fillings, name);
  const liquids = parts.fillings.flatMap((filling) => {
    const liquid = liquidFrom(parts.spaces, filling, name);
    return liquid.volumeM3 > 0 ? [liquid] : [];
  });
  const base = lightshipMoments(lightship);
  const rows: ConditionRow[] = [
    {
      what: 'lightship',
      kind: 'lightship',
      massT: base.massT,
      at: momentsCentre(base),
      freeSurfaceTM: 0,
    },
    ...liquids.map((liquid): ConditionRow => {
      const massT = liquid.volumeM3 * liquid.densityTM3;
      const at = liquidCentre(liquid, 0, 0)!;
      return {
        what: liquid.tank,
        kind: 'liquid',
        massT,
        at,
        freeSurfaceTM: freeSurfaceTM(liquid),
      };
    }),
    ...items.map((item): ConditionRow => {
      const { massT } = itemMoments(item);
      return { what: item.item, kind: 'item', massT, at: item.at, freeSurfaceTM: 0 };
    }),
  ];
  const moments = momentsTogether(rows.map(({ massT, at }) => momentsAt(massT, at)));
  const known = lightshipCauses(lightship);
  return {
    name,
    rows,
    moments,
    centre: momentsCentre(moments),
    liquids,
    freeSurfaceTM: rows.reduce((sum, row) => sum + row.freeSurfaceTM, 0),
    causes: known === null ? null : [...known, ...items.flatMap(itemCauses)],
  };
}

function checkFilledOnce(fillings: readonly FillingInput[], where: string): void {
  const twice = fillings.find(
    ({ space }, k) => fillings.findIndex((one) => one.space === space) < k,
  );
  if (twice !== undefined) {
    throw new Fault('input-contradiction', where, `${twice.space} is filled twice`);
  }
}

function itemCauses(item: ItemInput): MassCause[] {
  const { massUncertaintyT = 0, placeUncertaintyM = 0 } = item;
  const degreesOfFreedom = Number.POSITIVE_INFINITY;
  const causes: MassCause[] = [];
  if (massUncertaintyT > 0) {
    const off = momentsAt(massUncertaintyT * (1 + (item.wetShare ?? 0)), item.at);
    causes.push({ cause: `mass of ${item.item}`, degreesOfFreedom, ...off });
  }
  const shift = itemMoments(item).massT * placeUncertaintyM;
  if (shift > 0) {
    for (const along of ['xTM', 'yTM', 'zTM'] as const) {
      const cause = `place of ${item.item}, ${along[0]}`;
      causes.push({ cause, degreesOfFreedom, ...NO_MASS, [along]: shift });
    }
  }
  return causes;
}
