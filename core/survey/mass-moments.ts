/** A mass with its moments about the origin of the ship axes, t and t m. */
export interface MassMoments {
  readonly massT: number;
  readonly xTM: number;
  readonly yTM: number;
  readonly zTM: number;
}

interface Place {
  readonly xM: number;
  readonly yM: number;
  readonly zM: number;
}

export const NO_MASS: MassMoments = { massT: 0, xTM: 0, yTM: 0, zTM: 0 };

export function momentsAt(massT: number, at: Place): MassMoments {
  return { massT, xTM: massT * at.xM, yTM: massT * at.yM, zTM: massT * at.zM };
}

export function momentsTimes(one: MassMoments, by: number): MassMoments {
  return { massT: one.massT * by, xTM: one.xTM * by, yTM: one.yTM * by, zTM: one.zTM * by };
}

export function momentsTogether(all: readonly MassMoments[]): MassMoments {
  return all.reduce(
    (left, right) => ({
      massT: left.massT + right.massT,
      xTM: left.xTM + right.xTM,
      yTM: left.yTM + right.yTM,
      zTM: left.zTM + right.zTM,
    }),
    NO_MASS,
  );
}

/** The centre of gravity; not finite where there is no mass. */
export function momentsCentre(one: MassMoments): Place {
  return { xM: one.xTM / one.massT, yM: one.yTM / one.massT, zM: one.zTM / one.massT };
}
