import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { marramHullText } from '../../../device/emulated/marram-hull.ts';
import { type DeskAnswer, loadingDesk } from '../../../ui/loading/loading-desk.ts';
import { NO_FILES, withFiles } from '../../../ui/loading/loading-files.ts';
import { lightshipOfTest, loadingTyped, NOTHING_TYPED } from '../../../ui/loading/typed-loading.ts';

const text = readFileSync(
  new URL('../../../device/emulated/marram-loading.json', import.meta.url),
  'utf8',
);
const recordHull = { form: 'hull', file: 'marram.json', text: marramHullText() } as const;
const files = withFiles(NO_FILES, [{ name: 'marram-loading.json', text }]);
/** No uncertainties, so that each answer is one pair of curves. */
const typed = {
  ...NOTHING_TYPED,
  massT: '40.62',
  lcgM: '6,4',
  vcgM: '2.3',
  regulationLengthM: '15',
};
const plain = withFiles(NO_FILES, [loadingTyped(typed, 'Marram', 5)!]);
const bags = { act: 'add', what: 'bags', massT: 1, at: { xM: 6, yM: 0, zM: 3 } } as const;

function judged(answer: DeskAnswer) {
  if (answer.answer !== 'judged') throw new Error(JSON.stringify(answer));
  return answer;
}

describe('the desk of the loading page', () => {
  it("opens the demo's loading file on the record's hull, and judges a change beside what is", () => {
    const desk = loadingDesk();
    const opened = desk({ id: 1, ask: 'open', files, recordHull, lightship: null });
    expect(opened).toMatchObject({
      id: 1,
      answer: 'opened',
      opened: { vessel: 'Marram', invented: true },
    });
    const answer = judged(desk({ id: 2, ask: 'judge', condition: 0, change: bags }));
    expect(answer.changed!.displacementT).toBeCloseTo(answer.now.displacementT + 1, 9);
    expect(answer.changed!.gmFluidM).toBeLessThan(answer.now.gmFluidM);
    expect(desk({ id: 3, ask: 'most', condition: 0, change: bags })).toMatchObject({
      id: 3,
      answer: 'most',
    });
    const right = desk({ id: 5, ask: 'remedies', condition: 0, change: null });
    if (right.answer !== 'remedies') throw new Error(JSON.stringify(right));
    // Her greatest lever lies at too small a heel: only a far lower KG would move it out.
    expect(right.remedies!.kgTooHighM).toBeGreaterThan(0.1);
    expect(right.remedies!.failing.length).toBeGreaterThan(0);
    expect(desk({ id: 4, ask: 'judge', condition: 99, change: null })).toMatchObject({
      answer: 'refused',
      fault: { code: 'loading-unknown' },
    });
    // What a worker posts has to survive as plain data.
    expect(structuredClone(answer)).toEqual(answer);
  });

  it("takes the lightship of the test instead of the file's", () => {
    const figure = (value: number) => ({
      value,
      standardUncertainty: 0.01,
      degreesOfFreedom: null,
      halfWidth95: 0.02,
      unit: 'm',
    });
    const found = {
      mass: figure(38),
      lcg: figure(6.4),
      tcg: figure(0),
      vcg: figure(2.2),
      provisional: true,
    };
    const lightship = lightshipOfTest(found as never);
    const desk = loadingDesk();
    desk({ id: 1, ask: 'open', files: plain, recordHull, lightship: null });
    const own = judged(desk({ id: 2, ask: 'judge', condition: 0, change: null })).now;
    desk({ id: 3, ask: 'open', files: plain, recordHull, lightship });
    const measured = judged(desk({ id: 4, ask: 'judge', condition: 0, change: null })).now;
    expect(own.displacementT - measured.displacementT).toBeCloseTo(40.62 - 38, 9);
    expect(lightshipOfTest(null)).toBeNull();
  });

  it('works with a typed lightship, once every figure is a number', () => {
    expect(loadingTyped({ ...typed, vcgM: '' }, 'Marram', 5)).toBeNull();
    const desk = loadingDesk();
    const file = loadingTyped(typed, 'Marram', 5)!;
    expect(
      desk({ id: 1, ask: 'open', files: withFiles(NO_FILES, [file]), recordHull, lightship: null }),
    ).toMatchObject({ answer: 'opened' });
    const { now } = judged(desk({ id: 2, ask: 'judge', condition: 0, change: null }));
    expect(now.displacementT).toBeCloseTo(40.62, 9);
    expect(now.answer.judged).toBe(6);
  });

  it('says what is wrong and where, and goes on', () => {
    const desk = loadingDesk();
    const refused = (answer: DeskAnswer) =>
      answer.answer === 'refused' ? `${answer.fault.code} ${answer.fault.where}` : answer.answer;
    expect(refused(desk({ id: 1, ask: 'judge', condition: 0, change: null }))).toBe(
      'input-too-few loading',
    );
    expect(
      refused(desk({ id: 2, ask: 'open', files: plain, recordHull: null, lightship: null })),
    ).toBe('input-too-few hull');
    const bad = withFiles(NO_FILES, [
      { name: 'own.json', text: '{"heelwrightLoading":1,"vessel":"Marram"}' },
    ]);
    expect(refused(desk({ id: 3, ask: 'open', files: bad, recordHull, lightship: null }))).toBe(
      'input-shape own.json: hull',
    );
    desk({ id: 4, ask: 'open', files: plain, recordHull, lightship: null });
    const sunk = { ...bags, massT: 5000 };
    expect(refused(desk({ id: 5, ask: 'judge', condition: 0, change: sunk }))).toContain(
      'hull-sinks',
    );
    const wrong = { ...bags, massT: -1 };
    expect(refused(desk({ id: 6, ask: 'judge', condition: 0, change: wrong }))).toBe(
      'input-range massT',
    );
    expect(refused(desk({ id: 7, ask: 'judge', condition: 0, change: bags }))).toBe('judged');
  });
});
