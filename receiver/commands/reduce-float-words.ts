import type { ReductionOutput } from '#core/reduction/reduction-output.ts';
import { MAY_OMIT, WORTH_WHAT, WORTH_WHY } from '#core/report/worth-words.ts';
import { fixedWords, measuredWords, significantWords, tableWords } from './figure.ts';
import { evidenceWords } from './hydrostatics-words.ts';

/** How she floats as inclined, before the answers that rest on it; nothing where it is given. */
export function floatWords({ float }: ReductionOutput): string[] {
  if (float === null) return [];
  const metres = (value: number) => `${fixedWords(value, 3)} m`;
  const measured = (one: { value: number; halfWidth95: number; unit: string }) =>
    measuredWords(one.value, one.halfWidth95, one.unit);
  const bad = float.points.filter((one) => one.bad);
  return [
    'As she floats',
    ...tableWords([
      ['displacement', measured(float.displacement)],
      ['KM', measured(float.km)],
      ['centre of buoyancy forward of AP', measured(float.lcb)],
      ['water', measured(float.density)],
      ['draught aft', metres(float.draughtAft)],
      ['draught amidships', metres(float.draughtMidships)],
      ['draught forward', metres(float.draughtForward)],
      [`trim by the ${float.trim < 0 ? 'bow' : 'stern'}`, metres(Math.abs(float.trim))],
      [float.sag < 0 ? 'hog' : 'sag', metres(Math.abs(float.sag))],
      ['heel', `${fixedWords(float.heelDeg, 2)} deg`],
    ]),
    ...tableWords([
      ['Point', 'left over, mm', 'off the others, mm'],
      ...float.points.map((one) => [
        one.point,
        fixedWords(1000 * one.leftOver, 1),
        one.off === null ? '-' : fixedWords(1000 * one.off, 1),
      ]),
    ]),
    ...bad.map(
      ({ point, probability }) =>
        `  ${point} lies off the waterline of the others (by chance ${significantWords(probability ?? 1, 2)})`,
    ),
    ...evidenceWords(float.hullKnown),
    '',
  ];
}

/** The lightship of a test with a survey; nothing without one. */
export function lightshipWords({ lightship }: ReductionOutput): string[] {
  if (lightship === null) return [];
  const measured = (one: { value: number; halfWidth95: number; unit: string }) =>
    measuredWords(one.value, one.halfWidth95, one.unit);
  return [
    lightship.provisional ? 'Lightship, provisional' : 'Lightship',
    ...tableWords([
      ['mass', measured(lightship.mass)],
      ['LCG forward of AP', measured(lightship.lcg)],
      ['TCG to starboard', measured(lightship.tcg)],
      ['VCG over the baseline', measured(lightship.vcg)],
      ['taken off, without liquids', `${fixedWords(lightship.deducted, 3)} t`],
      ['put on', `${fixedWords(lightship.added, 3)} t`],
      ['of that still to be fitted', `${fixedWords(lightship.toBeFitted, 3)} t`],
    ]),
    '',
  ];
}

/** What is to be thought over, each with the clause it rests on. */
export function adviceWords(
  advice: readonly {
    readonly where: string;
    readonly found: number | null;
    readonly limit: number | null;
    readonly unit: string;
    readonly means: string;
    readonly remedy: string;
    readonly clause: string;
  }[],
): string[] {
  if (advice.length === 0) return [];
  return [
    'To be thought over',
    ...advice.map(({ where, found, limit, unit, means, remedy, clause }) => {
      const figures = [
        ...(found === null ? [] : [`${significantWords(found, 3)} ${unit}`.trim()]),
        ...(limit === null ? [] : [`limit ${significantWords(limit, 3)} ${unit}`.trim()]),
      ].join(', ');
      return `  ${where}: ${means}${figures === '' ? '' : ` (${figures})`}. ${remedy} [${clause}]`;
    }),
    '',
  ];
}

