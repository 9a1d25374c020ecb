import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { sampleTableFromText } from '#core/sample/sample-table.ts';
import { type JudgedRecording, judgeRecording } from '#core/steadiness/judge-recording.ts';
import type { TrialContext, TrialPart, TrialResult } from './part.ts';

/**
 * A tanker model's free roll (M. Alexandersson 2020, MIT licence, run 21337): still at +0.010
 * degree before it was pushed, +0.016 the mean over whole cycles of the decay; natural period 2.538 s
 * published, 2.544 s by zero crossings, damping ratio about 0.0049 at 5 degrees.
 */
const FREE_ROLL = 'model-free-roll.csv';
const REST_DEG = 0.013;
const REST_WITHIN_DEG = 0.013;
const PERIOD_S = 2.541;
const PERIOD_WITHIN_S = 0.02;

/**
 * An instrument lowered from a ship and standing on a mooring in a tidal stream (MHKiT example
 * data, BSD 3-Clause): its minute means wander by 0.7 degree.
 */
const MOORED = ['moored-instrument-attitude.csv', 'moored-instrument-accelerometer.csv'] as const;

/** Motion of real bodies measured by others; not part of this repository: `--recordings DIR`. */
export const recordings: TrialPart = {
  name: 'recordings',
  what: 'recorded motion of real floating bodies, where a folder of it is given (--recordings DIR)',
  run(context: TrialContext): Promise<TrialResult> {
    const { recordingsFolder } = context;
    const figures: Record<string, number | string> = {};
    const broken: string[] = [];
    if (recordingsFolder === null)
      context.say('no folder given (--recordings DIR): nothing was run');
    else {
      const judged = (name: string) => judgedOf(context, join(recordingsFolder, name));
      const free = judged(FREE_ROLL);
      if (free !== null) broken.push(...freeRoll(free, context, figures));
      for (const name of MOORED) {
        const steady = judged(name)?.stretches.filter(({ verdict }) => verdict === 'steady');
        if (steady === undefined) continue;
        figures[`${name} steady`] = steady.length;
        context.say(`${name}: called steady ${steady.length} times`);
        if (steady.length > 0) broken.push(`${name}: a moored instrument was called steady`);
      }
    }
    const seeds = [0, 0] as const;
    return Promise.resolve({ part: 'recordings', commit: context.commit, seeds, figures, broken });
  },
};

function judgedOf(context: TrialContext, file: string): JudgedRecording | null {
  if (existsSync(file)) return judgeRecording(sampleTableFromText(readFileSync(file, 'utf8')));
  context.say(`not there: ${file}`);
  return null;
}

function freeRoll(
  judged: JudgedRecording,
  context: TrialContext,
  figures: Record<string, number | string>,
): string[] {
  const heels = judged.stretches.flatMap(({ verdict, heel }) =>
    verdict === 'steady' && heel !== null ? [heel] : [],
  );
  figures['freeRollReadings'] = heels.length;
  const broken = heels.length === 0 ? ['the free roll gave no reading'] : [];
  heels.forEach((heel, k) => {
    const { heelDeg, halfWidth95Deg, rollPeriodS, dampingRatio } = heel;
    const words = `heel ${heelDeg.toFixed(4)} ± ${halfWidth95Deg.toFixed(4)} degree, period ${rollPeriodS?.toFixed(3)} s, damping ${dampingRatio?.toFixed(4)}`;
    context.say(`free roll: ${words} (rest .010 to .016, period 2.538 to 2.544 s, damping .0049)`);
    figures[`freeRoll${k}`] = words;
    if (Math.abs(heelDeg - REST_DEG) > REST_WITHIN_DEG) broken.push(`free roll: ${words}`);
    if (Math.abs((rollPeriodS ?? 0) - PERIOD_S) > PERIOD_WITHIN_S)
      broken.push(`free roll: ${words}`);
  });
  return broken;
}
