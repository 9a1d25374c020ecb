import { expect, test } from 'vitest';
import type { EntryLine, Occasion } from '#core/record/entry-line.ts';
import { closingOfSession } from '#core/session/closing-of-session.ts';
import { surveyMissing } from '#core/session/survey-missing.ts';
import { aDay } from '#tests/core/session/a-day.ts';
import { entered, surveyOf } from '../../support/entries.ts';

const at = (occasion: Occasion, deeperM = 0, densityKgM3 = 1022): EntryLine[] => [
  ...[2, 12].flatMap((xM) =>
    (['port', 'starboard'] as const).map((side) =>
      entered(
        'freeboard',
        `${side} ${xM}`,
        { side, xM, halfBreadthM: 2.3, heightM: 2.7, freeboardM: 0.8 - deeperM },
        { occasion },
      ),
    ),
  ),
  entered('water', 'amidships', { densityKgM3, temperatureC: 12 }, { occasion }),
];

test('nothing is compared until the weights are back or something was taken again', () => {
  const day = aDay();
  expect(closingOfSession({ ...day, states: day.states.slice(0, 3) })).toBeNull();
});

test('she lies deeper with her tanks as they were: a leak, with the mass it took in', () => {
  const survey = surveyOf([...at('before'), ...at('closing', 0.03)]);
  const found = closingOfSession({ ...aDay(), survey }, 55)!;
  expect(found.causes).toContain('leak');
  expect(found.deeperM).toBeCloseTo(0.03, 12);
  expect(found.gainedT).toBeCloseTo(1.65, 12);
});

test('as she lay, nothing is named but what was not taken', () => {
  const survey = surveyOf([...at('before'), ...at('closing')]);
  const found = closingOfSession({ ...aDay(), survey })!;
  expect(found.causes).toEqual(['not-all-taken']);
  expect(found.deeperM).toBeCloseTo(0, 12);
});

test('a person who went elsewhere is named, one who shuffled is not', () => {
  const person = (xM: number, occasion: Occasion) =>
    entered(
      'item',
      'B. Heron',
      {
        kind: 'person',
        massT: 0.08,
        massUncertaintyT: 0.003,
        at: { xM, yM: 0, zM: 3 },
        placeUncertaintyM: 0.2,
      },
      { occasion },
    );
  const moved = (toM: number) =>
    closingOfSession({
      ...aDay(),
      survey: surveyOf([
        ...at('before'),
        person(5, 'before'),
        ...at('closing'),
        person(toM, 'closing'),
      ]),
    })!.causes;
  expect(moved(9)).toContain('people-moved');
  expect(moved(5.1)).not.toContain('people-moved');
});

test('what is missing is told with why, and no more once it is there', () => {
  const day = aDay();
  const whats = (session: typeof day) => surveyMissing(session).map(({ what }) => what);
  expect(whats(day)).toContain('5 freeboards to port');
  expect(whats(day)).toContain('the hull');
  const survey = surveyOf([...at('before'), ...at('closing')]);
  expect(whats({ ...day, survey })).toContain('3 freeboards to port');
  expect(whats({ ...day, survey })).not.toContain('the density of the water');
  for (const { why } of surveyMissing(day)) expect(why.length).toBeGreaterThan(20);
});

test('a sensor put down anew tells nothing of her zero, and weights are weighed against the test', () => {
  const day = aDay();
  const survey = surveyOf([
    ...at('before'),
    ...at('closing'),
    entered('weight', 'A', { massT: 0.52, by: 'B. Heron' }, { occasion: 'closing' }),
  ]);
  const whole = closingOfSession({ ...day, survey })!;
  expect(whole.causes).toContain('weights-soaked');
  expect(whole.zeroMovedDeg).not.toBeNull();
  const remounted = day.states[0]!.reading!.instruments.map(({ instrument }) => ({
    instrument,
    certificate: null,
    written: day.testOpened!,
    reason: 'knocked',
  }));
  expect(closingOfSession({ ...day, survey, remounted })!.zeroMovedDeg).toBeNull();
});
