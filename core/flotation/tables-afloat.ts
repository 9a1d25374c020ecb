import { Fault } from '../fault/fault.ts';
import { fairLine } from '../hull/fair-line.ts';
import { type HydrostaticTables, type KnTable, valuesFromTables } from '../hull/tables.ts';
import { radiansFromDegrees } from '../quantity/angle.ts';
import type { HullAfloat } from './hull-afloat.ts';
import { metacentreMovementM, rightingFrom } from './righting.ts';

/**
 * Share of hog or sag amidships that the mean draught takes: three quarters, the quarter mean of
 * draughts (6 amidships + forward + aft) / 8. Common practice, no source.
 */
const SAG_SHARE = 0.75;
const CM_PER_M = 100;

/**
 * Hydrostatics given as tables, as the float needs them: never extrapolated, draughts midway
 * between the perpendiculars of the tables. A list is not in them. Without a table of KN there is
 * no exact answer and no c2. Throws `input-contradiction` without a column kbM, `tables-outside`.
 */
export function tablesAfloat(tables: HydrostaticTables, kn: KnTable | null): HullAfloat {
  const { densityKgM3, lengthM, name } = tables;
  const knOf =
    kn === null
      ? null
      : (volumeM3: number) => {
          return knNearUpright(kn, (volumeM3 * densityKgM3) / 1000);
        };
  return {
    knOf,
    immersionOf: (surface) => {
      const draughtM = surface.middleM + SAG_SHARE * surface.sagM;
      const trimM = surface.trimSlope * lengthM;
      const found = valuesFromTables(tables, { draughtM, trimM, densityKgM3 });
      const { displacementT, lcbM, kmTransverseM, kbM, trimMomentTMPerCm } = found;
      if (kbM === null) {
        throw new Fault('input-contradiction', name, 'the float needs a column kbM');
      }
      const volumeM3 = (displacementT! * 1000) / densityKgM3;
      return {
        volumeM3,
        lcbM: lcbM!,
        tcbM: surface.heelSlope * (kmTransverseM! - kbM),
        vcbM: kbM,
        kmM: kmTransverseM!,
        // moment for a centimetre of trim is displacement times BM over 100 lengths
        kmLongitudinalM:
          trimMomentTMPerCm === null
            ? null
            : kbM + (trimMomentTMPerCm * CM_PER_M * lengthM) / displacementT!,
        metacentreMovementM: () =>
          knOf === null ? null : metacentreMovementM(rightingFrom(knOf(volumeM3), () => 0)),
      };
    },
  };
}

/** A test heels a few degrees: heels of the table up to here are used. */
const MOST_HEEL_DEG = 50;

/**
 * KN near upright at a displacement. KN over the sine of the heel hardly changes there and is even in
 * the heel, so it is that which is given a fair line, both sides together: the bend of the levers,
 * millimetres at a few degrees, comes through a table of five-degree steps.
 */
function knNearUpright(kn: KnTable, displacementT: number): (heelRad: number) => number {
  const used = kn.heelsDeg.flatMap((heelDeg, k) =>
    heelDeg > 0 && heelDeg <= MOST_HEEL_DEG ? [{ heelRad: radiansFromDegrees(heelDeg), k }] : [],
  );
  if (used.length < 2) {
    throw new Fault('input-too-few', kn.name, `${used.length} heels to ${MOST_HEEL_DEG} degrees`);
  }
  const ratios = used.map(({ heelRad, k }) => {
    const atHeel = kn.knM.map((levers) => levers[k]! / Math.sin(heelRad));
    const ratio = fairLine(kn.displacementsT, atHeel)(displacementT);
    if (ratio === null) throw new Fault('tables-outside', kn.name, `KN at ${displacementT} t`);
    return ratio;
  });
  const heels = used.map((one) => one.heelRad);
  const line = fairLine(
    [...heels.map((heel) => -heel).reverse(), ...heels],
    [...[...ratios].reverse(), ...ratios],
  );
  return (heelRad) => {
    const ratio = line(heelRad);
    if (ratio === null) throw new Fault('tables-outside', kn.name, `KN at ${heelRad} rad of heel`);
    return ratio * Math.sin(heelRad);
  };
}
