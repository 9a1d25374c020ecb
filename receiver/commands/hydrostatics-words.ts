import type { HydrostaticsOutput } from '#core/hull/hydrostatics-output.ts';
import { fixedWords, tableWords } from './figure.ts';

/** The answer of `hydrostatics` as lines of words; figures are rounded here only. */
export function hydrostaticsWords(answer: HydrostaticsOutput): string[] {
  const metres = (value: number) => `${fixedWords(value, 3)} m`;
  const { hull } = answer;
  const shell =
    hull.offsetsAre === 'moulded'
      ? `moulded, shell ${fixedWords(1000 * hull.shellThicknessM, 1)} mm laid on`
      : 'outside of the shell';
  const rows: [string, string][] = [
    [
      'draught aft / midway / forward',
      [answer.draughtAftM, answer.draughtMeanM, answer.draughtForwardM].map(metres).join(' / '),
    ],
    ['trim by the stern', metres(answer.trimM)],
    ['heel to starboard', `${fixedWords(answer.heelDeg, 3)} degrees`],
    ['volume', `${fixedWords(answer.volumeM3, 3)} m3`],
    [
      `displacement in water of ${fixedWords(answer.densityKgM3, 1)} kg/m3`,
      `${fixedWords(answer.displacementT, 3)} t`,
    ],
    ['centre of buoyancy, from the after perpendicular', metres(answer.lcbM)],
    ['  to starboard', metres(answer.tcbM)],
    ['  over the baseline, KB', metres(answer.kbM)],
    ['waterplane', `${fixedWords(answer.waterplaneAreaM2, 3)} m2`],
    ['centre of flotation', metres(answer.lcfM)],
    [
      'BM transverse / longitudinal',
      `${metres(answer.bmTransverseM)} / ${metres(answer.bmLongitudinalM)}`,
    ],
    [
      'KM transverse / longitudinal',
      `${metres(answer.kmTransverseM)} / ${metres(answer.kmLongitudinalM)}`,
    ],
    ['tonnes for a centimetre', `${fixedWords(answer.immersionTPerCm, 4)} t`],
    ['moment to trim a centimetre', `${fixedWords(answer.trimMomentTMPerCm, 4)} t m`],
  ];
  if (answer.metacentreMovementM !== null) {
    rows.push(['movement of the metacentre, c2', metres(answer.metacentreMovementM)]);
  }
  if (answer.kgM !== null && answer.gmTransverseM !== null) {
    rows.push([`GM solid with KG ${metres(answer.kgM)}`, metres(answer.gmTransverseM)]);
  }
  return [
    `${hull.name}: offsets ${shell}; ${metres(hull.lengthBetweenPerpendicularsM)} between perpendiculars`,
    ...tableWords(rows),
    ...evidenceWords(answer.evidence),
    ...answer.levers.displacements.flatMap((one) => leverWords(one, answer.levers.trim)),
  ];
}

/** How well a hull is known; nothing where it was neither measured nor checked. */
export function evidenceWords(evidence: HydrostaticsOutput['evidence']): string[] {
  if (evidence === null) return [];
  const mm = (value: number | null) => (value === null ? '-' : fixedWords(1000 * value, 1));
  return [
    '',
    'How well the hull is known (one standard uncertainty)',
    ...tableWords([
      ['', 'displacement, t', 'KM, mm'],
      ...evidence.causes.map((one) => [one.cause, fixedWords(one.displacementT, 3), mm(one.kmM)]),
    ]),
    ...(evidence.measured === null
      ? []
      : [
          `one measured point is good to ${mm(evidence.measured.pointUncertaintyM)} mm`,
          ...evidence.measured.outliers.map(
            ({ where, alongM, acrossM }) =>
              `out of the run: ${where}, ${mm(alongM)} mm along, ${mm(acrossM)} mm across`,
          ),
        ]),
    ...evidence.differences.map(
      ({ kind, xM, differenceM, doubtful }) =>
        `${kind} at x ${fixedWords(xM, 2)} m: ${mm(differenceM)} mm off the plan${doubtful ? ', more than a tape explains: is it this boat?' : ''}`,
    ),
  ];
}

function leverWords(
  one: HydrostaticsOutput['levers']['displacements'][number],
  trim: 'free' | 'fixed',
): string[] {
  const withGz = one.points.some((point) => point.gzM !== null);
  const head = ['heel, degrees', 'trim, m', 'KN, m', ...(withGz ? ['GZ, m'] : [])];
  const rows = one.points.map((point) => [
    fixedWords(point.heelDeg, 1),
    fixedWords(point.trimM, 3),
    fixedWords(point.knM, 4),
    ...(point.gzM === null ? [] : [fixedWords(point.gzM, 4)]),
  ]);
  const { limits } = one;
  const at = (angle: number | null) =>
    angle === null ? 'not within 90 degrees' : `${fixedWords(angle, 1)} degrees`;
  return [
    '',
    `Levers at ${fixedWords(one.displacementT, 3)} t, ${trim === 'free' ? 'free to trim' : 'trim held'}`,
    ...tableWords([head, ...rows]),
    `deck edge under water: ${at(limits.deckEdgeDeg)}`,
    ...(withGz ? [`GZ vanishes: ${at(limits.vanishingDeg)}`] : []),
    ...limits.openings.map(
      ({ name, closing, immersedDeg }) => `${name} (${closing}) under water: ${at(immersedDeg)}`,
    ),
  ];
}
