import type { CorrectableBody } from './correctable.ts';
import type { FieldPath } from './correction.ts';

const PARTICULARS: Readonly<Record<string, string>> = {
  displacementT: 'displacement, t',
  displacementUncertaintyT: 'uncertainty of the displacement, t',
  kmM: 'KM, m',
  kmUncertaintyM: 'uncertainty of KM, m',
  metacentreMovementM: "metacentre's movement c2, m",
  gmGuessM: 'guess of GM, m',
  gmGuessUncertaintyM: 'uncertainty of the guess of GM, m',
  beamM: 'beam, m',
  lengthM: 'length, m',
};
const OF_WEIGHT: Readonly<Record<string, string>> = {
  massT: 'mass, t',
  massUncertaintyT: 'uncertainty of its mass, t',
  certificate: 'number of its certificate',
};
const ALONE: Readonly<Record<string, string>> = {
  vessel: 'name of the vessel',
  at: 'place of the test',
  distanceUncertaintyM: 'uncertainty of a distance moved, m',
  landedS: 'weight down, receiver seconds',
  instrument: 'name of the pendulum or tube',
  kind: 'pendulum or U-tube',
  lengthMm: 'pendulum length or span of the tube, mm',
  extremesMm: 'extremes on the batten, mm, starboard positive',
  portLegMm: 'levels in the port leg, mm over its mark',
  starboardLegMm: 'levels in the starboard leg, mm over its mark',
  reader: 'who read it',
};
const AXES: Readonly<Record<string, string>> = {
  xM: 'forward of the after perpendicular, m',
  yM: 'to starboard of the centreline, m',
  zM: 'over the baseline, m',
};

/** A field that can be corrected, as a person names it, with its unit. */
export function fieldWords({ kind, body }: CorrectableBody, field: FieldPath): string {
  const last = String(field.at(-1));
  const axis = AXES[last];
  if (kind === 'test-opened' && field[0] === 'weights') {
    const weight = body.weights[Number(field[1])]?.weight ?? '';
    return `weight ${weight}, ${axis === undefined ? (OF_WEIGHT[last] ?? last) : `stands ${axis}`}`;
  }
  if (kind === 'test-opened' && field[0] === 'plan') {
    const weight = body.plan[Number(field[1])]?.moves[Number(field[3])]?.weight ?? '';
    return `planned shift ${Number(field[1]) + 1}, weight ${weight} goes ${axis}`;
  }
  if (kind === 'shift-begun') {
    const weight = body.moves[Number(field[1])]?.weight ?? '';
    return `weight ${weight}, set down ${axis}`;
  }
  return PARTICULARS[last] ?? ALONE[last] ?? last;
}
