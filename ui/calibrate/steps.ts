import type { CalibrationDraft } from '#core/calibration/calibration-draft.ts';

type StepKey =
  | 'standard'
  | 'reversal'
  | 'points'
  | 'positions'
  | 'temperature'
  | 'time'
  | 'alignment'
  | 'finish';

export interface CalibrationStep {
  readonly key: StepKey;
  readonly name: string;
  /** What has been taken, in words as short as a list bears. */
  readonly done: string;
}

const taken = (count: number): string => (count === 0 ? '' : `${count} taken`);

/** The steps of this kind of instrument in order; only the first, the points and the last are needed. */
export function stepsOf(draft: CalibrationDraft): CalibrationStep[] {
  const standard = {
    key: 'standard',
    name: 'What, where, by what',
    done: draft.texts['number'] ?? '',
  } as const;
  const temperature = {
    key: 'temperature',
    name: 'Temperature run',
    done: taken(draft.temperatureRun.length),
  } as const;
  const finish = { key: 'finish', name: 'Certificate', done: '' } as const;
  if (draft.kind === 'water-tube') {
    const points = {
      key: 'points',
      name: 'Legs on blocks',
      done: taken(draft.points.length),
    } as const;
    const time = { key: 'time', name: 'Time constant', done: taken(draft.step.length) } as const;
    return [standard, points, time, temperature, finish];
  }
  return [
    standard,
    { key: 'reversal', name: 'Zero by reversal', done: taken(draft.reversal.length) },
    { key: 'points', name: 'Sine bar, up and down, twice', done: taken(draft.points.length) },
    { key: 'positions', name: 'Six positions', done: taken(draft.sixPositions.length) },
    temperature,
    {
      key: 'alignment',
      name: 'Alignment to the centreline',
      done: (draft.texts['portMm'] ?? '') === '' ? '' : 'measured',
    },
    finish,
  ];
}