/** What each single weight acted as, where it was moved alone. */
export function movesWords({ moves, units }: ReductionOutput): string[] {
  if (moves.length === 0) return [];
  const { length } = units;
  return [
    'Each weight moved, as the vessel answered',
    ...moves.flatMap((move) => {
      const { state, weight, distance, actsAs, standardError, probability, onBatten } = move;
      const chance = probability === null ? '' : `, by chance ${significantWords(probability, 2)}`;
      const error =
        standardError === null
          ? ''
          : ` (one standard error ${significantWords(standardError, 2)}${chance})`;
      return [
        `  state ${state}, ${weight}: acts as ${fixedWords(actsAs, 3)} ${length}, written ${fixedWords(distance, 3)}${error}`,
        ...onBatten.map(
          ({ instrument, written, seen, off }) =>
            `    on ${instrument}: moves it by ${significantWords(seen, 4)}, by the line ${significantWords(written, 4)}, off ${significantWords(off, 2)} (unit of its length)`,
        ),
      ];
    }),
    '',
  ];
}

/** What GM hangs on: left out in turn, repeats, sides, drift. */
export function hangsOnWords(output: ReductionOutput): string[] {
  const { leaveOneOut, lackOfFit, sides, drift, units } = output;
  const unit =
    output.float === null && output.classical.gmFluid === null ? units.moment : units.length;
  const chance = (probability: number) => `by chance ${significantWords(probability, 2)}`;
  const rows = [
    ...(lackOfFit === null
      ? []
      : [
          [
            'states against their repeats',
            `F(${lackOfFit.upperDof},${lackOfFit.lowerDof}) ${significantWords(lackOfFit.f, 4)}, ${chance(lackOfFit.probability)}`,
          ],
        ]),
    ...(['starboard', 'port'] as const).flatMap((name) => {
      const side = sides[name];
      return side === null
        ? []
        : [
            [
              `displacement × GM (fluid), ${name} alone`,
              `${significantWords(side.stiffness, 5)} ${side.unit}`,
            ],
          ];
    }),
    ...(sides.zeroJump === null
      ? []
      : [
          [
            'zero, port side less starboard side',
            `${fixedWords(sides.zeroJump.jumpDeg, 4)} deg, ${chance(sides.zeroJump.test?.probability ?? 1)}`,
          ],
        ]),
    ...(drift === null
      ? []
      : [['drift taken off, whole time', measuredWords(drift.value, drift.halfWidth95, '')]]),
  ];
  return [
    'What the answer hangs on',
    ...tableWords(rows),
    ...tableWords([
      ['GM (fluid) without', unit, 'change'],
      ...leaveOneOut.map(({ left, gm, change }) => [
        left,
        gm === null ? 'no line' : significantWords(gm, 6),
        change === null ? '-' : significantWords(change, 3),
      ]),
    ]),
  ];
}

/** What to measure again, what it would buy, and whether one may stop. */
export function worthWords({ worth, mayOmit, units, classical }: ReductionOutput): string[] {
  const small = units.length === 'm' && classical.gmFluid !== null;
  const unit = small ? 'mm' : classical.gmFluid === null ? units.moment : units.length;
  const of = (value: number) => significantWords(small ? 1000 * value : value, 3);
  return [
    `May we stop? ${worth.mayStop ? 'Yes' : 'No'}: ${WORTH_WHY[worth.why]}. The largest cause: ${worth.largestCause}.`,
    ...(MAY_OMIT[mayOmit] === undefined ? [] : [MAY_OMIT[mayOmit]]),
    ...tableWords([
      ['What to measure again', 'minutes', `± would be, ${unit}`, `buys, ${unit}`],
      ['as it is', '-', of(worth.halfWidth95), '-'],
      ...worth.more.map((one) => [
        WORTH_WHAT[one.what],
        significantWords(one.minutes, 2),
        of(one.halfWidth95After),
        of(one.bought),
      ]),
    ]),
    '',
  ];
}
